//! Which diagonals to tape: the fewest that fix the shape, and spares that show up a misread.
//!
//! n corners are fixed, up to moving the whole, by 2n − 3 independent distances (Laman 1970). With all n sides taped
//! that leaves n − 3 diagonals. Of the sets that do it, the one is chosen whose worst corner has the smallest standard
//! deviation in the free datum (a minimax design), and then spares that bring down the largest slip a reading could
//! hide: δ₀ σ/√r with δ₀ = 4.13 (Baarda 1968: α₀ = 0.001, power 0.80).

mod exchange;
mod limit;
mod state;
mod subsets;

use crate::geometry::Point;
use crate::network::{self, DETECTABLE, Distance};
use limit::{add_for_limit, taped};
use nalgebra::DMatrix;
use state::{State, UNCHECKED};
use subsets::{best_proof, best_set};

pub use limit::Called;

/// A choice of diagonals and how good it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Indices into the candidates given, ascending.
    pub chosen: Vec<usize>,
    /// The worst corner's standard deviation with the sides and these, mm; `None` where they leave the shape loose.
    pub worst_corner_sd: Option<f64>,
}

/// The proof set, then the spares.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// The fewest diagonals that fix the shape, or all there are where they can't.
    pub fewest: Choice,
    /// The fewest and the spares together.
    pub with_spares: Choice,
    /// The largest slip that could hide in any one reading of sides, fewest and spares, mm; `None` where some reading
    /// is unchecked or the shape is loose.
    pub hides: Option<f64>,
    /// Whether every set that could be the fewest was tried, so that none is better; else exchanges found it.
    pub proven: bool,
}

/// Chooses the proof set and `spares` more from the `candidates`, the sides being taped as well.
///
/// Small choices are tried whole; larger ones are improved by exchanges until none helps.
#[must_use]
pub fn choose_proof(points: &[Point], sides: &[Distance], candidates: &[Distance], spares: usize) -> Proof {
    let needed = network::needed(points.len()).saturating_sub(sides.len());
    let mut state = State::new(points, sides, candidates);
    let (fewest, proven) = best_proof(&state, needed);
    for i in &fewest {
        state.add(*i);
    }
    let extra = best_set(&state, &fewest, spares, |state, chosen, i, enough| {
        state.worst_hidden_with(i, fewest.iter().chain(chosen).copied(), enough)
    });
    let fixed = network::free_covariance(points, &taped(sides, candidates, &fewest));
    let worst_corner_sd = fixed.as_ref().map(network::worst_corner_sd);
    // What the fewest leave loose can't be fixed by more: they are all there are then.
    let with_spare = |covariance, i: &usize| network::with_distance(covariance, points, &candidates[*i]);
    let covariance = fixed.map(|covariance| extra.iter().fold(covariance, with_spare));
    let mut all: Vec<usize> = fewest.iter().chain(&extra).copied().collect();
    all.sort_unstable();
    let (with_spares, hides) = judged(points, &taped(sides, candidates, &all), covariance.as_ref(), all);
    Proof { fewest: Choice { chosen: fewest, worst_corner_sd }, with_spares, hides, proven }
}

/// Adds spares until a limit of `limit` mm can be called, if the candidates can at all; `None` where the shape stays loose.
pub(super) fn for_limit(
    points: &[Point],
    sides: &[Distance],
    candidates: &[Distance],
    proof: &mut Proof,
    limit: f64,
) -> Option<Called> {
    let mut chosen = proof.with_spares.chosen.clone();
    let (called, covariance) = add_for_limit(points, sides, candidates, &mut chosen, limit)?;
    let taped = taped(sides, candidates, &chosen);
    (proof.with_spares, proof.hides) = judged(points, &taped, Some(&covariance), chosen);
    Some(called)
}

/// How good a choice is by the covariance that it leaves, and the largest slip that could hide in it.
fn judged(
    points: &[Point],
    taped: &[Distance],
    covariance: Option<&DMatrix<f64>>,
    chosen: Vec<usize>,
) -> (Choice, Option<f64>) {
    let worst_corner_sd = covariance.map(network::worst_corner_sd);
    let hides = covariance.and_then(|covariance| worst_hidden(points, covariance, taped));
    (Choice { chosen, worst_corner_sd }, hides)
}

/// The largest slip that could hide in any one of `distances`, mm; `None` where one is unchecked.
fn worst_hidden(points: &[Point], covariance: &DMatrix<f64>, distances: &[Distance]) -> Option<f64> {
    distances.iter().try_fold(0.0, |worst, d| {
        let explained = network::distance_variance(points, covariance, d.from, d.to) / (d.sd * d.sd);
        let redundancy = 1.0 - explained;
        (redundancy >= UNCHECKED).then(|| f64::max(worst, DETECTABLE * d.sd / redundancy.sqrt()))
    })
}
