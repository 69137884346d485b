//! Why a cut list cannot be made.

use crate::exact::{Pence, Tenths};

/// Why a cut list cannot be made. Lengths are mm in the messages.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Error {
    /// Nothing to cut.
    #[error("there is nothing to cut: give at least one {0}")]
    Nothing(&'static str),
    /// More of something than can be answered.
    #[error("{what}: {count} given, {most} is the most")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// The most that is accepted.
        most: usize,
    },
    /// More bars than anyone would buy at once.
    #[error(
        "it takes {count} bars or more and {most} is the most: check the lengths to cut and to buy, and their units"
    )]
    TooManyBars {
        /// How many bars the whole length fills.
        count: usize,
        /// The most that is accepted.
        most: usize,
    },
    /// A length that is zero, negative or too long.
    #[error("{what}: {length} mm is no usable length: write one from {least} to {most} mm")]
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
    #[error("{what}: {price} is no usable price: write one from 0.00 to {most}")]
    Price {
        /// Which price.
        what: String,
        /// As given.
        price: Pence,
        /// The most accepted.
        most: Pence,
    },
    /// An interval of allowed splices that ends before it starts.
    #[error("run {run}: the splice zone {from} to {to} mm ends before it starts")]
    Zone {
        /// The run's name.
        run: String,
        /// Where the zone starts.
        from: Tenths,
        /// Where it ends.
        to: Tenths,
    },
    /// The trim leaves nothing of any bar.
    #[error("the end trim of {trim} mm leaves nothing of a {length} mm bar")]
    Trim {
        /// Trim on each bar.
        trim: Tenths,
        /// Length of the bar.
        length: Tenths,
    },
    /// A run longer than any bar that no allowed set of splices can make up.
    #[error(
        "run {run}: {length} mm cannot be made up: no bar gives more than {longest} mm, and the allowed \
         splices leave a stretch that is longer; widen the splice zones or add a longer stock length"
    )]
    Unspliceable {
        /// The run's name.
        run: String,
        /// Its length.
        length: Tenths,
        /// The most one bar gives after trimming.
        longest: Tenths,
    },
    /// A piece longer than any bar.
    #[error("piece of {length} mm: no bar gives more than {longest} mm; add a longer stock length")]
    PieceTooLong {
        /// Length of the piece.
        length: Tenths,
        /// The most one bar gives after trimming.
        longest: Tenths,
    },
    /// A time to look for that is none, or too long.
    #[error("{given} is no usable time: write 0 to {most} seconds")]
    Seconds {
        /// The seconds as given.
        given: String,
        /// The most accepted.
        most: u32,
    },
    /// Every stock length is counted, and together they do not reach.
    #[error(
        "the stock runs out: no layout was found within the counted bars; add a length that can be bought"
    )]
    StockRunsOut,
}
