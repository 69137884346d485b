//! What lists can cost: sums of bars that give enough timber.

use super::node::Node;
use crate::cutting::runs::instance::Instance;
use crate::exact::{gcd, int};

/// Largest table.
const MOST_CELLS: i64 = 2_000_000;
/// Largest table that is made anew for a part of the lists.
const MOST_CELLS_ANEW: usize = 60_000;

/// For each cost the most timber that bars for it give, a kerf with each bar.
#[derive(Debug, Clone)]
pub(super) struct Attainable {
    step: i64,
    most: Vec<i64>,
}

impl Attainable {
    /// Up to a cost of `highest`, with as few and as many bars of each kind as the node has.
    pub(super) fn new(instance: &Instance, node: &Node, highest: i64) -> Self {
        let step = instance.kinds.iter().fold(0, |step, kind| gcd(step, kind.price)).max(1);
        let cells = highest / step + 1;
        let cells = if cells > MOST_CELLS { 0 } else { usize::try_from(cells).unwrap_or(0) };
        let mut table = Self { step, most: vec![i64::MIN; cells] };
        table.fill(instance, node);
        table
    }

    /// The same for this node; none where a table anew is too large for what it tells.
    pub(super) fn again(&self, instance: &Instance, node: &Node) -> Option<Self> {
        let narrower = (0..instance.kinds.len())
            .any(|kind| node.fewest[kind] > 0 || node.most[kind] != instance.kinds[kind].count);
        (narrower && self.most.len() <= MOST_CELLS_ANEW).then(|| {
            let mut table = Self { step: self.step, most: vec![i64::MIN; self.most.len()] };
            table.fill(instance, node);
            table
        })
    }

    fn fill(&mut self, instance: &Instance, node: &Node) {
        let kinds = || instance.kinds.iter().zip(&node.fewest);
        let cost: i64 = kinds().map(|(kind, &fewest)| kind.price * int(fewest)).sum();
        let timber: i64 = kinds().map(|(kind, &fewest)| (kind.length + instance.kerf) * int(fewest)).sum();
        let Some(first) = usize::try_from(cost / self.step).ok().and_then(|at| self.most.get_mut(at)) else {
            return;
        };
        *first = timber;
        for (kind, (&fewest, &most)) in instance.kinds.iter().zip(node.fewest.iter().zip(&node.most)) {
            let price = usize::try_from(kind.price / self.step).unwrap_or(0);
            let gives = kind.length + instance.kerf;
            match most.map(|most| most.saturating_sub(fewest)) {
                // What costs nothing is had with every cost.
                Some(count) if price == 0 => {
                    for amount in &mut self.most {
                        *amount = amount.saturating_add(int(count) * gives);
                    }
                }
                None if price == 0 => self.most.fill(i64::MAX),
                None => {
                    for at in price..self.most.len() {
                        self.most[at] = self.most[at].max(self.most[at - price].saturating_add(gives));
                    }
                }
                Some(count) => self.add(price, gives, count),
            }
        }
    }

    /// Up to so many bars of this price more: 1, 2, 4 and so on at a time, which makes every number.
    fn add(&mut self, price: usize, gives: i64, count: usize) {
        let (mut left, mut times) = (count, 1);
        while left > 0 {
            let here = times.min(left);
            for at in (price * here..self.most.len()).rev() {
                let with = self.most[at - price * here].saturating_add(gives * int(here));
                self.most[at] = self.most[at].max(with);
            }
            left -= here;
            times *= 2;
        }
    }

    /// What it takes to make such a table.
    pub(super) fn work(&self) -> u64 {
        self.most.len() as u64 / 4
    }

    /// The least cost of `bound` or more that gives so much timber: past the end of the table where none in it does.
    pub(super) fn from(&self, bound: i64, timber: i64) -> i64 {
        let from = (bound.max(0) + self.step - 1) / self.step;
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        let found = (at..self.most.len()).find(|&at| self.most[at] >= timber);
        int(found.unwrap_or(self.most.len())).max(from) * self.step
    }
}
