//! A group of runs on its bars, what it is made up of, and what it is weighed by.

use super::site::Site;
use crate::exact::int;

/// A group of runs, each in one shape, on a set of bars.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Column {
    /// Places among the spans, in order.
    pub(super) shapes: Vec<usize>,
    /// Bars by kind.
    pub(super) counts: Vec<usize>,
    pub(super) bars: usize,
    pub(super) splices: usize,
    pub(super) price: i64,
}

/// What is to be least, and what may not be exceeded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Goal {
    /// What a penny counts, and a splice.
    pub(super) penny: i64,
    pub(super) splice: i64,
    /// Most splices in all.
    pub(super) splices: usize,
    /// The most that the bars may cost.
    pub(super) cost: Option<i64>,
    /// Most splices of one group.
    pub(super) group: usize,
}

impl Goal {
    /// The least cost with so many splices.
    pub(super) const fn cost(splices: usize) -> Self {
        Self { penny: 1, splice: 0, splices, cost: None, group: splices }
    }

    pub(super) fn value(&self, price: i64, splices: usize) -> i64 {
        self.penny * price + self.splice * int(splices)
    }

    /// Whether so much may be taken.
    pub(super) fn allows(&self, price: i64, splices: usize) -> bool {
        splices <= self.splices && self.cost.is_none_or(|most| price <= most)
    }
}

/// What the programme pays and asks, in whole parts.
#[derive(Debug, Clone)]
pub(super) struct Tariff {
    /// What each shape is worth; [`UNUSED`] where it may not be used.
    pub(super) worth: Vec<i64>,
    /// What a bar of each kind costs.
    pub(super) bars: Vec<i64>,
    /// What a splice costs.
    pub(super) splice: i64,
}

/// Worth less than anything: not to be used.
pub(super) const UNUSED: i64 = i64::MIN;

/// Shapes of which a group may have all together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Choice {
    pub(super) shapes: Vec<usize>,
    /// Their lengths, a kerf with each.
    pub(super) length: i64,
    /// The splices that their runs need.
    pub(super) splices: usize,
}

impl Choice {
    pub(super) fn new(site: &Site, shapes: Vec<usize>) -> Self {
        let spans = || shapes.iter().map(|&shape| &site.instance.spans[shape]);
        Self {
            length: spans().map(|span| span.length + site.instance.kerf).sum(),
            splices: spans().map(|span| span.least_splices).sum(),
            shapes,
        }
    }

    pub(super) fn worth(&self, tariff: &Tariff) -> i64 {
        self.shapes.iter().fold(0, |sum, &shape| match tariff.worth[shape] {
            UNUSED => UNUSED,
            _ if sum == UNUSED => UNUSED,
            worth => sum + worth,
        })
    }
}

/// Which groups may be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Limits {
    /// Most splices of one group.
    pub(super) splices: usize,
    /// A group has no more splices than its runs need one by one.
    pub(super) own: bool,
}
