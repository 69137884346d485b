//! The search for a better sharing-out: gap by gap, every way to have so much of the heap left.
//!
//! Two ways to the same remainder differ in cost alone, so the cheaper is kept. A way that weighs more than the bound
//! leaves room for can't better what is known and is dropped; so, beyond a number of ways, are the heaviest, and then
//! the search proves nothing.

use std::collections::HashMap;

use super::columns::Stack;
use super::plenty::{Cost, plus};

/// Ways kept after each gap: few where there are many gaps, so that the search is bounded.
const WAYS: std::ops::RangeInclusive<usize> = 60..=1500;
/// Ways kept in all.
const MOST_WAYS: usize = 6000;

/// A way to fill the gaps so far.
struct Way {
    left: Vec<u32>,
    cost: Cost,
    excess: i64,
    /// Index of the way before it, and of the stack that it adds.
    from: (usize, usize),
}

/// Finds the cheapest way to fill gaps out of `heap`, each from its list of stacks, the excess of all together at most
/// `slack`. Gives the index of each gap's stack, and whether no way was dropped that could have been cheaper.
pub(super) fn search(lists: &[&[Stack]], heap: &[u32], slack: i64) -> (Option<(Cost, Vec<usize>)>, bool) {
    let mut layers: Vec<Vec<(usize, usize)>> = Vec::new();
    let mut ways = vec![Way { left: heap.to_vec(), cost: [0; 4], excess: 0, from: (0, 0) }];
    let wide = (MOST_WAYS / lists.len().max(1)).clamp(*WAYS.start(), *WAYS.end());
    let mut all = true;
    for list in lists {
        let mut next: Vec<Way> = Vec::new();
        let mut met: HashMap<Vec<u32>, usize> = HashMap::new();
        for (index, way) in ways.iter().enumerate() {
            for (choice, stack) in list.iter().enumerate() {
                if way.excess + stack.excess > slack {
                    break;
                }
                let left = way.left.iter().zip(&stack.counts).map(|(l, n)| l.checked_sub(*n));
                let Some(left) = left.collect::<Option<Vec<u32>>>() else { continue };
                let (cost, excess) = (plus(way.cost, stack.cost), way.excess + stack.excess);
                let found = Way { left, cost, excess, from: (index, choice) };
                match met.get(&found.left) {
                    Some(known) if next[*known].cost <= cost => {}
                    Some(known) => next[*known] = found,
                    None => {
                        met.insert(found.left.clone(), next.len());
                        next.push(found);
                    }
                }
            }
        }
        if next.len() > wide {
            next.sort_by(|a, b| a.excess.cmp(&b.excess).then(a.cost.cmp(&b.cost)));
            next.truncate(wide);
            all = false;
        }
        layers.push(next.iter().map(|way| way.from).collect());
        ways = next;
    }
    let best = ways.iter().enumerate().min_by_key(|(_, way)| way.cost);
    let found = best.map(|(mut at, way)| {
        let back = layers.iter().rev().map(|layer| {
            let (before, choice) = layer[at];
            at = before;
            choice
        });
        let mut choices: Vec<usize> = back.collect();
        choices.reverse();
        (way.cost, choices)
    });
    (found, all)
}
