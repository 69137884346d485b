//! Every fault of a job gathered, so that all are told at once.

use super::{Fault, LengthEntry};
use crate::length::{LengthError, Units};

/// The faults found so far.
#[derive(Debug, Default)]
pub(super) struct Faults(Vec<Fault>);

impl Faults {
    pub(super) fn add(&mut self, field: &str, problem: impl std::fmt::Display) {
        self.0.push(Fault::new(field, problem));
    }

    /// The value, or nothing and a fault of `field`.
    pub(super) fn take<T, E: std::fmt::Display>(&mut self, field: &str, result: Result<T, E>) -> Option<T> {
        result.map_err(|problem| self.add(field, problem)).ok()
    }

    /// A length of more than zero.
    pub(super) fn positive(&mut self, field: &str, entry: Option<&LengthEntry>, bare: Units) -> Option<f64> {
        let mm = self.take(field, entry?.read(bare))?.mm;
        if mm > 0.0 {
            return Some(mm);
        }
        self.add(field, LengthError::NotPositive { text: bare.figure(mm) });
        None
    }

    /// A length of zero or more.
    pub(super) fn not_negative(
        &mut self,
        field: &str,
        entry: Option<&LengthEntry>,
        bare: Units,
    ) -> Option<f64> {
        let mm = self.take(field, entry?.read(bare))?.mm;
        if mm >= 0.0 {
            return Some(mm);
        }
        self.add(field, format!("`{}` is less than zero: write 0 or more", bare.figure(mm)));
        None
    }

    pub(super) const fn count(&self) -> usize {
        self.0.len()
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn none_or<T>(self, value: T) -> Result<T, Vec<Fault>> {
        if self.0.is_empty() { Ok(value) } else { Err(self.0) }
    }
}
