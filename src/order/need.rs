//! What the parts of a job need, in terms that every part can say it in.

use super::{Price, Size, Unit};
use crate::exact::{Hundredths, Tenths};

/// Something that a part of the job needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// The item.
    pub item: String,
    /// Which of it.
    pub size: Size,
    /// How much.
    pub much: Much,
    /// The part of the job that needs it.
    pub from: String,
    /// A price of its own, which stands before the price list's.
    pub own: Option<Price>,
    /// The plot that needs it, where the order is for several.
    pub plot: Option<String>,
}

/// How much is needed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Much {
    /// Whole things.
    Things(u64),
    /// Whole pieces of a length, as bars and boards are.
    Lengths {
        /// How many.
        count: u64,
        /// The length of one.
        each: Tenths,
    },
    /// A running length.
    Running {
        /// The length in all.
        length: Tenths,
        /// What a joint between two rolls takes.
        lap: Tenths,
        /// The length of a roll, where the job names one.
        roll: Option<Tenths>,
    },
    /// So many of a unit that is no whole thing: hours, litres.
    Own {
        /// How many.
        quantity: Hundredths,
        /// Of what.
        unit: Unit,
    },
}

/// Needs of the same item and size put together, so that packs are shared; each stands where it was first needed.
#[derive(Debug)]
pub(super) struct Gathered {
    /// What is needed in all.
    pub(super) whole: Need,
    /// What was put together.
    pub(super) parts: Vec<Need>,
}

pub(super) fn gathered(needs: &[Need]) -> Vec<Gathered> {
    let mut all: Vec<Gathered> = vec![];
    for need in needs {
        let same = |other: &Need| {
            super::prices::key(&other.item) == super::prices::key(&need.item)
                && other.size.same(&need.size)
                && other.own == need.own
        };
        let joined = all.iter_mut().find(|other| same(&other.whole)).is_some_and(|other| {
            let joined = other.whole.much.joined(&need.much);
            if let Some(much) = &joined {
                other.whole.much = much.clone();
                if !other.whole.from.split(", ").any(|from| from == need.from) {
                    other.whole.from = format!("{}, {}", other.whole.from, need.from);
                }
                other.parts.push(need.clone());
            }
            joined.is_some()
        });
        if !joined {
            all.push(Gathered { whole: need.clone(), parts: vec![need.clone()] });
        }
    }
    all
}

impl Gathered {
    /// What each plot needs of it, in the order that they come.
    pub(super) fn by_plot(&self) -> Vec<Need> {
        let mut plots: Vec<Need> = vec![];
        for part in self.parts.iter().filter(|part| part.plot.is_some()) {
            match plots.iter_mut().find(|plot| plot.plot == part.plot) {
                Some(plot) => plot.much = plot.much.joined(&part.much).unwrap_or_else(|| plot.much.clone()),
                None => plots.push(part.clone()),
            }
        }
        plots
    }
}

impl Much {
    fn joined(&self, other: &Self) -> Option<Self> {
        match (self, other) {
            (Self::Things(a), Self::Things(b)) => Some(Self::Things(a.saturating_add(*b))),
            (Self::Lengths { count: a, each }, Self::Lengths { count: b, each: other }) if each == other => {
                Some(Self::Lengths { count: a.saturating_add(*b), each: *each })
            }
            (Self::Running { length: a, lap, roll }, Self::Running { length: b, .. }) => {
                Some(Self::Running { length: Tenths(a.0.saturating_add(b.0)), lap: *lap, roll: *roll })
            }
            (Self::Own { quantity: a, unit }, Self::Own { quantity: b, unit: other }) if unit.same(other) => {
                Some(Self::Own { quantity: Hundredths(a.0.saturating_add(b.0)), unit: unit.clone() })
            }
            _ => None,
        }
    }
}
