//! How far each corner is out of square at the ends of its sides, and how sure that is.

use nalgebra::{DMatrix, DVector};
use serde::Serialize;

use super::input::{Limit, letter, line_name};
use crate::geometry::{Mm, Point, Ratio};

/// ± this many standard deviations hold a single figure 95 times in 100.
pub const COVERAGE: f64 = 1.96;

/// Which way a corner is out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Sense {
    /// The angle between the sides is larger than the plan's: the diagonal across them is long.
    Open,
    /// Smaller: the diagonal across them is short.
    Closed,
    /// As the plan has it.
    True,
}

/// What can be said of one corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Call {
    /// In, whatever the tape's error.
    #[serde(rename = "square")]
    Square,
    /// Out, whatever the tape's error.
    #[serde(rename = "out")]
    Out,
    /// The limit lies within the uncertainty.
    #[serde(rename = "too close to call")]
    TooClose,
}

/// How far a corner is out at the end of one of its sides.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct End {
    /// The side.
    pub side: String,
    /// Its length on the plan, mm.
    pub length: Mm,
    /// Out of square at its far end, mm: + open, − closed.
    pub out: Mm,
    /// ± mm, 95 times in 100.
    pub uncertainty: Mm,
    /// The limit there, mm; absent when judged by the tape alone.
    pub limit: Option<Mm>,
}

/// The angle at one corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Angle {
    /// The corner.
    pub corner: String,
    /// Between its two sides as built, degrees, 0 to 180.
    pub angle_deg: Ratio,
    /// The same on the plan.
    pub plan_deg: Ratio,
    /// Which way it is out.
    pub sense: Sense,
    /// At the far ends of its two sides: the one before it, the one after it.
    pub ends: [End; 2],
    /// What can be said of it.
    pub call: Call,
    /// In or out going by the best estimate alone.
    pub within: bool,
}

/// The angle between the arms from `corner` to `before` and to `after`, radians, 0 to π.
#[must_use]
pub fn angle_between(corner: Point, before: Point, after: Point) -> f64 {
    let (a, b) = (
        (before.x - corner.x, before.y - corner.y),
        (after.x - corner.x, after.y - corner.y),
    );
    (a.0 * b.1 - a.1 * b.0).abs().atan2(a.0 * b.0 + a.1 * b.1)
}

/// The gradient of that angle over all coordinates, radians per mm.
#[must_use]
pub fn angle_gradient(points: &[Point], corner: usize) -> DVector<f64> {
    let (before, after) = neighbours(corner, points.len());
    let (p, a, b) = (points[corner], points[before], points[after]);
    let cross = (a.x - p.x) * (b.y - p.y) - (a.y - p.y) * (b.x - p.x);
    let turn = if cross < 0.0 { -1.0 } else { 1.0 };
    let mut gradient = DVector::zeros(2 * points.len());
    // The angle is the bearing of `after` less that of `before`, the way round that makes it positive.
    for (end, other, sign) in [(after, b, turn), (before, a, -turn)] {
        let (dx, dy) = (other.x - p.x, other.y - p.y);
        let squared = (dx * dx + dy * dy).max(f64::MIN_POSITIVE);
        let (gx, gy) = (-dy / squared, dx / squared);
        gradient[2 * end] += sign * gx;
        gradient[2 * end + 1] += sign * gy;
        gradient[2 * corner] -= sign * gx;
        gradient[2 * corner + 1] -= sign * gy;
    }
    gradient
}

/// The corners before and after `corner` round the outline.
#[must_use]
pub(super) const fn neighbours(corner: usize, count: usize) -> (usize, usize) {
    ((corner + count - 1) % count, (corner + 1) % count)
}

/// Judges every corner of the adjusted `points` against the `plan`.
///
/// With a limit: out or square when the figure is so with its uncertainty (±1.96 sd) taken against it, too close to
/// call between. Without one: square when no corner can be told from square, at `joint` standard deviations.
#[must_use]
pub(super) fn judge(
    plan: &[Point],
    points: &[Point],
    covariance: &DMatrix<f64>,
    limit: Option<&Limit<'_>>,
    joint: f64,
) -> Vec<Angle> {
    (0..plan.len())
        .map(|corner| judge_corner(plan, points, covariance, limit, joint, corner))
        .collect()
}

fn judge_corner(
    plan: &[Point],
    points: &[Point],
    covariance: &DMatrix<f64>,
    limit: Option<&Limit<'_>>,
    joint: f64,
    corner: usize,
) -> Angle {
    let count = plan.len();
    let (before, after) = neighbours(corner, count);
    let built = angle_between(points[corner], points[before], points[after]);
    let planned = angle_between(plan[corner], plan[before], plan[after]);
    let gradient = angle_gradient(points, corner);
    let sd = gradient.dot(&(covariance * &gradient)).max(0.0).sqrt();
    let off = built - planned;
    let mut call = Call::Square;
    let mut within = true;
    let ends = [before, after].map(|other| {
        let length = plan[corner].distance(plan[other]);
        let (out, uncertainty) = (length * off.sin(), COVERAGE * length * sd);
        let at = limit.map(|l| l.at(length));
        let (low, high) = match at {
            Some(at) => (at - uncertainty, at + uncertainty),
            None => (joint * length * sd, joint * length * sd),
        };
        within &= out.abs() <= at.unwrap_or(high);
        if out.abs() > high {
            call = Call::Out;
        } else if out.abs() > low && call == Call::Square {
            call = Call::TooClose;
        }
        End {
            side: line_name(corner, other, count),
            length: Mm(length),
            out: Mm(out),
            uncertainty: Mm(uncertainty),
            limit: at.map(Mm),
        }
    });
    let sense = match off {
        o if o > 1e-9 => Sense::Open,
        o if o < -1e-9 => Sense::Closed,
        _ => Sense::True,
    };
    Angle {
        corner: letter(corner).to_string(),
        angle_deg: Ratio(built.to_degrees()),
        plan_deg: Ratio(planned.to_degrees()),
        sense,
        ends,
        call,
        within,
    }
}
