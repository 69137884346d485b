//! Which further line to tape: the one that fixes a loose figure, tells tied readings apart, checks what nothing
//! checks, or sharpens a corner that is too close to call.
//!
//! A line with design row a and standard deviation σ changes the covariance C to C − (Ca)(Ca)ᵀ/(σ² + aᵀCa), so every
//! candidate is tried without adjusting again.

use nalgebra::{DMatrix, DVector};

use crate::geometry::Point;
use crate::network::{self, DETECTABLE, Distance, reach};

use super::network::adjust::{UNCHECKED, solve};
use super::network::observation::{Datum, Observation};

/// Looseness stands for a standard deviation of this much, mm, while a figure is being fixed.
const UNKNOWN: f64 = 1000.0;

/// A line whose length is known this many times worse than it can be taped (variance) takes looseness out.
const GAIN: f64 = 1e3;

/// Rounds of exchanges after the first choice; the choice has always settled before.
const ROUNDS: usize = 8;

/// Choices tried one by one: all sets of three diagonals of an L (84), of five of a T (15 504).
const EVERY: usize = 16_000;

/// The covariance with `line` taped too (`sign` 1) or no longer taped (`sign` −1).
fn updated(covariance: &DMatrix<f64>, points: &[Point], line: &Distance, sign: f64) -> DMatrix<f64> {
    let (reach, variance) = reach(covariance, points, line);
    let mut updated = covariance.clone();
    updated.ger(-sign / (line.sd * line.sd + sign * variance), &reach, &reach, 1.0);
    updated
}

/// The largest corner sd, mm, once `line` is taped as well.
#[must_use]
pub fn worst_with(points: &[Point], covariance: &DMatrix<f64>, line: &Distance) -> f64 {
    let (reach, variance) = reach(covariance, points, line);
    let scale = 1.0 / (line.sd * line.sd + variance);
    (0..points.len())
        .map(|i| {
            let (x, y) = (2 * i, 2 * i + 1);
            network::semi_axes(
                covariance[(x, x)] - scale * reach[x] * reach[x],
                covariance[(y, y)] - scale * reach[y] * reach[y],
                covariance[(x, y)] - scale * reach[x] * reach[y],
            )
            .0
        })
        .fold(0.0, f64::max)
}

/// The lines, chosen from `candidates` by index, that fix a loose figure with the smallest worst corner, in the order to
/// tape them; fewer than are missing where the candidates cannot fix it.
///
/// Every choice is tried when there are few; otherwise the least known line is taken each time and the choice is then
/// bettered by exchanges, which may stop a little short of the best.
#[must_use]
pub fn fixing(points: &[Point], taped: &[Distance], candidates: &[Distance]) -> Vec<usize> {
    let missing = network::needed(points.len()).saturating_sub(network::rank(points, taped));
    let covariance = loose_covariance(points, taped);
    let mut chosen = greedy(points, candidates, missing, covariance.clone());
    if missing > 0 && chosen.len() == missing && choices(candidates.len(), missing) <= EVERY {
        let mut best = (Vec::new(), f64::INFINITY);
        every(points, candidates, missing, 0, &covariance, &mut Vec::new(), &mut best);
        chosen = best.0;
    }
    in_order(points, taped, candidates, chosen)
}

/// The number of ways to choose `k` of `n`, or more than [`EVERY`].
fn choices(n: usize, k: usize) -> usize {
    let mut ways = 1;
    for i in 0..k {
        ways = ways * (n - i) / (i + 1);
        if ways > EVERY {
            break;
        }
    }
    ways
}

/// Tries every choice of `missing` more lines from those at `from` on.
fn every(
    points: &[Point],
    candidates: &[Distance],
    missing: usize,
    from: usize,
    covariance: &DMatrix<f64>,
    chosen: &mut Vec<usize>,
    best: &mut (Vec<usize>, f64),
) {
    for i in from..=candidates.len() - missing {
        chosen.push(i);
        if missing == 1 {
            let worst = worst_with(points, covariance, &candidates[i]);
            if worst < best.1 * (1.0 - 1e-7) {
                *best = (chosen.clone(), worst);
            }
        } else {
            let with = updated(covariance, points, &candidates[i], 1.0);
            every(points, candidates, missing - 1, i + 1, &with, chosen, best);
        }
        chosen.pop();
    }
}

/// Takes the line that is known least, `missing` times, then betters the choice by exchanges.
fn greedy(
    points: &[Point],
    candidates: &[Distance],
    missing: usize,
    mut covariance: DMatrix<f64>,
) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    for _ in 0..missing {
        let gain = |line: &Distance| {
            let (_, variance) = reach(&covariance, points, line);
            variance / (line.sd * line.sd)
        };
        let best = best_of((0..candidates.len()).filter(|i| !chosen.contains(i)), |i| -gain(&candidates[i]));
        let Some((index, _)) = best.filter(|(_, value)| *value < -GAIN) else {
            return chosen;
        };
        covariance = updated(&covariance, points, &candidates[index], 1.0);
        chosen.push(index);
    }
    for _ in 0..ROUNDS {
        if !exchange(points, candidates, &mut chosen, &mut covariance) {
            break;
        }
    }
    chosen
}

/// Swaps each chosen line for whichever candidate makes the worst corner smallest; whether any swap was made.
fn exchange(
    points: &[Point],
    candidates: &[Distance],
    chosen: &mut [usize],
    covariance: &mut DMatrix<f64>,
) -> bool {
    let mut changed = false;
    for place in 0..chosen.len() {
        let now = network::worst_corner_sd(covariance);
        let without = updated(covariance, points, &candidates[chosen[place]], -1.0);
        let best = best_of((0..candidates.len()).filter(|i| !chosen.contains(i)), |i| {
            worst_with(points, &without, &candidates[i])
        });
        if let Some((index, worst)) = best
            && worst < now - 1e-6
        {
            *covariance = updated(&without, points, &candidates[index], 1.0);
            chosen[place] = index;
            changed = true;
        }
    }
    changed
}

/// The chosen lines with the one that brings the worst corner down most first, then the next, and so on.
fn in_order(
    points: &[Point],
    taped: &[Distance],
    candidates: &[Distance],
    mut chosen: Vec<usize>,
) -> Vec<usize> {
    chosen.sort_unstable();
    let mut covariance = loose_covariance(points, taped);
    let mut order = Vec::new();
    while let Some((index, _)) =
        best_of(chosen.iter().copied(), |i| worst_with(points, &covariance, &candidates[i]))
    {
        covariance = updated(&covariance, points, &candidates[index], 1.0);
        chosen.retain(|i| *i != index);
        order.push(index);
    }
    order
}

/// The first of the smallest, by a margin over the last digits.
fn best_of(indices: impl Iterator<Item = usize>, measure: impl Fn(usize) -> f64) -> Option<(usize, f64)> {
    let mut best: Option<(usize, f64)> = None;
    for index in indices {
        let value = measure(index);
        if best.is_none_or(|(_, least)| value < least - 1e-7 * least.abs()) {
            best = Some((index, value));
        }
    }
    best
}

/// Covariance of a figure that may be loose, with looseness standing for [`UNKNOWN`], and no shift or turn.
fn loose_covariance(points: &[Point], taped: &[Distance]) -> DMatrix<f64> {
    let design = network::weighted_design(points, taped);
    let motions = network::rigid_motions(points);
    let size = 2 * points.len();
    // A heavy weight on the shifts and the turn takes them out.
    let normal = design.tr_mul(&design)
        + DMatrix::identity(size, size) / (UNKNOWN * UNKNOWN)
        + &motions * motions.transpose();
    let inverse =
        normal.cholesky().map_or_else(|| DMatrix::identity(size, size) * UNKNOWN.powi(2), |c| c.inverse());
    let fixed = &motions * motions.transpose() / (1.0 + 1.0 / (UNKNOWN * UNKNOWN));
    inverse - fixed
}

/// The variance of a figure with gradient `row` once `line` is taped as well.
#[must_use]
pub fn variance_with(
    points: &[Point],
    covariance: &DMatrix<f64>,
    gradient: &DVector<f64>,
    line: &Distance,
) -> f64 {
    let covariance = updated(covariance, points, line, 1.0);
    gradient.dot(&(covariance * gradient))
}

/// How well one more line would check the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// Readings, the new one too, that nothing would check.
    pub unchecked: usize,
    /// The largest correlation left between two of the readings asked about (0 to 1; 1: still tied).
    pub alike: f64,
    /// The largest slip that a checked reading could still hide, mm.
    pub hides: f64,
}

/// What taping `line` as well would do for checking; `tied` are the positions of readings to be told apart.
/// `None` where it would not even fix the figure.
#[must_use]
pub fn check_with(
    points: &[Point],
    observations: &[Observation],
    tied: &[usize],
    line: &Distance,
) -> Option<Check> {
    // Observations that fit the points exactly: the adjustment then only counts what checks what.
    let mut network: Vec<Observation> = observations.to_vec();
    network.push(Observation { from: line.from, to: line.to, value: 0.0, sd: line.sd });
    for o in &mut network {
        o.value = points[o.from].distance(points[o.to]);
    }
    let adjusted = solve(points, &network, Datum::Free).ok()?;
    let mut alike: f64 = 0.0;
    for (place, i) in tied.iter().enumerate() {
        for j in &tied[place + 1..] {
            let checked = adjusted.redundancy[*i] > UNCHECKED && adjusted.redundancy[*j] > UNCHECKED;
            let correlation = adjusted.correlation(*i, *j).abs();
            alike = alike.max(if checked { correlation } else { 1.0 });
        }
    }
    let hides = network
        .iter()
        .zip(&adjusted.redundancy)
        .filter(|(_, r)| **r > 0.0)
        .map(|(o, r)| DETECTABLE * o.sd / r.sqrt())
        .fold(0.0, f64::max);
    Some(Check { unchecked: adjusted.redundancy.iter().filter(|r| **r == 0.0).count(), alike, hides })
}
