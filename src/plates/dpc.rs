//! The damp-proof course under the plate, and the temporary fixings that hold it until the anchors are in.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::rules::DPC_LAP;

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
        Self {
            lap: DPC_LAP.value,
            roll: None,
        }
    }
}

/// The damp-proof course.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Dpc {
    /// Its width, mm: the plate's.
    pub width: Mm,
    /// The plate above it in all, mm.
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

/// The fixings of pieces of these lengths, mm.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a positive count, far below 2^52: both lengths are at most 1 km and at least a tenth"
)]
pub fn fixings(pieces: &[f64], every: f64) -> Fixings {
    let count = pieces
        .iter()
        .map(|length| ((length / every - 1e-9).ceil() as u64).max(1) + 1)
        .sum();
    Fixings {
        every: Mm(every),
        count,
    }
}
