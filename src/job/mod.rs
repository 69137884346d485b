//! The job file: one JSON file that holds a whole job's inputs, and the checked [`Job`] made of it.
//!
//! What is typed on the command line becomes a [`JobFile`] too, laid over the file's, so that there is one way from
//! words to a checked job.
//!
//! ```
//! use pegline::job::{Job, read};
//!
//! let file = read(r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "plates": {"width": "140mm"}}"#)?;
//! let job = Job::check(&file)?;
//! assert_eq!(job.plates.map(|plates| plates.width), Some(140.0));
//!
//! let faults = read(r#"{"plan": "7800x6000", "hose": ["AB"]}"#).expect_err("a field is mistyped");
//! assert!(faults.to_string().contains("did you mean `house`"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod booked;
mod check;
mod cursor;
mod entries;
mod fault;
mod faults;
mod file;
mod sections;
mod sizes;
mod starter;
mod text;
#[cfg(feature = "cli")]
mod typed;

pub use check::Job;
pub use entries::{DecimalEntry, EntryError, LengthEntry, MoneyEntry, QuantityEntry};
pub use fault::Fault;
pub use faults::{Faults, MOST_TOLD};
pub use file::{JobFile, SCHEMA, schema};
pub use sections::*;
pub use starter::{Shape, UnknownShape, starter};
pub use text::{
    JobFileError, LARGEST_FILE, PRICE_COLUMNS, Place, PriceFile, locate, read, read_prices, rewritten,
    without_mark,
};
