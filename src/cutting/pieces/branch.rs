//! Fixed pieces: bound by the linear programme, cutting by a dive through it, branching on the bars of a kind.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::demand::{Batch, Demand};
use super::first_fit::{self, Cutting};
use super::full::cut_full;
use super::master::{self, Relaxed};
use super::pool::Pool;
use crate::cutting::effort::Meter;
use crate::cutting::shuffle::Shuffle;
use crate::cutting::watch::Standing;
use crate::exact::{Pence, gcd, int};

/// Nodes looked at before the gap is given instead.
const MOST_NODES: usize = 400;

/// Times that one dive may take a batch that is not the nearest to whole.
const SLIPS: usize = 6;
/// Programmes solved in the dives of the first node and of the others.
const ROOT_SOLVES: usize = 3000;
const NODE_SOLVES: usize = 60;
/// Bars within this of a whole number are whole.
const WHOLE: f64 = 1e-4;

/// The best cutting and the bound on the price of any.
#[derive(Debug, Clone)]
pub(in crate::cutting) struct Cheapest {
    pub(in crate::cutting) cutting: Option<Cutting>,
    pub(in crate::cutting) bound: i64,
}

/// Searches for the cheapest cutting.
pub(in crate::cutting) fn search(demand: &Demand, meter: &mut Meter) -> Cheapest {
    let step = demand.prices.iter().copied().fold(0, gcd).max(1);
    let mut best =
        Best { step, cutting: first_fit::first_fit(demand), price: i64::MAX, pool: Pool::default() };
    best.price = best.cutting.as_ref().map_or(i64::MAX, |cutting| first_fit::price(demand, cutting));
    let mut open: BinaryHeap<Reverse<(i64, usize)>> = BinaryHeap::new();
    let mut nodes = vec![demand.clone()];
    // The least bound of the nodes that nothing more can be said of.
    let mut settled = i64::MAX;
    open.push(Reverse((least_price(demand), 0)));
    while let Some(Reverse((bound, place))) = open.pop() {
        meter.stands(best.standing(bound));
        if bound >= best.price {
            settled = settled.min(best.price);
            break;
        }
        if meter.is_spent() || nodes.len() > MOST_NODES {
            settled = settled.min(bound);
            break;
        }
        let node = nodes[place].clone();
        let Some(relaxed) = master::solve(&node, &mut best.pool, meter) else {
            settled = settled.min(bound);
            continue;
        };
        let bound = best.round_up(relaxed.bound).max(bound);
        if bound >= best.price {
            continue;
        }
        let solves = if place == 0 { ROOT_SOLVES } else { NODE_SOLVES };
        let mut dive = Dive { whole: demand, bound, best: &mut best, meter, solves, shuffle: None };
        dive.descend(&node, &relaxed, &Vec::new(), SLIPS);
        if bound >= best.price {
            continue;
        }
        let Some((kind, bars)) = split_kind(&relaxed.batches, node.rooms.len()) else {
            settled = settled.min(bound);
            continue;
        };
        let (mut fewer, mut more) = (node.clone(), node);
        fewer.most[kind] = fewer.most[kind].min(bars);
        more.fewest[kind] = bars + 1;
        for child in [fewer, more] {
            if child.fewest[kind] <= child.most[kind] {
                open.push(Reverse((bound, nodes.len())));
                nodes.push(child);
            }
        }
    }
    let bound = settled.min(best.price);
    if best.price > bound {
        let mut own = meter.part(meter.left() / 4);
        if let Some(cutting) = cut_full(demand, bound, &mut own) {
            best.offer(demand, cutting);
        }
        meter.spend(own.taken());
    }
    dive_again(demand, bound, &mut best, meter);
    Cheapest { bound, cutting: best.cutting }
}

/// Dives with the order of the batches shuffled, one way after another, until the bound is met or the steps are spent.
fn dive_again(demand: &Demand, bound: i64, best: &mut Best, meter: &mut Meter) {
    let mut shuffle = Shuffle::new();
    while best.price > bound && meter.spend(400) {
        meter.stands(best.standing(bound));
        let Some(relaxed) = master::solve(demand, &mut best.pool, meter) else { return };
        let mut dive = Dive {
            whole: demand,
            bound,
            best: &mut *best,
            meter: &mut *meter,
            solves: NODE_SOLVES,
            shuffle: Some(&mut shuffle),
        };
        dive.descend(demand, &relaxed, &Vec::new(), 1);
    }
}

/// The best cutting so far.
struct Best {
    step: i64,
    cutting: Option<Cutting>,
    price: i64,
    pool: Pool,
}

impl Best {
    /// Every price is a multiple of the prices' greatest common divisor.
    fn round_up(&self, bound: i64) -> i64 {
        (bound.max(0) + self.step - 1) / self.step * self.step
    }

    fn standing(&self, bound: i64) -> Standing {
        let has = self.cutting.as_ref().map(|_| (Pence(self.price), None));
        Standing { has, least: Pence(bound), splices: None }
    }

    fn offer(&mut self, demand: &Demand, mut cutting: Cutting) {
        first_fit::exchange(demand, &mut cutting);
        let price = first_fit::price(demand, &cutting);
        if price < self.price {
            self.price = price;
            self.cutting = Some(cutting);
        }
    }
}

/// Price of the material alone, at the best price per length.
fn least_price(demand: &Demand) -> i64 {
    let wanted: i64 = demand.items.iter().map(|item| item.weight * int(item.most)).sum();
    (0..demand.rooms.len())
        .filter(|&kind| demand.most[kind] > 0)
        .map(|kind| {
            let price = i128::from(demand.prices[kind]) * i128::from(wanted);
            i64::try_from(price / i128::from(demand.rooms[kind])).unwrap_or(0)
        })
        .min()
        .unwrap_or(0)
}

/// A kind of which the programme takes a fraction of a bar: the one nearest to a half, and the whole bars below.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a number of bars, from 0 to a few thousand"
)]
fn split_kind(batches: &[Batch], kinds: usize) -> Option<(usize, usize)> {
    let mut totals = vec![0.0; kinds];
    for batch in batches {
        totals[batch.kind] += batch.bars;
    }
    totals
        .iter()
        .enumerate()
        .map(|(kind, total): (usize, &f64)| (kind, total.floor(), (total - total.round()).abs()))
        .filter(|(_, _, fraction)| *fraction > 1e-5)
        .max_by(|a, b| a.2.total_cmp(&b.2))
        .map(|(kind, floor, _)| (kind, floor as usize))
}

/// A way down through the programme: takes the whole bars, solves it for the rest, and so on. Where no bar is whole
/// it takes the nearest to whole, and may slip to the next nearest a few times.
struct Dive<'a> {
    whole: &'a Demand,
    /// Nothing better than this is to be had.
    bound: i64,
    best: &'a mut Best,
    meter: &'a mut Meter,
    /// Programmes that may still be solved.
    solves: usize,
    /// Takes batches in another order than by how much of them is taken.
    shuffle: Option<&'a mut Shuffle>,
}

impl Dive<'_> {
    /// Goes on from what is `taken`; offers each cutting met on the way.
    fn descend(&mut self, rest: &Demand, relaxed: &Relaxed, taken: &Cutting, slips: usize) {
        let mut batches = relaxed.batches.clone();
        if let Some(shuffle) = &mut self.shuffle {
            let mut keyed: Vec<(f64, Batch)> =
                batches.into_iter().map(|batch| (batch.bars.fract() * shuffle.next(), batch)).collect();
            keyed.sort_by(|a, b| b.0.total_cmp(&a.0));
            batches = keyed.into_iter().map(|(_, batch)| batch).collect();
            batches.sort_by_key(|batch| batch.bars < 1.0 - WHOLE);
        } else {
            batches.sort_by(|a, b| b.bars.total_cmp(&a.bars));
        }
        let whole = batches.first().is_some_and(|batch| batch.bars >= 1.0 - WHOLE);
        let options = if whole { 1 } else { slips + 1 };
        for (slip, option) in batches.iter().take(options).enumerate() {
            let (mut rest, mut taken) = (rest.clone(), taken.clone());
            if whole {
                take_whole(&mut rest, &batches, &mut taken);
            } else if !take(&mut rest, option, &mut taken) {
                continue;
            }
            // A node's own limits matter for the bound alone: a cutting is judged by the whole demand.
            let quick = first_fit::first_fit(&rest);
            // Each kind is tried, and goes over the bars for every length; then each bar is held against every kind.
            let bars = quick.as_ref().map_or_else(|| rest.pieces(), Vec::len);
            let a_bar = 2 * rest.items.len() + rest.rooms.len();
            let filling = rest.rooms.len() * (bars * a_bar + rest.pieces());
            if let Some(quick) = quick {
                self.best.offer(self.whole, [taken.as_slice(), quick.as_slice()].concat());
            }
            if !self.meter.spend((filling / 640) as u64)
                || rest.pieces() == 0
                || self.best.price <= self.bound
                || self.solves == 0
            {
                return;
            }
            self.solves -= 1;
            if let Some(next) = master::solve(&rest, &mut self.best.pool, self.meter)
                && first_fit::price(self.whole, &taken) + next.bound < self.best.price
            {
                self.descend(&rest, &next, &taken, slips - slip);
            }
        }
    }
}

/// Takes every whole bar of the batches.
fn take_whole(rest: &mut Demand, batches: &[Batch], taken: &mut Cutting) {
    for batch in batches {
        let mut bars = batch.bars + WHOLE;
        while bars >= 1.0 && take(rest, batch, taken) {
            bars -= 1.0;
        }
    }
}

/// Takes one bar of a batch, as far as its pieces are still wanted.
fn take(rest: &mut Demand, batch: &Batch, taken: &mut Cutting) -> bool {
    let pattern: Vec<usize> =
        batch.pattern.iter().zip(&rest.items).map(|(&count, item)| count.min(item.most)).collect();
    if rest.most[batch.kind] == 0 || pattern.iter().all(|&count| count == 0) {
        return false;
    }
    for (item, count) in rest.items.iter_mut().zip(&pattern) {
        item.most -= count;
    }
    rest.most[batch.kind] -= 1;
    rest.fewest[batch.kind] = rest.fewest[batch.kind].saturating_sub(1);
    taken.push((batch.kind, pattern));
    true
}
