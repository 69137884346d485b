//! Plates as they stand in a job file.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::rules::{ANCHOR_SETS, listed};

#[cfg(feature = "cli")]
const RUNS: &str = "Runs";
#[cfg(feature = "cli")]
const SPLICES: &str = "Splices";
#[cfg(feature = "cli")]
const FIXINGS: &str = "Anchors, damp-proof course, fixings, straps";

/// For plates.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct PlatesSection {
    /// The plate's width.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.width", value_name = "LENGTH"))]
    pub width: Option<LengthEntry>,
    /// Which way round the corners: alternate, follow, or best for the cut [default: best].
    ///
    /// alternate: the runs across the page go through at both ends. follow: each run goes through at its first end.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.corners", value_name = "WAY", help_heading = RUNS))]
    pub corners: Option<String>,
    /// Add the head binder on top of the panels, the other way round at each corner.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.binder", num_args = 0, default_missing_value = "true", help_heading = RUNS))]
    pub binder: Option<bool>,
    /// At doors: keep the plate whole and cut it out later, or cut it now [default: keep].
    #[cfg_attr(feature = "cli", arg(long = "doors", alias = "openings", id = "plates.openings", value_name = "KEEP|CUT", help_heading = RUNS))]
    pub openings: Option<String>,
    /// What to favour: splices (fewest, then cost), cost, or what a splice is worth in money [default: splices].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.favour", value_name = "splices|cost|N", help_heading = SPLICES))]
    pub favour: Option<String>,
    /// The least piece of a spliced run [default: 600mm, or 24in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.least_piece", value_name = "LENGTH", help_heading = SPLICES))]
    pub least_piece: Option<LengthEntry>,
    /// The least distance of a splice from a run's end at a corner [default: the least piece].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.corner_distance", value_name = "LENGTH", help_heading = SPLICES))]
    pub corner_distance: Option<LengthEntry>,
    /// The least distance of a splice from an opening's posts or a partition [default: 150mm, or 6in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.post_clear", value_name = "LENGTH", help_heading = SPLICES))]
    pub post_clear: Option<LengthEntry>,
    /// The distance between panel joints, which splices keep clear of.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.panels", value_name = "LENGTH", help_heading = SPLICES))]
    pub panels: Option<LengthEntry>,
    /// The end of each run that panels and studs are set out from: first or last [default: first].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.panels_from", value_name = "END", help_heading = SPLICES))]
    pub panels_from: Option<String>,
    /// The least distance of a splice from a panel joint [default: 50mm, or 2in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.panel_clear", value_name = "LENGTH", help_heading = SPLICES))]
    pub panel_clear: Option<LengthEntry>,
    /// The least distance between a splice of the head binder and one of the plate [default: 600mm, or 24in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.lap", value_name = "LENGTH", help_heading = SPLICES))]
    pub lap: Option<LengthEntry>,
    /// How long to look for the best list [default: 2].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.seconds", value_name = "SECONDS", value_parser = typed::number, help_heading = SPLICES))]
    pub seconds: Option<f64>,
    /// How the plate is anchored.
    #[cfg_attr(feature = "cli", command(flatten))]
    pub anchors: Option<AnchorsSection>,
    /// How far strips of damp-proof course lap [default: 100mm, or 4in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "plates.dpc_lap", value_name = "LENGTH", help_heading = FIXINGS))]
    pub dpc_lap: Option<LengthEntry>,
    /// The length of a roll of damp-proof course, to count rolls.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.dpc_roll", value_name = "LENGTH", help_heading = FIXINGS))]
    pub dpc_roll: Option<LengthEntry>,
    /// The most between two temporary fixings, to count them.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.fix_every", value_name = "LENGTH", help_heading = FIXINGS))]
    pub fix_every: Option<LengthEntry>,
    /// The most between two straps along the top plate, to count them; or nhbc for the published spacing.
    #[cfg_attr(feature = "cli", arg(long, id = "plates.straps", value_name = "LENGTH|nhbc", help_heading = FIXINGS))]
    pub straps: Option<LengthEntry>,
}

/// Where anchors go on each piece of plate.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct AnchorsSection {
    /// Place anchors by a published rule, by its key.
    #[schemars(description = format!("{}.", rules()))]
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.rules", long = "anchors", value_name = "RULE", help_heading = FIXINGS, help = rules()))]
    pub rules: Option<String>,
    /// The most between two anchors.
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.spacing", long = "anchor-spacing", value_name = "LENGTH", help_heading = FIXINGS))]
    pub spacing: Option<LengthEntry>,
    /// The most from a piece's end to its nearest anchor.
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.end", long = "anchor-end", value_name = "LENGTH", help_heading = FIXINGS))]
    pub end: Option<LengthEntry>,
    /// The least from a piece's end to its nearest anchor.
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.edge", long = "anchor-edge", value_name = "LENGTH", help_heading = FIXINGS))]
    pub edge: Option<LengthEntry>,
    /// The least between two anchors [default: 50mm, or 2in in feet and inches].
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.apart", long = "anchor-apart", value_name = "LENGTH", help_heading = FIXINGS))]
    pub apart: Option<LengthEntry>,
    /// How far an anchor keeps from the middle of a stud [default: 50mm, or 2in in feet and inches].
    #[cfg_attr(feature = "cli", arg(id = "plates.anchors.stud_clear", long = "stud-clear", value_name = "LENGTH", help_heading = FIXINGS))]
    pub stud_clear: Option<LengthEntry>,
}

fn rules() -> String {
    format!("Place anchors by a published rule: {}", listed(ANCHOR_SETS.iter().map(|set| set.key)))
}
