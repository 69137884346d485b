//! The working of each answer as on a board: numbered steps, one operation a line, the rounding last.
//!
//! ```
//! use pegline::answer::{Answered, Question};
//! use pegline::job::{Job, read};
//!
//! let file = read(r#"{"plan": "3mx4m"}"#)?;
//! let job = Job::check(&file)?;
//! let answer = job.answer(Question::Diagonals)?;
//! let steps = answer.steps(&job);
//! assert!(steps[0].steps.iter().any(|step| step.contains("√25")), "{:?}", steps[0]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub(crate) mod corners;
pub(crate) mod diagonals;
pub(crate) mod heights;
pub(crate) mod joists;
pub(crate) mod lines;
pub(crate) mod order;
pub(crate) mod packs;
pub(crate) mod plates;
pub(crate) mod readings;
pub(crate) mod straight;
