//! What to move: each corner along its own two sides, whole sides first where both ends move alike.

use nalgebra::{DMatrix, Matrix2, Vector2};
use schemars::JsonSchema;
use serde::Serialize;

use super::placement::overhangs;
use super::square::COVERAGE;
use crate::geometry::{Mm, Point};
use crate::length::Units;
use crate::network::neighbours;
use crate::plan::{Footprint, corner_name};
use crate::readings::input::Masonry;

/// Two ends of a side within this, mm, move alike.
const ALIKE: f64 = 1.0;

/// One part of a corner's move, along one of its sides.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Component {
    /// The side along which it goes.
    pub side: String,
    /// The corner at that side's other end.
    pub from: String,
    /// How far, mm: + away from that corner, − toward it.
    pub distance: Mm,
    /// Standard deviation, mm, in the datum of the fit.
    pub sd: Mm,
    /// Whether it is worth a hammer, and more than the tapes' own error can make.
    pub sure: bool,
    /// Whether it is to be moved.
    pub told: bool,
    /// The whole side that carries the corner along with it, if one does.
    pub with_side: Option<String>,
}

impl Component {
    /// Which way it goes: `toward F`.
    #[must_use]
    pub fn way(&self) -> String {
        let sense = if self.distance.0 > 0.0 { "away from" } else { "toward" };
        format!("{sense} {}", self.from)
    }
}

/// How one corner moves.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Move {
    /// The corner.
    pub corner: String,
    /// How far in all, mm.
    pub distance: Mm,
    /// Which way, along its sides: "away from B", "toward D"; the parts that are sure, or all where none is.
    pub toward: String,
    /// The parts along its two sides.
    pub components: [Component; 2],
    /// Whether any part of it is more than the tapes' own error can make.
    pub sure: bool,
    /// The same parts of the move in plain words.
    pub words: String,
}

/// A whole side that moves square to itself.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SideMove {
    /// The side.
    pub side: String,
    /// How far, mm: + out, away from the footprint; − in.
    pub distance: Mm,
    /// Standard deviation, mm, in the datum of the fit.
    pub sd: Mm,
    /// The move in plain words.
    pub words: String,
}

/// The true side against what was built.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Overhang {
    /// The side.
    pub side: String,
    /// At its start, mm: + the true side stands outside (overhangs), − inside (set back).
    pub start: Mm,
    /// At its end, mm.
    pub end: Mm,
    /// Standard deviation of each, mm, in the datum of the fit.
    pub sd: [Mm; 2],
    /// Whether either end is over the limit; absent without a limit.
    pub over: Option<bool>,
    /// Whether the limit lies within the uncertainty of the worse end; absent without a limit.
    pub too_close: Option<bool>,
}

/// The plan, what was built laid on it, and the units to tell moves in.
#[derive(Clone, Copy)]
pub(in crate::readings) struct Laid<'a> {
    pub(in crate::readings) plan: &'a Footprint,
    /// The built corners in the plan's frame, mm.
    pub(in crate::readings) placed: &'a [Point],
    /// Their covariance in the datum of the fit, mm².
    pub(in crate::readings) covariance: &'a DMatrix<f64>,
    pub(in crate::readings) units: Units,
    /// What is to be moved: by component, and the sides that move as a whole. Nothing: whatever is sure.
    pub(in crate::readings) told: Option<(&'a [bool], &'a [bool])>,
}

impl Laid<'_> {
    /// A move under this, mm, is not worth a hammer: it rounds to nothing on the tape.
    fn nothing(&self) -> f64 {
        self.units.tape_step() / 2.0
    }

    /// Every side's overhang or setback.
    pub(in crate::readings) fn overhangs(&self, masonry: Option<Masonry>) -> Vec<Overhang> {
        let overhang = |(side, (start, end)): (usize, (f64, f64))| {
            let sd = [side, (side + 1) % self.plan.len()]
                .map(|corner| self.outward_variance(side, corner, corner).max(0.0).sqrt());
            let (most, sd_there) =
                if start.abs() < end.abs() { (end.abs(), sd[1]) } else { (start.abs(), sd[0]) };
            // Off the house the plate may stand as far as it was said.
            let off_house =
                if self.plan.sides()[side].house { masonry.map_or(0.0, |m| m.stand_off) } else { 0.0 };
            let limit = masonry.and_then(|m| m.limit).map(|limit| limit.max(off_house));
            Overhang {
                side: self.plan.side_name(side),
                start: Mm(start),
                end: Mm(end),
                sd: sd.map(Mm),
                over: limit.map(|limit| most > limit),
                too_close: limit.map(|limit| (most - limit).abs() < COVERAGE * sd_there),
            }
        };
        overhangs(&self.plan.points(), self.placed).into_iter().enumerate().map(overhang).collect()
    }

    /// The whole sides that move, the farthest first.
    pub(in crate::readings) fn side_moves(&self) -> Vec<SideMove> {
        let mut moves: Vec<SideMove> = self
            .whole_sides()
            .into_iter()
            .enumerate()
            .filter_map(|(side, distance)| {
                let distance = distance?;
                let name = self.plan.side_name(side);
                let way = if distance > 0.0 { "out" } else { "in" };
                let by = self.units.short(distance.abs());
                Some(SideMove {
                    words: format!("side {name}: {by} {way}, both ends"),
                    side: name,
                    distance: Mm(distance),
                    sd: Mm(self.side_sd(side)),
                })
            })
            .collect();
        moves.sort_by(|a, b| b.distance.0.abs().total_cmp(&a.distance.0.abs()));
        moves
    }

    /// Covariance of how far two corners lie outward of `side`, mm².
    fn outward_variance(&self, side: usize, a: usize, b: usize) -> f64 {
        let (x, y) = self.plan.sides()[side].heading.outward();
        let block = self.covariance.fixed_view::<2, 2>(2 * a, 2 * b);
        (Vector2::new(x, y).transpose() * block * Vector2::new(x, y))[0]
    }

    /// Standard deviation of how far a side lies out, mm: the mean of its two ends.
    fn side_sd(&self, side: usize) -> f64 {
        let (a, b) = (side, (side + 1) % self.plan.len());
        let variance = |i, j| self.outward_variance(side, i, j);
        ((variance(a, a) + 2.0 * variance(a, b) + variance(b, b)) / 4.0).max(0.0).sqrt()
    }

    /// For each side, how far it moves as a whole: if both ends move alike, by more than the tapes' own error can make.
    fn whole_sides(&self) -> Vec<Option<f64>> {
        overhangs(&self.plan.points(), self.placed)
            .into_iter()
            .enumerate()
            .map(|(side, (start, end))| {
                let distance = f64::midpoint(start, end);
                if let Some((_, runs)) = self.told {
                    return runs[side].then_some(distance);
                }
                let alike = (start - end).abs() <= ALIKE && start.abs().min(end.abs()) >= self.nothing();
                let sure = distance.abs() > COVERAGE * self.side_sd(side);
                (alike && start * end > 0.0 && sure).then_some(distance)
            })
            .collect()
    }

    /// How each corner moves from where it is to its place on the plan.
    pub(in crate::readings) fn moves(&self) -> Vec<Move> {
        let whole = self.whole_sides();
        (0..self.plan.len()).map(|corner| self.corner_move(&whole, corner)).collect()
    }

    fn corner_move(&self, whole: &[Option<f64>], corner: usize) -> Move {
        let count = self.plan.len();
        let at = self.plan.corners()[corner].at;
        let (before, after) = neighbours(corner, count);
        // A plan's sides run across or down, so the two are square to each other.
        let away = |other: usize| {
            let (from, length) = (self.plan.corners()[other].at, self.plan.corners()[other].at.distance(at));
            Vector2::new((at.x - from.x) / length, (at.y - from.y) / length)
        };
        let shift = Vector2::new(at.x - self.placed[corner].x, at.y - self.placed[corner].y);
        let block: Matrix2<f64> = self.covariance.fixed_view::<2, 2>(2 * corner, 2 * corner).into();
        // Moving along one side is moving the other side square to itself.
        let carried = [corner, before];
        let components: [Component; 2] = [0, 1].map(|i| {
            let other = [before, after][i];
            let distance = away(other).dot(&shift);
            let sd = (away(other).transpose() * block * away(other))[0].max(0.0).sqrt();
            let sure = distance.abs() >= self.nothing().max(COVERAGE * sd);
            Component {
                side: self.plan.line_name(corner, other),
                from: corner_name(other).to_string(),
                distance: Mm(distance),
                sd: Mm(sd),
                sure,
                told: self.told.map_or(sure, |(told, _)| told[[2 * corner, 2 * before + 1][i]]),
                with_side: whole[carried[i]].map(|_| self.plan.side_name(carried[i])),
            }
        });
        let sure = components.iter().any(|c| c.sure);
        // What is to be moved; or, where that is for the tapes alone to say and they don't, all of it.
        let all = self.told.is_none() && !components.iter().any(|c| c.told);
        let told: Vec<&Component> =
            components.iter().filter(|c| c.told || (all && c.distance.0.abs() >= self.nothing())).collect();
        let name = corner_name(corner).to_string();
        Move {
            words: self.words(&name, &told),
            corner: name,
            distance: Mm(shift.norm()),
            toward: join(told.iter().map(|c| c.way())),
            sure,
            components,
        }
    }

    fn words(&self, corner: &str, told: &[&Component]) -> String {
        let own = join(
            told.iter()
                .filter(|c| c.with_side.is_none())
                .map(|c| format!("{} {}", self.units.short(c.distance.0.abs()), c.way())),
        );
        let carried =
            join(told.iter().filter_map(|c| c.with_side.as_ref()).map(|side| format!("with side {side}")));
        let words = match (own.is_empty(), carried.is_empty()) {
            (true, true) => "stays".to_owned(),
            (true, false) => carried,
            (false, true) => own,
            (false, false) => format!("{carried}, then {own}"),
        };
        let doubt = if told.iter().any(|c| !c.sure) { ", less than the tapes can tell" } else { "" };
        format!("{corner}: {words}{doubt}")
    }
}

fn join(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}
