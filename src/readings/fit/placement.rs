//! Laying the true outline on what was built: held on a side, free, or least-worst.
//!
//! It comes to the same to lay what was built on the plan, and the plan's frame is where moves are wanted; so a fit
//! turns and shifts the measured corners, with no scale and no mirror.

use super::simplex::{self, Column};
use crate::geometry::Point;
use crate::readings::input::FitKind;

/// The measured corners laid on the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// The measured corners in the plan's frame, mm.
    pub points: Vec<Point>,
    /// How far they were turned from where they were given, radians from x towards y (clockwise on the page).
    pub turn: f64,
}

/// Lays `measured` on `plan`.
#[must_use]
pub fn place(plan: &[Point], measured: &[Point], kind: FitKind) -> Placement {
    match kind {
        FitKind::Held(side) => held(plan, measured, side),
        // What is free of a limit and of a house has nothing that could stay: the least sum of squares.
        FitKind::Free | FitKind::Fewest => free(plan, measured),
        FitKind::LeastWorst => least_worst(plan, measured),
    }
}

/// The first corner of `side` on its place, and the second in its direction.
#[must_use]
pub fn held(plan: &[Point], measured: &[Point], side: usize) -> Placement {
    let next = (side + 1) % plan.len();
    let bearing = |p: Point, q: Point| (q.y - p.y).atan2(q.x - p.x);
    let turn = bearing(plan[side], plan[next]) - bearing(measured[side], measured[next]);
    turned(measured, turn, measured[side], plan[side])
}

/// The turn and shift with the least sum of squared distances from the plan's corners:
/// θ = atan2(Σ(x·Y − y·X), Σ(x·X + y·Y)) over coordinates from the two centroids, measured (x, y), plan (X, Y).
#[must_use]
pub fn free(plan: &[Point], measured: &[Point]) -> Placement {
    let (to, from) = (centroid(plan), centroid(measured));
    let (mut across, mut along) = (0.0, 0.0);
    for (p, m) in plan.iter().zip(measured) {
        let (px, py, mx, my) = (p.x - to.x, p.y - to.y, m.x - from.x, m.y - from.y);
        across += mx * py - my * px;
        along += mx * px + my * py;
    }
    turned(measured, across.atan2(along), from, to)
}

fn centroid(points: &[Point]) -> Point {
    let n = points.len() as f64;
    points.iter().fold(Point::default(), |c, p| Point::new(c.x + p.x / n, c.y + p.y / n))
}

/// Turns about `from`, then carries `from` to `to`.
fn turned(measured: &[Point], turn: f64, from: Point, to: Point) -> Placement {
    let (sin, cos) = turn.sin_cos();
    let points = measured
        .iter()
        .map(|m| {
            let (x, y) = (m.x - from.x, m.y - from.y);
            Point::new(to.x + cos * x - sin * y, to.y + sin * x + cos * y)
        })
        .collect();
    Placement { points, turn }
}

/// The outward unit normal of each side: to the left of its way round a clockwise outline (y down).
#[must_use]
pub fn outward_normals(plan: &[Point]) -> Vec<Point> {
    let n = plan.len();
    let twice_area: f64 = (0..n)
        .map(|i| {
            let (p, q) = (plan[i], plan[(i + 1) % n]);
            p.x * q.y - q.x * p.y
        })
        .sum();
    // y down: a positive sum is clockwise on the page.
    let sign = if twice_area < 0.0 { -1.0 } else { 1.0 };
    (0..n)
        .map(|i| {
            let (p, q) = (plan[i], plan[(i + 1) % n]);
            let length = p.distance(q);
            Point::new(sign * (q.y - p.y) / length, -sign * (q.x - p.x) / length)
        })
        .collect()
}

/// How far the true side stands outside (+) or inside (−) the measured corners at its start and its end, mm.
#[must_use]
pub fn overhangs(plan: &[Point], placed: &[Point]) -> Vec<(f64, f64)> {
    let n = plan.len();
    outward_normals(plan)
        .into_iter()
        .enumerate()
        .map(|(side, normal)| {
            let at = |corner: usize| {
                (plan[corner].x - placed[corner].x) * normal.x
                    + (plan[corner].y - placed[corner].y) * normal.y
            };
            (at(side), at((side + 1) % n))
        })
        .collect()
}

/// The largest of [`overhangs`] whatever its sign, mm.
#[must_use]
pub fn worst_overhang(plan: &[Point], placed: &[Point]) -> f64 {
    overhangs(plan, placed).into_iter().fold(0.0, |worst, (start, end)| worst.max(start.abs()).max(end.abs()))
}

/// The turn and shift that make the largest distance of a corner from either of its wall lines as small as it can be.
///
/// For small turns it is a linear programme, solved exactly and repeated from where it led until it promises no more.
/// Where the worst walls leave some freedom, the next-worst are made small in turn, so the answer is one.
#[must_use]
pub fn least_worst(plan: &[Point], measured: &[Point]) -> Placement {
    let start = free(plan, measured);
    let Some(first) = correction(plan, &start.points, FAR) else {
        return start;
    };
    let mut placement = stepped(&start, first);
    let mut worst = worst_overhang(plan, &placement.points);
    // The programme is trusted so far, mm; less where a turn bends its promise away.
    let mut trusted = FAR;
    for _ in 0..300 {
        let Some(step) = correction(plan, &placement.points, trusted) else {
            break;
        };
        let next = stepped(&placement, step);
        let reached = worst_overhang(plan, &next.points);
        if reached < worst {
            (worst, placement) = (reached, next);
        } else {
            let size = step.shift.0.abs().max(step.shift.1.abs()).max(step.swing.abs());
            trusted = 0.5 * size.min(trusted);
            if trusted < 1e-10 {
                break;
            }
        }
    }
    placement
}

/// Farther than any fit has to go, mm.
const FAR: f64 = 1e6;

/// A shift, mm, and a turn: radians, and as the swing of the farthest corner, mm.
#[derive(Clone, Copy)]
struct Step {
    shift: (f64, f64),
    turn: f64,
    swing: f64,
}

/// Shifts and turns the placed corners about their centroid.
fn stepped(placement: &Placement, step: Step) -> Placement {
    let pivot = centroid(&placement.points);
    let to = Point::new(pivot.x + step.shift.0, pivot.y + step.shift.1);
    let next = turned(&placement.points, step.turn, pivot, to);
    Placement { points: next.points, turn: placement.turn + step.turn }
}

/// One wall offset, linear in the shifts and the turn: offset − (figures · unknowns).
struct Offset {
    figures: [f64; 3],
    at: f64,
    /// Settled at this value by a worse offset's programme.
    settled: Option<f64>,
}

/// Shift and turn about the centroid, none over `trusted` mm, that make the largest offset smallest, then the largest of the
/// rest, and so on.
fn correction(plan: &[Point], placed: &[Point], trusted: f64) -> Option<Step> {
    let n = plan.len();
    let pivot = centroid(placed);
    // The turn is counted in mm at the figure's reach, so that all three unknowns are of one size.
    let reach = placed.iter().map(|p| p.distance(pivot)).fold(1.0, f64::max);
    let mut offsets = Vec::new();
    for (side, normal) in outward_normals(plan).into_iter().enumerate() {
        for corner in [side, (side + 1) % n] {
            let (p, m) = (plan[corner], placed[corner]);
            offsets.push(Offset {
                figures: [
                    normal.x,
                    normal.y,
                    (normal.y * (m.x - pivot.x) - normal.x * (m.y - pivot.y)) / reach,
                ],
                at: normal.x * (p.x - m.x) + normal.y * (p.y - m.y),
                settled: None,
            });
        }
    }
    let mut best = None;
    // Each programme settles one offset at least, and three independent ones settle the figure.
    for _ in 0..3 {
        let Some([x, y, swing]) = settle_worst(&mut offsets, trusted) else {
            break;
        };
        best = Some(Step { shift: (x, y), turn: swing / reach, swing });
    }
    best
}

/// Solves for the offsets not yet settled; those that are tight in every best answer are settled at its value.
fn settle_worst(offsets: &mut [Offset], trusted: f64) -> Option<[f64; 3]> {
    if offsets.iter().all(|o| o.settled.is_some()) {
        return None;
    }
    let mut columns = Vec::with_capacity(2 * offsets.len());
    for o in offsets.iter() {
        let [a, b, c] = o.figures;
        // |offset − figures·u| ≤ t, or = its settled value; both ways round.
        let (free, value) = o.settled.map_or((1.0, 0.0), |value| (0.0, value));
        columns.push(Column { figures: [a, b, c, free], cost: o.at - value });
        columns.push(Column { figures: [-a, -b, -c, free], cost: value - o.at });
    }
    for unknown in 0..3 {
        for sign in [1.0, -1.0] {
            let mut figures = [0.0; 4];
            figures[unknown] = sign;
            columns.push(Column { figures, cost: -trusted });
        }
    }
    let solution = simplex::largest(&columns)?;
    let [x, y, turn, largest] = solution.unknowns;
    for (o, weights) in offsets.iter_mut().zip(solution.weights.chunks_exact(2)) {
        if o.settled.is_none() {
            if weights[0] > 1e-9 {
                o.settled = Some(largest);
            } else if weights[1] > 1e-9 {
                o.settled = Some(-largest);
            }
        }
    }
    Some([x, y, turn])
}
