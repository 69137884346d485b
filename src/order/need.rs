//! What the parts of a job need, in terms that every part can say it in.

use super::{Size, Unit};
use crate::exact::{Hundredths, Pence, Tenths};

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
    /// The price of one that the quantity was chosen by; it stands before the price list's.
    pub rate: Option<Pence>,
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
pub(super) fn gathered(needs: &[Need]) -> Vec<Need> {
    let mut all: Vec<Need> = vec![];
    for need in needs {
        let same = |other: &&mut Need| {
            super::prices::key(&other.item) == super::prices::key(&need.item)
                && other.size.same(&need.size)
                && other.rate == need.rate
        };
        let joined = all.iter_mut().find(same).is_some_and(|other| {
            let joined = other.much.joined(&need.much);
            if let Some(much) = &joined {
                other.much = much.clone();
                if !other.from.split(", ").any(|from| from == need.from) {
                    other.from = format!("{}, {}", other.from, need.from);
                }
            }
            joined.is_some()
        });
        if !joined {
            all.push(need.clone());
        }
    }
    all
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
