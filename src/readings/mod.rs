//! Taped readings: is it square, who misread the tape, and what to move.
//!
//! The readings are adjusted together by weighted least squares ([`adjust()`]); wrong ones are found by data
//! snooping ([`snoop()`]); the figure that the rest make is judged corner by corner ([`Angle`]) and the true
//! outline is laid on it ([`place`]).

mod adjust;
mod answer;
mod cause;
mod chi_square;
mod correct;
mod error;
mod figure;
mod finding;
mod fit;
mod input;
mod intake;
mod limit;
mod loose;
mod moves;
mod next;
mod normal;
mod observation;
mod pairs;
mod prior;
mod report;
mod search;
mod simplex;
mod snoop;
mod square;
mod suggest;

pub use adjust::{Adjustment, NotAdjusted, UNCHECKED, adjust};
pub use answer::{
    AgainstPlan, Corner, FitAnswer, GlobalTest, MasonryAnswer, Misread, ReadingLine, Readings, Reason, Side,
    SuspectReading, TapeAnswer, TapeNext, Verdict,
};
pub use cause::{Cause, Clue, likely};
pub use chi_square::{ALPHA_GLOBAL, ALPHA_READING, critical, joint_factor, lower_tail};
pub use correct::{
    Conditions, Corrections, STANDARD_TEMPERATURE, STEEL_EXPANSION, Sag, Tension, sag, slope, temperature,
    tension,
};
pub use error::Error;
pub use finding::{Finding, SettledBy, Snooping, Suspect};
pub use fit::{Placement, free, held, least_worst, outward_normals, overhangs, place, worst_overhang};
pub use input::{BUILT_WITHIN, FitKind, Input, Masonry, Reading, TapeUse};
pub use limit::{Limit, LimitAnswer};
pub use loose::loose_corners;
pub use moves::{Component, Move, Overhang, SideMove};
pub use observation::{Datum, Observation};
pub use snoop::{CRITICAL, DETECTABLE, Network, snoop};
pub use square::{Angle, COVERAGE, Call, End, Sense, angle_gradient};
pub use suggest::{Check, check_with, fixing, variance_with, worst_with};

/// Whether a set of readings can be judged at all: the plan, the tapes and every reading are what they can be.
pub fn check(input: &Input<'_>) -> Result<(), Error> {
    search::Case::new(input).map(|_| ())
}

/// Judges a set of taped readings.
///
/// Fails on input that cannot be a plan, a tape or a reading; readings that contradict each other, or that do not fix
/// the corners, are answered.
pub fn readings(input: &Input<'_>) -> Result<Readings, Error> {
    let case = search::Case::new(input)?;
    let found = search::search(&case);
    Ok(report::report(&case, &found))
}
