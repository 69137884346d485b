//! The simplex method over patterns: a dense inverse of the basis, columns brought in from outside.

use super::demand::{Batch, Demand, TOLERANCE};

/// Extra demand that keeps steps apart.
const TRACE: f64 = 1e-9;

#[derive(Debug, Clone)]
enum Column {
    Pattern {
        kind: usize,
        pattern: Vec<usize>,
    },
    /// Slack, surplus or artificial: nothing is read off it.
    Filler,
}

/// A limit on the bars of one kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Limit {
    AtLeast(usize),
    AtMost(usize),
}

impl Limit {
    fn kind(self) -> usize {
        match self {
            Self::AtLeast(kind) | Self::AtMost(kind) => kind,
        }
    }
}

pub(super) struct Simplex<'a> {
    demand: &'a Demand,
    limits: Vec<Limit>,
    basis: Vec<(Column, f64)>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

impl<'a> Simplex<'a> {
    /// Starts from a basis of artificial columns dearer than any bar, and of slacks.
    pub(super) fn new(demand: &'a Demand) -> Self {
        let dear = 10.0 * (1.0 + demand.prices.iter().copied().max().unwrap_or(0) as f64);
        let mut basis: Vec<(Column, f64)> = demand.items.iter().map(|_| (Column::Filler, dear)).collect();
        // A trace more of each piece, different for each: many equal steps would let the method run in circles.
        let mut amounts: Vec<f64> = (1_i32..)
            .zip(&demand.items)
            .map(|(place, item)| item.most as f64 + TRACE * f64::from(place * 7919 % 1009 + 1))
            .collect();
        let mut limits = Vec::new();
        for kind in 0..demand.rooms.len() {
            if demand.most[kind] < demand.pieces() {
                limits.push(Limit::AtMost(kind));
                basis.push((Column::Filler, 0.0));
                amounts.push(demand.most[kind] as f64);
            }
            if demand.fewest[kind] > 0 {
                limits.push(Limit::AtLeast(kind));
                basis.push((Column::Filler, dear));
                amounts.push(demand.fewest[kind] as f64);
            }
        }
        let rows = basis.len();
        let inverse = (0..rows)
            .map(|row| (0..rows).map(|column| if row == column { 1.0 } else { 0.0 }).collect())
            .collect();
        Self { demand, limits, basis, inverse, amounts }
    }

    pub(super) fn rows(&self) -> usize {
        self.basis.len()
    }

    /// What one more of each piece, and of each limit, would cost.
    pub(super) fn prices(&self) -> Vec<f64> {
        let rows = self.basis.len();
        let mut prices = vec![0.0; rows];
        for (row, (_, cost)) in self.basis.iter().enumerate() {
            if *cost != 0.0 {
                for (price, entry) in prices.iter_mut().zip(&self.inverse[row]) {
                    *price += cost * entry;
                }
            }
        }
        prices
    }

    /// Cost of the present basis.
    pub(super) fn value(&self) -> f64 {
        self.basis.iter().zip(&self.amounts).map(|((_, cost), amount)| cost * amount).sum()
    }

    /// Lets a slack or surplus in if its price has the wrong sign.
    pub(super) fn enter_filler(&mut self, prices: &[f64]) -> bool {
        let items = self.demand.items.len();
        for (row, &price) in prices.iter().enumerate() {
            let at_most = row >= items && matches!(self.limits[row - items], Limit::AtMost(_));
            let sign = if at_most { 1.0 } else { -1.0 };
            if sign * price > TOLERANCE {
                let mut column = vec![0.0; prices.len()];
                column[row] = sign;
                return self.enter(&column, Column::Filler, 0.0);
            }
        }
        false
    }

    /// For each kind what its limits are worth.
    pub(super) fn limit_prices(&self, prices: &[f64]) -> Vec<f64> {
        let mut worth = vec![0.0; self.demand.rooms.len()];
        for (limit, price) in self.limits.iter().zip(&prices[self.demand.items.len()..]) {
            worth[limit.kind()] += price;
        }
        worth
    }

    /// Brings a pattern in; false when nothing can leave for it.
    pub(super) fn enter_pattern(&mut self, kind: usize, pattern: Vec<usize>) -> bool {
        let column = self.pattern_column(kind, &pattern);
        let price = self.demand.prices[kind] as f64;
        self.enter(&column, Column::Pattern { kind, pattern }, price)
    }

    fn pattern_column(&self, kind: usize, pattern: &[usize]) -> Vec<f64> {
        let limits = self.limits.iter().map(|limit| if limit.kind() == kind { 1.0 } else { 0.0 });
        pattern.iter().map(|&count| count as f64).chain(limits).collect()
    }

    /// Brings a column into the basis; false when nothing can leave for it.
    fn enter(&mut self, column: &[f64], what: Column, cost: f64) -> bool {
        let direction: Vec<f64> =
            self.inverse.iter().map(|row| row.iter().zip(column).map(|(a, b)| a * b).sum()).collect();
        let leaving = (0..direction.len())
            .filter(|&row| direction[row] > 1e-9)
            .map(|row| (row, self.amounts[row] / direction[row]))
            // Among equal steps the largest pivot, for the sake of the arithmetic.
            .min_by(|a, b| {
                let near = (a.1 - b.1).abs() < 1e-12;
                if near { direction[b.0].total_cmp(&direction[a.0]) } else { a.1.total_cmp(&b.1) }
            });
        let Some((leaving, step)) = leaving else {
            return false;
        };
        let pivot = direction[leaving];
        for entry in &mut self.inverse[leaving] {
            *entry /= pivot;
        }
        let pivot_row = self.inverse[leaving].clone();
        for (row, &factor) in direction.iter().enumerate() {
            if row != leaving && factor != 0.0 {
                for (entry, above) in self.inverse[row].iter_mut().zip(&pivot_row) {
                    *entry -= factor * above;
                }
                self.amounts[row] = (self.amounts[row] - factor * step).max(0.0);
            }
        }
        self.amounts[leaving] = step.max(0.0);
        self.basis[leaving] = (what, cost);
        true
    }

    /// The patterns in the basis and how many bars of each.
    pub(super) fn batches(self) -> Vec<Batch> {
        self.basis
            .into_iter()
            .zip(self.amounts)
            .filter_map(|((column, _), bars)| match column {
                Column::Pattern { kind, pattern } if bars > TOLERANCE => Some(Batch { kind, pattern, bars }),
                _ => None,
            })
            .collect()
    }
}
