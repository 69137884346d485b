//! The fewest parts to move: the true outline laid so that the most of what was built can stay where it stands.
//!
//! A corner's place is measured square to its two sides; each of those measures is a component. A part is one component, or a
//! whole side whose two ends move alike. Every placement worth trying leaves some components just where they stand: one,
//! along the house, where the outline is held on a house side; three where it is free. So trying them all finds the fewest.
//! Past [`MOST_FREE`] corners a free outline is tried held on each of its sides only.

use nalgebra::{DMatrix, Matrix3, Vector3};

use super::datum::Lines;
use super::placement::{Placement, place};
use super::square::COVERAGE;
use crate::geometry::Point;
use crate::network::{self, neighbours};
use crate::readings::input::{FitKind, Input};

/// The most corners at which every free placement is tried: 12 corners have 2,024 of them.
const MOST_FREE: usize = 12;

/// A part stays where it is within this share of the limit, so that the tapes' own error does not carry it over.
const STAYS: f64 = 0.5;

/// Where the parts that are left would miss the limit together, less is let stay: these shares of it, one after another.
const TIGHTER: [f64; 5] = [1.0, 0.75, 0.5, 0.25, 0.0];

/// Two ends of a side within this, mm, always move alike.
const ALIKE: f64 = 1.0;

/// What the shape comes to once the parts told are moved, mm; the house's own error apart.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(in crate::readings) struct After {
    /// The most that a corner is out of square at the end of one of its sides.
    pub(in crate::readings) square: f64,
    /// The most that a side is long or short.
    pub(in crate::readings) size: f64,
    /// The most that a corner stands from its place, square to a side.
    pub(in crate::readings) place: f64,
}

/// What moves. Components are numbered by side: its start, then its end.
#[derive(Debug, Clone)]
pub(in crate::readings) struct Parts {
    /// Whether a component moves.
    pub(in crate::readings) told: Vec<bool>,
    /// Whether a side moves as a whole.
    pub(in crate::readings) runs: Vec<bool>,
    /// Components that would have to cross a wall of the house to come right.
    pub(in crate::readings) house: Vec<usize>,
    pub(in crate::readings) after: After,
    /// Whether every limit is kept afterwards.
    pub(in crate::readings) kept: bool,
}

impl Parts {
    /// How many parts move.
    pub(in crate::readings) fn count(&self) -> usize {
        let runs = self.runs.iter().filter(|run| **run).count();
        self.told.iter().filter(|told| **told).count() - runs
    }
}

/// The placement with the fewest parts to move.
#[derive(Debug)]
pub(in crate::readings) struct Fewest {
    pub(in crate::readings) placement: Placement,
    /// The side of the house that it is held on.
    pub(in crate::readings) held: Option<usize>,
    /// What holds it: three conditions on the coordinates (2n × 3).
    pub(in crate::readings) conditions: DMatrix<f64>,
    pub(in crate::readings) parts: Parts,
}

/// Lays the outline of `input` on the `measured` corners, with their covariance in the free datum.
pub(in crate::readings) fn fewest(
    input: &Input<'_>,
    measured: &[Point],
    covariance: &DMatrix<f64>,
) -> Option<Fewest> {
    let outline = input.footprint;
    let plan = outline.points();
    let start = |kind| place(&plan, measured, kind);
    let house: Vec<usize> = (0..outline.len()).filter(|i| outline.sides()[*i].house).collect();
    let searches: Vec<Search<'_>> = if house.is_empty() {
        vec![Search::new(input, start(FitKind::Free), covariance, None)]
    } else {
        let held = |side| Search::new(input, start(FitKind::Held(side)), covariance, Some(side));
        house.into_iter().map(held).collect()
    };
    let mut best: Option<(Score, &Search<'_>, [usize; 3], Parts)> = None;
    for search in &searches {
        for datum in search.candidates() {
            if let Some((score, parts)) = search.choice(datum)
                && best.as_ref().is_none_or(|(least, ..)| score < *least)
            {
                best = Some((score, search, datum, parts));
            }
        }
    }
    best.and_then(|(_, search, datum, parts)| search.finish(datum, parts))
}

/// Every three of `count` components.
fn triples(count: usize) -> Vec<[usize; 3]> {
    let mut all = Vec::new();
    for a in 0..count {
        for b in a + 1..count {
            all.extend((b + 1..count).map(|c| [a, b, c]));
        }
    }
    all
}

/// How good a choice is: within the limits at all, then fewest parts, then the least left, then the least moved.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
struct Score(u8, usize, f64, f64);

/// One start from which placements are tried.
struct Search<'a> {
    input: &'a Input<'a>,
    start: Placement,
    held: Option<usize>,
    lines: Lines,
    /// How far each component is off at the start, mm: + the plan stands outside.
    offsets: Vec<f64>,
    /// Covariance of the components, mm², in the free datum.
    noise: DMatrix<f64>,
    /// Components square to a house side: no corner crosses that wall.
    firm: Vec<bool>,
    /// The most that each may be off, mm; endless where no limit is given.
    limits: Vec<f64>,
}

impl<'a> Search<'a> {
    fn new(input: &'a Input<'a>, start: Placement, covariance: &DMatrix<f64>, held: Option<usize>) -> Self {
        let lines = Lines::of(input.footprint);
        let turned = network::turned_covariance(covariance, start.turn);
        let count = lines.components();
        let noise = DMatrix::from_fn(count, count, |i, j| {
            let block = turned.fixed_view::<2, 2>(2 * lines.corner(i), 2 * lines.corner(j));
            (lines.normal(i).transpose() * block * lines.normal(j))[0]
        });
        let firm = (0..count).map(|k| input.footprint.sides()[k / 2].house).collect();
        let limits = (0..count).map(|k| place_limit(input, k).unwrap_or(f64::INFINITY)).collect();
        Self { input, offsets: lines.offsets(&start), start, held, lines, noise, firm, limits }
    }

    fn runs(&self) -> usize {
        self.offsets.len() / 2
    }

    /// What may stay just where it stands.
    fn candidates(&self) -> Vec<[usize; 3]> {
        match self.held {
            Some(side) => self.held_on(side),
            None if self.runs() <= MOST_FREE => triples(self.offsets.len()),
            None => (0..self.runs()).flat_map(|side| self.held_on(side)).collect(),
        }
    }

    /// Held on the line of `side`, and slid along it until one component more is right.
    fn held_on(&self, side: usize) -> Vec<[usize; 3]> {
        (0..self.offsets.len())
            .filter(|k| self.lines.slides(side, *k))
            .map(|k| [2 * side, 2 * side + 1, k])
            .collect()
    }

    /// What moves where the components of `datum` stay; nothing where they don't hold the outline.
    fn choice(&self, datum: [usize; 3]) -> Option<(Score, Parts)> {
        let rows = Matrix3::from_rows(&datum.map(|k| self.lines.motion(k).transpose()));
        if rows.determinant().abs() < 0.1 {
            return None;
        }
        let inverse = rows.try_inverse()?;
        let motion = inverse * Vector3::from(datum.map(|k| self.offsets[k]));
        let count = self.offsets.len();
        let off: Vec<f64> = (0..count).map(|k| self.offsets[k] - self.lines.motion(k).dot(&motion)).collect();
        let tells: Vec<f64> = (0..count).map(|k| COVERAGE * self.sd(k, &datum, &inverse)).collect();
        let mut last = None;
        for share in TIGHTER {
            let parts = self.moved(&off, &tells, share);
            let left = (4.0 * parts.after.place / self.least_limit()).round();
            let moved = (0..count).filter(|k| parts.told[*k]).map(|k| off[k].abs()).sum();
            let score = Score(
                u8::from(!parts.kept),
                parts.count() + parts.house.len(),
                if left.is_finite() { left } else { 0.0 },
                moved,
            );
            let kept = parts.kept;
            last = Some((score, parts));
            if kept {
                break;
            }
        }
        last
    }

    fn least_limit(&self) -> f64 {
        let least = self.limits.iter().copied().fold(f64::INFINITY, f64::min);
        if least.is_finite() { least.max(1.0) } else { 10.0 }
    }

    /// Standard deviation of a component where those of `datum` stay, mm.
    fn sd(&self, k: usize, datum: &[usize; 3], inverse: &Matrix3<f64>) -> f64 {
        let share = inverse.transpose() * self.lines.motion(k);
        let mut variance = self.noise[(k, k)];
        for (i, a) in datum.iter().enumerate() {
            variance -= 2.0 * share[i] * self.noise[(*a, k)];
            for (j, b) in datum.iter().enumerate() {
                variance += share[i] * share[j] * self.noise[(*a, *b)];
            }
        }
        variance.max(0.0).sqrt()
    }

    /// What moves at these offsets, where `share` of what may stay is let stay, and what is left then.
    fn moved(&self, off: &[f64], tells: &[f64], share: f64) -> Parts {
        let worth = self.input.units.tape_step() / 2.0;
        let stays: Vec<f64> = (0..off.len())
            .map(|k| {
                let limit = self.limits[k];
                let most = if limit.is_finite() { tells[k].max(STAYS * limit) } else { tells[k] };
                (share * most).max(worth)
            })
            .collect();
        let beyond: Vec<bool> = (0..off.len()).map(|k| off[k].abs() > stays[k]).collect();
        let told: Vec<bool> = (0..off.len()).map(|k| beyond[k] && !self.firm[k]).collect();
        let house = (0..off.len()).filter(|k| beyond[*k] && self.firm[*k]).collect();
        let runs: Vec<bool> = (0..self.runs())
            .map(|side| {
                let (start, end) = (2 * side, 2 * side + 1);
                let alike = (off[start] - off[end]).abs() <= stays[start].min(stays[end]).max(ALIKE);
                told[start] && told[end] && alike && off[start] * off[end] > 0.0
            })
            .collect();
        let (after, kept) = self.after(&self.left(off, &told, &runs));
        Parts { told, runs, house, after, kept }
    }

    /// What is left of the offsets once these are moved.
    fn left(&self, off: &[f64], told: &[bool], runs: &[bool]) -> Vec<f64> {
        // The plate stands on its own lines, whatever the house does.
        let one = |k: usize| match (runs[k / 2], told[k] || self.firm[k]) {
            (true, _) => f64::midpoint(off[k], -off[k ^ 1]),
            (false, true) => 0.0,
            (false, false) => off[k],
        };
        (0..off.len()).map(one).collect()
    }

    /// What these offsets come to, and whether every limit is kept. To first order: they are small.
    fn after(&self, left: &[f64]) -> (After, bool) {
        let count = self.runs();
        let length = |side: usize| self.input.footprint.sides()[side].length;
        // Built outside the plan is a negative offset: the turn of a side that opens the corner at its start.
        let turn = |side: usize| (left[2 * side] - left[2 * side + 1]) / length(side);
        let (mut after, mut kept) = (After::default(), true);
        for corner in 0..count {
            let (before, next) = neighbours(corner, count);
            let opened = turn(corner) - turn(before);
            for (side, other) in [(before, corner), (corner, before)] {
                let out = (length(side) * opened).abs();
                let limit = self.input.limit.and_then(|l| l.at(length(side), length(other)));
                kept &= limit.is_none_or(|limit| out <= limit);
                after.square = after.square.max(out);
            }
            // The two ends of a side, along it.
            let ahead = |k: usize| left[k] * self.lines.ahead(corner, k);
            let off = (ahead(2 * before + 1) - ahead(2 * next)).abs();
            kept &= size_limit(self.input, length(corner)).is_none_or(|limit| off <= limit);
            after.size = after.size.max(off);
        }
        for (k, off) in left.iter().enumerate() {
            kept &= off.abs() <= self.limits[k];
            after.place = after.place.max(off.abs());
        }
        (after, kept)
    }

    /// The choice with its placement, laid as well as can be on all that stays.
    fn finish(&self, datum: [usize; 3], parts: Parts) -> Option<Fewest> {
        let stays: Vec<usize> =
            (0..self.offsets.len()).filter(|k| !parts.told[*k] && !parts.house.contains(k)).collect();
        let laid = |stays: &[usize]| self.lines.laid(&self.start, self.held, stays);
        let refined = laid(&stays).and_then(|(placement, conditions)| {
            // What moved still moves: only what is left is judged again.
            let off = self.lines.offsets(&placement);
            let (after, kept) = self.after(&self.left(&off, &parts.told, &parts.runs));
            (kept || !parts.kept).then_some((placement, conditions, after, kept))
        });
        let (placement, conditions, after, kept) =
            refined.or_else(|| laid(&datum).map(|(p, c)| (p, c, parts.after, parts.kept)))?;
        Some(Fewest { placement, held: self.held, conditions, parts: Parts { after, kept, ..parts } })
    }
}

/// The most that component `k` may be off its place, mm: as much as the end of its side may be out, or a size may be off.
pub(in crate::readings) fn place_limit(input: &Input<'_>, k: usize) -> Option<f64> {
    let sides = input.footprint.sides();
    let (before, after) = neighbours(k / 2, sides.len());
    let other = if k.is_multiple_of(2) { before } else { after };
    let square = input.limit.and_then(|limit| limit.at(sides[k / 2].length, sides[other].length));
    [square, input.size_limit].into_iter().flatten().reduce(f64::max)
}

/// The most that a side of `length` mm may be long or short, mm.
pub(in crate::readings) fn size_limit(input: &Input<'_>, length: f64) -> Option<f64> {
    input.size_limit.or_else(|| input.limit?.on_size(length))
}
