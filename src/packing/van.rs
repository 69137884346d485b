//! The fewest packers in all when there are only so many of each in the van.
//!
//! A stack for every gap has to come out of one heap. The search goes gap by gap, thickest gap first, over each
//! gap's stacks, cheapest at the packers' prices first, and drops a branch when what it has spent plus the priced
//! bound of the gaps still to come cannot beat the best found. Within its limits (stacks listed per gap, steps) it
//! is exact; beyond them the best found is bettered two gaps at a time, and is marked as not proven unless it meets
//! the bound.

use std::collections::HashMap;

use super::packers::Fewest;
use super::stacks::{self, Cost};
use super::swaps;
use super::worth::{self, Group, THOUSAND, reduced, worth};

/// Steps of the search at most, and the work that they share with the number of gaps.
const MOST_STEPS: usize = 20_000;
/// Steps times gaps.
const MOST_WORK: usize = 4_000_000;

/// The heap shared out.
pub(super) struct Shared {
    /// For each gap, how many of each size.
    pub(super) stacks: Vec<Vec<u32>>,
    /// Whether nothing better exists.
    pub(super) proven: bool,
}

/// Shares out `counts` of `sizes` (grains, thickest first) among `gaps` (grains).
pub(super) fn share(gaps: &[u32], sizes: &[u32], counts: &[u32], fewest: &Fewest) -> Shared {
    // Gaps alike are one group: their stacks are interchangeable, and are tried in one order only.
    let mut order: Vec<usize> = (0..gaps.len()).collect();
    order.sort_by(|a, b| gaps[*b].cmp(&gaps[*a]).then(a.cmp(b)));
    let mut distinct: Vec<u32> = order.iter().map(|i| gaps[*i]).collect();
    distinct.dedup();
    let mut left_out = Vec::new();
    let mut groups = Vec::new();
    // One figure for the cost: no number of packers saved is worth being farther off.
    let per_off = 1 + counts.iter().map(|c| i128::from(*c)).sum::<i128>();
    let figure = |cost: Cost| i128::from(cost.off) * per_off + i128::from(cost.pieces);
    for gap in &distinct {
        let listed = stacks::list(*gap, sizes, counts, fewest);
        left_out.push(listed.left_out.map(figure));
        groups.push(Group {
            alike: gaps.iter().filter(|g| *g == gap).count(),
            stacks: listed.list.into_iter().map(|s| (figure(s.cost), s)).collect(),
        });
    }
    let prices = worth::find(&groups, counts);
    let mut search = Search::new(&mut groups, &distinct, sizes, counts, &prices, per_off);
    let priced_bound = search.gap_by_gap(0, 0);
    let least = search.bound(0, 0, 0);
    search.try_gap(0);
    let finished = search.steps < search.most_steps;
    let group_of: Vec<usize> = search.group_of.iter().map(|(group, _)| *group).collect();
    let (cost, mut chosen) = search.best.unwrap_or_default();
    let mut left = counts.to_vec();
    for stack in &chosen {
        for (l, n) in left.iter_mut().zip(stack) {
            *l -= n;
        }
    }
    let cost = if finished { cost } else { swaps::better(&groups, &group_of, &mut chosen, &mut left, cost) };
    // A stack left off a list could only matter if, with the cheapest of everything else, it beat the answer.
    let nothing_left_out = groups.iter().zip(&left_out).all(|(group, least)| {
        let cheapest = group.stacks.first().map_or(0, |(c, s)| reduced(&prices, *c, s));
        least.is_none_or(|least| priced_bound - cheapest + least * THOUSAND > (cost - 1) * THOUSAND)
    });
    let mut shared = vec![vec![0; sizes.len()]; gaps.len()];
    for (gap, stack) in order.iter().zip(chosen) {
        shared[*gap] = stack;
    }
    Shared { stacks: shared, proven: least > (cost - 1) * THOUSAND || (finished && nothing_left_out) }
}

struct Search<'a> {
    groups: &'a [Group],
    /// Each group's reduced costs, in the order of its stacks, which is by them.
    priced: Vec<Vec<i128>>,
    /// The group of each gap, and the gap after the last of its group.
    group_of: Vec<(usize, usize)>,
    /// Thickness wanted by each gap and all after it.
    wanted: Vec<u64>,
    sizes: &'a [u32],
    prices: &'a [i128],
    per_off: i128,
    left: Vec<u32>,
    chosen: Vec<usize>,
    best: Option<(i128, Vec<Vec<u32>>)>,
    /// The least spent on reaching a gap with this much left of each size.
    met: HashMap<(usize, usize, Vec<u32>), i128>,
    steps: usize,
    most_steps: usize,
}

impl<'a> Search<'a> {
    fn new(
        groups: &'a mut [Group],
        gaps: &[u32],
        sizes: &'a [u32],
        counts: &[u32],
        prices: &'a [i128],
        per_off: i128,
    ) -> Self {
        let mut priced = Vec::with_capacity(groups.len());
        let (mut group_of, mut thicknesses) = (Vec::new(), Vec::new());
        for (index, group) in groups.iter_mut().enumerate() {
            group.stacks.sort_by_key(|(cost, stack)| (reduced(prices, *cost, stack), *cost));
            priced.push(group.stacks.iter().map(|(c, s)| reduced(prices, *c, s)).collect());
            let after = group_of.len() + group.alike;
            group_of.resize(after, (index, after));
            thicknesses.resize(after, u64::from(gaps[index]));
        }
        let mut wanted = vec![0; thicknesses.len() + 1];
        for (i, t) in thicknesses.iter().enumerate().rev() {
            wanted[i] = wanted[i + 1] + t;
        }
        Self {
            groups,
            priced,
            group_of,
            wanted,
            sizes,
            prices,
            per_off,
            left: counts.to_vec(),
            chosen: Vec::new(),
            best: None,
            met: HashMap::new(),
            steps: 0,
            most_steps: (MOST_WORK / (thicknesses.len() + 1)).min(MOST_STEPS),
        }
    }

    /// Whether these can still be taken from what is left.
    fn there(&self, counts: &[u32]) -> bool {
        counts.iter().zip(&self.left).all(|(c, l)| c <= l)
    }

    /// Thousandths that the gaps from the `from`-th on cost at least: each its cheapest priced stack that is still
    /// there, less the worth of what is left. `first` is the lowest choice open to the group of the `from`-th gap.
    fn gap_by_gap(&self, from: usize, first: usize) -> i128 {
        let mut total = -worth(self.prices, &self.left);
        let (mut at, mut skip) = (from, first);
        while let Some(&(group, after)) = self.group_of.get(at) {
            let cheapest = self.groups[group]
                .stacks
                .iter()
                .zip(&self.priced[group])
                .skip(skip)
                .find(|((_, s), _)| self.there(&s.counts))
                .map_or(0, |(_, priced)| *priced);
            total += cheapest * (after - at) as i128;
            (at, skip) = (after, 0);
        }
        total
    }

    /// Thousandths that they cost at least because what is left of the heap fills no more than its own thickness:
    /// to come as near as that takes every packer, and leaving one out is never worth its thickness.
    fn short(&self, from: usize) -> i128 {
        let heap = self.left.iter().zip(self.sizes).map(|(n, t)| u64::from(*n) * u64::from(*t));
        let open = self.wanted.get(from).map_or(0, |w| w.saturating_sub(heap.sum()));
        if open == 0 {
            return 0;
        }
        let pieces: i128 = self.left.iter().map(|n| i128::from(*n)).sum();
        (2 * i128::from(open) * self.per_off + pieces) * THOUSAND
    }

    /// The better of the two bounds on any answer from here, in thousandths.
    fn bound(&self, spent: i128, from: usize, first: usize) -> i128 {
        spent * THOUSAND + self.gap_by_gap(from, first).max(self.short(from))
    }

    fn try_gap(&mut self, spent: i128) {
        let at = self.chosen.len();
        let Some(&(group, after)) = self.group_of.get(at) else {
            if self.best.as_ref().is_none_or(|(best, _)| spent < *best) {
                let stack = |(gap, choice): (&(usize, usize), &usize)| {
                    self.groups[gap.0].stacks[*choice].1.counts.clone()
                };
                let stacks = self.group_of.iter().zip(&self.chosen).map(stack).collect();
                self.best = Some((spent, stacks));
            }
            return;
        };
        self.steps += 1;
        let alike = self.groups[group].alike;
        let first = if after - at < alike { self.chosen[at - 1] } else { 0 };
        if let Some((best, _)) = &self.best {
            // Costs are whole: more than one under the best is no better than the best.
            if self.steps >= self.most_steps || self.bound(spent, at, first) > (best - 1) * THOUSAND {
                return;
            }
            let state = (at, first, self.left.clone());
            if self.met.get(&state).is_some_and(|before| *before <= spent) {
                return;
            }
            self.met.insert(state, spent);
        }
        let groups = self.groups;
        for (choice, (cost, stack)) in groups[group].stacks.iter().enumerate().skip(first) {
            if !self.there(&stack.counts) {
                continue;
            }
            for (left, used) in self.left.iter_mut().zip(&stack.counts) {
                *left -= used;
            }
            self.chosen.push(choice);
            self.try_gap(spent + cost);
            self.chosen.pop();
            for (left, used) in self.left.iter_mut().zip(&stack.counts) {
                *left += used;
            }
            // Out of steps: unwind, but only once there is an answer.
            if self.best.is_some() && self.steps >= self.most_steps {
                return;
            }
        }
    }
}
