//! Why a cut list cannot be made.

use crate::exact::{Pence, Tenths};
use crate::length::{InUnits, Units};

/// Why a cut list cannot be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum Error {
    /// Nothing to cut.
    Nothing(&'static str),
    /// More of something than can be answered.
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// The most that is accepted.
        most: usize,
    },
    /// More bars than anyone would buy at once.
    TooManyBars {
        /// How many bars the whole length fills.
        count: usize,
        /// The most that is accepted.
        most: usize,
    },
    /// A length that is zero, negative or too long.
    Length {
        /// Which length.
        what: String,
        /// As given.
        length: Tenths,
        /// The least accepted.
        least: Tenths,
        /// The most accepted.
        most: Tenths,
    },
    /// A price that is negative or too high.
    Price {
        /// Which price.
        what: String,
        /// As given.
        price: Pence,
        /// The most accepted.
        most: Pence,
    },
    /// An interval of allowed splices that ends before it starts.
    Zone {
        /// The run's name.
        run: String,
        /// Where the zone starts.
        from: Tenths,
        /// Where it ends.
        to: Tenths,
    },
    /// The trim leaves nothing of any bar.
    Trim {
        /// Trim on each bar.
        trim: Tenths,
        /// Length of the bar.
        length: Tenths,
    },
    /// A run longer than any bar that no allowed set of splices can make up.
    Unspliceable {
        /// The run's name.
        run: String,
        /// Its length.
        length: Tenths,
        /// The most one bar gives after trimming.
        longest: Tenths,
    },
    /// A piece longer than any bar.
    PieceTooLong {
        /// Length of the piece.
        length: Tenths,
        /// The most one bar gives after trimming.
        longest: Tenths,
    },
    /// A time to look for that is none, or too long.
    Seconds {
        /// The seconds as given.
        given: String,
        /// The most accepted.
        most: u32,
    },
    /// Every stock length is counted, and together they do not reach.
    StockRunsOut,
}

impl InUnits for Error {
    fn message(&self, units: Units) -> String {
        let length = |length: &Tenths| units.fine(length.to_mm().0);
        match self {
            Self::Nothing(what) => format!("there is nothing to cut: give at least one {what}"),
            Self::TooMany { what, count, most } => format!("{what}: {count} given, {most} is the most"),
            Self::TooManyBars { count, most } => format!(
                "it takes {count} bars or more and {most} is the most: check the lengths to cut and to buy, and their \
                 units"
            ),
            Self::Length { what, length: given, least, most } => format!(
                "{what}: {} is no usable length: write one from {} to {}",
                length(given),
                length(least),
                length(most)
            ),
            Self::Price { what, price, most } => {
                format!("{what}: {price} is no usable price: write one from 0.00 to {most}")
            }
            Self::Zone { run, from, to } => {
                format!("run {run}: the splice zone {} to {} ends before it starts", length(from), length(to))
            }
            Self::Trim { trim, length: bar } => {
                format!("the end trim of {} leaves nothing of a bar of {}", length(trim), length(bar))
            }
            Self::Unspliceable { run, length: whole, longest } => format!(
                "run {run}: {} cannot be made up: no bar gives more than {}, and the allowed splices leave a stretch \
                 that is longer; widen the splice zones or add a longer stock length",
                length(whole),
                length(longest)
            ),
            Self::PieceTooLong { length: piece, longest } => format!(
                "piece of {}: no bar gives more than {}; add a longer stock length",
                length(piece),
                length(longest)
            ),
            Self::Seconds { given, most } => format!("{given} is no usable time: write 0 to {most} seconds"),
            Self::StockRunsOut => {
                "the stock runs out: no layout was found within the counted bars; add a length that can be bought"
                    .to_owned()
            }
        }
    }
}
