//! Why plates can't be laid out.

use crate::cutting;
use crate::length::{AmountError, InUnits, Units};

/// The least distance between two of anything that is set out along a plate, mm: nearer than that is a slip of the unit.
pub const CLOSEST: f64 = 100.0;

/// Why plates can't be laid out. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum PlatesError {
    /// A side that is shorter than what the plates at its ends take off.
    NoRoom {
        /// The side.
        side: String,
        /// Its length, mm.
        length: f64,
        /// The plate's width, mm.
        width: f64,
    },
    /// Two plates, or a plate and a wall, that would lie over each other.
    Overlap {
        /// The side the plate lies on.
        first: String,
        /// The side it runs into.
        second: String,
        /// The plate's width, mm.
        width: f64,
    },
    /// Two openings that overlap.
    OpeningsOverlap {
        /// The side.
        side: String,
        /// Where the first starts, mm.
        first: f64,
        /// Where the second starts, mm.
        second: f64,
    },
    /// The binder's splices can't keep clear of the plate's.
    NoLap {
        /// The distance to keep, mm.
        lap: f64,
    },
    /// A length that can be none.
    Amount(AmountError),
    /// A side that the outline has not.
    #[error("there is no side {}: the outline has {sides}", side.saturating_add(1))]
    NoSide {
        /// Its index as given.
        side: usize,
        /// How many sides there are.
        sides: usize,
    },
    /// Two of anything set out nearer than can be meant.
    TooClose {
        /// The distance as given, mm.
        every: f64,
    },
    /// An anchor rule whose least distance from an end is more than its most.
    Edge {
        /// The least distance, mm.
        edge: f64,
        /// The most, mm.
        end: f64,
    },
    /// An anchor rule whose least between two leaves no room for its most.
    Apart {
        /// The least distance, mm.
        apart: f64,
        /// The most, mm.
        spacing: f64,
    },
    /// Studs that leave no place between them for an anchor.
    NoClearPlace {
        /// How far an anchor keeps from a stud's middle, mm.
        clear: f64,
        /// The studs' centres, mm.
        centres: f64,
    },
    /// A roll of damp-proof course too short to lap.
    ShortRoll {
        /// Its length, mm.
        roll: f64,
    },
    /// The cut list can't be made.
    Cutting(#[from] cutting::Error),
}

impl InUnits for PlatesError {
    fn message(&self, units: Units) -> String {
        let mm = |length: &f64| units.with_unit(*length);
        match self {
            Self::Amount(error) => error.message(units),
            Self::Cutting(error) => error.message(units),
            Self::NoRoom { side, length, width } => format!(
                "side {side} is {} long: there is no room on it between plates {} wide; check the width or the plan",
                mm(length),
                mm(width)
            ),
            Self::Overlap { first, second, width } => format!(
                "a plate {} wide along {first} would lie over {second}: check the width or the plan",
                mm(width)
            ),
            Self::OpeningsOverlap { side, first, second } => format!(
                "two openings overlap on {side}, at {} and {}: write them as one",
                units.figure(*first),
                mm(second)
            ),
            Self::NoLap { lap } => format!(
                "the head binder can't be spliced {} clear of the plate's splices; give a smaller lap (--lap, or `plates.lap` in the job file), or longer stock",
                mm(lap)
            ),
            Self::TooClose { every } => {
                format!("{} is too close: write {} or more", mm(every), mm(&CLOSEST))
            }
            Self::Edge { edge, end } => format!(
                "{} is the least distance from an end, and it is more than the most, {}",
                mm(edge),
                mm(end)
            ),
            Self::Apart { apart, spacing } => format!(
                "{} is the least between two anchors, and it is more than a third of the most, {}",
                mm(apart),
                mm(spacing)
            ),
            Self::NoClearPlace { clear, centres } => {
                format!("no place is {} clear of studs at {}: write less", mm(clear), mm(centres))
            }
            Self::ShortRoll { roll } => {
                format!("a roll of {} is too short to lap: check the number and its unit", mm(roll))
            }
            other @ Self::NoSide { .. } => other.to_string(),
        }
    }
}
