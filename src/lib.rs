//! Setting-out sums for timber-framed extensions: a pure geometry core that the `pegline` program wraps.
//!
//! Each capability is a function from plain structs to a plain answer, lengths in millimetres. Which diagonals of an L fix
//! its shape, and what they must read:
//!
//! ```
//! use pegline::length::Units;
//! use pegline::plan::parse_expression;
//! use pegline::square::{Options, diagonals};
//!
//! let (footprint, _) = parse_expression("7800x6000-3000x2400", Units::Mm)?;
//! let checks = diagonals(&footprint, &Options::default())?;
//! assert_eq!(checks.proof.names, ["AD", "BE", "DF"]);
//! let tape: Vec<f64> = checks.diagonals.iter().filter(|line| line.proof).map(|line| line.tape.0).collect();
//! assert_eq!(tape, [6000.0, 6708.0, 5367.0]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Or all of a job at once: a job file is checked as a whole, every fault with its field, and then asked. What was taped on
//! a plate of 4 by 3 m, one diagonal read 100 mm short:
//!
//! ```
//! use pegline::answer::{Answer, Answered, Question};
//! use pegline::job::{Job, read};
//!
//! let file = read(
//!     r#"{"plan": "4000x3000", "readings": {"read": ["AB=4000", "BC=3000", "CD=4000", "DA=3000", "AC=4900", "BD=5000"]}}"#,
//! )?;
//! let job = Job::check(&file)?;
//! let answer = job.answer(Question::Readings)?;
//! assert!(!answer.good());
//! let Answer::Readings(readings) = answer else { unreachable!("that was the question") };
//! assert_eq!(readings.misreads[0].name.as_deref(), Some("AC"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! And as a program prints it: a page for people, or the JSON of the envelope that every answer travels in.
//!
//! ```
//! use pegline::answer::{Answered, Question};
//! use pegline::job::{Job, read};
//! use pegline::page::{Detail, Look, WIDTH, text};
//! use pegline::report::page;
//!
//! let job = Job::check(&read(r#"{"plan": "7800x6000", "plates": {"width": "140"}, "stock": {"lengths": [{"length": "4.8m"}]}}"#)?)?;
//! let answer = job.answer(Question::Plates)?;
//! let printed = text(&page(&answer, &job, Detail::Short, WIDTH, &answer.steps(&job)), Look::default());
//! assert!(printed.starts_with("Buy 6 of 4800 mm"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The modules in four groups, each standing on those before it:
//!
//! - **The ground**: [`words`], [`geometry`], [`length`], [`exact`] figures, the [`tape`], [`sag`], published [`rules`],
//!   [`network`]s of distances, [`packers`], and the [`plan`] with the house that it stands against.
//! - **The capabilities**: [`square`], [`lines`], [`cutting`], [`stock`], [`plates`], [`cuts`], [`readings`], [`packing`],
//!   [`heights`], [`joists`], [`order`], [`sketch`], [`practice`]. None uses another but the cutting of timber.
//! - **A job**: the [`job`] file, checked as a whole, and the [`answer`] to a question about it.
//! - **What is said**: [`report`], the [`page`]s it fills, and the field [`book`].

pub mod answer;
mod board;
pub mod book;
pub mod cuts;
pub mod cutting;
pub mod exact;
pub mod geometry;
pub mod heights;
pub mod job;
pub mod joists;
pub mod length;
pub mod lines;
mod markup;
pub mod network;
pub mod order;
pub mod packers;
pub mod packing;
pub mod page;
pub mod plan;
pub mod plates;
pub mod practice;
pub mod readings;
pub mod report;
pub mod rules;
pub mod sag;
pub mod sketch;
pub mod square;
pub mod stock;
pub mod tape;
pub mod words;
mod working;
