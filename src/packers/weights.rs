//! Weights on packers that are scarce: the bound that proves a sharing-out best.
//!
//! If every packer of a scarce size weighs something, each gap takes its lightest stack on its own, and what they weigh
//! together, less what the whole heap weighs, is a lower bound on any sharing-out (Lagrangian relaxation; true for any
//! weights of nothing or more). The best weights are the dual of a linear programme that mixes such sharings-out until
//! the heap is enough: it is solved by the simplex method, each new mixture made at the weights of the last
//! (Dantzig–Wolfe). Should it stop short, the weights are only less good, and the bound is still true.

use super::columns::{Gaps, Heap, THOUSAND, Weighed};
use super::plenty::Cost;

/// Mixtures tried.
const ROUNDS: usize = 80;
/// Totals weighed in all rounds.
const MOST_WORK: usize = 1_500_000;
/// Relative size under which a figure is rounding.
const ROUNDING: f64 = 1e-9;

/// Weights on the parts of the cost and on the sizes, thousandths, and the bound on one part that they prove.
pub(super) struct Weights {
    pub(super) parts: Cost,
    pub(super) sizes: Vec<i64>,
    /// Thousandths.
    pub(super) bound: i64,
}

/// Good weights for the least of part `part` of the cost, where the parts before it stay at `known` and the first
/// `fixed` of them at each gap's own least. `used` is what the sharing-out that comes to `known` takes of each size.
pub(super) fn find(
    heap: &Heap<'_>,
    all: &[Gaps],
    (part, fixed): (usize, usize),
    known: &Cost,
    used: &[i64],
) -> Weights {
    let rows: Vec<f64> = heap.counts.iter().map(|n| f64::from(*n)).collect();
    let held = &known[fixed..part];
    let limits: Vec<f64> = rows.into_iter().chain(held.iter().map(|c| *c as f64)).collect();
    let mixture = |used: &[i64], cost: &Cost| -> Vec<f64> {
        used.iter().chain(&cost[fixed..part]).map(|n| *n as f64).collect()
    };
    let mut programme = Programme::new(&limits, mixture(used, known), known[part] as f64);
    let totals: usize = all.iter().map(|gaps| 2 * gaps.depth as usize).sum();
    let deepest = all.iter().map(|gaps| 2 * gaps.depth as usize).max().unwrap_or(0);
    let rounds = ROUNDS.min(MOST_WORK / (totals + deepest * heap.sizes.len()).max(1)).max(2);
    let mut best: Option<Weights> = None;
    for _ in 0..rounds {
        programme.solve();
        let weights: Vec<i64> = programme.duals().iter().map(|y| whole(-y)).collect();
        let (sizes, others) = weights.split_at(heap.sizes.len());
        let mut parts = [0; 4];
        parts[part] = THOUSAND;
        parts[fixed..part].copy_from_slice(&others[..part - fixed]);
        let least = Weighed::new(heap, parts, sizes, fixed).least(all);
        let spent: i64 = sizes.iter().zip(heap.counts).map(|(w, n)| w * i64::from(*n)).sum();
        let allowed: i64 = others.iter().zip(held).map(|(w, c)| w * c).sum();
        let bound = least.weight - spent - allowed;
        if best.as_ref().is_none_or(|best| bound > best.bound) {
            best = Some(Weights { parts, sizes: sizes.to_vec(), bound });
        }
        let proven = bound > (known[part] - 1) * THOUSAND;
        if proven || !programme.add(mixture(&least.used, &least.cost), least.cost[part] as f64) {
            break;
        }
    }
    best.unwrap_or_else(|| Weights { parts: [0; 4], sizes: vec![0; heap.sizes.len()], bound: i64::MIN / 2 })
}

/// Mixtures of sharings-out, the cheapest that keeps to the limits. One row for each limit, and one that the shares of
/// the mixture come to one.
struct Programme {
    /// Each sharing-out: what it takes of each limit, then 1; and its cost.
    columns: Vec<(Vec<f64>, f64)>,
    /// Each row's variable: a column, or what is left of a limit; its row of the inverse; its value.
    rows: Vec<(Option<usize>, Vec<f64>, f64)>,
}

impl Programme {
    /// With one sharing-out that keeps to the limits.
    fn new(limits: &[f64], taken: Vec<f64>, cost: f64) -> Self {
        let size = limits.len() + 1;
        let unit = |row: usize| -> Vec<f64> { (0..size).map(|i| f64::from(u8::from(i == row))).collect() };
        let mut rows: Vec<(Option<usize>, Vec<f64>, f64)> = Vec::new();
        for (row, (limit, taken)) in limits.iter().zip(&taken).enumerate() {
            let mut inverse = unit(row);
            inverse[size - 1] = -taken;
            rows.push((None, inverse, limit - taken));
        }
        rows.push((Some(0), unit(size - 1), 1.0));
        let mut programme = Self { columns: Vec::new(), rows };
        programme.columns.push((with_one(taken), cost));
        programme
    }

    /// The worth of one more of each limit, and last of the share.
    fn all_duals(&self) -> Vec<f64> {
        let mut duals = vec![0.0; self.rows.len()];
        for (variable, inverse, _) in &self.rows {
            if let Some(column) = variable {
                let cost = self.columns[*column].1;
                duals.iter_mut().zip(inverse).for_each(|(y, b)| *y += cost * b);
            }
        }
        duals
    }

    fn duals(&self) -> Vec<f64> {
        let mut duals = self.all_duals();
        duals.pop();
        duals
    }

    /// Adds a sharing-out, if it can better the mixture.
    fn add(&mut self, taken: Vec<f64>, cost: f64) -> bool {
        let column = with_one(taken);
        let gain = cost - inner(&self.all_duals(), &column);
        self.columns.push((column, cost));
        gain < -1e-7 * (1.0 + cost.abs())
    }

    /// Exchanges variables until none betters the mixture; of equal ones the first, so that it ends.
    fn solve(&mut self) {
        let limits = self.rows.len() - 1;
        for round in 0..50 * self.rows.len() {
            let duals = self.all_duals();
            let slacks = (0..limits).map(|row| (-duals[row], None, row));
            let others = self.columns.iter().enumerate();
            let others = others.map(|(i, (column, cost))| (cost - inner(&duals, column), Some(i), 0));
            let mut helping = slacks.chain(others).filter(|(gain, _, _)| *gain < -1e-7);
            // The best first; after a while the first that helps at all, which can't go round in circles.
            let entering = if round < 20 * self.rows.len() {
                helping.min_by(|a, b| a.0.total_cmp(&b.0))
            } else {
                helping.next()
            };
            let Some((_, variable, row)) = entering else { return };
            let step =
                |inverse: &Vec<f64>| variable.map_or(inverse[row], |i| inner(inverse, &self.columns[i].0));
            let column: Vec<f64> = self.rows.iter().map(|(_, inverse, _)| step(inverse)).collect();
            let ratio = |row: usize| self.rows[row].2.max(0.0) / column[row];
            let leaving = (0..=limits).filter(|row| column[*row] > ROUNDING);
            let Some(out) = leaving.min_by(|a, b| ratio(*a).total_cmp(&ratio(*b)).then(a.cmp(b))) else {
                return;
            };
            self.exchange(out, variable, &column);
        }
    }

    fn exchange(&mut self, out: usize, variable: Option<usize>, column: &[f64]) {
        let pivot = column[out];
        let mut row = std::mem::take(&mut self.rows[out].1);
        for b in &mut row {
            *b /= pivot;
        }
        let value = self.rows[out].2 / pivot;
        for (i, (_, inverse, held)) in self.rows.iter_mut().enumerate().filter(|(i, _)| *i != out) {
            inverse.iter_mut().zip(&row).for_each(|(b, r)| *b -= column[i] * r);
            *held -= column[i] * value;
        }
        self.rows[out] = (variable, row, value);
    }
}

fn with_one(mut taken: Vec<f64>) -> Vec<f64> {
    taken.push(1.0);
    taken
}

fn inner(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a float cast saturates, and any weight of nothing or more gives a true bound"
)]
fn whole(weight: f64) -> i64 {
    (weight.clamp(0.0, 1e6) * THOUSAND as f64).round() as i64
}
