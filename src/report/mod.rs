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
use crate::page::{Page, Printer, Remarks, Steps};

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
    let mut page = Page::of(remarks(answer, job), printer);
    body_of(&mut page, answer, job, true);
    if !working.is_empty() {
        page.heading("Working");
        page.steps(working.iter().cloned());
    }
    page
}

/// The verdict, notes and cautions of an answer.
#[must_use]
pub fn remarks(answer: &Answer, job: &Job) -> Remarks {
    remarks_of(answer, job, true)
}

/// The remarks that go with a whole page, or with a part of a sheet.
fn remarks_of(answer: &Answer, job: &Job, whole: bool) -> Remarks {
    match answer {
        Answer::Diagonals(answer) => diagonals::remarks(answer, job),
        Answer::Corners(answer) => corners::remarks(answer, job),
        Answer::Plates(answer) => plates::remarks(answer, job),
        Answer::Cuts(answer) => cuts::remarks(answer, job),
        Answer::Packs(answer) => packs::remarks(answer, job),
        Answer::Heights(answer) => heights::remarks(answer, job),
        Answer::Lines(answer) => lines::remarks(answer, job),
        Answer::Straight(answer) => straight::remarks(answer, job),
        Answer::Readings(answer) => readings::remarks(answer, job, whole),
        Answer::Sketch(answer) => sketch::remarks(answer),
        Answer::Sheet(answer) => sheet::remarks(answer, job),
        Answer::Order(answer) => order::remarks(answer, job),
    }
}

/// Fills a whole page, or the part of a sheet.
fn body_of(page: &mut Page, answer: &Answer, job: &Job, whole: bool) {
    match answer {
        Answer::Diagonals(answer) => diagonals::body(page, answer, job, whole),
        Answer::Corners(answer) => corners::body(page, answer, job, whole),
        Answer::Plates(answer) => plates::body(page, answer, job),
        Answer::Cuts(answer) => cuts::body(page, answer, job),
        Answer::Packs(answer) => packs::body(page, answer, job),
        Answer::Heights(answer) => heights::body(page, answer, job),
        Answer::Lines(answer) => lines::body(page, answer, job, whole),
        Answer::Straight(answer) => straight::body(page, answer, job),
        Answer::Readings(answer) => readings::body(page, answer, job, whole),
        Answer::Sketch(answer) => sketch::body(page, answer, job),
        Answer::Sheet(answer) => sheet::body(page, answer, job),
        Answer::Order(answer) => order::body(page, answer, job, whole),
    }
}
