//! The field book: what is called out on site, a line at a time.
//!
//! It asks for one reading after another in the order that proves the shape soonest and walks least, says of each what it
//! is off and whether the others bear it out, and stops asking when the verdict can be called. What was read goes into a
//! named booking of the job file; a reading that is replaced is struck out and kept.
//!
//! ```
//! use pegline::book::Book;
//! use pegline::job::read;
//!
//! let mut book = Book::open(read(r#"{"plan": "4000x3000"}"#)?, "plate")?;
//! assert_eq!(book.asked(), Some("AB"));
//! assert_eq!(book.line("4101").lines, ["AB 4101: 101 mm long: the 100 held on was not taken off? Again; Enter keeps it"]);
//! assert_eq!(book.line("4001").lines, ["AB 4001: +1 mm (4101 struck out)"]);
//! assert_eq!(book.asked(), Some("BC"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod asking;
mod kind;
mod pages;
mod remark;
mod standing;
mod typed;

pub use pages::{Book, BookError, Reply};
