//! What a quote adds to what the lines cost: a markup on each, contingency on them all, tax by its rate.
//!
//! Each is rounded half up to a penny once: a markup by line, contingency on the sum of the lines with their markup, tax
//! on the sum of all that has the same rate. Contingency is taxed at the order's own rate.

use super::answer::{Line, TaxAt};
use crate::exact::{Pence, Percent, held};

/// What is added to a price, where it is other than to the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Added {
    /// The markup on it.
    pub markup: Option<Percent>,
    /// The rate of tax on it.
    pub tax: Option<Percent>,
}

impl Added {
    /// This, and what `other` says where this says nothing.
    pub(super) fn or(self, other: Self) -> Self {
        Self { markup: self.markup.or(other.markup), tax: self.tax.or(other.tax) }
    }
}

/// What the lines come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Sums {
    /// The markups.
    pub(super) markup: Option<Pence>,
    /// The contingency.
    pub(super) contingency: Option<Pence>,
    /// Lines, markups and contingency.
    pub(super) net: Pence,
    /// The tax, by its rates in the order that they come.
    pub(super) taxes: Vec<TaxAt>,
}

/// Sums the priced lines, with a contingency and its rate of tax.
pub(super) fn sums(lines: &[Line], contingency: Option<Percent>, tax: Option<Percent>) -> Sums {
    let sum = |of: fn(&Line) -> Option<Pence>| {
        Pence(held(lines.iter().filter_map(of).map(|pence| i128::from(pence.0)).sum()))
    };
    let with_markup = sum(Line::net);
    let contingency = contingency.map(|percent| percent.of(with_markup));
    let mut parts: Vec<(Percent, Pence)> =
        lines.iter().filter_map(|line| Some((line.tax_percent?, line.net()?))).collect();
    parts.extend(tax.zip(contingency));
    let mut taxes: Vec<TaxAt> = vec![];
    for (percent, part) in parts {
        match taxes.iter_mut().find(|at| at.percent == percent) {
            Some(at) => at.net = Pence(at.net.0.saturating_add(part.0)),
            None => taxes.push(TaxAt { percent, net: part, tax: Pence(0) }),
        }
    }
    for at in &mut taxes {
        at.tax = at.percent.of(at.net);
    }
    Sums {
        markup: lines.iter().any(|line| line.markup.is_some()).then(|| sum(|line| line.markup)),
        net: Pence(with_markup.0.saturating_add(contingency.unwrap_or_default().0)),
        contingency,
        taxes,
    }
}
