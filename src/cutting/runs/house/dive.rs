//! A whole list from the programme: groups that are taken nearly whole are laid, and the rest is solved again.

use std::iter;

use super::column::Column;
use super::fewest::least_of_all;
use super::laps::{clear_of, keep_apart, splices};
use super::master::{Pool, Relaxed, solve};
use super::node::Node;
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::cutting::runs::instance::Instance;
use crate::cutting::runs::intervals::Intervals;
use crate::cutting::runs::outcome::{BarPlan, Outcome};
use crate::cutting::runs::score::Weights;
use crate::cutting::runs::{chain, presplit, tree};
use crate::exact::int;

/// Steps to lay one group.
const LAY_STEPS: u64 = 100_000;
/// As good as whole.
const WHOLE: f64 = 0.999;

/// A whole list.
#[derive(Debug, Clone)]
pub(super) struct List {
    /// The shape of each run.
    pub(super) shapes: Vec<usize>,
    /// The bars; a piece's run is its place among the runs.
    pub(super) bars: Vec<BarPlan>,
    pub(super) price: i64,
    pub(super) splices: usize,
}

/// Goes down from the solved programme to a whole list whose value is less than `cutoff`. At each step the group taken most goes
/// in, or at step number `slip` the one after it.
pub(super) fn dive(
    site: &Site,
    node: &Node,
    relaxed: &Relaxed,
    (cutoff, slip): (i64, usize),
    pool: &mut Pool,
    meter: &mut Meter,
) -> Option<List> {
    let mut node = node.clone();
    let goal = node.goal;
    let mut relaxed = relaxed.clone();
    let mut taken: Vec<(usize, Vec<BarPlan>)> = vec![];
    for step in 0.. {
        let mut order = relaxed.taken.clone();
        order.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        if slip > 0 && step + 1 == slip {
            // With a whole group first there is nothing to slip from: the way down would be one that was gone before.
            if order.len() < 2 || order[0].1 >= WHOLE {
                return None;
            }
            order.remove(0);
        }
        let before = taken.len();
        for (place, amount) in order {
            if taken.len() > before && amount < WHOLE {
                break;
            }
            let column = pool.columns[place].clone();
            if !node.lets(site, &column) || !node.has_bars(&column) || !agrees(site, &column) {
                continue;
            }
            if let Some(all) = with(site, place, &taken, pool, meter) {
                take(site, &mut node, &column);
                taken = all;
            }
        }
        let value = |place: usize| goal.value(pool.columns[place].price, pool.columns[place].splices);
        let value: i64 = taken.iter().map(|(place, _)| value(*place)).sum();
        if taken.len() == before || meter.is_spent() || value >= cutoff {
            return None;
        }
        if !node.wanted.contains(&true) {
            return list(site, taken, pool);
        }
        least_of_all(site, &node.ways, |_| 0)?;
        let rest = cutoff - value;
        relaxed = solve(site, &node, pool, |bound| bound >= rest, meter)?;
        if relaxed.bound >= rest {
            return None;
        }
    }
    None
}

/// Whether no two shapes ask for a corner both ways round.
fn agrees(site: &Site, column: &Column) -> bool {
    let asks: Vec<(usize, bool)> = column.shapes.iter().flat_map(|&shape| site.asks[shape].clone()).collect();
    asks.iter().all(|a| asks.iter().all(|b| a.0 != b.0 || a.1 == b.1))
}

/// The group is no longer wanted, its corners are settled, its splices and counted bars are used up.
fn take(site: &Site, node: &mut Node, column: &Column) {
    for &shape in &column.shapes {
        node.wanted[site.run_of[shape]] = false;
        for &(corner, way) in &site.asks[shape] {
            node.ways[corner] = Some(way);
        }
    }
    node.goal.splices -= column.splices;
    node.goal.cost = node.goal.cost.map(|most| most - column.price);
    for (kind, count) in column.counts.iter().enumerate() {
        node.fewest[kind] = node.fewest[kind].saturating_sub(*count);
        node.most[kind] = node.most[kind].map(|most| most - count);
    }
}

/// What is taken with one group more: its splices clear of those that lie over and under it, or the others laid again clear of its.
fn with(
    site: &Site,
    place: usize,
    taken: &[(usize, Vec<BarPlan>)],
    pool: &mut Pool,
    meter: &mut Meter,
) -> Option<Vec<(usize, Vec<BarPlan>)>> {
    if let Some(plan) = laid(site, place, taken, pool, meter) {
        return Some([taken, &[(place, plan)]].concat());
    }
    pool.laid.get(&place)?.as_ref()?;
    let mut all = vec![];
    for &place in iter::once(&place).chain(taken.iter().map(|(place, _)| place)) {
        let plan = laid(site, place, &all, pool, meter)?;
        all.push((place, plan));
    }
    Some(all)
}

/// The group laid from its bars, its splices clear of those over and under it that are `taken` already.
fn laid(
    site: &Site,
    place: usize,
    taken: &[(usize, Vec<BarPlan>)],
    pool: &mut Pool,
    meter: &mut Meter,
) -> Option<Vec<BarPlan>> {
    let column = pool.columns[place].clone();
    if !pool.laid.contains_key(&place) {
        let (plan, impossible) = lay(&site.instance, &column, meter);
        if impossible && pool.ruled_out.add(site, &column) {
            pool.impossible.insert(place);
        }
        pool.laid.insert(place, plan);
    }
    let plan = pool.laid.get(&place)?.clone()?;
    let mut instance: Option<Instance> = None;
    for &shape in &column.shapes {
        let others = over_and_under(site, shape, taken, pool);
        let near = |at: i64| others.iter().any(|other| (at + site.origin[shape] - other).abs() < site.lap);
        if splices(&plan, shape).any(near)
            && let Some(span) = clear_of(site, shape, &others)
        {
            instance.get_or_insert_with(|| site.instance.clone()).spans[shape] = span;
        }
    }
    let plan = match instance {
        Some(instance) => lay(&instance, &column, meter).0?,
        None => plan,
    };
    let others = |shape: usize| over_and_under(site, shape, taken, pool);
    parted(site, &column, plan, others, meter)
}

/// The group with the splices of its own runs that lie one over another apart: as it is, or laid again with those of one pinned.
fn parted(
    site: &Site,
    column: &Column,
    plan: Vec<BarPlan>,
    others: impl Fn(usize) -> Vec<i64>,
    meter: &mut Meter,
) -> Option<Vec<BarPlan>> {
    let of = |run: usize| column.shapes.iter().copied().find(|&shape| site.run_of[shape] == run);
    let pairs: Vec<(usize, usize)> =
        site.pairs.iter().filter_map(|&(under, over)| Some((of(under)?, of(over)?))).collect();
    let along = |plan: &[BarPlan], shape: usize| -> Vec<i64> {
        splices(plan, shape).map(|at| at + site.origin[shape]).collect()
    };
    let apart = |plan: &[BarPlan]| {
        pairs.iter().all(|&(under, over)| {
            let over = along(plan, over);
            along(plan, under).iter().all(|at| over.iter().all(|other| (at - other).abs() >= site.lap))
        })
    };
    if apart(&plan) {
        return Some(plan);
    }
    for pin_over in [false, true] {
        let mut instance = site.instance.clone();
        for &(under, over) in &pairs {
            let (pinned, moved) = if pin_over { (over, under) } else { (under, over) };
            let at = splices(&plan, pinned).map(|at| (at, at)).collect();
            instance.spans[pinned] = instance.spans[pinned].with(&Intervals::new(at));
            let places = [along(&plan, pinned), others(moved)].concat();
            if let Some(span) = clear_of(site, moved, &places) {
                instance.spans[moved] = span;
            }
        }
        if let (Some(plan), _) = lay(&instance, column, meter)
            && apart(&plan)
        {
            return Some(plan);
        }
    }
    None
}

/// Where the runs over and under this one are spliced by what is taken, along the line that they share.
fn over_and_under(site: &Site, shape: usize, taken: &[(usize, Vec<BarPlan>)], pool: &Pool) -> Vec<i64> {
    let partners: Vec<usize> = site.partners(site.run_of[shape]).collect();
    let mut places = vec![];
    for (place, plan) in taken {
        for &other in &pool.columns[*place].shapes {
            if partners.contains(&site.run_of[other]) {
                places.extend(splices(plan, other).map(|at| at + site.origin[other]));
            }
        }
    }
    places
}

/// The group laid, and whether no way to lay it was left out.
fn lay(instance: &Instance, column: &Column, meter: &mut Meter) -> (Option<Vec<BarPlan>>, bool) {
    if column.bars == 0 {
        return (Some(vec![]), false);
    }
    let (shapes, counts) = (&column.shapes, &column.counts);
    meter.allow(LAY_STEPS);
    let extra = column.splices + 1 - column.bars;
    let outcome = if extra > 0 {
        presplit::lay(instance, shapes, counts, extra, meter)
    } else {
        match chain::lay(instance, shapes, counts, meter) {
            // With three bars or one run there is no tree but a chain.
            Outcome::Impossible if column.bars > 3 && shapes.len() > 1 && tree::is_small(shapes, counts) => {
                tree::lay(instance, shapes, counts, meter)
            }
            outcome => outcome,
        }
    };
    meter.allow(u64::MAX);
    let all = column.bars <= 3 || shapes.len() == 1 || tree::is_small(shapes, counts);
    match outcome {
        Outcome::Laid(plan) => (Some(plan), false),
        Outcome::Impossible => (None, all && extra == 0),
        Outcome::GaveUp => (None, false),
    }
}

fn list(site: &Site, taken: Vec<(usize, Vec<BarPlan>)>, pool: &Pool) -> Option<List> {
    let mut shapes = vec![0; site.runs()];
    let mut bars = vec![];
    for (place, plans) in taken {
        for &shape in &pool.columns[place].shapes {
            shapes[site.run_of[shape]] = shape;
        }
        for mut plan in plans {
            for piece in &mut plan.pieces {
                piece.run = site.run_of[piece.run];
            }
            bars.push(plan);
        }
    }
    keep_apart(site, &shapes, &bars).then(|| List::new(site, shapes, bars))
}

impl List {
    /// With its price and splices counted.
    pub(super) fn new(site: &Site, shapes: Vec<usize>, bars: Vec<BarPlan>) -> Self {
        let price = bars.iter().map(|plan| site.instance.kinds[plan.kind].price).sum();
        let pieces: usize = bars.iter().map(|plan| plan.pieces.len()).sum();
        let laid = shapes.iter().filter(|&&shape| site.instance.spans[shape].length > 0).count();
        Self { shapes, bars, price, splices: pieces - laid }
    }

    /// Its score by these weights.
    pub(super) fn score(&self, weights: Weights) -> i64 {
        self.price * weights.penny + int(self.splices) * weights.splice
    }
}
