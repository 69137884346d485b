//! Plates as they stand in a job file.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;

/// For plates.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlatesSection {
    /// The plate's width.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<LengthEntry>,
    /// Which way round the corners the plates go: alternate (the runs across the page go through), follow (each run goes
    /// through at its first end) or best (whichever serves the cut); best unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corners: Option<String>,
    /// Whether there is a head binder on top of the panels.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub binder: Option<bool>,
    /// What happens to the plate at doors: keep (laid whole, cut out later) or cut (left out now); keep unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub openings: Option<String>,
    /// The least piece of a run that is spliced; 600 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least_piece: Option<LengthEntry>,
    /// The least distance of a splice from a run's end at a corner; the least piece unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner_distance: Option<LengthEntry>,
    /// The least distance of a splice from an opening's posts and from a partition; 150 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post_clear: Option<LengthEntry>,
    /// The distance between panel joints, which splices keep clear of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub panels: Option<LengthEntry>,
    /// The end of each run that panels and studs are set out from: first or last; first unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub panels_from: Option<String>,
    /// The least distance of a splice from a panel joint; 50 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub panel_clear: Option<LengthEntry>,
    /// The least distance between a splice of the head binder and one of the plate; 600 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lap: Option<LengthEntry>,
    /// What makes one list better than another: splices (as few as can be, then the cheapest), cost (as cheap as can be,
    /// then the fewest splices), or what a splice is worth in money; splices unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub favour: Option<String>,
    /// How long to look for the best list, seconds; 5 unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
    /// Where anchors go.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub anchors: Option<AnchorsSection>,
    /// How far strips of damp-proof course lap; 100 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dpc_lap: Option<LengthEntry>,
    /// The length of a roll of damp-proof course.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dpc_roll: Option<LengthEntry>,
    /// The most between two temporary fixings, to count them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fix_every: Option<LengthEntry>,
    /// The most between two straps along the top plate, to count them; or nhbc for the published spacing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub straps: Option<LengthEntry>,
}

/// Where anchors go on each piece of plate.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct AnchorsSection {
    /// The published rule: us or nz. What is given beside it replaces its figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rules: Option<String>,
    /// The most between two anchors.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing: Option<LengthEntry>,
    /// The most from a piece's end to its nearest anchor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub end: Option<LengthEntry>,
    /// The least from a piece's end to its nearest anchor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge: Option<LengthEntry>,
    /// How far an anchor keeps from the middle of a stud; 50 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stud_clear: Option<LengthEntry>,
}
