//! A length as it stands in a job file: a number or a text, read later with the job's units in hand.

use super::value::entry;
use crate::length::{Length, LengthError, Units};

entry! {
    /// A length as written: `6435`, or `"6.435m"`.
    LengthEntry, called "Length", expected "a length, such as 6435 or \"6.435m\"",
    described "A length: a bare number in the job's units, or a text with a unit (\"6435mm\", \"6.435m\", \"21ft1-3/8in\").",
    such as [6435, "6.435m", "21ft1-3/8in"]
}

impl LengthEntry {
    /// The length; a bare number is in `bare`.
    pub fn read(&self, bare: Units) -> Result<Length, LengthError> {
        Length::parse(&self.text(), bare)
    }
}
