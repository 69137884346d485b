//! Why plates can't be laid out.

use crate::cutting;

/// Why plates can't be laid out. Lengths in messages are mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlatesError {
    /// A side that is shorter than what the plates at its ends take off.
    #[error(
        "side {side} is {length} mm long: there is no room on it between plates {width} mm wide; check the width or the plan"
    )]
    NoRoom {
        /// The side.
        side: String,
        /// Its length, mm.
        length: f64,
        /// The plate's width, mm.
        width: f64,
    },
    /// Two plates, or a plate and a wall, that would lie over each other.
    #[error("a plate {width} mm wide along {first} would lie over {second}: check the width or the plan")]
    Overlap {
        /// The side the plate lies on.
        first: String,
        /// The side it runs into.
        second: String,
        /// The plate's width, mm.
        width: f64,
    },
    /// Two openings that overlap.
    #[error("two openings overlap on {side}, at {first} and {second} mm: write them as one")]
    OpeningsOverlap {
        /// The side.
        side: String,
        /// Where the first starts, mm.
        first: f64,
        /// Where the second starts, mm.
        second: f64,
    },
    /// The binder's splices can't keep clear of the plate's.
    #[error(
        "the head binder can't be spliced {lap} mm clear of the plate's splices: {problem}; give a smaller lap (--lap, or `plates.lap` in the job file), or longer stock"
    )]
    NoLap {
        /// The distance to keep, mm.
        lap: f64,
        /// What stood in the way.
        problem: cutting::Error,
    },
    /// The cut list can't be made.
    #[error(transparent)]
    Cutting(#[from] cutting::Error),
}
