//! From a checked job and a question to an answer, and the JSON envelope that every answer travels in.
//!
//! ```
//! use pegline::answer::{Answer, Question};
//! use pegline::job::{Job, read};
//!
//! let file = read(r#"{"plan": "7800x6000-3000x2400"}"#)?;
//! let job = Job::check(&file)?;
//! let Ok(Answer::Diagonals(checks)) = job.answer(Question::Diagonals) else { panic!("no check sizes") };
//! assert_eq!(checks.proof.names, ["AD", "BE", "DF"]);
//! assert!(job.answer(Question::Plates).is_err_and(|error| error.is_missing_input()));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod answered;
mod ask;
mod commands;
mod envelope;
mod error;
mod headline;
mod joists;
mod moved;
mod schema;
mod sketch;

pub use answered::Answered;
pub use ask::order_of_plots;
pub use commands::{Answer, Day, Missing, Part, Question, Sheet, Standing};
pub use envelope::{BlankLine, Envelope, ErrorLine, LineFault, PlanEcho, Program};
pub use error::AnswerError;
pub(crate) use headline::packs_headline;
pub use joists::{CeilingUnder, RoofJoists};
pub use moved::{Moved, MovedLine};
pub use schema::schema;
pub use sketch::Sketch;
