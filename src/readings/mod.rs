//! Taped readings: is it square, who misread the tape, and what to move.
//!
//! The readings are adjusted together by weighted least squares ([`adjust()`]). What may explain them (nothing wrong, some
//! readings wrong, two lines exchanged, one length on all of them) is weighed by its odds ([`Explanation`]), the plan a vague
//! prior. The figure that the rest make is judged corner by corner ([`Angle`]) and side by side ([`Side`]), and the true
//! outline is laid on it ([`place`]).
//!
//! ```
//! use pegline::answer::{Answer, Question};
//! use pegline::job::{Job, read};
//!
//! // Sides and both diagonals of 4 by 3 m; AC was read 100 mm short.
//! let file = read(
//!     r#"{"plan": "4000x3000", "readings": {"read": ["AB=4000", "BC=3000", "CD=4000", "DA=3000", "AC=4900", "BD=5000"]}}"#,
//! )?;
//! let job = Job::check(&file)?;
//! let Ok(Answer::Readings(answer)) = job.answer(Question::Readings) else { panic!("no readings") };
//! assert_eq!(answer.misreads.len(), 1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod answer;
mod assemble;
mod case;
mod correct;
mod error;
mod explained;
mod figure;
mod fit;
mod input;
mod intake;
mod judge;
mod limit;
mod misreads;
mod network;
mod suggest;
mod tape_next;

pub use answer::{
    AfterMoves, Corner, FitAnswer, GlobalTest, HouseOut, LaidBy, MasonryAnswer, ReadingLine, Readings,
    Reason, Side, TapeAnswer, TapeNext, Verdict,
};
pub use correct::{
    Conditions, Corrections, STANDARD_TEMPERATURE, STEEL_EXPANSION, Sag, Tension, sag, slope, temperature,
    tension,
};
pub use error::Error;
pub use explained::{AgainstPlan, Explains, Explanation, Misread, SuspectReading};
pub use fit::moves::{Component, Move, Overhang, SideMove};
pub use fit::placement::{
    Placement, free, held, least_worst, outward_normals, overhangs, place, worst_overhang,
};
pub use fit::square::{Angle, COVERAGE, Call, End, Sense};
pub use input::{BUILT_WITHIN, FitKind, Input, MASONRY_ENDS, Masonry, Reading, TapeUse};
pub use limit::{Limit, LimitAnswer};
pub(crate) use misreads::cause::off_words;
pub use misreads::cause::{Cause, Clue, likely};
pub use misreads::finding::SettledBy;

pub use network::adjust::{Adjustment, NotAdjusted, UNCHECKED, adjust};
pub use network::chi_square::{ALPHA_GLOBAL, ALPHA_READING, CRITICAL, critical, joint_factor, lower_tail};
pub use network::loose::loose_corners;
pub use network::observation::{Datum, Observation};
pub use suggest::{Check, check_with, fixing, variance_with, worst_with};

/// Whether a set of readings can be judged at all: the plan, the tapes and every reading are what they can be.
pub fn check(input: &Input<'_>) -> Result<(), Error> {
    case::Case::new(input).map(|_| ())
}

/// Judges a set of taped readings.
///
/// Fails on input that cannot be a plan, a tape or a reading; readings that contradict each other, or that do not fix
/// the corners, are answered.
pub fn readings(input: &Input<'_>) -> Result<Readings, Error> {
    let (mut answer, found) = judged(input)?;
    if let Some((tape, length)) = found.constant {
        // What the rest comes to once that is said.
        let mut tapes = input.tapes.to_vec();
        for (_, used) in tapes.iter_mut().enumerate().filter(|(i, _)| tape.is_none_or(|tape| tape == *i)) {
            used.held_on += length;
        }
        answer.rest = Some(judged(&Input { tapes: &tapes, ..*input })?.0.verdict);
    }
    Ok(answer)
}

fn judged(input: &Input<'_>) -> Result<(Readings, misreads::search::Found), Error> {
    let mut case = case::Case::new(input)?;
    let odds = judge::odds::weigh(&case);
    case.roughen(odds.rougher);
    let found = misreads::search::search(&case, odds);
    Ok((assemble::assemble(&case, &found), found))
}
