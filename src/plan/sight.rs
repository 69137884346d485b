//! Where a tape pulled straight from place to place lies.

use schemars::JsonSchema;
use serde::Serialize;

use super::limits::SAME_PLACE;
use super::site::{Place, Site};
use crate::geometry::Point;

/// Where a tape pulled straight between two places lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Lies {
    /// Over the footprint all the way, or along its edge.
    Inside,
    /// Partly over ground outside the footprint, across a cut-out.
    Outside,
    /// Through the existing house: it can't be taped.
    Blocked,
}

impl Lies {
    /// The word in tables and JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
            Self::Blocked => "blocked",
        }
    }
}

impl Site {
    /// Where the tape from `a` to `b` lies. One that only touches a corner of the house is not blocked by it.
    #[must_use]
    pub fn lies(&self, a: Point, b: Point) -> Lies {
        let length = a.distance(b);
        let mut turns = vec![0.0, 1.0];
        crossed(&self.grid.xs, a.x, b.x, &mut turns);
        crossed(&self.grid.ys, a.y, b.y, &mut turns);
        turns.sort_by(f64::total_cmp);
        let mut lies = Lies::Inside;
        for pair in turns.windows(2).filter(|pair| (pair[1] - pair[0]) * length > SAME_PLACE) {
            let part = f64::midpoint(pair[0], pair[1]);
            match self.at(Point::new(a.x + part * (b.x - a.x), a.y + part * (b.y - a.y))) {
                Place::House => return Lies::Blocked,
                Place::Ground => lies = Lies::Outside,
                Place::Footprint => {}
            }
        }
        lies
    }
}

/// Adds the parts of the way from `from` to `to` at which it crosses a cut.
fn crossed(cuts: &[f64], from: f64, to: f64, parts: &mut Vec<f64>) {
    if (to - from).abs() > SAME_PLACE {
        let between = cuts.iter().filter(|cut| from.min(to) < **cut && **cut < from.max(to));
        parts.extend(between.map(|cut| (cut - from) / (to - from)));
    }
}
