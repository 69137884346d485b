//! Setting-out sums for timber-framed extensions: a pure geometry core that the `pegline` program wraps.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::plan::parse_expression;
//! use pegline::square::{Options, diagonals};
//!
//! let (footprint, _) = parse_expression("7800x6000-3000x2400", Units::Mm)?;
//! let checks = diagonals(&footprint, &Options::default())?;
//! assert_eq!(checks.proof.names, ["AD", "BE", "DF"]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

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
