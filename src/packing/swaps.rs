//! Bettering a sharing-out two gaps at a time: what two stacks and the rest of the heap hold is put together again
//! the cheapest way, until no pair gains. It can't prove anything, but it mends what the search left undone.

use super::stacks::Stack;
use super::worth::{Group, Priced};

/// Gaps beyond which pairs are too many.
const MOST_GAPS: usize = 250;
/// Rounds over all pairs.
const ROUNDS: usize = 20;

/// Betters `chosen`, the counts for each gap, of which the groups are `group_of`; `left` is what is not used.
/// Gives back the new cost.
pub(super) fn better(
    groups: &[Group],
    group_of: &[usize],
    chosen: &mut [Vec<u32>],
    left: &mut [u32],
    cost: i128,
) -> i128 {
    if chosen.len() > MOST_GAPS {
        return cost;
    }
    let mut lists: Vec<Vec<&Priced>> = groups.iter().map(|g| g.stacks.iter().collect()).collect();
    for list in &mut lists {
        list.sort_by_key(|(cost, _)| *cost);
    }
    let price = |gap: usize, counts: &[u32]| {
        let own = lists[group_of[gap]].iter().find(|(_, s)| s.counts == counts);
        own.map_or(0, |(cost, _)| *cost)
    };
    let mut costs: Vec<i128> = (0..chosen.len()).map(|gap| price(gap, &chosen[gap])).collect();
    let least = |gap: usize| lists[group_of[gap]].first().map_or(0, |(cost, _)| *cost);
    for _ in 0..ROUNDS {
        let mut gained = false;
        for a in 0..chosen.len() {
            for b in a + 1..chosen.len() {
                if costs[a] + costs[b] == least(a) + least(b) {
                    continue;
                }
                let pool: Vec<u32> =
                    left.iter().zip(&chosen[a]).zip(&chosen[b]).map(|((l, x), y)| l + x + y).collect();
                let found = pair(&lists[group_of[a]], &lists[group_of[b]], &pool, costs[a] + costs[b]);
                let Some((first, second)) = found else { continue };
                for (i, l) in left.iter_mut().enumerate() {
                    *l = pool[i] - first.1.counts[i] - second.1.counts[i];
                }
                (costs[a], costs[b]) = (first.0, second.0);
                chosen[a].clone_from(&first.1.counts);
                chosen[b].clone_from(&second.1.counts);
                gained = true;
            }
        }
        if !gained {
            break;
        }
    }
    costs.iter().sum()
}

/// The cheapest two stacks from `pool` that together cost less than `most`.
fn pair<'a>(
    first: &[&'a Priced],
    second: &[&'a Priced],
    pool: &[u32],
    mut most: i128,
) -> Option<(&'a Priced, &'a Priced)> {
    let least = second.first().map_or(0, |(cost, _)| *cost);
    let mut best = None;
    for a in first {
        if a.0 + least >= most {
            break;
        }
        let rest: Option<Vec<u32>> = pool.iter().zip(&a.1.counts).map(|(p, n)| p.checked_sub(*n)).collect();
        let Some(rest) = rest else { continue };
        let fits = |s: &Stack| s.counts.iter().zip(&rest).all(|(n, r)| n <= r);
        let partner = second.iter().take_while(|b| a.0 + b.0 < most).find(|b| fits(&b.1));
        if let Some(b) = partner {
            most = a.0 + b.0;
            best = Some((*a, *b));
        }
    }
    best
}
