//! Whether a number can be the length, or the count, that a sum wants.

use super::in_units::InUnits;
use super::units::Units;

/// An amount that a sum can't take. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum AmountError {
    /// A figure that is not a length, or out of all proportion.
    NotALength {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
        /// The largest magnitude taken, mm.
        most: f64,
    },
    /// A figure that has to be more than nothing.
    NotPositive {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
    },
    /// A figure that may not be negative.
    Negative {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
    },
    /// Too many of something.
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// How many are taken.
        most: usize,
    },
}

impl InUnits for AmountError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::NotALength { what, value, most } => format!(
                "{what}: {} is not a length that can be used: write one within ±{}",
                units.with_unit(*value),
                units.with_unit(*most)
            ),
            Self::NotPositive { what, value } => {
                format!("{what}: {} has to be more than 0", units.with_unit(*value))
            }
            Self::Negative { what, value } => {
                format!("{what}: {} may not be less than 0", units.with_unit(*value))
            }
            Self::TooMany { what, count, most } => {
                format!("{count} {what} are more than the {most} that are taken at a time")
            }
        }
    }
}

/// The largest magnitude of any length taken, mm: ten kilometres.
const MOST: f64 = 1e7;

/// `value`, if it is a finite length of reasonable size.
pub(crate) fn usable(what: impl Into<String>, value: f64) -> Result<f64, AmountError> {
    if value.is_finite() && value.abs() <= MOST {
        Ok(value)
    } else {
        Err(AmountError::NotALength { what: what.into(), value, most: MOST })
    }
}

/// `value`, if it is a length of more than nothing.
pub(crate) fn positive(what: impl Into<String> + Clone, value: f64) -> Result<f64, AmountError> {
    if usable(what.clone(), value)? > 0.0 {
        Ok(value)
    } else {
        Err(AmountError::NotPositive { what: what.into(), value })
    }
}

/// `value`, if it is a length of nothing or more.
pub(crate) fn not_negative(what: impl Into<String> + Clone, value: f64) -> Result<f64, AmountError> {
    if usable(what.clone(), value)? >= 0.0 {
        Ok(value)
    } else {
        Err(AmountError::Negative { what: what.into(), value })
    }
}

/// Refuses more than `most` of anything, so that no input hangs.
pub(crate) fn at_most(what: &'static str, count: usize, most: usize) -> Result<(), AmountError> {
    if count > most {
        return Err(AmountError::TooMany { what, count, most });
    }
    Ok(())
}
