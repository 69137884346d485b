//! The best sharing-out when there are only so many of some sizes in the van.
//!
//! One part of the cost at a time: a bound on it by weights ([`weights`]), then a search for better ([`layers`]) among
//! the stacks that the bound leaves room for, until nothing is better or the search is cut short. With the parts before
//! at their least, every stack left out is proven useless, so what a search that was not cut short leaves standing is
//! the best there is.

use super::columns::{Aim, Gaps, Heap, Stack, THOUSAND, Weighed};
use super::plenty::{Cost, plus};
use super::{layers, weights};

/// Searches for one part of the cost.
const SEARCHES: usize = 3;
/// Stacks listed in all, though never fewer than [`LEAST_STACKS`] for a gap.
const MOST_STACKS: usize = 1500;
const LEAST_STACKS: usize = 16;
/// Totals looked at to list the stacks.
const MOST_WORK: usize = 8_000_000;

/// The heap shared out.
pub(super) struct Shared {
    /// For each gap, how many of each scarce size.
    pub(super) stacks: Vec<Vec<u32>>,
    pub(super) cost: Cost,
    /// Whether nothing better exists.
    pub(super) proven: bool,
}

/// Shares out `heap` among `gaps` (grains); `least` gives the least that a gap costs if nothing runs out.
pub(super) fn share(gaps: &[u32], heap: &Heap<'_>, least: &dyn Fn(u32) -> Cost) -> Shared {
    let mut order: Vec<usize> = (0..gaps.len()).filter(|i| gaps[*i] > 0).collect();
    order.sort_by(|a, b| gaps[*b].cmp(&gaps[*a]).then(a.cmp(b)));
    let mut all: Vec<Gaps> = Vec::new();
    let mut kind_of = Vec::new();
    for gap in &order {
        match all.last_mut().filter(|kind| kind.depth == gaps[*gap]) {
            Some(kind) => kind.alike += 1,
            None => all.push(Gaps { depth: gaps[*gap], alike: 1, least: least(gaps[*gap]) }),
        }
        kind_of.push(all.len() - 1);
    }
    let floor = all.iter().fold([0; 4], |sum, kind| plus(sum, kind.least.map(|part| part * kind.alike)));
    let mut sharing = Sharing { heap, all, kind_of, floor, chosen: Vec::new(), cost: [0; 4] };
    sharing.begin();
    let parts = match heap.aim {
        Aim::Pack => 4,
        Aim::Spare(_) => 2,
    };
    let mut proven = true;
    for part in 0..parts {
        // Where the parts before are not proven, more searching proves nothing either.
        proven &= sharing.better(part, if proven { SEARCHES } else { 1 });
    }
    let mut stacks = vec![vec![0; heap.sizes.len()]; gaps.len()];
    for (gap, counts) in order.iter().zip(sharing.chosen) {
        stacks[*gap] = counts;
    }
    Shared { stacks, cost: sharing.cost, proven }
}

struct Sharing<'a> {
    heap: &'a Heap<'a>,
    all: Vec<Gaps>,
    /// Each gap's kind, the deepest first.
    kind_of: Vec<usize>,
    /// What all cost at least.
    floor: Cost,
    /// The best found: how many of each size under each gap.
    chosen: Vec<Vec<u32>>,
    cost: Cost,
}

impl Sharing<'_> {
    /// A first answer: the thickest that fit, as long as they last, where that is better than none.
    fn begin(&mut self) {
        let mut left = self.heap.counts.to_vec();
        for kind in &self.kind_of {
            let depth = self.all[*kind].depth;
            let mut open = depth;
            let mut counts = vec![0; left.len()];
            for (size, thickness) in self.heap.sizes.iter().enumerate() {
                let fit = left[size].min(open / thickness);
                open -= fit * thickness;
                counts[size] = fit;
            }
            let bare = vec![0; left.len()];
            if self.heap.cost(depth, &bare) <= self.heap.cost(depth, &counts) {
                counts = bare;
            }
            left.iter_mut().zip(&counts).for_each(|(l, n)| *l -= n);
            self.cost = plus(self.cost, self.heap.cost(depth, &counts));
            self.chosen.push(counts);
        }
    }

    fn used(&self) -> Vec<i64> {
        let sizes = 0..self.heap.sizes.len();
        sizes.map(|size| self.chosen.iter().map(|counts| i64::from(counts[size])).sum()).collect()
    }

    /// Makes one part of the cost least, the parts before it unchanged or better. Whether it is proven least.
    fn better(&mut self, part: usize, searches: usize) -> bool {
        for _ in 0..searches {
            let fixed = (0..part).take_while(|i| self.cost[*i] == self.floor[*i]).count();
            if fixed == part && self.cost[part] == self.floor[part] {
                return true;
            }
            let found = weights::find(self.heap, &self.all, (part, fixed), &self.cost, &self.used());
            // Bounds are on whole numbers: to be better is to be better by one.
            let slack = (self.cost[part] - 1) * THOUSAND - found.bound;
            if slack < 0 {
                return true;
            }
            let totals: usize = self.all.iter().map(|kind| 2 * kind.depth as usize).sum();
            if totals * (self.heap.sizes.len() + 1) > MOST_WORK {
                return false;
            }
            let weighed = Weighed::new(self.heap, found.parts, &found.sizes, fixed);
            let keep = (MOST_STACKS / self.all.len().max(1)).max(LEAST_STACKS);
            let lists: Vec<(Vec<Stack>, bool)> =
                self.all.iter().map(|kind| weighed.stacks(kind, slack, keep)).collect();
            let of_gap: Vec<&[Stack]> = self.kind_of.iter().map(|kind| lists[*kind].0.as_slice()).collect();
            let (best, all) = layers::search(&of_gap, self.heap.counts, slack);
            let all = all && lists.iter().all(|(_, all)| *all);
            match best.filter(|(cost, _)| *cost < self.cost) {
                Some((cost, choices)) => {
                    self.cost = cost;
                    let counts = of_gap.iter().zip(choices).map(|(list, choice)| list[choice].counts.clone());
                    self.chosen = counts.collect();
                }
                None => return all,
            }
        }
        false
    }
}
