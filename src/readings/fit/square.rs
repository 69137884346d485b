//! How far each corner is out of square at the ends of its sides, and how sure that is.

use std::f64::consts::PI;

use nalgebra::DMatrix;
use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::{Mm, Point, Ratio, angle_between};
use crate::network::{angle_gradient, neighbours};
use crate::plan::Footprint;
use crate::readings::limit::Limit;

/// ± this many standard deviations hold a single figure 95 times in 100.
pub const COVERAGE: f64 = 1.96;

/// Which way a corner is out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
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
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "SideEnd")]
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
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
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

impl Angle {
    /// The end of a side at which it is the farther out.
    #[must_use]
    pub fn worst_end(&self) -> &End {
        let [a, b] = &self.ends;
        if b.out.0.abs() > a.out.0.abs() { b } else { a }
    }
}

/// The angle at `corner` of the outline through `points`, radians, 0 to π.
fn angle_at(points: &[Point], corner: usize) -> f64 {
    let (before, after) = neighbours(corner, points.len());
    let (p, q, r) = (points[corner], points[before], points[after]);
    let (a, b, c) = (p.distance(q), p.distance(r), q.distance(r));
    // Three corners in one line make no triangle: folded flat, or straight on.
    angle_between(a, b, c).unwrap_or(if c > a.max(b) { PI } else { 0.0 })
}

/// Judges every corner of the adjusted `points` against the plan.
///
/// With a limit: out or square when the figure is so with its uncertainty (±1.96 sd) taken against it, too close to
/// call between. Without one: square when no corner can be told from square, at `joint` standard deviations.
#[must_use]
pub(in crate::readings) fn judge(
    plan: &Footprint,
    points: &[Point],
    covariance: &DMatrix<f64>,
    limit: Option<Limit>,
    joint: f64,
) -> Vec<Angle> {
    let planned = plan.points();
    (0..plan.len())
        .map(|corner| {
            let sd = angle_sd(points, covariance, corner);
            judge_corner(
                plan,
                corner,
                [angle_at(&planned, corner), angle_at(points, corner)],
                sd,
                limit,
                joint,
            )
        })
        .collect()
}

/// Standard deviation of the angle at `corner`, radians.
fn angle_sd(points: &[Point], covariance: &DMatrix<f64>, corner: usize) -> f64 {
    let gradient = angle_gradient(points, corner);
    gradient.dot(&(covariance * &gradient)).max(0.0).sqrt()
}

fn judge_corner(
    plan: &Footprint,
    corner: usize,
    [planned, built]: [f64; 2],
    sd: f64,
    limit: Option<Limit>,
    joint: f64,
) -> Angle {
    let (before, after) = plan.sides_at(corner);
    let off = built - planned;
    let mut call = Call::Square;
    let mut within = true;
    let length_of = |side: usize| plan.sides()[side].length;
    let ends = [(before, after), (after, before)].map(|(side, other)| {
        let length = length_of(side);
        let (out, uncertainty) = (length * off.sin(), COVERAGE * length * sd);
        let at = limit.and_then(|l| l.at(length, length_of(other)));
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
            side: plan.side_name(side),
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
        corner: plan.corners()[corner].name.to_string(),
        angle_deg: Ratio(built.to_degrees()),
        plan_deg: Ratio(planned.to_degrees()),
        sense,
        ends,
        call,
        within,
    }
}
