//! The list nearest to a goal, such as the least cost with at most so many splices, over all ways round the corners: bound,
//! dive, branch.

use std::borrow::Cow;
use std::cmp::{Ordering, Reverse};
use std::collections::{BinaryHeap, HashMap};

use super::attain::Attainable;
use super::column::Goal;
use super::dive::{List, dive};
use super::fewest::{fewest_splices, least_of_all};
use super::master::{Pool, Relaxed, solve};
use super::node::Node;
use super::one_way::one_way;
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::cutting::model::Favour;
use crate::cutting::runs::score::measures;
use crate::cutting::watch::Standing;
use crate::exact::{Pence, int};

/// Dives from the first node, and from the others.
const ROOT_DIVES: usize = 6;
const NODE_DIVES: usize = 1;
/// Up to so many runs, corners and pairs settle it sooner than numbers of bars do.
const FEW_RUNS: usize = 10;
/// Most runs for which a way round is handed to the engine for one way.
pub(super) const MOST_RUNS: usize = 18;

/// What is known of the lists with at most so many splices.
#[derive(Debug, Clone)]
pub(super) struct Point {
    /// No such list comes to less.
    pub(super) bound: i64,
    /// The best list found.
    pub(super) list: Option<List>,
}

/// What stays the same from point to point.
pub(super) struct Ground<'a> {
    pub(super) site: &'a Site,
    pub(super) attainable: &'a Attainable,
    /// Fewest splices that the runs need one by one, over all ways, and fewest of any list.
    pub(super) own: usize,
    pub(super) fewest: usize,
}

impl Ground<'_> {
    /// The least that bars for the whole house can cost.
    pub(super) fn material(&self) -> i64 {
        self.reach(&Node::all(self.site, Goal::cost(self.fewest), false)).raised(0)
    }

    /// Whether the goal is the least cost with the fewest splices of all.
    fn is_fewest(&self, goal: Goal) -> bool {
        goal == Goal::cost(self.fewest)
    }

    /// What lists of this node can come to.
    fn reach(&self, node: &Node) -> Reach<'_> {
        let instance = &self.site.instance;
        let length = |shape: usize| {
            let span = &instance.spans[shape];
            if span.length == 0 { 0 } else { span.length + instance.kerf }
        };
        let timber = least_of_all(self.site, &node.ways, length).unwrap_or(0);
        let splices = int(self.fewest) * (instance.kerf + instance.overlap);
        let anew = self.attainable.again(instance, node);
        let attainable = anew.map_or(Cow::Borrowed(self.attainable), Cow::Owned);
        Reach { attainable, goal: node.goal, fewest: self.fewest, timber: timber + splices }
    }
}

/// What lists of one node can come to.
struct Reach<'a> {
    attainable: Cow<'a, Attainable>,
    goal: Goal,
    fewest: usize,
    timber: i64,
}

impl Reach<'_> {
    /// The least that they can come to, if it is `bound` or more.
    fn raised(&self, bound: i64) -> i64 {
        let goal = self.goal;
        if goal.penny == 0 {
            return (bound + goal.splice - 1).div_euclid(goal.splice) * goal.splice;
        }
        let with = |splices: usize| {
            let worth = goal.splice * int(splices);
            self.attainable.from((bound - worth).max(0), self.timber) + worth
        };
        match goal.splice {
            0 => with(0),
            _ => (self.fewest..=goal.splices).map(with).min().unwrap_or(bound).max(bound),
        }
    }
}

/// Searches for the list that comes nearest to the goal; `known` is one to beat.
pub(super) fn best(
    ground: &Ground<'_>,
    goal: Goal,
    known: Option<List>,
    pool: &mut Pool,
    meter: &mut Meter,
) -> Point {
    let site = ground.site;
    let root = Node::all(site, goal, goal.splices == ground.own);
    let value = |list: &List| goal.value(list.price, list.splices);
    let mut best = known.filter(|list| goal.allows(list.price, list.splices));
    let mut open = BinaryHeap::from([Reverse((ground.reach(&root).raised(0), usize::MAX, 0))]);
    let mut nodes = vec![root];
    let mut ways = Ways::default();
    // The least bound of what nothing more can be said of.
    let mut settled = i64::MAX;
    while let Some(Reverse((bound, _, place))) = open.pop() {
        let price = best.as_ref().map_or(i64::MAX, value);
        if bound >= price {
            break;
        }
        meter.stands(standing(ground, goal, best.as_ref(), bound));
        if meter.is_spent() {
            settled = settled.min(bound);
            break;
        }
        let node = nodes[place].clone();
        if fewest_splices(site, &node.ways).is_none_or(|fewest| fewest > int(goal.splices)) {
            continue;
        }
        meter.spend(ground.attainable.work());
        let reach = ground.reach(&node);
        let bound = reach.raised(bound);
        if bound >= price {
            continue;
        }
        let good = |bound: i64| reach.raised(bound) >= price;
        let Some(relaxed) = solve(site, &node, pool, good, meter) else {
            settled = settled.min(bound);
            continue;
        };
        let bound = reach.raised(relaxed.bound).max(bound);
        let known = pool.impossible.len();
        for slip in 0..if place == 0 { ROOT_DIVES } else { NODE_DIVES } {
            let price = best.as_ref().map_or(i64::MAX, value);
            if bound >= price {
                break;
            }
            if let Some(list) = dive(site, &node, &relaxed, (price, slip), pool, meter) {
                best = Some(list);
            }
        }
        if bound >= best.as_ref().map_or(i64::MAX, value) {
            continue;
        }
        // A group that turned out impossible is not proposed again.
        let children =
            if pool.impossible.len() > known { vec![node] } else { branches(ground, &node, &relaxed, pool) };
        if children.is_empty() {
            let (list, least) = ways.settle(ground, &nodes[place], meter);
            best = list.filter(|list| best.as_ref().is_none_or(|best| value(list) < value(best))).or(best);
            settled = settled.min(least.max(bound));
        }
        for child in children {
            open.push(Reverse((bound, usize::MAX - nodes.len(), nodes.len())));
            nodes.push(child);
        }
    }
    let price = best.as_ref().map_or(i64::MAX, value);
    Point { bound: settled.min(price), list: best }
}

/// How the search for the goal stands.
fn standing(ground: &Ground<'_>, goal: Goal, best: Option<&List>, bound: i64) -> Standing {
    let limited = goal.penny > 0 && goal.splice == 0;
    Standing {
        has: best.map(|list| (Pence(list.price), Some(list.splices))),
        least: Pence(if limited { bound } else { ground.material() }),
        splices: limited.then_some(goal.splices),
    }
}

/// Two parts of a node's lists: fewer or more bars of a kind, a corner either way round, or two runs in one group or in two. None where the programme has
/// taken no part of anything.
fn branches(ground: &Ground<'_>, node: &Node, relaxed: &Relaxed, pool: &Pool) -> Vec<Node> {
    let site = ground.site;
    let half = |amount: f64| (amount - 0.5).abs();
    let turned = |corner: usize| -> f64 {
        let Some(link) = site.links.iter().find(|link| link.corner == corner) else { return 0.0 };
        let asks = |place: usize| {
            let mut shapes = pool.columns[place].shapes.iter();
            shapes
                .any(|&shape| site.run_of[shape] == link.first && site.asks[shape].contains(&(corner, true)))
        };
        relaxed.taken.iter().filter(|(place, _)| asks(*place)).map(|(_, amount)| amount).sum()
    };
    let kind = split_kind(relaxed, pool, site.instance.kinds.len()).filter(|_| site.runs() > FEW_RUNS);
    if let Some((kind, bars)) = kind {
        let (mut fewer, mut more) = (node.clone(), node.clone());
        fewer.most[kind] = Some(bars);
        more.fewest[kind] = bars + 1;
        return vec![fewer, more];
    }
    let open = (0..site.corners).filter(|&corner| node.ways[corner].is_none());
    let corner = open
        .map(|corner| (corner, half(turned(corner))))
        .filter(|(_, far)| *far < 0.5 - 1e-5)
        .min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((corner, _)) = corner {
        return settled_ways(node, corner);
    }
    let mut pairs: Vec<((usize, usize), f64)> = vec![];
    for &(place, amount) in &relaxed.taken {
        let runs: Vec<usize> = pool.columns[place].shapes.iter().map(|&shape| site.run_of[shape]).collect();
        for (at, &a) in runs.iter().enumerate() {
            for &b in &runs[at + 1..] {
                match pairs.iter_mut().find(|(pair, _)| *pair == (a, b)) {
                    Some((_, sum)) => *sum += amount,
                    None => pairs.push(((a, b), amount)),
                }
            }
        }
    }
    // Nothing is in part: what is wrong with this list, a settled way round may show.
    pairs.retain(|(_, amount)| half(*amount) < 0.5 - 1e-5);
    pairs.sort_by(|a, b| half(a.1).total_cmp(&half(b.1)).then(a.0.cmp(&b.0)));
    for (pair, _) in pairs {
        let (mut one, mut two) = (node.clone(), node.clone());
        one.together.push(pair);
        two.apart.push(pair);
        if one.is_manageable(site) && two.is_manageable(site) {
            return vec![one, two];
        }
    }
    match (0..site.corners).find(|&corner| node.ways[corner].is_none()) {
        Some(corner) if ground.is_fewest(node.goal) => settled_ways(node, corner),
        _ => vec![],
    }
}

/// A kind of which the programme takes a fraction of a bar: the one nearest to a half, and the whole bars below.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a number of bars, from 0 to a few hundred"
)]
fn split_kind(relaxed: &Relaxed, pool: &Pool, kinds: usize) -> Option<(usize, usize)> {
    let bars = |kind: usize| -> f64 {
        let each = relaxed.taken.iter();
        each.map(|&(place, amount)| pool.columns[place].counts[kind] as f64 * amount).sum()
    };
    let far = |bars: f64| (bars.fract() - 0.5).abs();
    let all = (0..kinds).map(|kind| (kind, bars(kind))).filter(|(_, bars)| far(*bars) < 0.5 - 1e-5);
    all.min_by(|a, b| far(a.1).total_cmp(&far(b.1))).map(|(kind, bars)| (kind, bars as usize))
}

/// The node's lists with a corner one way round, and those with the other.
fn settled_ways(node: &Node, corner: usize) -> Vec<Node> {
    let way = |way: bool| {
        let mut child = node.clone();
        child.ways[corner] = Some(way);
        child
    };
    vec![way(false), way(true)]
}

/// What the engine for one way has found of each way round that was settled.
#[derive(Default)]
struct Ways(HashMap<Vec<Option<bool>>, (Option<List>, i64)>);

impl Ways {
    /// The best list of a node whose corners are all settled, and the least cost of any with so few splices.
    fn settle(&mut self, ground: &Ground<'_>, node: &Node, meter: &mut Meter) -> (Option<List>, i64) {
        let site = ground.site;
        if !ground.is_fewest(node.goal) || site.runs() > MOST_RUNS || node.ways.contains(&None) {
            return (None, 0);
        }
        let settle = || {
            let Some(shapes) = site.settled(&node.ways) else { return (None, i64::MAX) };
            let Some(found) = one_way(site, &shapes, Favour::Splices, None, meter) else { return (None, 0) };
            let (splices, cost) = measures(Favour::Splices, found.bound);
            let least = match splices.cmp(&int(node.goal.splices)) {
                Ordering::Less => 0,
                Ordering::Equal => cost,
                Ordering::Greater => i64::MAX,
            };
            (found.list.filter(|list| list.splices <= node.goal.splices), least)
        };
        self.0.entry(node.ways.clone()).or_insert_with(settle).clone()
    }
}
