//! The sets of bars that a group of runs might be laid from, best score first.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::cover::Cover;
use super::groups::{self, Groups};
use super::instance::Instance;
use super::score::NEVER;
use super::van::Van;
use crate::exact::int;

/// How many splices over the fewest are looked at one by one; the last stands for "that many or more".
const MOST_EXTRA: usize = 2;

/// Most partly chosen sets of one group; past that the least score left is all that is said.
const MOST_NODES: usize = 50_000;

/// A set of bars, as counts per kind, with the splices it is to be laid with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Candidate {
    pub(super) score: i64,
    pub(super) counts: Vec<usize>,
    pub(super) bars: usize,
    pub(super) splices: usize,
    /// Stands for this many splices or more.
    pub(super) or_more: bool,
}

/// Partly chosen bars, ordered by the least score they can still lead to, the newest first among equals
/// so that a whole set comes out soon.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    score: i64,
    age: usize,
    counts: Vec<usize>,
    next_kind: usize,
    left: usize,
    need: i64,
    bars: usize,
    extra: usize,
    /// Nothing chosen yet: stands for the whole (bars, extra) family.
    root: bool,
}

/// Gives the candidates of one group with one take of counted bars in order of score.
#[derive(Debug, Clone)]
pub(super) struct Candidates {
    heap: BinaryHeap<Reverse<Node>>,
    age: usize,
    mask: usize,
    take: usize,
    /// Least score of layouts with more bars than are looked at.
    beyond: i64,
}

/// What the candidates are made from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source<'a> {
    pub(super) instance: &'a Instance,
    pub(super) groups: &'a Groups,
    pub(super) cover: &'a Cover,
    pub(super) van: &'a Van,
}

impl Candidates {
    pub(super) fn new(source: Source<'_>, mask: usize, take: usize) -> Self {
        let (taken, _, price) = groups::taken(source.instance, source.van, take);
        let possible = source.groups.most_pieces[mask];
        let most = possible.min(taken + source.cover.most_bars());
        let mut all = Self { heap: BinaryHeap::new(), age: usize::MAX, mask, take, beyond: NEVER };
        for bars in taken.max(1)..=most {
            all.push_root(source, bars, 0);
        }
        // Bars beyond the table: at least the price of its last row, at least so many splices.
        if possible > most && source.instance.bought > 0 {
            let weights = source.instance.weights;
            let pence = source.cover.price(0, most - taken, 0);
            all.beyond = (pence + price) * weights.penny + int(most) * weights.splice;
        }
        all
    }

    /// How many partly chosen sets were made so far: what the work comes to.
    pub(super) fn made(&self) -> usize {
        usize::MAX - self.age
    }

    /// The least score that is left, those not looked at one by one included.
    pub(super) fn beyond(&self) -> i64 {
        self.beyond
    }

    fn push_root(&mut self, source: Source<'_>, bars: usize, extra: usize) {
        let instance = source.instance;
        let (taken, length, price) = groups::taken(instance, source.van, self.take);
        let splices = source.groups.splices(self.mask, bars) + extra;
        if splices + self.mask.count_ones() as usize > source.groups.most_pieces[self.mask] {
            return;
        }
        let runs = self.mask.count_ones() as usize;
        let need = instance.need(source.groups.length[self.mask], runs, bars, splices) - length;
        let pence = source.cover.price(0, bars - taken, need);
        if pence >= NEVER {
            return;
        }
        let mut counts = vec![0; instance.bought];
        counts.extend_from_slice(source.van.take(self.take));
        self.push(Node {
            score: (pence + price) * instance.weights.penny + int(splices) * instance.weights.splice,
            age: 0,
            counts,
            next_kind: 0,
            left: bars - taken,
            need,
            bars,
            extra,
            root: true,
        });
    }

    fn push(&mut self, mut node: Node) {
        node.age = self.age;
        self.age -= 1;
        self.heap.push(Reverse(node));
    }

    /// The next best candidate; `None` when there are no more.
    pub(super) fn next(&mut self, source: Source<'_>) -> Option<Candidate> {
        while let Some(Reverse(node)) = self.heap.pop() {
            if self.made() > MOST_NODES {
                self.beyond = self.beyond.min(node.score);
                self.heap.clear();
                return None;
            }
            if node.root && node.extra < MOST_EXTRA {
                self.push_root(source, node.bars, node.extra + 1);
            }
            if node.left == 0 {
                // The table may round lengths up, so the true sum decides.
                if node.need <= 0 {
                    return Some(Candidate {
                        score: node.score,
                        bars: node.bars,
                        splices: source.groups.splices(self.mask, node.bars) + node.extra,
                        or_more: node.extra == MOST_EXTRA,
                        counts: node.counts,
                    });
                }
                continue;
            }
            self.expand(source, &node);
        }
        None
    }

    /// One more bar, of this kind or a shorter one.
    fn expand(&mut self, source: Source<'_>, node: &Node) {
        let penny = source.instance.weights.penny;
        let before = source.cover.price(node.next_kind, node.left, node.need);
        for kind in node.next_kind..source.instance.bought {
            let bar = source.instance.kinds[kind];
            let need = node.need - bar.length;
            let rest = source.cover.price(kind, node.left - 1, need);
            if rest >= NEVER {
                continue;
            }
            let mut counts = node.counts.clone();
            counts[kind] += 1;
            self.push(Node {
                score: node.score + (rest + bar.price - before) * penny,
                counts,
                next_kind: kind,
                left: node.left - 1,
                need,
                root: false,
                ..*node
            });
        }
    }
}
