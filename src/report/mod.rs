//! From an answer to a page: which tables, in what order, in which words.
//!
//! ```
//! use pegline::answer::Question;
//! use pegline::job::{Job, read};
//! use pegline::page::{Look, text};
//! use pegline::report::page;
//! use pegline::working::working;
//!
//! let file = read(r#"{"plan": "3mx4m"}"#)?;
//! let job = Job::check(&file).expect("nothing is wrong with it");
//! let answer = job.answer(Question::Diagonals).expect("it has a plan");
//! let page = page(&answer, &job, &working(&answer, &job));
//! assert!(text(&page, Look::default()).contains("Caution: check for buried services"));
//! # Ok::<(), pegline::job::JobFileError>(())
//! ```

mod bars;
mod corners;
mod cuts;
mod diagonals;
mod figures;
mod heights;
mod lines;
mod order;
mod packs;
mod plan;
mod plates;
mod plates_extra;
pub mod practice;
mod readings;
mod sheet;
mod sketch;
mod straight;
mod timber;

pub(crate) use order::size_words;
pub use plan::echo;

use crate::answer::Answer;
use crate::job::Job;
use crate::page::{Extent, Page, Printer, Steps};

/// Said wherever pegs are driven.
const BURIED_SERVICES: &str = "check for buried services before driving pegs";

/// Said wherever fixings are placed.
const FIXINGS: &str = "splices, anchors and fixings carry load: follow the engineer's or the kit designer's schedule and the local \
code; published figures are for reference";

/// Said wherever a plate or a joist is packed up.
const PACKING_AND_BEARINGS: &str = "packing and bearings carry load: follow the engineer's or the kit designer's schedule and the local code; \
published figures are for reference; check the existing wall before bearing on it";

/// The page of an answer, with the working that was asked for, for any printer.
#[must_use]
pub fn page(answer: &Answer, job: &Job, working: &[Steps]) -> Page {
    page_for(Printer::Any, answer, job, working)
}

/// The same for one printer: what others would print is left out.
#[must_use]
pub fn page_for(printer: Printer, answer: &Answer, job: &Job, working: &[Steps]) -> Page {
    let mut page = filled(answer, job, Extent::Whole, printer);
    if !working.is_empty() {
        page.heading("Working");
        page.steps(working.iter().cloned());
    }
    page
}

/// The verdict, notes and cautions of an answer alone: a page without a body, for those who print none.
#[must_use]
pub fn remarks(answer: &Answer, job: &Job) -> Page {
    filled(answer, job, Extent::Remarks, Printer::Text)
}

fn filled(answer: &Answer, job: &Job, extent: Extent, printer: Printer) -> Page {
    let mut page = Page::of(extent, printer);
    match answer {
        Answer::Diagonals(answer) => diagonals::report(&mut page, answer, job),
        Answer::Corners(answer) => corners::report(&mut page, answer, job),
        Answer::Plates(answer) => plates::report(&mut page, answer, job),
        Answer::Cuts(answer) => cuts::report(&mut page, answer, job),
        Answer::Packs(answer) => packs::report(&mut page, answer, job),
        Answer::Heights(answer) => heights::report(&mut page, answer, job),
        Answer::Lines(answer) => lines::report(&mut page, answer, job),
        Answer::Straight(answer) => straight::report(&mut page, answer, job),
        Answer::Readings(answer) => readings::report(&mut page, answer, job),
        Answer::Sketch(answer) => sketch::report(&mut page, answer, job),
        Answer::Sheet(answer) => sheet::report(&mut page, answer, job),
        Answer::Order(answer) => order::report(&mut page, answer, job),
    }
    page
}
