//! Prices on packers that are scarce: the bound that proves a sharing-out best.
//!
//! If every packer of a size is given a price, each gap picks its cheapest stack on its own, and the sum of what
//! they pick, less the price of the whole heap, is a lower bound on any sharing-out (Lagrangian relaxation; true for
//! any prices of nothing or more). Good prices are found by subgradient steps: dearer where the gaps together want
//! more than there is, cheaper where they want less.

use super::stacks::Stack;

/// Prices and reduced costs are whole thousandths of a packer, so that the bound is exact.
pub(super) const THOUSAND: i128 = 1000;
/// Work spent on the prices.
const MOST_WORK: usize = 4_000_000;
/// Steps at most.
const MOST_STEPS: usize = 300;

/// The gaps of one size, and the stacks that each of them can take.
pub(super) struct Group {
    /// Number of gaps.
    pub(super) alike: usize,
    /// The stacks, each with its cost as one figure.
    pub(super) stacks: Vec<(i128, Stack)>,
}

/// What `stack` costs with the packers paid for, in thousandths.
pub(super) fn reduced(prices: &[i128], cost: i128, stack: &Stack) -> i128 {
    cost * THOUSAND + worth(prices, &stack.counts)
}

/// What `counts` packers of each size are worth.
pub(super) fn worth(prices: &[i128], counts: &[u32]) -> i128 {
    prices.iter().zip(counts).map(|(p, n)| p * i128::from(*n)).sum()
}

/// Good prices for `counts` packers, knowing that a sharing-out costing `upper` exists.
pub(super) fn find(groups: &[Group], counts: &[u32], upper: i128) -> Vec<i128> {
    let stacks: usize = groups.iter().map(|g| g.stacks.len()).sum();
    let steps = (MOST_WORK / (stacks * counts.len()).max(1)).min(MOST_STEPS);
    let mut prices = vec![0.0_f64; counts.len()];
    let mut best = (f64::NEG_INFINITY, prices.clone());
    let (mut length, mut idle) = (1.0, 0);
    for _ in 0..steps {
        let (bound, excess) = relaxed(groups, counts, &prices);
        if bound > best.0 + 1e-9 {
            best = (bound, prices.clone());
            idle = 0;
        } else {
            idle += 1;
            if idle == 8 {
                (length, idle) = (length / 2.0, 0);
            }
        }
        let square: f64 = excess.iter().map(|e| e * e).sum();
        let gap = upper as f64 - bound;
        if square == 0.0 || gap <= 0.0 {
            break;
        }
        for (price, e) in prices.iter_mut().zip(&excess) {
            *price = (*price + length * gap / square * e).max(0.0);
        }
    }
    best.1.into_iter().map(whole).collect()
}

/// The bound at these prices, and how many more of each size the gaps want than there are.
fn relaxed(groups: &[Group], counts: &[u32], prices: &[f64]) -> (f64, Vec<f64>) {
    let mut excess: Vec<f64> = counts.iter().map(|c| -f64::from(*c)).collect();
    let mut bound: f64 = excess.iter().zip(prices).map(|(e, p)| e * p).sum();
    for group in groups {
        let priced = |(cost, stack): &(i128, Stack)| {
            let worth: f64 = prices
                .iter()
                .zip(&stack.counts)
                .map(|(p, n)| p * f64::from(*n))
                .sum();
            *cost as f64 + worth
        };
        let mut cheapest: Option<(f64, &Stack)> = None;
        for stack in &group.stacks {
            let cost = priced(stack);
            if cheapest.is_none_or(|(least, _)| cost < least) {
                cheapest = Some((cost, &stack.1));
            }
        }
        let Some((cost, stack)) = cheapest else { continue };
        bound += cost * group.alike as f64;
        for (e, n) in excess.iter_mut().zip(&stack.counts) {
            *e += f64::from(*n) * group.alike as f64;
        }
    }
    (bound, excess)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a float cast saturates, and any price of nothing or more gives a true bound"
)]
fn whole(price: f64) -> i128 {
    i128::from((price.min(1e15) * 1000.0).round() as i64)
}
