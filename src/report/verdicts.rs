//! The verdict of each part of a job: a line a part, as the day's page and a sheet begin with.

use crate::answer::{Answered, Missing, Part, Question, Sheet};
use crate::job::Job;
use crate::page::Detail;
use crate::words::and_list;

/// A part of the day in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct PartVerdict {
    /// Which part.
    pub(super) question: Question,
    /// Whether nothing is over a limit that it was asked to judge by; nothing where it waits for its inputs.
    pub(super) good: Option<bool>,
    /// Its verdict or what it comes to, or what it waits for.
    pub(super) words: String,
}

/// The verdict of each part, in the order of the day, then what waits. A drawing has none.
pub(super) fn verdicts(parts: &[Part], missing: &[Missing], job: &Job) -> Vec<PartVerdict> {
    let judged = parts.iter().filter(|part| part.question != Question::Sketch);
    let answered = judged.filter_map(|part| {
        let verdict = part.result.remarks(job, Detail::Short).verdict?;
        Some(PartVerdict { question: part.question, good: Some(part.result.good()), words: verdict.words })
    });
    let waits = missing.iter().map(|missing| PartVerdict {
        question: missing.question,
        good: None,
        words: format!("waits for {}", missing.needs),
    });
    answered.chain(waits).collect()
}

/// What to do first: what a part that is not right says, or else what to tape, or what waits.
pub(super) fn headline(sheet: &Sheet, job: &Job) -> String {
    let standing = verdicts(&sheet.parts, &[], job);
    let words = |question: Question| standing.iter().find(|part| part.question == question);
    let bad: Vec<&PartVerdict> = standing.iter().filter(|part| part.good == Some(false)).collect();
    if let [first, rest @ ..] = &bad[..] {
        let rest: Vec<String> = rest.iter().map(|part| part.question.title().to_lowercase()).collect();
        let also =
            if rest.is_empty() { String::new() } else { format!("; not right yet too: {}", and_list(&rest)) };
        return format!("{}{also}", first.words);
    }
    let to_tape = words(Question::Diagonals).filter(|_| words(Question::Readings).is_none());
    if let Some(to_tape) = to_tape {
        return to_tape.words.clone();
    }
    let of_the_plan = [Question::Diagonals, Question::Corners, Question::Lines];
    let judged = standing.iter().filter(|part| !of_the_plan.contains(&part.question));
    let names: Vec<String> = judged.map(|part| part.question.title().to_lowercase()).collect();
    format!("Answered, none over its limit: {}", and_list(&names))
}
