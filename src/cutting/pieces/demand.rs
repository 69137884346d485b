//! Fixed pieces to be cut from bars, and bars cut alike.

use super::knapsack::Item;
use crate::cutting::simplex::TOLERANCE;

/// Fixed pieces to be cut: items and bar kinds with the number of bars each may have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cutting) struct Demand {
    pub(in crate::cutting) items: Vec<Item>,
    /// Room (bar and a kerf) and price of each kind.
    pub(in crate::cutting) rooms: Vec<i64>,
    pub(in crate::cutting) prices: Vec<i64>,
    /// Fewest and most bars of each kind.
    pub(in crate::cutting) fewest: Vec<usize>,
    pub(in crate::cutting) most: Vec<usize>,
}

impl Demand {
    /// Number of pieces.
    pub(in crate::cutting) fn pieces(&self) -> usize {
        self.items.iter().map(|item| item.most).sum()
    }

    /// The most bars of a kind that could be of any use.
    pub(super) fn cap(&self, kind: usize) -> usize {
        self.most[kind].min(self.pieces().max(self.fewest[kind]))
    }
}

/// Bars of one kind cut alike.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Batch {
    pub(super) kind: usize,
    pub(super) pattern: Vec<usize>,
    /// How many of them the programme takes: fractional.
    pub(super) bars: f64,
}

/// A saving below this is arithmetic, not timber.
pub(super) fn tolerance(demand: &Demand, kind: usize) -> f64 {
    TOLERANCE * (1.0 + demand.prices[kind] as f64)
}
