//! Every fault of a job gathered, so that all are told at once: the first ones in words, the rest by their number.

use std::fmt;

use super::sizes::size_of;
use super::{Fault, LengthEntry};
use crate::length::{Length, LengthError, Units};
use crate::words::and_more;

/// The most faults told: whoever has more has made one mistake many times, and it must not cost memory or a screen.
pub const MOST_TOLD: usize = 20;

/// Faults as they are found: the first [`MOST_TOLD`] of them, and how many more there are.
#[derive(Debug, Clone, PartialEq)]
pub struct Faults<T = Fault> {
    first: Vec<T>,
    more: usize,
    /// Lengths that can be and seldom are, by their field, mm: no faults.
    unusual: Vec<(String, f64)>,
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
    pub(super) fn add(&mut self, field: &str, problem: impl fmt::Display) {
        self.push(|| Fault::new(field, problem));
    }

    /// The value, or nothing and a fault of `field`.
    pub(super) fn take<T, E: fmt::Display>(&mut self, field: &str, result: Result<T, E>) -> Option<T> {
        result.map_err(|problem| self.add(field, problem)).ok()
    }

    /// A length of more than zero.
    pub(super) fn positive(&mut self, field: &str, entry: Option<&LengthEntry>, bare: Units) -> Option<f64> {
        let entry = entry?;
        let length = self.take(field, entry.read(bare))?;
        if length.mm > 0.0 {
            return self.plausible(field, &entry.text(), length, bare);
        }
        self.add(field, LengthError::NotPositive { text: bare.figure(length.mm) });
        None
    }

    /// A length of zero or more.
    pub(super) fn not_negative(
        &mut self,
        field: &str,
        entry: Option<&LengthEntry>,
        bare: Units,
    ) -> Option<f64> {
        let entry = entry?;
        let length = self.take(field, entry.read(bare))?;
        if length.mm >= 0.0 {
            return self.plausible(field, &entry.text(), length, bare);
        }
        self.add(field, format!("`{}` is less than zero: write 0 or more", bare.figure(length.mm)));
        None
    }

    /// A length of a size that it can have, mm, from the text that it was read from; one of an unusual size is kept in mind.
    pub(super) fn plausible(&mut self, field: &str, typed: &str, length: Length, bare: Units) -> Option<f64> {
        let Some(size) = size_of(field) else { return Some(length.mm) };
        if let Some(refusal) = size.refusal(typed, length, bare) {
            self.add(field, refusal);
            return None;
        }
        if self.unusual.len() < MOST_TOLD && size.doubt(length.mm, bare).is_some() {
            self.unusual.push((field.to_owned(), length.mm));
        }
        Some(length.mm)
    }

    /// What is unusual, in words, by its field; told once.
    pub(super) fn doubts(&mut self, shown: Units) -> Vec<Fault> {
        let unusual = std::mem::take(&mut self.unusual);
        let told = |(field, mm): (String, f64)| {
            let words = size_of(&field)?.doubt(mm, shown)?;
            Some(Fault::new(field, words))
        };
        unusual.into_iter().filter_map(told).collect()
    }

    pub(super) fn none_or<T>(self, value: T) -> Result<T, Self> {
        if self.is_empty() { Ok(value) } else { Err(self) }
    }
}
