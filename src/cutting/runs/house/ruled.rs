//! Groups that were found to be impossible on some sets of bars, and what is left for them.

use std::collections::HashMap;

use super::column::{Column, Limits, Tariff, UNUSED};
use super::site::Site;
use crate::exact::int;

/// More sets of bars for one group are not looked through.
const MOST_SETS: usize = 500;

/// What is known of a group on so many bars.
#[derive(Debug, Clone)]
struct Sets {
    /// Sets of bars, as counts by kind, that may hold it.
    open: Vec<Vec<usize>>,
    /// Those that hold it only with a splice more, if at all.
    closed: Vec<Vec<usize>>,
}

/// The groups by their shapes and number of bars.
#[derive(Debug, Clone, Default)]
pub(super) struct RuledOut(HashMap<(Vec<usize>, usize), Sets>);

impl RuledOut {
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether the group is told of here.
    pub(super) fn has(&self, bars: usize, shapes: impl Fn() -> Vec<usize>) -> bool {
        !self.0.is_empty() && self.0.contains_key(&(shapes(), bars))
    }

    /// Notes that a group, joined by as few splices as its bars need, can't be laid; false where there are too many sets of bars
    /// to say what is left.
    pub(super) fn add(&mut self, site: &Site, column: &Column) -> bool {
        let key = (column.shapes.clone(), column.bars);
        if !self.0.contains_key(&key) {
            let Some(open) = sets(site, column) else { return false };
            self.0.insert(key.clone(), Sets { open, closed: vec![] });
        }
        if let Some(sets) = self.0.get_mut(&key) {
            sets.open.retain(|counts| *counts != column.counts);
            if !sets.closed.contains(&column.counts) {
                sets.closed.push(column.counts.clone());
            }
        }
        true
    }

    /// The groups told of here at their cheapest: the least that one costs over its worth, and those below nothing.
    pub(super) fn columns(
        &self,
        site: &Site,
        tariff: &Tariff,
        limits: Limits,
        usable: impl Fn(&[usize]) -> bool,
    ) -> (i64, Vec<Column>) {
        let mut least = 0;
        let mut columns = vec![];
        for ((shapes, bars), sets) in &self.0 {
            let worth = shapes.iter().map(|&shape| tariff.worth[shape]);
            if worth.clone().any(|worth| worth == UNUSED) || !usable(shapes) {
                continue;
            }
            let worth: i64 = worth.sum();
            let open = sets.open.iter().map(|counts| (counts, bars - 1));
            let closed = sets.closed.iter().filter(|_| !limits.own).map(|counts| (counts, *bars));
            let best = open
                .chain(closed)
                .filter(|(_, splices)| *splices <= limits.splices)
                .map(|(counts, splices)| {
                    let price: i64 =
                        counts.iter().zip(&tariff.bars).map(|(&count, price)| int(count) * price).sum();
                    (price + tariff.splice * int(splices) - worth, splices, counts)
                })
                .min();
            let Some((over, splices, counts)) = best else { continue };
            least = least.min(over);
            if over < 0 {
                let price = counts.iter().zip(&site.instance.kinds);
                columns.push(Column {
                    shapes: shapes.clone(),
                    counts: counts.clone(),
                    bars: *bars,
                    splices,
                    price: price.map(|(&count, kind)| int(count) * kind.price).sum(),
                });
            }
        }
        columns.sort_by(|a, b| (&a.shapes, &a.counts).cmp(&(&b.shapes, &b.counts)));
        (least, columns)
    }
}

/// Every set of so many bars that is long enough for the group.
fn sets(site: &Site, column: &Column) -> Option<Vec<Vec<usize>>> {
    let instance = &site.instance;
    let length: i64 = column.shapes.iter().map(|&shape| instance.spans[shape].length).sum();
    let need = instance.need(length, column.shapes.len(), column.bars, column.splices);
    let mut sets: Vec<(Vec<usize>, usize, i64)> = vec![(vec![0; instance.kinds.len()], 0, 0)];
    for _ in 0..column.bars {
        let mut more = vec![];
        for (counts, first, length) in &sets {
            for kind in *first..instance.kinds.len() {
                let mut counts = counts.clone();
                counts[kind] += 1;
                more.push((counts, kind, length + instance.kinds[kind].length));
            }
        }
        sets = more;
        if sets.len() > MOST_SETS {
            return None;
        }
    }
    let fits = |(counts, _, length): &(Vec<usize>, usize, i64)| {
        let kinds = instance.kinds.iter().zip(counts);
        *length >= need && kinds.clone().all(|(kind, &count)| kind.count.is_none_or(|most| count <= most))
    };
    Some(sets.into_iter().filter(fits).map(|(counts, ..)| counts).collect())
}
