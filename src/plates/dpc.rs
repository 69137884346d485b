//! The damp-proof course under the plate, the temporary fixings that hold it until the anchors are in, and the straps
//! that hold the top plate down.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::rules::{DPC_LAP, Source};

/// How the damp-proof course is laid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DpcRule {
    /// How far two strips lap, mm.
    pub lap: f64,
    /// The length of a roll, mm, if rolls are to be counted.
    pub roll: Option<f64>,
}

impl Default for DpcRule {
    /// The published least lap, and no roll named.
    fn default() -> Self {
        Self { lap: DPC_LAP.value, roll: None }
    }
}

/// The damp-proof course.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Dpc {
    /// Its width, mm: the plate's.
    pub width: Mm,
    /// The plate above it in all, without the doors, mm.
    pub under: Mm,
    /// How far strips lap, mm.
    pub lap: Mm,
    /// Laps at corners, where one run's strip goes under the next one's.
    pub corner_laps: usize,
    /// The strip needed in all before it is joined from rolls, mm.
    pub strip: Mm,
    /// The length of a roll, mm.
    pub roll: Option<Mm>,
    /// How many rolls; each joint between two of them is one lap more.
    pub rolls: Option<u64>,
}

/// The damp-proof course under runs of `under` mm in all, whose strips lap at `corners` corners.
#[must_use]
pub fn dpc(width: f64, under: f64, corners: usize, rule: DpcRule) -> Dpc {
    let strip = under + corners as f64 * rule.lap;
    Dpc {
        width: Mm(width),
        under: Mm(under),
        lap: Mm(rule.lap),
        corner_laps: corners,
        strip: Mm(strip),
        roll: rule.roll.map(Mm),
        rolls: rule.roll.map(|roll| rolls(strip, roll, rule.lap)),
    }
}

/// n rolls give n × roll − (n − 1) × lap.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a positive count, far below 2^52: a roll is longer than its lap"
)]
fn rolls(strip: f64, roll: f64, lap: f64) -> u64 {
    let each = (roll - lap).max(1.0);
    ((strip - lap) / each - 1e-9).ceil().max(1.0) as u64
}

/// Temporary fixings.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Fixings {
    /// The most between two, mm.
    pub every: Mm,
    /// How many in all: on each piece one at both ends, and between them so that none is further apart.
    pub count: u64,
}

/// How straps are spaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrapRule {
    /// The most between two, mm.
    pub every: f64,
    /// Where that figure is published, if it is not the user's own.
    pub source: Option<Source>,
}

/// Straps along the top plate: the head binder where there is one, else the plate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Straps {
    /// The most between two, mm.
    pub every: Mm,
    /// How many in all: on each run one at both ends, and between them so that none is further apart.
    pub count: u64,
    /// Where the spacing is published, if it is not the user's own.
    pub source: Option<Source>,
}

/// The straps of runs of these lengths, mm.
#[must_use]
pub fn straps(runs: &[f64], rule: StrapRule) -> Straps {
    let Fixings { every, count } = fixings(runs, rule.every);
    Straps { every, count, source: rule.source }
}

/// The fixings of pieces of these lengths, mm.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a positive count, far below 2^52: both lengths are at most 1 km and at least a tenth"
)]
pub fn fixings(pieces: &[f64], every: f64) -> Fixings {
    let count = pieces.iter().map(|length| ((length / every - 1e-9).ceil() as u64).max(1) + 1).sum();
    Fixings { every: Mm(every), count }
}
