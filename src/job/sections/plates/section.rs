//! Plates as they stand in a job file.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;

/// For plates.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlatesSection {
    /// The plate's width.
    pub width: Option<LengthEntry>,
    /// Which way round the corners the plates go: alternate (the runs across the page go through), follow (each run goes
    /// through at its first end) or best (whichever serves the cut); best unless given.
    pub corners: Option<String>,
    /// Whether there is a head binder on top of the panels.
    pub binder: Option<bool>,
    /// What happens to the plate at doors: keep (laid whole, cut out later) or cut (left out now); keep unless given.
    pub openings: Option<String>,
    /// The least piece of a run that is spliced; 600 mm unless given.
    pub least_piece: Option<LengthEntry>,
    /// The least distance of a splice from a run's end at a corner; the least piece unless given.
    pub corner_distance: Option<LengthEntry>,
    /// The least distance of a splice from an opening's posts and from a partition; 150 mm unless given.
    pub post_clear: Option<LengthEntry>,
    /// The distance between panel joints, which splices keep clear of.
    pub panels: Option<LengthEntry>,
    /// The end of each run that panels and studs are set out from: first or last; first unless given.
    pub panels_from: Option<String>,
    /// The least distance of a splice from a panel joint; 50 mm unless given.
    pub panel_clear: Option<LengthEntry>,
    /// The least distance between a splice of the head binder and one of the plate; 600 mm unless given.
    pub lap: Option<LengthEntry>,
    /// What makes one list better than another: splices (as few as can be, then the cheapest), cost (as cheap as can be,
    /// then the fewest splices), or what a splice is worth in money; splices unless given.
    pub favour: Option<String>,
    /// How long to look for the best list, seconds; 5 unless given.
    pub seconds: Option<f64>,
    /// Where anchors go.
    pub anchors: Option<AnchorsSection>,
    /// How far strips of damp-proof course lap; 100 mm unless given.
    pub dpc_lap: Option<LengthEntry>,
    /// The length of a roll of damp-proof course.
    pub dpc_roll: Option<LengthEntry>,
    /// The most between two temporary fixings, to count them.
    pub fix_every: Option<LengthEntry>,
    /// The most between two straps along the top plate, to count them; or nhbc for the published spacing.
    pub straps: Option<LengthEntry>,
}

/// Where anchors go on each piece of plate.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AnchorsSection {
    /// The published rule: us or nz. What is given beside it replaces its figures.
    pub rules: Option<String>,
    /// The most between two anchors.
    pub spacing: Option<LengthEntry>,
    /// The most from a piece's end to its nearest anchor.
    pub end: Option<LengthEntry>,
    /// The least from a piece's end to its nearest anchor.
    pub edge: Option<LengthEntry>,
    /// How far an anchor keeps from the middle of a stud; 50 mm unless given.
    pub stud_clear: Option<LengthEntry>,
}
