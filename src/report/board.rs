//! The verdict of each part of a job: a line a part, as the day's page and a sheet begin with.

use crate::answer::{Answered, Missing, Part, Question};
use crate::job::Job;
use crate::page::Detail;

/// A part of the day in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct PartVerdict {
    /// Which part.
    pub(super) question: Question,
    /// Whether it is well; nothing where it waits for its inputs.
    pub(super) good: Option<bool>,
    /// Its verdict or what it comes to, or what it waits for.
    pub(super) words: String,
}

/// The verdict of each part, in the order of the day, then what waits. A drawing has none.
pub(super) fn board(parts: &[Part], missing: &[Missing], job: &Job) -> Vec<PartVerdict> {
    let answered = parts.iter().filter_map(|part| {
        let verdict = part.result.remarks(job, Detail::Part).verdict?;
        Some(PartVerdict { question: part.question, good: Some(part.result.good()), words: verdict.words })
    });
    let waits = missing.iter().map(|missing| PartVerdict {
        question: missing.question,
        good: None,
        words: format!("waits for {}", missing.needs),
    });
    answered.chain(waits).collect()
}
