//! What every answer says: its verdict and remarks, its page (which tables, in what order, in which words), its rows for a
//! spreadsheet. A file a command, which implements [`Answered`].
//!
//! ```
//! use pegline::answer::{Answered, Question};
//! use pegline::job::{Job, read};
//! use pegline::page::{Detail, Look, WIDTH, text};
//! use pegline::report::page;
//!
//! let file = read(r#"{"plan": "3mx4m"}"#)?;
//! let job = Job::check(&file)?;
//! let answer = job.answer(Question::Diagonals)?;
//! let page = page(&answer, &job, Detail::Short, WIDTH, &answer.steps(&job));
//! assert!(text(&page, Look::default()).contains("Caution: check for buried services"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bars;
mod cautions;
mod corners;
mod cuts;
mod day;
mod diagonals;
mod figures;
mod heights;
mod joists;
mod lines;
mod moved;
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
mod verdicts;

pub use figures::stack;
pub use moved::{moved, moved_rows};
pub use plan::{echo, echo_sizes};
pub use sheet::illustrate;
pub use timber::searching;

use crate::answer::{Answer, Answered};
use crate::job::Job;
use crate::page::{Detail, Page, Steps};

/// The page of an answer on so many columns, with the working that was asked for.
#[must_use]
pub fn page(answer: &Answer, job: &Job, detail: Detail, columns: usize, working: &[Steps]) -> Page {
    let mut page = Page { columns, ..Page::of(answer.remarks(job, detail)) };
    answer.body(&mut page, job, detail);
    if !working.is_empty() {
        page.heading("Working");
        page.steps(working.iter().cloned());
    }
    page
}
