//! Marking: right within what a tape shows, and what kind of slip a wrong answer looks like.

use schemars::JsonSchema;
use serde::Serialize;

use super::answer::{Answer, Value};
use super::ask::Ask;
use super::error::PracticeError;
use super::filled::{Fault, Reading, Written};
use super::follow::How;
use super::found::Found;
use super::hand::any_hand;
use super::question::{Blank, Question};
use super::scale::Scale;
use super::slip::Slip;

/// How an answer is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Mark {
    /// Right, to the nearest mark of the tape.
    Right,
    /// Right for what was written in an earlier blank of the question, which is wrong.
    Follows,
    /// Wrong.
    Wrong,
    /// Something is written that can't be read.
    Unread,
    /// Nothing was written.
    Missing,
}

/// A marked sheet.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Marks {
    /// What was asked for.
    #[serde(flatten)]
    pub ask: Ask,
    /// Whose sheet it is, as written on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Right if every question is.
    pub verdict: Mark,
    /// How many questions are right.
    pub right: usize,
    /// The questions, in order.
    pub questions: Vec<MarkedQuestion>,
    /// What is not as it was printed, or can't be read, and where.
    pub remarks: Vec<String>,
}

/// A marked question.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MarkedQuestion {
    /// Its number.
    pub number: u32,
    /// Right if every blank is; missing if none was filled.
    pub mark: Mark,
    /// Its blanks.
    pub blanks: Vec<MarkedBlank>,
}

/// A marked blank.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MarkedBlank {
    /// What stands before the `=`.
    pub label: String,
    /// What was written in it.
    pub written: Option<String>,
    /// The same as it was read; a length is in mm.
    pub read: Option<Value>,
    /// What belongs in it; a length is in mm.
    pub answer: Value,
    /// The same as it is written.
    pub text: String,
    /// The mark.
    pub mark: Mark,
    /// What a wrong answer looks like, if like anything known.
    pub slip: Option<Slip>,
}

/// Marks a filled sheet. What can't be read is marked so and told in the remarks; the rest is marked.
#[must_use]
pub fn mark(reading: &Reading) -> Marks {
    let scale = reading.sheet.scale();
    let mut remarks: Vec<String> = reading.remarks.iter().map(ToString::to_string).collect();
    let sheet = reading.sheet.questions.iter().zip(&reading.written);
    let questions: Vec<MarkedQuestion> =
        sheet.map(|(question, written)| marked(question, written, scale, &mut remarks)).collect();
    Marks {
        ask: reading.sheet.ask,
        name: reading.name.clone(),
        verdict: together(&questions.iter().map(|question| question.mark).collect::<Vec<_>>()),
        right: questions.iter().filter(|question| question.mark == Mark::Right).count(),
        questions,
        remarks,
    }
}

fn marked(
    question: &Question,
    written: &[Option<Written>],
    scale: Scale,
    remarks: &mut Vec<String>,
) -> MarkedQuestion {
    let found: Vec<Option<Found>> = question
        .blanks
        .iter()
        .zip(written)
        .map(|(blank, written)| {
            let written = written.as_ref()?;
            read(question.number, blank, written, scale)
                .map_err(|error| {
                    let fault = Fault { place: Some(written.place.clone()), error };
                    remarks.push(fault.to_string());
                })
                .ok()
        })
        .collect();
    let blanks: Vec<MarkedBlank> = question
        .blanks
        .iter()
        .enumerate()
        .map(|(i, blank)| {
            let (mark, slip) = match (&found[i], &written[i]) {
                (Some(found_here), _) => judge(question, &found, i, found_here, scale),
                (None, Some(_)) => (Mark::Unread, None),
                (None, None) => (Mark::Missing, None),
            };
            let changed = mark == Mark::Wrong && changed_places(question, written, i, scale);
            MarkedBlank {
                label: blank.label.clone(),
                written: written[i].as_ref().map(|written| written.text.clone()),
                read: found[i].as_ref().and_then(|found| found.value(scale)),
                answer: blank.answer.value(scale),
                text: blank.answer.text(scale),
                mark,
                slip: if changed { Some(Slip::ChangedPlaces) } else { slip },
            }
        })
        .collect();
    let mark = together(&blanks.iter().map(|blank| blank.mark).collect::<Vec<_>>());
    MarkedQuestion { number: question.number, mark, blanks }
}

fn read(number: u32, blank: &Blank, written: &Written, scale: Scale) -> Result<Found, PracticeError> {
    if written.twice {
        return Err(PracticeError::Twice { number, label: blank.label.clone() });
    }
    Found::read(number, blank, &written.text, scale)
}

/// The mark of several together.
fn together(marks: &[Mark]) -> Mark {
    if marks.iter().all(|mark| *mark == Mark::Right) {
        Mark::Right
    } else if marks.iter().all(|mark| *mark == Mark::Missing) {
        Mark::Missing
    } else {
        Mark::Wrong
    }
}

/// The mark of blank `i` with `here` in it, and the slip that a wrong one looks like.
fn judge(
    question: &Question,
    found: &[Option<Found>],
    i: usize,
    here: &Found,
    scale: Scale,
) -> (Mark, Option<Slip>) {
    let blank = &question.blanks[i];
    if here.is(&blank.answer) {
        return (Mark::Right, None);
    }
    // What would be right for the earlier blank as written, if that one is wrong.
    let earlier = blank.follows.as_ref().and_then(|follow| {
        let written = found[follow.from].as_ref()?;
        let wrong = !written.is(&question.blanks[follow.from].answer);
        wrong.then(|| follow.answer(written.number()?))
    });
    if let Some(Some(answer)) = &earlier
        && here.is(answer)
    {
        return (Mark::Follows, None);
    }
    let own = blank.traps.iter().find(|trap| here.is_wrong(&trap.to)).map(|trap| trap.slip);
    let slip = match (here, &earlier) {
        (Found::Length(read), None) => own.or_else(|| match (read.steps, &blank.answer) {
            (Some(steps), Answer::Length(right)) => any_hand(blank, steps, *right, scale),
            _ => None,
        }),
        (Found::Count(count), None) => own.or_else(|| packers(blank, *count, &blank.answer)),
        // Traps and hands count from the answer; what was written before it leads elsewhere.
        (Found::Count(count), Some(follows)) => {
            follows.as_ref().and_then(|answer| packers(blank, *count, answer))
        }
        _ => own,
    };
    (Mark::Wrong, slip)
}

/// Too few or too many packers for `answer` of them, where packers are asked for.
fn packers(blank: &Blank, count: i64, answer: &Answer) -> Option<Slip> {
    blank.follows.as_ref().filter(|follow| matches!(follow.how, How::Fewest(_)))?;
    match answer {
        Answer::Count(right) if count < *right => Some(Slip::TooFewPackers),
        Answer::Count(right) if count > *right => Some(Slip::TooManyPackers),
        _ => None,
    }
}

/// Whether blank `i` and another have each other's answer.
fn changed_places(question: &Question, written: &[Option<Written>], i: usize, scale: Scale) -> bool {
    let is_answer = |of: usize, text: &str| {
        let blank = &question.blanks[of];
        Found::read(question.number, blank, text, scale).is_ok_and(|found| found.is(&blank.answer))
    };
    let Some(here) = &written[i] else {
        return false;
    };
    !is_answer(i, &here.text)
        && (0..written.len()).any(|other| {
            let there = written[other].as_ref().map(|written| written.text.as_str());
            other != i && there.is_some_and(|there| is_answer(other, &here.text) && is_answer(i, there))
        })
}
