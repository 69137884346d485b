//! Why an order can't be made out.

use super::MOST_MONEY;
use super::figures::MOST_QUANTITY;

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
    #[error("a roll of {item} is {roll} mm long and a joint takes {lap} mm: write a longer roll as `pack`")]
    ShortRoll {
        /// The item.
        item: String,
        /// The roll's length, mm.
        roll: crate::exact::Tenths,
        /// What a joint takes, mm.
        lap: crate::exact::Tenths,
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
