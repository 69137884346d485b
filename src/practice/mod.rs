//! Practice sheets for training: questions drawn from a seed, their answers with working, and marking.
//!
//! Every size is a whole number of steps of the sheet's tape (1 mm, or 1/16 in) and every sum is in integers, so the
//! same topic, level, seed, count and units give the same sheet on every machine.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::practice::{Ask, Level, Topic, sheet};
//!
//! let ask = Ask { topic: Topic::Diagonals, level: Level::Two, seed: 7, count: 8, units: Units::Mm };
//! let sheet = sheet(ask)?;
//! assert_eq!(sheet.questions.len(), 8);
//! # Ok::<(), pegline::practice::PracticeError>(())
//! ```

mod answer;
mod ask;
mod board;
mod class;
mod edition;
mod error;
mod filled;
mod follow;
mod found;
mod hand;
mod mark;
mod packers;
mod picture;
mod question;
mod random;
mod scale;
mod shape;
mod sheet;
mod slip;
mod topic;
mod topics;
mod wording;

pub use answer::{Answer, Trap, Value, Wrong};
pub use ask::Ask;
pub use board::by_hand;
pub use class::{Class, ClassMarks, Common, Pupil, Returned, read_names};
pub use edition::{EDITION, MOST_NAMES, MOST_QUESTIONS};
pub use error::PracticeError;
pub use filled::{Entry, Fault, Form, Place, Reading, Written, read_form, read_text, sheets_in};
pub use mark::{Mark, MarkedBlank, MarkedQuestion, Marks, mark};
pub use question::{Blank, Kind, Question};
pub use random::Random;
pub use sheet::{Answered, Answers, Filled, Sheet, ToFill, sheet};
pub use slip::Slip;
pub use topic::{Level, Topic};
