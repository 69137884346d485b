//! Which diagonals to tape: the fewest that fix the shape, and spares that show up a misread.
//!
//! n corners are fixed, up to moving the whole, by 2n − 3 independent distances (Laman 1970). With all n sides taped
//! that leaves n − 3 diagonals. Of the sets that do it, the one is chosen whose worst corner has the smallest standard
//! deviation in the free datum (a minimax design), and then spares that bring down the largest slip a reading could
//! hide: δ₀ σ/√r with δ₀ = 4.13 (Baarda 1968: α₀ = 0.001, power 0.80).

mod exchange;
mod state;
mod subsets;

use crate::geometry::Point;
use crate::network::{self, DETECTABLE, Distance};
use nalgebra::DMatrix;
use state::{State, UNCHECKED};
use subsets::{best_proof, best_set};

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
    let extra = best_set(&state, &fewest, spares, |state, chosen, i| {
        state.worst_hidden_with(i, fewest.iter().chain(chosen).copied())
    });
    let mut all: Vec<usize> = fewest.iter().chain(&extra).copied().collect();
    all.sort_unstable();
    let taped = |chosen: &[usize]| -> Vec<Distance> {
        sides.iter().copied().chain(chosen.iter().map(|i| candidates[*i])).collect()
    };
    let judged = |chosen: Vec<usize>| {
        let covariance = network::free_covariance(points, &taped(&chosen));
        let worst_corner_sd = covariance.as_ref().map(network::worst_corner_sd);
        (Choice { chosen, worst_corner_sd }, covariance)
    };
    let (fewest, _) = judged(fewest);
    let (with_spares, covariance) = judged(all);
    let hides =
        covariance.and_then(|covariance| worst_hidden(points, &covariance, &taped(&with_spares.chosen)));
    Proof { fewest, with_spares, hides, proven }
}

/// The largest slip that could hide in any one of `distances`, mm; `None` where one is unchecked.
fn worst_hidden(points: &[Point], covariance: &DMatrix<f64>, distances: &[Distance]) -> Option<f64> {
    distances.iter().try_fold(0.0, |worst, d| {
        let explained = network::distance_variance(points, covariance, d.from, d.to) / (d.sd * d.sd);
        let redundancy = 1.0 - explained;
        (redundancy >= UNCHECKED).then(|| f64::max(worst, DETECTABLE * d.sd / redundancy.sqrt()))
    })
}
