//! From an answer to a page: which tables, in what order, in which words.

mod corners;
mod diagonals;
mod plan;
pub mod practice;

pub use plan::echo;

use crate::answer::Answer;
use crate::job::Job;
use crate::page::{Page, Steps};

/// Said wherever pegs are driven.
const BURIED_SERVICES: &str = "check for buried services before driving pegs";

/// The page of an answer, with the working that was asked for.
#[must_use]
pub fn page(answer: &Answer, job: &Job, working: &[Steps]) -> Page {
    let mut page = Page::new();
    match answer {
        Answer::Diagonals(answer) => diagonals::report(&mut page, answer, job),
        Answer::Corners(answer) => corners::report(&mut page, answer, job),
    }
    if !working.is_empty() {
        page.heading("Working");
        page.steps(working.iter().cloned());
    }
    page
}

/// A list in words: `AD`, `AD and BE`, `AD, BE and DF`.
fn and_list(items: &[String]) -> String {
    match items {
        [] => "none".to_owned(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
