//! The linear programme over groups of runs: each run once, each corner one way round for all that meet there, no more
//! splices than allowed. Groups come in as they are worth it; the bound is exact.
//!
//! The programme runs in floating point; the bound does not. For any whole prices, what the runs are worth and what the limits
//! take off bounds every list from below, if no group is worth more than it costs; one that is counts for every run.

use std::collections::{HashMap, HashSet};

use super::column::{Column, Goal, Limits, Tariff, UNUSED};
use super::node::Node;
use super::price::cheapest_groups;
use super::ruled::RuledOut;
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::cutting::runs::outcome::BarPlan;
use crate::cutting::simplex::{Row, Sense, Simplex, TOLERANCE};
use crate::exact::int;

/// The columns met so far, and how each can be laid, once that has been looked for.
#[derive(Debug, Default)]
pub(super) struct Pool {
    pub(super) columns: Vec<Column>,
    places: HashMap<Column, usize>,
    pub(super) laid: HashMap<usize, Option<Vec<BarPlan>>>,
    pub(super) ruled_out: RuledOut,
    /// The columns ruled out.
    pub(super) impossible: HashSet<usize>,
}

impl Pool {
    fn add(&mut self, column: Column) -> bool {
        if self.places.contains_key(&column) {
            return false;
        }
        self.places.insert(column.clone(), self.columns.len());
        self.columns.push(column);
        true
    }
}

/// The solved programme.
#[derive(Debug, Clone)]
pub(super) struct Relaxed {
    /// No list costs less: exact.
    pub(super) bound: i64,
    /// Columns of the pool, and how much of each is taken.
    pub(super) taken: Vec<(usize, f64)>,
}

/// A row's place in the programme.
struct Rows {
    all: Vec<Row>,
    /// By run.
    cover: Vec<Option<usize>>,
    /// By link.
    links: Vec<Option<usize>>,
    splices: usize,
    cost: Option<usize>,
    /// (kind, row, bars).
    kinds: Vec<(usize, usize, usize)>,
}

impl Rows {
    fn new(site: &Site, node: &Node) -> Self {
        let mut rows = Self {
            all: vec![],
            cover: vec![None; site.runs()],
            links: vec![None; site.links.len()],
            splices: 0,
            cost: None,
            kinds: vec![],
        };
        for run in (0..site.runs()).filter(|&run| node.wanted[run]) {
            rows.cover[run] = Some(rows.push(Sense::AtLeast, 1.0));
        }
        for (place, link) in site.links.iter().enumerate() {
            if node.ways[link.corner].is_none() && node.wanted[link.first] && node.wanted[link.other] {
                rows.links[place] = Some(rows.push(Sense::Exactly, 0.0));
            }
        }
        rows.splices = rows.push(Sense::AtMost, node.goal.splices as f64);
        rows.cost = node.goal.cost.map(|most| rows.push(Sense::AtMost, most as f64));
        for (kind, &most) in node.most.iter().enumerate() {
            let fewest = (Sense::AtLeast, node.fewest[kind]);
            let limits = most.map(|most| (Sense::AtMost, most)).into_iter().chain([fewest]);
            for (sense, bars) in limits.filter(|limit| *limit != (Sense::AtLeast, 0)) {
                let row = rows.push(sense, bars as f64);
                rows.kinds.push((kind, row, bars));
            }
        }
        rows
    }

    fn push(&mut self, sense: Sense, amount: f64) -> usize {
        self.all.push(Row::traced(sense, amount, self.all.len() + 1));
        self.all.len() - 1
    }

    /// A limit's price in whole parts: never more than nothing if it is a most, never less if it is a fewest.
    fn limit_price(&self, row: usize, prices: &[f64], scale: i64) -> i64 {
        let price = whole(prices[row], scale);
        if self.all[row].sense == Sense::AtMost { price.min(0) } else { price.max(0) }
    }

    /// What a shape enters: its run's row, and those of the corners where it has a part.
    fn entries<'a>(&'a self, site: &'a Site, shape: usize) -> impl Iterator<Item = (usize, f64)> + 'a {
        let run = site.run_of[shape];
        let cover = self.cover[run].map(|row| (row, 1.0));
        let turned = site.asks[shape].iter().filter(|ask| ask.1);
        let links = turned.flat_map(move |&(corner, _)| {
            site.links.iter().zip(&self.links).filter_map(move |(link, row)| {
                let sign = if link.first == run { -1.0 } else { 1.0 };
                let here = link.corner == corner && (link.first == run || link.other == run);
                row.filter(|_| here).map(|row| (row, sign))
            })
        });
        cover.into_iter().chain(links)
    }

    fn column(&self, site: &Site, column: &Column) -> Vec<(usize, f64)> {
        let mut entries: Vec<(usize, f64)> = vec![];
        for entry in column.shapes.iter().flat_map(|&shape| self.entries(site, shape)) {
            match entries.iter_mut().find(|known| known.0 == entry.0) {
                Some(known) => known.1 += entry.1,
                None => entries.push(entry),
            }
        }
        if column.splices > 0 {
            entries.push((self.splices, column.splices as f64));
        }
        if let Some(row) = self.cost.filter(|_| column.price > 0) {
            entries.push((row, column.price as f64));
        }
        let kinds = self.kinds.iter().filter(|(kind, ..)| column.counts[*kind] > 0);
        entries.extend(kinds.map(|&(kind, row, _)| (row, column.counts[kind] as f64)));
        entries
    }
}

/// Solves the programme; `None` when the meter ran out before any bound. `good` is a bound that is enough.
pub(super) fn solve(
    site: &Site,
    node: &Node,
    pool: &mut Pool,
    good: impl Fn(i64) -> bool,
    meter: &mut Meter,
) -> Option<Relaxed> {
    let rows = Rows::new(site, node);
    let goal = node.goal;
    let scale = scale(site, goal);
    let dearest = site.instance.kinds.iter().map(|kind| kind.price).max().unwrap_or(0);
    let dear = 12.0 * goal.value(dearest, 1) as f64 + 100.0;
    let mut simplex: Simplex<usize> = Simplex::new(&rows.all, dear * (1.0 + goal.group as f64));
    let limits = Limits { splices: goal.group.min(goal.splices), own: node.own };
    let value = |column: &Column| goal.value(column.price, column.splices) as f64;
    let classes = node.classes(site);
    for shape in 0..site.run_of.len() {
        if site.possible[shape] && site.instance.spans[shape].length == 0 {
            pool.add(nothing(site, shape));
        }
    }
    let mut entries: Vec<(usize, Vec<(usize, f64)>)> = vec![];
    let mut known = 0;
    let mut bound = i64::MIN;
    for _ in 0..4000 {
        for place in known..pool.columns.len() {
            if node.lets(site, &pool.columns[place]) && !pool.impossible.contains(&place) {
                entries.push((place, rows.column(site, &pool.columns[place])));
            }
        }
        known = pool.columns.len();
        let work = rows.all.len() * rows.all.len() / 32 + entries.len() / 8 + 1;
        if !meter.spend(work as u64) {
            break;
        }
        let prices = simplex.prices();
        if simplex.enter_filler(&prices) {
            continue;
        }
        let over = |(place, entries): &(usize, Vec<(usize, f64)>)| {
            let worth: f64 = entries.iter().map(|&(row, entry)| prices[row] * entry).sum();
            value(&pool.columns[*place]) - worth
        };
        let best = entries.iter().map(|entry| (over(entry), entry)).min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((over, (place, entries))) = best
            && over < -tolerance(dear)
            && simplex.enter(entries, Some(*place), value(&pool.columns[*place]))
        {
            continue;
        }
        let tariff = tariff(site, node, &rows, &prices, scale);
        let Some((least, columns)) =
            cheapest_groups(site, &classes, &tariff, (limits, &pool.ruled_out), meter)
        else {
            break;
        };
        bound = bound.max(exact_bound(site, node, &rows, &prices, &tariff, least, scale));
        let mut found = false;
        for column in columns {
            found |= pool.add(column);
        }
        if !found || good(bound) || simplex.value() <= bound as f64 + 1e-3 {
            break;
        }
    }
    (bound > i64::MIN).then(|| Relaxed { bound, taken: simplex.taken().collect() })
}

fn tolerance(dear: f64) -> f64 {
    TOLERANCE * (1.0 + dear / 10.0)
}

/// A run that this way round has nothing to lay.
fn nothing(site: &Site, shape: usize) -> Column {
    Column { shapes: vec![shape], counts: vec![0; site.instance.kinds.len()], bars: 0, splices: 0, price: 0 }
}

/// Parts of a penny: as fine as whole numbers let it be.
fn scale(site: &Site, goal: Goal) -> i64 {
    let dearest = site.instance.kinds.iter().map(|kind| kind.price).max().unwrap_or(0) + 1;
    let dearest = dearest.max(goal.value(dearest, 1));
    ((1_i64 << 58) / (dearest.saturating_mul(1000))).clamp(1, 1 << 20)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a cast from f64 saturates, and is held in far narrower limits"
)]
fn whole(price: f64, scale: i64) -> i64 {
    (price * scale as f64).round().clamp(-1e17, 1e17) as i64
}

/// The programme's prices in whole parts.
fn tariff(site: &Site, node: &Node, rows: &Rows, prices: &[f64], scale: i64) -> Tariff {
    let worth = (0..site.run_of.len()).map(|shape| {
        if !node.wanted[site.run_of[shape]] || !site.goes_with(shape, &node.ways) {
            return UNUSED;
        }
        rows.entries(site, shape)
            .map(
                |(row, sign)| if sign < 0.0 { -whole(prices[row], scale) } else { whole(prices[row], scale) },
            )
            .sum()
    });
    let goal = node.goal;
    let penny = goal.penny * scale - rows.cost.map_or(0, |row| rows.limit_price(row, prices, scale));
    let mut bars: Vec<i64> = site.instance.kinds.iter().map(|kind| kind.price * penny).collect();
    for &(kind, row, _) in &rows.kinds {
        bars[kind] -= rows.limit_price(row, prices, scale);
    }
    let splice = goal.splice * scale - rows.limit_price(rows.splices, prices, scale);
    Tariff { worth: worth.collect(), bars, splice }
}

/// Every run at its worth, less what the limits take off, less what the best group still gains, once for each run.
fn exact_bound(
    site: &Site,
    node: &Node,
    rows: &Rows,
    prices: &[f64],
    tariff: &Tariff,
    least: i64,
    scale: i64,
) -> i64 {
    let wanted = rows.cover.iter().flatten();
    let worth: i128 = wanted.map(|&row| i128::from(whole(prices[row], scale))).sum();
    let splices =
        i128::from(rows.limit_price(rows.splices, prices, scale)) * i128::from(int(node.goal.splices));
    let cost = rows
        .cost
        .zip(node.goal.cost)
        .map_or(0, |(row, most)| i128::from(rows.limit_price(row, prices, scale)) * i128::from(most));
    let kinds: i128 = rows
        .kinds
        .iter()
        .map(|&(_, row, bars)| i128::from(rows.limit_price(row, prices, scale)) * i128::from(int(bars)))
        .sum();
    // A run with nothing to lay costs nothing, whatever it is worth.
    let nothing = (0..site.run_of.len())
        .filter(|&shape| site.instance.spans[shape].length == 0 && tariff.worth[shape] > UNUSED)
        .map(|shape| -tariff.worth[shape]);
    let least = nothing.fold(least, i64::min).min(0);
    let over = i128::from(least) * i128::from(int(site.runs()));
    let parts = worth + splices + cost + kinds + over;
    i64::try_from((parts + i128::from(scale) - 1).div_euclid(i128::from(scale))).unwrap_or(i64::MAX)
}
