//! Weighted least squares of taped distances: Gauss–Newton with step control, from the plan's corners.
//!
//! The residual is v = adjusted − observed. With Ā and v̄ the design and the residuals divided by each
//! reading's standard deviation, and C the covariance of the corners, the residuals' cofactor is
//! R = I − Ā C Āᵀ; its diagonal is the redundancy numbers r, and w = v̄/√r. None of v, r and w
//! depends on where the figure lies.

use nalgebra::{DMatrix, DVector};

use crate::geometry::Point;
use crate::network::{self, Distance};

use super::normal::{self, Row, sum_of_squares};
use super::observation::{Datum, Observation};

/// A redundancy number under this counts as none: the reading's own slip would not show.
pub const UNCHECKED: f64 = 1e-6;

const MAX_STEPS: usize = 100;
const MAX_HALVINGS: usize = 40;
/// A correction this small, mm, ends the iteration: far under what any tape reads.
const SETTLED: f64 = 1e-9;
/// Corrections under this, mm, are taken whole.
const CLOSE: f64 = 1e-3;

/// An adjusted figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjustment {
    /// The adjusted corners, mm.
    pub points: Vec<Point>,
    /// Their covariance in the datum asked for, mm², two rows a corner; from the given sds, not scaled by sigma0.
    pub covariance: DMatrix<f64>,
    /// Adjusted − observed, mm, one for each observation.
    pub residuals: Vec<f64>,
    /// Redundancy numbers; below [`UNCHECKED`] they are zero.
    pub redundancy: Vec<f64>,
    /// Standardised residuals v/(σ√r); `None` where nothing checks the reading.
    pub w: Vec<Option<f64>>,
    /// The weighted design: the residuals' cofactor is I − Ā C Āᵀ, a cell at a time where one is asked for.
    design: Vec<Row>,
    /// The weighted sum of squares that was minimised.
    pub squares: f64,
    /// Observations to spare.
    pub degrees_of_freedom: usize,
}

impl Adjustment {
    /// The root of the weighted sum of squares over the degrees of freedom; `None` with none to spare.
    #[must_use]
    pub fn sigma0(&self) -> Option<f64> {
        (self.degrees_of_freedom > 0).then(|| (self.squares / self.degrees_of_freedom as f64).sqrt())
    }

    /// How alike the tests of two readings are: the correlation of their w, 1 (or −1) where they cannot be told apart.
    #[must_use]
    pub fn correlation(&self, a: usize, b: usize) -> f64 {
        let scale = (self.redundancy[a] * self.redundancy[b]).sqrt();
        let own = if a == b { 1.0 } else { 0.0 };
        let cofactor = own - self.design[a].through(&self.covariance, &self.design[b]);
        if scale > 0.0 { cofactor / scale } else { 0.0 }
    }
}

/// Why there is no adjusted figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotAdjusted {
    /// The distances leave the figure loose.
    #[error("the distances do not fix the corners")]
    Loose,
    /// An observation between corners there are not, or with a value or standard deviation that is none; or a held corner
    /// that there is not; or a plan of another number of corners.
    #[error("an observation, a held corner or the plan does not belong to the corners given")]
    Foreign,
    /// The iteration did not settle near the start.
    #[error("the distances fit no figure near the plan")]
    Unsettled,
}

/// Adjusts `observations` from `start` by weighted least squares.
///
/// Fails when the distances leave the figure loose (judged by singular values, before anything is computed), or
/// when the iteration does not settle.
pub fn adjust(
    start: &[Point],
    observations: &[Observation],
    datum: Datum<'_>,
) -> Result<Adjustment, NotAdjusted> {
    if !belongs(start, observations, datum) {
        return Err(NotAdjusted::Foreign);
    }
    let fixed = match datum {
        Datum::Free => network::free_covariance(start, &distances(observations)).is_some(),
        Datum::Fixed(held) => {
            rank_held(start, observations, held) >= 2 * start.len().saturating_sub(held.len())
        }
        Datum::Plan { .. } => true,
    };
    if !fixed {
        return Err(NotAdjusted::Loose);
    }
    solve(start, observations, datum)
}

fn belongs(start: &[Point], observations: &[Observation], datum: Datum<'_>) -> bool {
    let n = start.len();
    let placed = |points: &[Point]| points.iter().all(|p| p.x.is_finite() && p.y.is_finite());
    let measured = |o: &Observation| {
        o.from.max(o.to) < n && o.from != o.to && o.value.is_finite() && o.sd > 0.0 && o.sd.is_finite()
    };
    n > 0
        && placed(start)
        && observations.iter().all(measured)
        && match datum {
            Datum::Free => true,
            Datum::Fixed(held) => held.iter().all(|corner| *corner < n),
            Datum::Plan { corners, sd } => corners.len() == n && placed(corners) && sd > 0.0,
        }
}

/// The rank of the design with these corners held.
fn rank_held(start: &[Point], observations: &[Observation], held: &[usize]) -> usize {
    if observations.is_empty() {
        return 0;
    }
    let mut design = network::weighted_design(start, &distances(observations));
    for corner in held {
        design.column_mut(2 * corner).fill(0.0);
        design.column_mut(2 * corner + 1).fill(0.0);
    }
    let values = design.singular_values();
    let largest = values.max();
    values.iter().filter(|v| **v > network::LOOSE * largest).count()
}

/// The observations without their values.
pub(in crate::readings) fn distances(observations: &[Observation]) -> Vec<Distance> {
    observations.iter().map(|o| Distance { from: o.from, to: o.to, sd: o.sd }).collect()
}

/// Adjusts without the rank check, for figures already known to be fixed.
pub(in crate::readings) fn solve(
    start: &[Point],
    observations: &[Observation],
    datum: Datum<'_>,
) -> Result<Adjustment, NotAdjusted> {
    let mut points = start.to_vec();
    let mut squares = sum_of_squares(&points, observations, datum);
    let mut last = f64::INFINITY;
    for _ in 0..MAX_STEPS {
        let design = normal::design(&points, observations, datum);
        let factor = normal::factor(&points, &design, datum).ok_or(NotAdjusted::Loose)?;
        let step = factor.solve(&normal::gradient(&design, &points, observations, datum));
        let size = step.amax();
        if !size.is_finite() {
            return Err(NotAdjusted::Unsettled);
        }
        if size < SETTLED || (size < CLOSE && size > 0.5 * last) {
            return finish(moved(&points, &step, 1.0), observations, datum).ok_or(NotAdjusted::Loose);
        }
        if size < CLOSE {
            // The sum of squares no longer shows so small a step; near the end it needs no control.
            points = moved(&points, &step, 1.0);
            last = size;
        } else {
            (points, squares) = controlled_step(&points, &step, squares, observations, datum)
                .ok_or(NotAdjusted::Unsettled)?;
        }
    }
    Err(NotAdjusted::Unsettled)
}

/// Halves the step until the sum of squares falls.
fn controlled_step(
    points: &[Point],
    step: &DVector<f64>,
    squares: f64,
    observations: &[Observation],
    datum: Datum<'_>,
) -> Option<(Vec<Point>, f64)> {
    let mut scale = 1.0;
    for _ in 0..MAX_HALVINGS {
        let next = moved(points, step, scale);
        let lower = sum_of_squares(&next, observations, datum);
        if lower < squares {
            return Some((next, lower));
        }
        scale *= 0.5;
    }
    None
}

fn moved(points: &[Point], step: &DVector<f64>, scale: f64) -> Vec<Point> {
    points
        .iter()
        .enumerate()
        .map(|(i, p)| Point::new(p.x + scale * step[2 * i], p.y + scale * step[2 * i + 1]))
        .collect()
}

fn finish(points: Vec<Point>, observations: &[Observation], datum: Datum<'_>) -> Option<Adjustment> {
    let design = normal::design(&points, observations, datum);
    let covariance = normal::covariance(&points, &normal::factor(&points, &design, datum)?, datum);
    let count = observations.len();
    let residuals: Vec<f64> =
        observations.iter().map(|o| points[o.from].distance(points[o.to]) - o.value).collect();
    let redundancy: Vec<f64> = design
        .iter()
        .map(|row| 1.0 - row.through(&covariance, row))
        .map(|r| if r < UNCHECKED { 0.0 } else { r })
        .collect();
    let w = residuals
        .iter()
        .zip(&redundancy)
        .zip(observations)
        .map(|((v, r), o)| (*r > 0.0).then(|| v / (o.sd * r.sqrt())))
        .collect();
    let unknowns = match datum {
        Datum::Free => network::needed(points.len()),
        Datum::Fixed(held) => 2 * (points.len() - held.len().min(points.len())),
        // Each unknown brings its own piece of the plan.
        Datum::Plan { .. } => 0,
    };
    Some(Adjustment {
        squares: sum_of_squares(&points, observations, datum),
        points,
        covariance,
        residuals,
        redundancy,
        w,
        design,
        degrees_of_freedom: count.saturating_sub(unknowns),
    })
}
