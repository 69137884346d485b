//! Stacks of the packers that are scarce, made on demand: for one gap, the cheapest at given weights first.
//!
//! A stack is told by how many it takes of each scarce size; what they leave of the gap is made up from the sizes of
//! which there are plenty, as well as can be ([`Plenty::best`]), so the stack that takes none is always there. *Weights*
//! say what a packer of each size, and each part of the cost, counts for.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::plenty::{Cost, Plenty, plus};

/// Weights are whole thousandths, so that every bound is exact.
pub(super) const THOUSAND: i64 = 1000;
/// No stack comes to this.
const NEVER: i64 = i64::MAX / 4;

/// What the packers are shared out for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aim {
    /// Places made up, then near, then not over, then few pieces.
    Pack,
    /// Places made up, then few packers of the size of this index.
    Spare(usize),
}

/// Gaps of one depth.
#[derive(Debug, Clone)]
pub(super) struct Gaps {
    /// Their depth, grains.
    pub(super) depth: u32,
    /// How many there are.
    pub(super) alike: i64,
    /// The least that one of them costs if nothing runs out.
    pub(super) least: Cost,
}

/// The heap and what it is for.
#[derive(Clone, Copy)]
pub(super) struct Heap<'a> {
    /// The scarce thicknesses in grains, thickest first.
    pub(super) sizes: &'a [u32],
    /// How many there are of each.
    pub(super) counts: &'a [u32],
    /// The sizes that don't run out.
    pub(super) plenty: &'a Plenty,
    /// What it is shared out for.
    pub(super) aim: Aim,
}

impl Heap<'_> {
    /// What one packer of a size adds to the cost.
    fn piece(&self, size: usize) -> Cost {
        match self.aim {
            Aim::Pack => [0, 0, 0, 1],
            Aim::Spare(spared) => [0, i64::from(size == spared), 0, 0],
        }
    }

    /// What is left of a gap costs once it is made up.
    fn rest(&self, rest: i64) -> Cost {
        let best = self.plenty.best(rest);
        match self.aim {
            Aim::Pack => best,
            Aim::Spare(_) => [best[0], 0, 0, 0],
        }
    }

    /// What a gap costs with these packers in it.
    pub(super) fn cost(&self, depth: u32, counts: &[u32]) -> Cost {
        let taken: i64 = counts.iter().zip(self.sizes).map(|(n, t)| i64::from(*n) * i64::from(*t)).sum();
        counts.iter().enumerate().fold(self.rest(i64::from(depth) - taken), |cost, (size, n)| {
            plus(cost, self.piece(size).map(|part| part * i64::from(*n)))
        })
    }
}

/// A stack of scarce packers for one gap.
pub(super) struct Stack {
    /// How many of each size.
    pub(super) counts: Vec<u32>,
    /// What the gap costs with it.
    pub(super) cost: Cost,
    /// How much more it weighs than the least that any stack for this gap does.
    pub(super) excess: i64,
}

/// The heap at weights, in thousandths.
pub(super) struct Weighed<'a> {
    heap: &'a Heap<'a>,
    parts: Cost,
    /// What one packer of each size weighs, its part of the cost included.
    each: Vec<i64>,
    /// The first parts of the cost that have to be each gap's least.
    fixed: usize,
}

/// The cheapest stack for every gap, all gaps together.
pub(super) struct Least {
    pub(super) weight: i64,
    pub(super) cost: Cost,
    pub(super) used: Vec<i64>,
}

fn dot(weights: &Cost, cost: &Cost) -> i64 {
    weights.iter().zip(cost).map(|(w, c)| w * c).sum()
}

impl<'a> Weighed<'a> {
    pub(super) fn new(heap: &'a Heap<'a>, parts: Cost, sizes: &[i64], fixed: usize) -> Self {
        let each = sizes.iter().enumerate().map(|(size, weight)| weight + dot(&parts, &heap.piece(size)));
        Self { heap, parts, each: each.collect(), fixed }
    }

    /// What is left of a gap weighs when it is made up, unless a fixed part of its cost is over its least.
    fn rest(&self, gaps: &Gaps, taken: usize) -> i64 {
        let rest = self.heap.rest(i64::from(gaps.depth) - i64::try_from(taken).unwrap_or(i64::MAX));
        if rest[..self.fixed] == gaps.least[..self.fixed] { dot(&self.parts, &rest) } else { NEVER }
    }

    /// The lightest stack for each gap from a heap that doesn't run out: a bound on any sharing-out.
    pub(super) fn least(&self, all: &[Gaps]) -> Least {
        let most = all.iter().map(|gaps| 2 * gaps.depth as usize).max().unwrap_or(0);
        // The lightest way to every total, and the size that it ends with.
        let mut totals = vec![(NEVER, usize::MAX); most + 1];
        totals[0].0 = 0;
        for total in 1..=most {
            for (size, thickness) in self.heap.sizes.iter().enumerate() {
                let Some(before) = total.checked_sub(*thickness as usize) else { continue };
                let weight = totals[before].0 + self.each[size];
                if weight < totals[total].0 {
                    totals[total] = (weight, size);
                }
            }
        }
        let mut least = Least { weight: 0, cost: [0; 4], used: vec![0; self.heap.sizes.len()] };
        for gaps in all {
            let weights = (0..2 * gaps.depth as usize)
                .map(|taken| (totals[taken].0.saturating_add(self.rest(gaps, taken)), taken));
            let Some((weight, mut taken)) = weights.min() else { continue };
            least.weight += weight * gaps.alike;
            let mut counts = vec![0; self.heap.sizes.len()];
            while let Some(thickness) = self.heap.sizes.get(totals[taken].1) {
                counts[totals[taken].1] += 1;
                taken -= *thickness as usize;
            }
            let cost = self.heap.cost(gaps.depth, &counts);
            least.cost = plus(least.cost, cost.map(|part| part * gaps.alike));
            for (used, n) in least.used.iter_mut().zip(counts) {
                *used += gaps.alike * i64::from(n);
            }
        }
        least
    }

    /// The stacks for one gap that weigh at most `slack` more than the lightest, the lightest first, up to `keep` of
    /// them; and whether that is all.
    pub(super) fn stacks(&self, gaps: &Gaps, slack: i64, keep: usize) -> (Vec<Stack>, bool) {
        let (sizes, most) = (self.heap.sizes, 2 * gaps.depth as usize);
        // The least that is still to come once so much is taken and only the sizes from an index on are left.
        let mut to_come = vec![(0..most).map(|taken| self.rest(gaps, taken)).collect::<Vec<i64>>()];
        for (size, thickness) in sizes.iter().enumerate().rev() {
            let mut next = to_come[to_come.len() - 1].clone();
            for taken in (0..most).rev() {
                if let Some(more) = next.get(taken + *thickness as usize) {
                    next[taken] = next[taken].min(more.saturating_add(self.each[size]));
                }
            }
            to_come.push(next);
        }
        to_come.reverse();
        let lightest = to_come[0].first().copied().unwrap_or(NEVER);
        let mut stacks = Vec::new();
        let mut open = BinaryHeap::from([Reverse((lightest, 0, 0, 0, 0, vec![0; sizes.len()]))]);
        let mut met = 1;
        while let Some(Reverse((whole, _, weight, size, taken, counts))) = open.pop() {
            if whole >= NEVER || whole - lightest > slack {
                break;
            }
            if size == sizes.len() {
                if stacks.len() == keep {
                    return (stacks, false);
                }
                let cost = self.heap.cost(gaps.depth, &counts);
                stacks.push(Stack { counts, cost, excess: whole - lightest });
                continue;
            }
            let after = taken + sizes[size] as usize;
            if counts[size] < self.heap.counts[size] && after < most {
                let mut more = counts.clone();
                more[size] += 1;
                let heavier = weight + self.each[size];
                let whole = heavier.saturating_add(to_come[size][after]);
                open.push(Reverse((whole, met, heavier, size, after, more)));
            }
            let whole = weight + to_come[size + 1][taken];
            open.push(Reverse((whole, met + 1, weight, size + 1, taken, counts)));
            met += 2;
        }
        (stacks, true)
    }
}
