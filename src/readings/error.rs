//! What can be wrong with the readings handed in.

use crate::length::{InUnits, Units};
use crate::tape::TapeError;

/// Why a set of readings could not be judged at all.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum Error {
    /// A plan corner is too far off, or falls on another.
    Corner {
        /// The corner's letter.
        corner: char,
        /// Its x as given, mm.
        x: f64,
        /// Its y as given, mm.
        y: f64,
    },
    /// No tape to read with.
    #[error("no tape: give at least one tape")]
    NoTape,
    /// A tape that can be none.
    #[error(transparent)]
    Tape(#[from] TapeError),
    /// No reading at all.
    #[error("no readings: give at least one, as AB=7802")]
    NoReadings,
    /// More readings than any day's taping.
    #[error("{0} readings: at most 700 can be judged at once")]
    TooMany(usize),
    /// All readings are in another unit than the plan.
    #[error(
        "the readings are about {share} the plan's lengths, as if they were in {unit}: write the unit with each, as {example}, or plan and readings in one unit, named by --units"
    )]
    OtherUnit {
        /// What of the plan's lengths they are: `1/1000 of`, `12 times`.
        share: String,
        /// The unit that they seem to be in.
        unit: &'static str,
        /// A reading with it.
        example: String,
    },
    /// A reading between corners the plan does not have.
    #[error("reading {position}: corner {corner} is not on the plan, whose corners are A to {last}")]
    UnknownCorner {
        /// Which reading, counted from 1.
        position: usize,
        /// The corner's number as given, from 0.
        corner: usize,
        /// The plan's last letter.
        last: char,
    },
    /// A reading from a corner to itself.
    #[error("reading {position}: from {corner} to {corner} is no distance: name two corners")]
    SameCorner {
        /// Which reading, counted from 1.
        position: usize,
        /// The corner's letter.
        corner: char,
    },
    /// A reading by a tape that was not described.
    #[error("reading {line}: tape {tape} was not described; there are {count}")]
    UnknownTape {
        /// The line's name.
        line: String,
        /// The tape's number as given, from 1.
        tape: usize,
        /// How many tapes there are.
        count: usize,
    },
    /// Not a length a tape can read.
    NotALength {
        /// The line's name.
        line: String,
        /// The value as given, mm.
        value: f64,
    },
    /// Nothing is left of a reading once the held-on length and the corrections are taken off.
    NothingLeft {
        /// The line's name.
        line: String,
        /// The value as given, mm.
        value: f64,
        /// What is left, mm.
        left: f64,
    },
    /// A setting outside what it can be.
    #[error("{what} is {value}: write {allowed}")]
    Setting {
        /// The setting in plain words.
        what: &'static str,
        /// The value as given.
        value: f64,
        /// What it can be.
        allowed: &'static str,
    },
    /// A side that the plan does not have.
    #[error("side {side} is not on the plan, which has {count} sides")]
    UnknownSide {
        /// The side's number as given, from 1.
        side: usize,
        /// How many sides there are.
        count: usize,
    },
}

impl InUnits for Error {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Corner { corner, x, y } => format!(
                "corner {corner} of the plan is at ({}, {}): give each corner its own place, within 1 km",
                units.with_unit(*x),
                units.with_unit(*y)
            ),
            Self::NotALength { line, value } => format!(
                "reading {line}: {} is not a length on a tape: it must be above 0 and up to 1 km",
                units.with_unit(*value)
            ),
            Self::NothingLeft { line, value, left } => format!(
                "reading {line}: {} leaves {} after what is taken off: check the reading and the length held on",
                units.with_unit(*value),
                units.with_unit(*left)
            ),
            other => other.to_string(),
        }
    }
}
