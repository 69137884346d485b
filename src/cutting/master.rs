//! The linear programme over patterns, solved by the simplex method with patterns made as they are wanted
//! (Gilmore and Gomory 1961), and the exact bound that its prices give.
//!
//! The programme runs in floating point; the bound does not. For any prices of the pieces that are whole
//! multiples of 1/[`SCALE`] of a penny, pieces' worth plus what each bar kind falls short of or exceeds its best
//! pattern bounds the cost from below, in exact arithmetic. Rounding can only make it worse, never wrong.

use super::effort::Meter;
use super::knapsack::{self, Item};
use super::units::int;

/// Parts of a penny in which pieces are priced.
const SCALE: i64 = 1_000_000;
const TOLERANCE: f64 = 1e-7;
const TRACE: f64 = 1e-9;

/// Fixed pieces to be cut: items and bar kinds with the number of bars each may have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Demand {
    pub(super) items: Vec<Item>,
    /// Room (bar and a kerf) and price of each kind.
    pub(super) rooms: Vec<i64>,
    pub(super) prices: Vec<i64>,
    /// Fewest and most bars of each kind.
    pub(super) fewest: Vec<usize>,
    pub(super) most: Vec<usize>,
}

impl Demand {
    /// Number of pieces.
    pub(super) fn pieces(&self) -> usize {
        self.items.iter().map(|item| item.most).sum()
    }

    /// The most bars of a kind that could be of any use.
    fn cap(&self, kind: usize) -> usize {
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

/// The solved programme.
#[derive(Debug, Clone)]
pub(super) struct Relaxed {
    pub(super) batches: Vec<Batch>,
    /// No cutting costs less: exact.
    pub(super) bound: i64,
}

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

struct Simplex<'a> {
    demand: &'a Demand,
    limits: Vec<Limit>,
    basis: Vec<(Column, f64)>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

/// Patterns met so far, by kind, as (item, count): pricing these first saves most of the knapsacks.
#[derive(Debug, Clone, Default)]
pub(super) struct Pool(Vec<(usize, Vec<(usize, usize)>)>);

impl Pool {
    fn add(&mut self, kind: usize, pattern: &[usize]) {
        let sparse = pattern
            .iter()
            .copied()
            .enumerate()
            .filter(|&(_, count)| count > 0)
            .collect();
        self.0.push((kind, sparse));
    }

    /// The known pattern, within what is still wanted, that lowers the cost most.
    fn best(&self, demand: &Demand, prices: &[f64], limits: &[f64]) -> Option<(usize, Vec<usize>)> {
        self.0
            .iter()
            .filter(|(kind, pattern)| {
                demand.most[*kind] > 0
                    && pattern
                        .iter()
                        .all(|&(item, count)| count <= demand.items[item].most)
            })
            .map(|entry| {
                let worth: f64 = entry
                    .1
                    .iter()
                    .map(|&(item, count)| prices[item] * count as f64)
                    .sum();
                (demand.prices[entry.0] as f64 - worth - limits[entry.0], entry)
            })
            .filter(|&(reduced, (kind, _))| reduced < -tolerance(demand, *kind))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, (kind, sparse))| {
                let mut pattern = vec![0; demand.items.len()];
                for &(item, count) in sparse {
                    pattern[item] = count;
                }
                (*kind, pattern)
            })
    }
}

/// A saving below this is arithmetic, not timber.
fn tolerance(demand: &Demand, kind: usize) -> f64 {
    TOLERANCE * (1.0 + demand.prices[kind] as f64)
}

/// Solves the programme; `None` when the patterns are too many to price or the meter ran out before any bound.
pub(super) fn solve(demand: &Demand, pool: &mut Pool, meter: &mut Meter) -> Option<Relaxed> {
    let mut simplex = Simplex::new(demand);
    let mut bound = i64::MIN;
    let rows = simplex.basis.len();
    for _ in 0..100 * rows + 1000 {
        if !meter.spend((rows * rows) as u64 / 32 + pool.0.len() as u64 / 16 + 1) {
            break;
        }
        let prices = simplex.prices();
        if simplex.enter_filler(&prices) {
            continue;
        }
        let limits = simplex.limit_prices(&prices);
        if let Some((kind, pattern)) = pool.best(demand, &prices, &limits) {
            if simplex.enter_pattern(kind, pattern) {
                continue;
            }
            break;
        }
        let values: Vec<i64> = prices[..demand.items.len()]
            .iter()
            .map(|&price| whole(price))
            .collect();
        let Some(best) = knapsack::best_patterns(&values, &demand.items, &demand.rooms, meter) else {
            break;
        };
        bound = bound.max(exact_bound(demand, &values, &best));
        let mut found = false;
        for (kind, (value, pattern)) in best.iter().enumerate() {
            let reduced = demand.prices[kind] as f64 - *value as f64 / SCALE as f64 - limits[kind];
            if demand.most[kind] > 0 && reduced < -tolerance(demand, kind) {
                pool.add(kind, pattern);
                found = true;
            }
        }
        // Once the programme's value is at the bound, but for the traces, there is nothing to gain by going on.
        if !found || simplex.value() <= bound as f64 + 1e-3 {
            break;
        }
    }
    (bound > i64::MIN).then(|| Relaxed {
        batches: simplex.batches(),
        bound,
    })
}

/// Rounds a price to whole parts of a penny; a negative one is worth nothing.
#[expect(
    clippy::cast_possible_truncation,
    reason = "prices are under 10^9 pence, and a cast from f64 saturates"
)]
fn whole(price: f64) -> i64 {
    (price * SCALE as f64).round().clamp(0.0, 1e15) as i64
}

/// Pieces at these prices are worth so much; each bar kind is taken as often as that lowers the sum.
fn exact_bound(demand: &Demand, values: &[i64], best: &[(i64, Vec<usize>)]) -> i64 {
    let worth: i128 = demand
        .items
        .iter()
        .zip(values)
        .map(|(item, &value)| i128::from(value) * i128::from(int(item.most)))
        .sum();
    let bars: i128 = (0..demand.rooms.len())
        .map(|kind| {
            let over = i128::from(demand.prices[kind]) * i128::from(SCALE) - i128::from(best[kind].0);
            let count = if over < 0 {
                demand.cap(kind)
            } else {
                demand.fewest[kind]
            };
            over * i128::from(int(count))
        })
        .sum();
    let pence = (worth + bars + i128::from(SCALE) - 1).div_euclid(i128::from(SCALE));
    i64::try_from(pence).unwrap_or(i64::MAX)
}

impl<'a> Simplex<'a> {
    /// Starts from a basis of artificial columns dearer than any bar, and of slacks.
    fn new(demand: &'a Demand) -> Self {
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
            .map(|row| {
                (0..rows)
                    .map(|column| if row == column { 1.0 } else { 0.0 })
                    .collect()
            })
            .collect();
        Self {
            demand,
            limits,
            basis,
            inverse,
            amounts,
        }
    }

    fn prices(&self) -> Vec<f64> {
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

    fn value(&self) -> f64 {
        self.basis
            .iter()
            .zip(&self.amounts)
            .map(|((_, cost), amount)| cost * amount)
            .sum()
    }

    /// Lets a slack or surplus in if its price has the wrong sign.
    fn enter_filler(&mut self, prices: &[f64]) -> bool {
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
    fn limit_prices(&self, prices: &[f64]) -> Vec<f64> {
        let mut worth = vec![0.0; self.demand.rooms.len()];
        for (limit, price) in self.limits.iter().zip(&prices[self.demand.items.len()..]) {
            worth[limit.kind()] += price;
        }
        worth
    }

    fn enter_pattern(&mut self, kind: usize, pattern: Vec<usize>) -> bool {
        let column = self.pattern_column(kind, &pattern);
        let price = self.demand.prices[kind] as f64;
        self.enter(&column, Column::Pattern { kind, pattern }, price)
    }

    fn pattern_column(&self, kind: usize, pattern: &[usize]) -> Vec<f64> {
        let limits = self
            .limits
            .iter()
            .map(|limit| if limit.kind() == kind { 1.0 } else { 0.0 });
        pattern.iter().map(|&count| count as f64).chain(limits).collect()
    }

    /// Brings a column into the basis; false when nothing can leave for it.
    fn enter(&mut self, column: &[f64], what: Column, cost: f64) -> bool {
        let direction: Vec<f64> = self
            .inverse
            .iter()
            .map(|row| row.iter().zip(column).map(|(a, b)| a * b).sum())
            .collect();
        let leaving = (0..direction.len())
            .filter(|&row| direction[row] > 1e-9)
            .map(|row| (row, self.amounts[row] / direction[row]))
            // Among equal steps the largest pivot, for the sake of the arithmetic.
            .min_by(|a, b| {
                let near = (a.1 - b.1).abs() < 1e-12;
                if near {
                    direction[b.0].total_cmp(&direction[a.0])
                } else {
                    a.1.total_cmp(&b.1)
                }
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

    fn batches(self) -> Vec<Batch> {
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
