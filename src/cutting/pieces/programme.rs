//! The programme over patterns: a row a length, and one for each limit on the bars of a kind.

use super::demand::{Batch, Demand};
use crate::cutting::simplex::{Row, Sense, Simplex};

pub(super) struct Programme<'a> {
    demand: &'a Demand,
    /// The kind that each row after the lengths' limits.
    limited: Vec<usize>,
    simplex: Simplex<(usize, Vec<usize>)>,
}

impl<'a> Programme<'a> {
    /// Starts from artificial columns dearer than any bar.
    pub(super) fn new(demand: &'a Demand) -> Self {
        let dear = 10.0 * (1.0 + demand.prices.iter().copied().max().unwrap_or(0) as f64);
        let wanted = demand.items.iter().enumerate();
        let mut rows: Vec<Row> =
            wanted.map(|(place, item)| Row::traced(Sense::AtLeast, item.most as f64, place + 1)).collect();
        let mut limited = Vec::new();
        for kind in 0..demand.rooms.len() {
            if demand.most[kind] < demand.pieces() {
                limited.push(kind);
                rows.push(Row { sense: Sense::AtMost, amount: demand.most[kind] as f64 });
            }
            if demand.fewest[kind] > 0 {
                limited.push(kind);
                rows.push(Row { sense: Sense::AtLeast, amount: demand.fewest[kind] as f64 });
            }
        }
        Self { demand, limited, simplex: Simplex::new(&rows, dear) }
    }

    pub(super) fn rows(&self) -> usize {
        self.demand.items.len() + self.limited.len()
    }

    /// What one more of each length, and of each limit, would cost.
    pub(super) fn prices(&self) -> Vec<f64> {
        self.simplex.prices()
    }

    /// Cost of the present basis.
    pub(super) fn value(&self) -> f64 {
        self.simplex.value()
    }

    /// Lets a slack or surplus in if its price has the wrong sign.
    pub(super) fn enter_filler(&mut self, prices: &[f64]) -> bool {
        self.simplex.enter_filler(prices)
    }

    /// For each kind what its limits are worth.
    pub(super) fn limit_prices(&self, prices: &[f64]) -> Vec<f64> {
        let mut worth = vec![0.0; self.demand.rooms.len()];
        for (&kind, price) in self.limited.iter().zip(&prices[self.demand.items.len()..]) {
            worth[kind] += price;
        }
        worth
    }

    /// Brings a pattern in; false when nothing can leave for it.
    pub(super) fn enter_pattern(&mut self, kind: usize, pattern: Vec<usize>) -> bool {
        let lengths = self.demand.items.len();
        let cut = pattern.iter().enumerate().filter(|&(_, &count)| count > 0);
        let limits = self.limited.iter().enumerate().filter(|&(_, &of)| of == kind);
        let column: Vec<(usize, f64)> = cut
            .map(|(place, &count)| (place, count as f64))
            .chain(limits.map(|(place, _)| (lengths + place, 1.0)))
            .collect();
        let price = self.demand.prices[kind] as f64;
        self.simplex.enter(&column, Some((kind, pattern)), price)
    }

    /// The patterns in the basis and how many bars of each.
    pub(super) fn batches(self) -> Vec<Batch> {
        self.simplex.taken().map(|((kind, pattern), bars)| Batch { kind, pattern, bars }).collect()
    }
}
