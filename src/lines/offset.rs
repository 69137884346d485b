//! The outline held off by a distance: every side and every diagonal afresh, and how far it can go.

use schemars::JsonSchema;
use serde::Serialize;

use super::limit::{Stop, offset_limit, pace};
use crate::geometry::{Mm, Point, Ratio};
use crate::length::Units;
use crate::plan::{Footprint, Lies, SAME_PLACE, Site};

/// A side of the offset outline.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct OffsetSide {
    /// Its name, as on the plan.
    pub name: String,
    /// Its length, mm.
    pub length: Mm,
    /// How much longer than on the plan, mm.
    pub change: Mm,
}

/// A distance between two corners of the offset outline that is not a side.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct OffsetDiagonal {
    /// Its name.
    pub name: String,
    /// The leg across, mm.
    pub across: Mm,
    /// The leg down, mm.
    pub down: Mm,
    /// Exact length, mm.
    pub length: Mm,
    /// Length to the tape's step, mm.
    pub tape: Mm,
    /// It goes through the house, so it can't be taped.
    pub blocked: bool,
}

/// A corner of the offset outline, in the plan's coordinates.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct OffsetCorner {
    /// Its letter.
    pub name: String,
    /// Across the page, mm; negative left of the plan.
    pub x: Mm,
    /// Down the page, mm; negative above the plan.
    pub y: Mm,
}

/// The offset outline.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Offset {
    /// How far the sides are held off, mm: outward positive.
    pub by: Mm,
    /// Its corners.
    pub corners: Vec<OffsetCorner>,
    /// Its sides.
    pub sides: Vec<OffsetSide>,
    /// Every slanting distance between two corners.
    pub diagonals: Vec<OffsetDiagonal>,
    /// Every distance between two corners on one line that is not a side.
    pub straight_checks: Vec<OffsetDiagonal>,
    /// Its area, m².
    pub area_m2: Ratio,
    /// The length round it, mm.
    pub perimeter: Mm,
    /// The house sides, which stay where they are.
    pub held: Vec<String>,
    /// The distance, mm, that any offset this way must stay under; nothing where there is none.
    pub less_than: Option<Mm>,
}

/// An offset that can't be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OffsetError {
    /// No distance.
    #[error("an offset of 0 is the plan itself: write a distance, outward such as 1m or inward such as -20")]
    Nothing,
    /// Too far: the outline would lose a side or run into itself.
    #[error(
        "{} {} is too far: at {} {stop}; {}",
        units.with_unit(by.abs()),
        if *by < 0.0 { "inward" } else { "outward" },
        units.with_unit(*less_than),
        largest.map_or_else(
            || "there is no room to offset it this way at all".to_owned(),
            |mm| format!("write {}, the largest that works", units.typed(mm.copysign(*by)))
        )
    )]
    TooFar {
        /// As asked, mm.
        by: f64,
        /// Where it stops, mm.
        less_than: f64,
        /// The largest on the tape that works, mm.
        largest: Option<f64>,
        /// Why.
        stop: Stop,
        /// The units to say it in.
        units: Units,
    },
}

/// The outline of `footprint` held off by `by` mm, outward positive. House sides stay where they are.
///
/// Fails where a side would vanish or two would meet, with the largest offset that works.
pub fn offset_outline(footprint: &Footprint, by: f64, units: Units) -> Result<Offset, OffsetError> {
    if by == 0.0 {
        return Err(OffsetError::Nothing);
    }
    let limit = offset_limit(footprint, by > 0.0);
    if let Some(limit) = limit.as_ref().filter(|limit| by.abs() >= limit.less_than - SAME_PLACE) {
        let step = units.tape_step();
        let largest = ((limit.less_than - SAME_PLACE) / step).ceil() * step - step;
        return Err(OffsetError::TooFar {
            by,
            less_than: limit.less_than,
            largest: Some(largest).filter(|mm| *mm > 0.0),
            stop: limit.stop.clone(),
            units,
        });
    }
    let points: Vec<Point> = pace(footprint, by.signum())
        .iter()
        .zip(footprint.corners())
        .map(|(pace, corner)| Point::new(corner.at.x + pace.x * by.abs(), corner.at.y + pace.y * by.abs()))
        .collect();
    let sides: Vec<OffsetSide> = footprint
        .sides()
        .iter()
        .enumerate()
        .map(|(i, side)| {
            let length = points[side.from].distance(points[side.to]);
            OffsetSide { name: footprint.side_name(i), length: Mm(length), change: Mm(length - side.length) }
        })
        .collect();
    let (straight_checks, diagonals) = between_corners(footprint, &points, units)
        .into_iter()
        .partition(|line| line.across.0 <= SAME_PLACE || line.down.0 <= SAME_PLACE);
    let area: f64 = footprint
        .sides()
        .iter()
        .map(|side| (points[side.from], points[side.to]))
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum::<f64>()
        / 2.0;
    Ok(Offset {
        by: Mm(by),
        corners: points
            .iter()
            .zip(footprint.corners())
            .map(|(p, corner)| OffsetCorner { name: corner.name.to_string(), x: Mm(p.x), y: Mm(p.y) })
            .collect(),
        perimeter: Mm(sides.iter().map(|side| side.length.0).sum()),
        area_m2: Ratio(area / 1e6),
        sides,
        diagonals,
        straight_checks,
        held: (0..footprint.len())
            .filter(|i| footprint.sides()[*i].house)
            .map(|i| footprint.side_name(i))
            .collect(),
        less_than: limit.map(|limit| Mm(limit.less_than)),
    })
}

/// Every distance between two corners that is not a side, in order of letters.
fn between_corners(footprint: &Footprint, points: &[Point], units: Units) -> Vec<OffsetDiagonal> {
    let site = Site::of(footprint);
    let mut lines = vec![];
    for from in 0..points.len() {
        for to in (from + 1..points.len()).filter(|to| !footprint.is_side(from, *to)) {
            let (a, b) = (points[from], points[to]);
            let length = a.distance(b);
            lines.push(OffsetDiagonal {
                name: footprint.line_name(from, to),
                across: Mm((b.x - a.x).abs()),
                down: Mm((b.y - a.y).abs()),
                length: Mm(length),
                tape: Mm(units.on_tape(length)),
                blocked: site.lies(a, b) == Lies::Blocked,
            });
        }
    }
    lines
}
