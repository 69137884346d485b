//! What an adjustment is made of: distances, and what holds the figure in place.

use crate::geometry::Point;

/// One distance as it enters the adjustment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observation {
    /// Index of the first corner.
    pub from: usize,
    /// Index of the second corner.
    pub to: usize,
    /// The distance, mm.
    pub value: f64,
    /// Its standard deviation, mm.
    pub sd: f64,
}

/// What holds the figure in place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Datum<'a> {
    /// Nothing: shifts and turn are kept as small as they can be.
    Free,
    /// These corners do not move.
    Fixed(&'a [usize]),
    /// Every corner was built at its place on the plan, give or take `sd` mm in x and in y.
    Plan {
        /// The plan's corners.
        corners: &'a [Point],
        /// One standard deviation, mm.
        sd: f64,
    },
}
