//! Values that a job file may give as a number or as a text, read later with the job's units in hand.

mod decimal;
mod length;
mod money;
mod quantity;
mod short;
mod value;

pub use decimal::DecimalEntry;
pub use length::LengthEntry;
pub use money::MoneyEntry;
pub use quantity::QuantityEntry;
pub(super) use quantity::{GRAMS_PER_METRE, NEWTONS};
pub(super) use short::{or_text, short_list};

/// A text that is no entry, and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct EntryError(String);

impl EntryError {
    pub(super) fn new(instead: impl Into<String>) -> Self {
        Self(instead.into())
    }
}
