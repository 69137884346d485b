//! Every fault of a job gathered, so that all are told at once: the first ones in words, the rest by their number.

use std::fmt;

use super::Fault;
use super::sizes::Size;
use crate::length::Units;
use crate::words::and_more;

/// The most faults told: whoever has more has made one mistake many times, and it must not cost memory or a screen.
pub const MOST_TOLD: usize = 20;

/// Faults as they are found: the first [`MOST_TOLD`] of them, and how many more there are.
#[derive(Debug, Clone, PartialEq)]
pub struct Faults<T = Fault> {
    first: Vec<T>,
    more: usize,
    /// Lengths that can be and seldom are, by their field, mm: no faults.
    unusual: Vec<(String, &'static Size, f64)>,
}

impl<T> Faults<T> {
    /// The first ones.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.first.iter()
    }

    /// How many there are besides the first ones.
    #[must_use]
    pub const fn more(&self) -> usize {
        self.more
    }

    /// Whether nothing is wrong.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.first.is_empty()
    }

    /// One more, which is put into words only if it is told.
    pub(super) fn push(&mut self, fault: impl FnOnce() -> T) {
        if self.first.len() < MOST_TOLD {
            self.first.push(fault());
        } else {
            self.more += 1;
        }
    }

    /// Puts the first ones in the order of their `key`.
    pub(super) fn sort_by_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K) {
        self.first.sort_by_key(key);
    }

    pub(super) const fn count(&self) -> usize {
        self.first.len() + self.more
    }
}

impl<T> Default for Faults<T> {
    fn default() -> Self {
        Self { first: vec![], more: 0, unusual: vec![] }
    }
}

impl<T> IntoIterator for Faults<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        self.first.into_iter()
    }
}

impl<'a, T> IntoIterator for &'a Faults<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut told: Vec<String> = self.iter().map(ToString::to_string).collect();
        told.extend(and_more(self.more));
        f.write_str(&told.join("; "))
    }
}

impl std::error::Error for Faults {}

impl Faults {
    /// A length of an unusual size is no fault and is not forgotten; the first ones are kept.
    pub(super) fn keep_in_mind(&mut self, field: String, size: &'static Size, mm: f64) {
        if self.unusual.len() < MOST_TOLD {
            self.unusual.push((field, size, mm));
        }
    }

    /// What is unusual, in words, by its field; told once.
    pub(super) fn doubts(&mut self, units: Units) -> Vec<Fault> {
        let unusual = std::mem::take(&mut self.unusual);
        let doubt = |(field, size, mm): (String, &Size, f64)| Some(Fault::new(field, size.doubt(mm, units)?));
        unusual.into_iter().filter_map(doubt).collect()
    }

    pub(super) fn none_or<T>(self, value: T) -> Result<T, Self> {
        if self.is_empty() { Ok(value) } else { Err(self) }
    }
}
