//! From the footprint to the runs of plate round it.
//!
//! The plan's outline is the plate's outer face; the plate lies inside it. At an outward corner the run that goes through
//! reaches the outline and the other stops short by the plate's width; at an inward corner the run that goes through
//! passes the corner by the width and the other stops at it. Beside a house side a run ends at the corner.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::PlatesError;
use super::handing::Handing;
use crate::geometry::Point;
use crate::plan::{Footprint, SAME_PLACE, Turn};

/// What a run's end does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "RunEnd")]
pub enum End {
    /// It reaches the corner's far face.
    Through,
    /// It stops against another run.
    Butts,
    /// It stops at the existing wall.
    House,
    /// It stops at a door opening.
    Opening,
}

impl End {
    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Through => "through",
            Self::Butts => "butts",
            Self::House => "house",
            Self::Opening => "opening",
        }
    }
}

/// One straight length of plate along a side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideRun {
    /// The side's index in the outline.
    pub side: usize,
    /// What it does at the side's first corner.
    pub start: End,
    /// How far it reaches past the first corner, mm; negative where it stops short.
    pub past_start: f64,
    /// What it does at the side's last corner.
    pub end: End,
    /// How far it reaches past the last corner, mm; negative where it stops short.
    pub past_end: f64,
    /// Its length, mm.
    pub length: f64,
}

/// The runs of plate, one for each side that is not an existing wall.
///
/// Fails where the plates don't fit: a side shorter than what its ends take off, plates that overlap, or a plate that
/// crosses the outline.
pub fn runs(footprint: &Footprint, width: f64, handing: &Handing) -> Result<Vec<SideRun>, PlatesError> {
    let runs: Vec<SideRun> = (0..footprint.len())
        .filter(|&side| !footprint.sides()[side].house)
        .map(|side| side_run(footprint, width, handing, side))
        .collect();
    check_fit(footprint, width, &runs)?;
    Ok(runs)
}

/// The run along one side.
pub(super) fn side_run(footprint: &Footprint, width: f64, handing: &Handing, index: usize) -> SideRun {
    let side = footprint.sides()[index];
    let (before, _) = footprint.sides_at(side.from);
    let (_, after) = footprint.sides_at(side.to);
    let (start, past_start) = end_at(footprint, width, side.from, before, handing.leaving_through(side.from));
    let (end, past_end) = end_at(footprint, width, side.to, after, !handing.leaving_through(side.to));
    SideRun { side: index, start, past_start, end, past_end, length: side.length + past_start + past_end }
}

/// What a run does at `corner`, and how far it reaches past it, where `neighbour` is the other side there.
fn end_at(footprint: &Footprint, width: f64, corner: usize, neighbour: usize, through: bool) -> (End, f64) {
    if footprint.sides()[neighbour].house {
        return (End::House, 0.0);
    }
    match (footprint.corners()[corner].turn, through) {
        (Turn::Outward, true) => (End::Through, 0.0),
        (Turn::Outward, false) => (End::Butts, -width),
        (Turn::Inward, true) => (End::Through, width),
        (Turn::Inward, false) => (End::Butts, 0.0),
    }
}

/// A run as it lies on the plan: its lower and upper corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    /// The corner nearest to the plan's top left.
    pub low: Point,
    /// The corner opposite.
    pub high: Point,
}

/// Where a run lies on the plan.
#[must_use]
pub fn strip(footprint: &Footprint, width: f64, run: &SideRun) -> Strip {
    let side = footprint.sides()[run.side];
    let (along_x, along_y) = side.heading.step();
    let (out_x, out_y) = side.heading.outward();
    let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
    let first = Point::new(a.x - along_x * run.past_start, a.y - along_y * run.past_start);
    let second = Point::new(
        b.x + along_x * run.past_end - out_x * width,
        b.y + along_y * run.past_end - out_y * width,
    );
    Strip {
        low: Point::new(first.x.min(second.x), first.y.min(second.y)),
        high: Point::new(first.x.max(second.x), first.y.max(second.y)),
    }
}

impl Strip {
    /// Whether two strips share more than an edge.
    fn overlaps(self, other: Self) -> bool {
        let apart = |low: f64, high: f64| high - low <= SAME_PLACE;
        !apart(self.low.x.max(other.low.x), self.high.x.min(other.high.x))
            && !apart(self.low.y.max(other.low.y), self.high.y.min(other.high.y))
    }
}

fn check_fit(footprint: &Footprint, width: f64, runs: &[SideRun]) -> Result<(), PlatesError> {
    if let Some(run) = runs.iter().find(|run| run.length <= SAME_PLACE) {
        return Err(PlatesError::NoRoom {
            side: footprint.side_name(run.side),
            length: footprint.sides()[run.side].length,
            width,
        });
    }
    let strips: Vec<Strip> = runs.iter().map(|run| strip(footprint, width, run)).collect();
    let name = |side: usize| footprint.side_name(side);
    for (i, first) in strips.iter().enumerate() {
        for (j, second) in strips.iter().enumerate().skip(i + 1) {
            if first.overlaps(*second) {
                return Err(PlatesError::Overlap {
                    first: name(runs[i].side),
                    second: name(runs[j].side),
                    width,
                });
            }
        }
        for (index, side) in footprint.sides().iter().enumerate() {
            let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
            let edge = Strip {
                low: Point::new(a.x.min(b.x), a.y.min(b.y)),
                high: Point::new(a.x.max(b.x), a.y.max(b.y)),
            };
            if crosses(*first, edge) {
                return Err(PlatesError::Overlap { first: name(runs[i].side), second: name(index), width });
            }
        }
    }
    Ok(())
}

/// Whether an edge of the outline passes through the inside of a strip.
fn crosses(strip: Strip, edge: Strip) -> bool {
    let inside = |low: f64, high: f64, from: f64, to: f64| to - low > SAME_PLACE && high - from > SAME_PLACE;
    inside(strip.low.x, strip.high.x, edge.low.x, edge.high.x)
        && inside(strip.low.y, strip.high.y, edge.low.y, edge.high.y)
}
