//! Prices on packers that are scarce: the bound that proves a sharing-out best.
//!
//! If every packer of a size is given a price, each gap picks its cheapest stack on its own, and the sum of what
//! they pick, less the price of the whole heap, is a lower bound on any sharing-out (Lagrangian relaxation; true for
//! any prices of nothing or more). The best prices are the dual of a linear programme in which a gap may take parts
//! of several stacks; it is solved here by the primal simplex method, from every gap taking the empty stack. Should
//! it stop short, the prices are only less good, and the bound is still true.

use nalgebra::{DMatrix, DVector};

use super::stacks::Stack;

/// Prices and reduced costs are whole thousandths of a packer, so that the bound is exact.
pub(super) const THOUSAND: i128 = 1000;
/// Multiplications spent on the programme.
const MOST_WORK: usize = 40_000_000;
/// Exchanges at most.
const MOST_EXCHANGES: usize = 2000;
/// Exchanges after which the first variable that helps enters, which cannot go round in circles.
const CAREFUL: usize = 500;
/// Relative size under which a figure is rounding.
const ROUNDING: f64 = 1e-9;

/// A stack with its cost as one figure.
pub(super) type Priced = (i128, Stack);

/// The gaps of one size, and the stacks that each of them can take; the empty one is among them.
pub(super) struct Group {
    /// Number of gaps.
    pub(super) alike: usize,
    /// The stacks.
    pub(super) stacks: Vec<Priced>,
}

/// What `stack` costs with the packers paid for, in thousandths.
pub(super) fn reduced(prices: &[i128], cost: i128, stack: &Stack) -> i128 {
    cost * THOUSAND + worth(prices, &stack.counts)
}

/// What `counts` packers of each size are worth.
pub(super) fn worth(prices: &[i128], counts: &[u32]) -> i128 {
    prices.iter().zip(counts).map(|(p, n)| p * i128::from(*n)).sum()
}

/// Good prices, in thousandths, for `counts` packers of each size.
pub(super) fn find(groups: &[Group], counts: &[u32]) -> Vec<i128> {
    let mut programme = Programme::new(groups, counts);
    let rows = programme.inside.len();
    let stacks: usize = groups.iter().map(|g| g.stacks.len()).sum();
    let exchanges = MOST_WORK / (rows * rows + stacks * counts.len()).max(1);
    for n in 0..exchanges.min(MOST_EXCHANGES) {
        if !programme.exchange(n >= CAREFUL) {
            break;
        }
    }
    let duals = programme.duals();
    duals.iter().take(counts.len()).map(|y| whole(-y)).collect()
}

/// A variable of the programme.
#[derive(Clone, Copy)]
enum Variable {
    /// How many packers of a size are not used.
    Unused(usize),
    /// How many gaps of a group take one of its stacks.
    Taken(usize, usize),
}

/// One row for each size (used and unused are what is there), then one for each group (its gaps each take a stack).
struct Programme<'a> {
    groups: &'a [Group],
    sizes: usize,
    /// The variable that each row has in the basis, its cost and its value.
    inside: Vec<(Variable, f64)>,
    values: DVector<f64>,
    inverse: DMatrix<f64>,
    scale: f64,
}

impl<'a> Programme<'a> {
    fn new(groups: &'a [Group], counts: &[u32]) -> Self {
        let unused = (0..counts.len()).map(|i| (Variable::Unused(i), 0.0));
        let empty = groups.iter().enumerate().map(|(g, group)| {
            let bare = |(_, s): &Priced| s.counts.iter().all(|n| *n == 0);
            let k = group.stacks.iter().position(bare).unwrap_or(0);
            let cost = group.stacks.get(k).map_or(0.0, |(c, _)| *c as f64);
            (Variable::Taken(g, k), cost)
        });
        let inside: Vec<(Variable, f64)> = unused.chain(empty).collect();
        let there = counts.iter().map(|c| f64::from(*c));
        let gaps = groups.iter().map(|g| g.alike as f64);
        let rows = inside.len();
        Self {
            groups,
            sizes: counts.len(),
            values: DVector::from_iterator(rows, there.chain(gaps)),
            inverse: DMatrix::identity(rows, rows),
            scale: inside.iter().map(|(_, c)| c.abs()).fold(1.0, f64::max),
            inside,
        }
    }

    /// The worth of one more of each row's right-hand side.
    fn duals(&self) -> DVector<f64> {
        let costs = DVector::from_iterator(self.inside.len(), self.inside.iter().map(|(_, c)| *c));
        self.inverse.tr_mul(&costs)
    }

    /// Lets one variable into the basis for another. False if none helps.
    fn exchange(&mut self, careful: bool) -> bool {
        let Some((entering, cost)) = self.entering(careful) else {
            return false;
        };
        let column = &self.inverse * self.column(entering);
        let ratio = |row: usize| self.values[row] / column[row];
        let leaving = (0..self.inside.len())
            .filter(|row| column[*row] > ROUNDING)
            .min_by(|a, b| ratio(*a).total_cmp(&ratio(*b)).then(a.cmp(b)));
        let Some(row) = leaving else {
            return false;
        };
        let (step, pivot) = (ratio(row).max(0.0), column[row]);
        let pivot_row = self.inverse.row(row) / pivot;
        for other in 0..self.inside.len() {
            if other != row && column[other] != 0.0 {
                self.values[other] -= step * column[other];
                let change = &pivot_row * column[other];
                let mut target = self.inverse.row_mut(other);
                target -= change;
            }
        }
        self.inverse.set_row(row, &pivot_row);
        self.values[row] = step;
        self.inside[row] = (entering, cost);
        true
    }

    /// The variable that lowers the cost most for each one of it, or the first that does at all.
    fn entering(&self, careful: bool) -> Option<(Variable, f64)> {
        let y = self.duals();
        let mut best: Option<(f64, Variable, f64)> = None;
        let mut offer = |gain: f64, variable, cost| {
            let least = best.as_ref().map_or(-ROUNDING * self.scale, |b| b.0);
            if gain < least && !(careful && best.is_some()) {
                best = Some((gain, variable, cost));
            }
        };
        for size in 0..self.sizes {
            offer(-y[size], Variable::Unused(size), 0.0);
        }
        for (g, group) in self.groups.iter().enumerate() {
            for (k, (cost, stack)) in group.stacks.iter().enumerate() {
                let cost = *cost as f64;
                let used: f64 = stack.counts.iter().zip(y.iter()).map(|(n, y)| f64::from(*n) * y).sum();
                offer(cost - used - y[self.sizes + g], Variable::Taken(g, k), cost);
            }
        }
        best.map(|(_, variable, cost)| (variable, cost))
    }

    fn column(&self, variable: Variable) -> DVector<f64> {
        let mut column = DVector::zeros(self.inside.len());
        match variable {
            Variable::Unused(size) => column[size] = 1.0,
            Variable::Taken(g, k) => {
                column[self.sizes + g] = 1.0;
                for (row, n) in self.groups[g].stacks[k].1.counts.iter().enumerate() {
                    column[row] = f64::from(*n);
                }
            }
        }
        column
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a float cast saturates, and any price of nothing or more gives a true bound"
)]
fn whole(price: f64) -> i128 {
    i128::from((price.clamp(0.0, 1e15) * 1000.0).round() as i64)
}
