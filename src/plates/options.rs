//! What is asked of the plates.

use super::anchors::{AnchorRule, Studs};
use super::dpc::{DpcRule, StrapRule};
use super::handing::Corners;
use crate::cutting::Favour;
use crate::length::Units;
use crate::stock::Timber;

/// What is asked of the plates round a footprint.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// The plate's width, mm.
    pub width: f64,
    /// How the handing of the corners is chosen.
    pub corners: Corners,
    /// Whether there is a head binder on top of the panels.
    pub binder: bool,
    /// Door openings, where there will be no plate underfoot; those on house sides don't matter.
    pub openings: Vec<Stretch>,
    /// Whether the plate is cut out at openings now; if not it is laid whole and cut later.
    pub cut_openings: bool,
    /// Partitions inside, each one more run.
    pub partitions: Vec<Partition>,
    /// Where partitions meet the sides.
    pub met: Vec<Stretch>,
    /// Joints between panels besides the evenly spaced ones: the side's index, and mm from its first corner.
    pub joints: Vec<(usize, f64)>,
    /// Where splices may lie.
    pub splices: SpliceRules,
    /// What to cut from.
    pub timber: Timber,
    /// What makes one list better than another.
    pub favour: Favour,
    /// How long to look, seconds.
    pub seconds: f64,
    /// The rule that places anchors, if any are wanted.
    pub anchors: Option<AnchorRule>,
    /// The studs that anchors keep clear of.
    pub studs: Option<Studs>,
    /// The damp-proof course under the plate.
    pub dpc: DpcRule,
    /// The distance between temporary fixings, mm, if they are to be counted.
    pub fix_every: Option<f64>,
    /// The straps that hold the top plate down, if they are to be counted.
    pub straps: Option<StrapRule>,
    /// The least step of a mark on the timber, mm: 1 mm, or 1/16 in.
    pub step: f64,
}

impl Options {
    /// Plates `width` mm wide, everything else as it is unless said.
    #[must_use]
    pub fn new(width: f64, timber: Timber) -> Self {
        Self {
            width,
            corners: Corners::default(),
            binder: false,
            openings: vec![],
            cut_openings: false,
            partitions: vec![],
            met: vec![],
            joints: vec![],
            splices: SpliceRules::default(),
            timber,
            favour: Favour::default(),
            seconds: 2.0,
            anchors: None,
            studs: None,
            dpc: DpcRule::default(),
            fix_every: None,
            straps: None,
            step: 1.0,
        }
    }
}

/// Part of a side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// The side's index in the outline.
    pub side: usize,
    /// Where it starts, mm from the side's first corner.
    pub from: f64,
    /// Where it ends, mm from the side's first corner.
    pub to: f64,
}

/// A partition inside: one more run.
#[derive(Debug, Clone, PartialEq)]
pub struct Partition {
    /// What it is called.
    pub name: String,
    /// Its length, mm.
    pub length: f64,
}

/// Where splices may lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpliceRules {
    /// The least piece of a spliced run, mm.
    pub least_piece: f64,
    /// The least distance from a run's end at a corner, mm; `None`: the least piece.
    pub corner_distance: Option<f64>,
    /// The least distance from an opening's posts, and from a partition's faces, mm.
    pub post_clear: f64,
    /// The distance between panel joints, mm, if they matter.
    pub panels: Option<f64>,
    /// Whether panels are set out from the run's last end.
    pub panels_from_last: bool,
    /// The least distance from a panel joint, mm.
    pub panel_clear: f64,
    /// The least distance between a splice of the head binder and one of the plate, mm.
    pub lap: f64,
}

impl SpliceRules {
    /// Pieces of 600 mm (24 in) and more, 150 mm (6 in) clear of posts, 50 mm (2 in) clear of panel joints (common
    /// practice, no source), and a lap of 600 mm, or of the published 24 in ([`crate::rules::SPLICE_LAP`]) where that
    /// is the rule.
    #[must_use]
    pub const fn usual(units: Units) -> Self {
        Self {
            least_piece: units.usual(600.0, 24.0),
            corner_distance: None,
            post_clear: units.usual(150.0, 6.0),
            panels: None,
            panels_from_last: false,
            panel_clear: units.usual(50.0, 2.0),
            lap: units.usual(600.0, 24.0),
        }
    }
}

impl Default for SpliceRules {
    fn default() -> Self {
        Self::usual(Units::Mm)
    }
}
