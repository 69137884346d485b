//! Why an order can't be made out.

use super::MOST_MONEY;
use super::figures::MOST_QUANTITY;
use crate::exact::Tenths;
use crate::length::{InUnits, Units};

/// An order that can't be made out.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OrderError {
    /// A price per something else than what the item is counted in.
    #[error(
        "the price of {item} is per {given}, and it is counted by {wanted}: write the price per {wanted}"
    )]
    Unit {
        /// The item.
        item: String,
        /// The price's unit.
        given: String,
        /// The units that it can be priced in.
        wanted: String,
    },
    /// A price of a roll whose length is not known.
    #[error(
        "the price of {item} is per roll, and how long a roll is was not said: write unit m or ft, and its length as `pack`"
    )]
    NoRoll {
        /// The item.
        item: String,
    },
    /// A roll too short to be joined.
    #[error("{}", self.message(Units::Mm))]
    ShortRoll {
        /// The item.
        item: String,
        /// The roll's length, mm.
        roll: Tenths,
        /// What a joint takes, mm.
        lap: Tenths,
    },
    /// More than is taken.
    #[error("the quantity of {item} is over {MOST_QUANTITY}: check the number and its unit")]
    Quantity {
        /// The item.
        item: String,
    },
    /// More than is taken.
    #[error("{what} comes to over {MOST_MONEY}: check the prices and quantities")]
    Money {
        /// The item, or the order.
        what: String,
    },
}

impl InUnits for OrderError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::ShortRoll { item, roll, lap } => format!(
                "a roll of {item} is {} long and a joint takes {}: write a longer roll as `pack`",
                units.with_unit(roll.to_mm().0),
                units.with_unit(lap.to_mm().0)
            ),
            other => other.to_string(),
        }
    }
}
