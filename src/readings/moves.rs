//! What to move: each corner along its own two sides, whole sides first where both ends move alike.

use nalgebra::{DMatrix, Matrix2, Vector2};
use serde::Serialize;

use super::fit;
use super::input::{Masonry, letter, line_name};
use super::square::neighbours;
use crate::geometry::{Mm, Point};

/// A move under this, mm, is not worth a hammer: it rounds to nothing on the tape.
const NOTHING: f64 = 0.5;

/// Two ends of a side within this, mm, move alike.
const ALIKE: f64 = 1.0;

/// One part of a corner's move, along one of its sides.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Component {
    /// The side along which it goes.
    pub side: String,
    /// The corner at that side's other end.
    pub from: String,
    /// How far, mm: + away from that corner, − toward it.
    pub distance: Mm,
    /// Standard deviation, mm, in the datum of the fit.
    pub sd: Mm,
    /// The whole side that carries the corner along with it, if one does.
    pub with_side: Option<String>,
}

/// How one corner moves.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Move {
    /// The corner.
    pub corner: String,
    /// How far in all, mm.
    pub distance: Mm,
    /// Which way, along its sides: "away from B", "toward D".
    pub toward: String,
    /// The parts along its two sides.
    pub components: [Component; 2],
    /// The move in plain words.
    pub words: String,
}

/// A whole side that moves square to itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SideMove {
    /// The side.
    pub side: String,
    /// How far, mm: + out, away from the footprint; − in.
    pub distance: Mm,
    /// The move in plain words.
    pub words: String,
}

/// The true side against what was built.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Overhang {
    /// The side.
    pub side: String,
    /// At its start, mm: + the true side stands outside (overhangs), − inside (set back).
    pub start: Mm,
    /// At its end, mm.
    pub end: Mm,
    /// Whether either end is over the limit; absent without a limit.
    pub over: Option<bool>,
}

/// Every side's overhang or setback.
#[must_use]
pub(super) fn overhangs(plan: &[Point], placed: &[Point], masonry: Option<Masonry>) -> Vec<Overhang> {
    let limit = masonry.and_then(|m| m.limit);
    fit::overhangs(plan, placed)
        .into_iter()
        .enumerate()
        .map(|(side, (start, end))| Overhang {
            side: side_name(side, plan.len()),
            start: Mm(start),
            end: Mm(end),
            over: limit.map(|l| start.abs().max(end.abs()) > l),
        })
        .collect()
}

/// The name of side `side` of `count`: 0 is AB.
#[must_use]
pub(super) fn side_name(side: usize, count: usize) -> String {
    line_name(side, (side + 1) % count, count)
}

/// The whole sides that move, the farthest first.
#[must_use]
pub(super) fn side_moves(plan: &[Point], placed: &[Point]) -> Vec<SideMove> {
    let mut moves: Vec<SideMove> = whole_sides(plan, placed)
        .into_iter()
        .enumerate()
        .filter_map(|(side, distance)| {
            let distance = distance?;
            let name = side_name(side, plan.len());
            let way = if distance > 0.0 { "out" } else { "in" };
            Some(SideMove {
                words: format!("side {name}: {:.0} mm {way}, both ends", distance.abs().round()),
                side: name,
                distance: Mm(distance),
            })
        })
        .collect();
    moves.sort_by(|a, b| b.distance.0.abs().total_cmp(&a.distance.0.abs()));
    moves
}

/// For each side, how far it moves as a whole, if both ends move alike.
fn whole_sides(plan: &[Point], placed: &[Point]) -> Vec<Option<f64>> {
    fit::overhangs(plan, placed)
        .into_iter()
        .map(|(start, end)| {
            let alike = (start - end).abs() <= ALIKE && start.abs().min(end.abs()) >= NOTHING;
            (alike && start * end > 0.0).then(|| f64::midpoint(start, end))
        })
        .collect()
}

/// How each corner moves from where it is (`placed`, in the plan's frame) to its place on the `plan`.
#[must_use]
pub(super) fn moves(plan: &[Point], placed: &[Point], covariance: &DMatrix<f64>) -> Vec<Move> {
    let whole = whole_sides(plan, placed);
    (0..plan.len())
        .map(|corner| corner_move(plan, placed, covariance, &whole, corner))
        .collect()
}

fn corner_move(
    plan: &[Point],
    placed: &[Point],
    covariance: &DMatrix<f64>,
    whole: &[Option<f64>],
    corner: usize,
) -> Move {
    let count = plan.len();
    let (before, after) = neighbours(corner, count);
    let away = |other: usize| {
        let length = plan[corner].distance(plan[other]);
        Vector2::new(
            (plan[corner].x - plan[other].x) / length,
            (plan[corner].y - plan[other].y) / length,
        )
    };
    let shift = Vector2::new(
        plan[corner].x - placed[corner].x,
        plan[corner].y - placed[corner].y,
    );
    let axes = Matrix2::from_columns(&[away(before), away(after)]);
    // Sides in one line have no second direction; the move is then given along the first only.
    let inverse = axes
        .try_inverse()
        .unwrap_or_else(|| Matrix2::from_rows(&[away(before).transpose(), Vector2::zeros().transpose()]));
    let parts = inverse * shift;
    let block: Matrix2<f64> = covariance.fixed_view::<2, 2>(2 * corner, 2 * corner).into();
    let spread = inverse * block * inverse.transpose();
    // Moving along one side is moving the other side square to itself.
    let carried = [corner, before];
    let components: [Component; 2] = [0, 1].map(|i| {
        let other = [before, after][i];
        Component {
            side: line_name(corner, other, count),
            from: letter(other).to_string(),
            distance: Mm(parts[i]),
            sd: Mm(spread[(i, i)].max(0.0).sqrt()),
            with_side: whole[carried[i]].map(|_| side_name(carried[i], count)),
        }
    });
    let toward = join(
        components
            .iter()
            .filter(|c| c.distance.0.abs() >= NOTHING)
            .map(way),
    );
    let name = letter(corner).to_string();
    Move {
        words: words(&name, &components),
        corner: name,
        distance: Mm(shift.norm()),
        toward,
        components,
    }
}

fn way(component: &Component) -> String {
    let sense = if component.distance.0 > 0.0 {
        "away from"
    } else {
        "toward"
    };
    format!("{sense} {}", component.from)
}

fn words(corner: &str, components: &[Component]) -> String {
    let moving = || components.iter().filter(|c| c.distance.0.abs() >= NOTHING);
    let own = join(
        moving()
            .filter(|c| c.with_side.is_none())
            .map(|c| format!("{:.0} mm {}", c.distance.0.abs().round(), way(c))),
    );
    let carried = join(
        moving()
            .filter_map(|c| c.with_side.as_ref())
            .map(|side| format!("with side {side}")),
    );
    match (own.is_empty(), carried.is_empty()) {
        (true, true) => format!("{corner}: stays"),
        (true, false) => format!("{corner}: {carried}"),
        (false, true) => format!("{corner}: {own}"),
        (false, false) => format!("{corner}: {carried}, then {own}"),
    }
}

fn join(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}
