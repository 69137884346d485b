//! What is pegged out: points by name, on the plan and on the site's own grid.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::{Mm, Point, Ratio};

/// What a point is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum PointKind {
    /// A corner of the outline.
    Corner,
    /// A corner of the outline held off.
    Offset,
    /// A nail in a profile board or in the house wall.
    Nail,
    /// A peg at the end of a profile board.
    Peg,
    /// An anchor, on the middle line of the plate.
    Anchor,
}

/// A point that is pegged out, nailed or drilled.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SitePoint {
    /// What it is.
    pub kind: PointKind,
    /// Its name: `A`, `A+600` where the outline is held off, `P1 BC plate outer`, `P1 left peg`, `BC 150`.
    pub name: String,
    /// Across the page from the plan's left edge, mm.
    pub across: Mm,
    /// Down the page from the plan's top edge, mm.
    pub down: Mm,
    /// East on the site's grid, m, if one was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub east_m: Option<Ratio>,
    /// North on the site's grid, m, if one was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub north_m: Option<Ratio>,
}

impl SitePoint {
    /// The point at `at` on the plan, on `grid` if there is one.
    #[must_use]
    pub fn new(kind: PointKind, name: String, at: Point, grid: Option<&SiteGrid>) -> Self {
        let on_grid = grid.map(|grid| grid.of(at).map(Ratio));
        let [east_m, north_m] = on_grid.map_or([None; 2], |both| both.map(Some));
        Self { kind, name, across: Mm(at.x), down: Mm(at.y), east_m, north_m }
    }
}

/// How the plan lies on the site's own grid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiteGrid {
    /// A point of the plan whose place on the grid is known.
    pub at: Point,
    /// Its east, mm.
    pub east: f64,
    /// Its north, mm.
    pub north: f64,
    /// The bearing of a line that runs to the right across the page, as side AB does: degrees clockwise from grid north.
    pub bearing: f64,
}

impl SiteGrid {
    /// East and north of a point of the plan, m, to the millimetre.
    fn of(&self, at: Point) -> [f64; 2] {
        let (sin, cos) = self.bearing.to_radians().sin_cos();
        let (across, down) = (at.x - self.at.x, at.y - self.at.y);
        // Down the page is a quarter turn clockwise of across it.
        [self.east + across * sin + down * cos, self.north + across * cos - down * sin]
            .map(|mm| mm.round() / 1000.0)
    }
}
