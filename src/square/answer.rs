//! The check sizes as they are answered.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::{Mm, Ratio};
use crate::length::Units;
use crate::plan::Lies;

/// The check sizes of an outline.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Diagonals {
    /// The fewest rectangles that make up the footprint.
    pub rectangles: Vec<RectanglePart>,
    /// Their right triangles, two to a rectangle.
    pub triangles: Vec<Triangle>,
    /// Every corner-to-corner distance that is not a side and slants.
    pub diagonals: Vec<Diagonal>,
    /// Corner-to-corner distances on one line, not sides.
    pub straight_checks: Vec<StraightCheck>,
    /// The fewest diagonals that with the sides fix the shape.
    pub proof: ProofSet,
    /// What to tape besides, to show up a misread.
    pub spares: SpareSet,
    /// What the set can tell of the limit asked for; absent where none was, or where the shape stays loose.
    pub limit: Option<CalledLimit>,
    /// Sides that the tape doesn't reach along in one pull, by name.
    pub sides_past_tape: Vec<String>,
    /// How those can be taped all the same.
    pub in_pulls: Vec<InPulls>,
}

/// Whether a set of lines can tell a plate that is square within a limit from one that is not.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct CalledLimit {
    /// The limit asked for, mm.
    pub limit: Mm,
    /// The least limit that the set with its spares can call, mm: no corner of a perfect plate is too close to it, 19 times in
    /// 20.
    pub least: Mm,
    /// The least that can be called with every line taped that can be, mm.
    pub least_of_all: Mm,
    /// Whether the set can call the limit.
    pub called: bool,
}

/// A side longer than the tape, taped in several pulls with marks on a string along it.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct InPulls {
    /// Its two letters.
    pub name: String,
    /// Its length, mm.
    pub length: Mm,
    /// The pulls in order, mm; all but the last in whole metres or feet where the tape is long enough. None where a longer tape is
    /// wanted.
    pub pulls: Vec<Mm>,
}

/// A corner of a rectangle: a corner of the outline, or a point on one of its sides or inside it.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Vertex {
    /// The outline's corner, where it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<String>,
    /// The side it lies on, where it lies on one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// How far along that side from its first letter, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<Mm>,
    /// Across the page, mm.
    pub x: Mm,
    /// Down the page, mm.
    pub y: Mm,
}

impl Vertex {
    /// How it is called: its letter, or where along which side it lies.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        match (&self.corner, &self.side, self.along) {
            (Some(corner), _, _) => corner.clone(),
            (None, Some(side), Some(along)) => format!("{} along {side}", units.with_unit(along.0)),
            _ => format!("a point {} across, {} down", units.with_unit(self.x.0), units.with_unit(self.y.0)),
        }
    }
}

/// One of the rectangles that make up the footprint.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct RectanglePart {
    /// Width across the page, mm.
    pub across: Mm,
    /// Depth down the page, mm.
    pub down: Mm,
    /// Its diagonal, mm.
    pub diagonal: Mm,
    /// Its four corners, clockwise from the top left.
    pub corners: Vec<Vertex>,
}

/// A right triangle: legs `a` and `b`, diagonal `c`.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Triangle {
    /// Which rectangle it is half of, counted from 1.
    pub rectangle: usize,
    /// Its leg across, mm.
    pub a: Mm,
    /// Its leg down, mm.
    pub b: Mm,
    /// Its diagonal, mm.
    pub c: Mm,
    /// The rectangle's corner (0 to 3, clockwise from the top left) with the right angle.
    pub right_angle_at: usize,
}

/// A corner-to-corner distance to check.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Diagonal {
    /// Its two letters.
    pub name: String,
    /// The first corner.
    pub from: String,
    /// The second corner.
    pub to: String,
    /// The leg across, mm.
    pub across: Mm,
    /// The leg down, mm.
    pub down: Mm,
    /// Exact length, mm.
    pub length: Mm,
    /// Length to the tape's step, mm.
    pub tape: Mm,
    /// Where the tape lies.
    pub lies: Lies,
    /// Whether it is in the proof set.
    pub proof: bool,
    /// Whether it is one of the spares.
    pub spare: bool,
    /// Whether the tape reaches it in one pull.
    pub in_reach: bool,
    /// How far the far end of the longer leg moves for 1 mm on this diagonal, mm: c/(shorter leg).
    pub mm_at_end_per_mm: Ratio,
}

/// A distance between two corners on one line across or down the page.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct StraightCheck {
    /// Its two letters.
    pub name: String,
    /// Exact length, mm.
    pub length: Mm,
    /// Length to the tape's step, mm.
    pub tape: Mm,
    /// Where the tape lies.
    pub lies: Lies,
    /// Whether it is in the proof set.
    pub proof: bool,
    /// Whether it is one of the spares.
    pub spare: bool,
    /// Whether the tape reaches it in one pull.
    pub in_reach: bool,
}

/// The fewest diagonals that with all the sides fix the shape.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct ProofSet {
    /// Their names.
    pub names: Vec<String>,
    /// The largest corner ellipse semi-axis, free datum, mm; `null` where the shape stays loose.
    pub worst_corner_sd: Option<Mm>,
    /// Readings beyond what fixes the shape: 0 for a proof set alone, negative where diagonals are wanting.
    pub redundancy: i64,
    /// Whether they fix the shape.
    pub fixed: bool,
    /// Whether every set of so many was tried, so that none has a better worst corner; a set found by a search may be a
    /// few per cent off the best.
    pub proven: bool,
}

/// Diagonals beyond the proof set.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SpareSet {
    /// Their names.
    pub names: Vec<String>,
    /// The worst corner with proof set and spares, mm.
    pub worst_corner_sd: Option<Mm>,
    /// Readings beyond what fixes the shape, with proof set and spares.
    pub redundancy: i64,
    /// The slip in the reading checked least that a test at 0.1 % finds four times in five, mm; `null` where some reading
    /// is not checked by the rest.
    pub hides: Option<Mm>,
}
