//! Joists between two supports: how many, where, how long, and what goes under each.
//!
//! The plan is turned so that one pull of the tape runs along both supports, from one end; the first joist stands clear of
//! the wall beside it, the others at centres from it, one more clear of every other wall beside the joists. A new wall is
//! as thick as it is said to be, from the outline inward; the house begins at its own line.
//!
//! ```
//! use pegline::joists::{Question, Rows, Support, joists};
//! use pegline::length::Units;
//! use pegline::plan::parse_expression;
//!
//! let (footprint, _) = parse_expression("4000x3000", Units::Mm)?;
//! let question = Question {
//!     from: vec![0],
//!     to: vec![2],
//!     hung: vec![0],
//!     wall: 100.0,
//!     bearing: 100.0,
//!     gap: 3.0,
//!     ..Question::new(400.0, 47.0, 50.0)
//! };
//! let answer = joists(&footprint.with_house(&[0]), &question, Units::Mm)?;
//! // From A: the wall's 100 and 50 clear of it; then 400 more each time.
//! let marks: Vec<f64> = answer.joists.iter().map(|joist| joist.mark.0).collect();
//! assert_eq!(marks[..3], [150.0, 550.0, 950.0]);
//! assert_eq!(answer.joists[0].length.0, 2997.0);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Nothing here sizes a joist: span and section are the engineer's.

mod answer;
mod bays;
mod ends;
mod error;
mod fittings;
mod input;
mod layout;
mod levels;
mod rows;
mod set_out;
mod setting;

pub use answer::{
    Bearer, Check, ClearSpan, Hangers, Held, Joist, JoistEnd, JoistVerdict, Joists, Levels, NoggingRow,
    Pieces, Role, Seat, Trimmer,
};
pub use error::JoistsError;
pub use input::{BearsOn, Mark, Question, RoofOpening, Rows, Support};
pub use set_out::joists;
