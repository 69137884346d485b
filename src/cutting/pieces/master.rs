//! The linear programme over patterns, solved by the programme method with patterns made as they are wanted
//! (Gilmore and Gomory 1961), and the exact bound that its prices give.
//!
//! The programme runs in floating point; the bound does not. For any prices of the pieces that are whole
//! multiples of 1/[`SCALE`] of a penny, pieces' worth plus what each bar kind falls short of or exceeds its best
//! pattern bounds the cost from below, in exact arithmetic. Rounding can only make it worse, never wrong.

use super::demand::{Batch, Demand, tolerance};
use super::knapsack;
use super::pool::Pool;
use super::programme::Programme;
use crate::cutting::effort::Meter;
use crate::exact::int;

/// Parts of a penny in which pieces are priced.
const SCALE: i64 = 1_000_000;
/// The solved programme.
#[derive(Debug, Clone)]
pub(super) struct Relaxed {
    pub(super) batches: Vec<Batch>,
    /// No cutting costs less: exact.
    pub(super) bound: i64,
}

/// Solves the programme; `None` when the patterns are too many to price or the meter ran out before any bound.
pub(super) fn solve(demand: &Demand, pool: &mut Pool, meter: &mut Meter) -> Option<Relaxed> {
    let mut programme = Programme::new(demand);
    let mut bound = i64::MIN;
    let rows = programme.rows();
    for _ in 0..100 * rows + 1000 {
        if !meter.spend((rows * rows) as u64 / 80 + pool.len() as u64 / 40 + 1) {
            break;
        }
        let prices = programme.prices();
        if programme.enter_filler(&prices) {
            continue;
        }
        let limits = programme.limit_prices(&prices);
        if let Some((kind, pattern)) = pool.best(demand, &prices, &limits) {
            if programme.enter_pattern(kind, pattern) {
                continue;
            }
            break;
        }
        let values: Vec<i64> = prices[..demand.items.len()].iter().map(|&price| whole(price)).collect();
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
        if !found || programme.value() <= bound as f64 + 1e-3 {
            break;
        }
    }
    (bound > i64::MIN).then(|| Relaxed { batches: programme.batches(), bound })
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
            let count = if over < 0 { demand.cap(kind) } else { demand.fewest[kind] };
            over * i128::from(int(count))
        })
        .sum();
    let pence = (worth + bars + i128::from(SCALE) - 1).div_euclid(i128::from(SCALE));
    i64::try_from(pence).unwrap_or(i64::MAX)
}
