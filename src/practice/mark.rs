//! Marking: right within what a tape shows, and what kind of slip a wrong answer looks like.

use schemars::JsonSchema;
use serde::Serialize;

use super::ask::Ask;
use super::error::PracticeError;
use super::filled::{Fault, Reading, Written};
use super::question::{Answer, Blank, Value, Wrong};
use super::scale::Scale;
use super::slip::Slip;
use crate::length::Length;

/// How an answer is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Mark {
    /// Right, to the nearest mark of the tape.
    Right,
    /// Wrong.
    Wrong,
    /// Nothing was written.
    Missing,
}

/// A marked sheet.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Marks {
    /// What was asked for.
    #[serde(flatten)]
    pub ask: Ask,
    /// Right if every question is.
    pub verdict: Mark,
    /// How many questions are right.
    pub right: usize,
    /// The questions, in order.
    pub questions: Vec<MarkedQuestion>,
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
    /// What belongs in it; a length is in mm.
    pub answer: Value,
    /// The same as it is written.
    pub text: String,
    /// The mark.
    pub mark: Mark,
    /// What a wrong answer looks like, if like anything known.
    pub slip: Option<Slip>,
}

/// Marks a filled sheet. Fails if something written can't be read, with every such place.
pub fn mark(reading: &Reading) -> Result<Marks, Vec<Fault>> {
    let scale = reading.sheet.scale();
    let mut faults = vec![];
    let mut questions = vec![];
    for (question, written) in reading.sheet.questions.iter().zip(&reading.written) {
        let mut blanks = vec![];
        for (blank, written) in question.blanks.iter().zip(written) {
            match judge(question.number, blank, written.as_ref(), scale) {
                Ok((mark, slip)) => blanks.push(MarkedBlank {
                    label: blank.label.clone(),
                    written: written.as_ref().map(|written| written.text.clone()),
                    answer: blank.answer.value(scale),
                    text: blank.answer.text(scale),
                    mark,
                    slip,
                }),
                Err(fault) => faults.push(fault),
            }
        }
        questions.push(MarkedQuestion {
            number: question.number,
            mark: together(&blanks.iter().map(|blank| blank.mark).collect::<Vec<_>>()),
            blanks,
        });
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    Ok(Marks {
        ask: reading.sheet.ask,
        verdict: together(&questions.iter().map(|question| question.mark).collect::<Vec<_>>()),
        right: questions.iter().filter(|q| q.mark == Mark::Right).count(),
        questions,
    })
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

fn judge(
    number: u32,
    blank: &Blank,
    written: Option<&Written>,
    scale: Scale,
) -> Result<(Mark, Option<Slip>), Fault> {
    let Some(written) = written else {
        return Ok((Mark::Missing, None));
    };
    let fault = |error| Fault { place: Some(written.place.clone()), error };
    let label = || blank.label.clone();
    let text = written.text.as_str();
    let (right, slip) = match &blank.answer {
        Answer::Length(right) => {
            let read = Read::length(text, scale)
                .map_err(|error| fault(PracticeError::NotALength { number, label: label(), error }))?;
            let read = if blank.either_sign { read.unsigned() } else { read };
            (read.is(*right), length_slip(blank, &read, *right, scale))
        }
        Answer::Count(right) => {
            let first = text.split_whitespace().next().unwrap_or_default();
            let count: i64 = first.parse().map_err(|_| {
                fault(PracticeError::NotACount { number, label: label(), given: text.to_owned() })
            })?;
            let other = if count < *right { Slip::TooFewPackers } else { Slip::TooManyPackers };
            let slip = trapped(blank, &|wrong| *wrong == Wrong::Count(count)).unwrap_or(other);
            (count == *right, Some(slip))
        }
        Answer::Word { right, allowed } => {
            let found = allowed.iter().find(|word| same_word(word, text)).ok_or_else(|| {
                fault(PracticeError::NotAWord {
                    number,
                    label: label(),
                    given: text.to_owned(),
                    allowed: allowed.clone(),
                })
            })?;
            let slip = trapped(blank, &|wrong| *wrong == Wrong::Word(found.clone()));
            (found == right, slip)
        }
    };
    Ok(if right { (Mark::Right, None) } else { (Mark::Wrong, slip) })
}

/// A line can be named from either end, and in either case.
fn same_word(word: &str, text: &str) -> bool {
    let text = text.trim();
    let turned: String = text.chars().rev().collect();
    word.eq_ignore_ascii_case(text) || word.len() == 2 && word.eq_ignore_ascii_case(&turned)
}

fn trapped(blank: &Blank, is: &dyn Fn(&Wrong) -> bool) -> Option<Slip> {
    let trap = blank.traps.iter().find(|trap| is(&trap.to));
    trap.map(|trap| trap.slip)
}

/// A length as written.
#[derive(Clone, Copy)]
struct Read {
    /// In steps of the tape; none for a number past any length.
    steps: Option<f64>,
    /// The bare number, whatever its unit.
    bare: Option<f64>,
}

impl Read {
    fn length(text: &str, scale: Scale) -> Result<Self, crate::length::LengthError> {
        let number = text.trim_end_matches(|c: char| c.is_alphabetic() || c == '²').trim();
        let plain = number.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-'));
        let bare = number.parse().ok().filter(|number: &f64| plain && number.is_finite());
        match Length::parse(text, scale.0) {
            Ok(length) => Ok(Self { steps: Some(length.mm / scale.0.tape_step()), bare }),
            // A sum of squares left as it is reads as a length of kilometres, or in square millimetres.
            Err(_) if bare.is_some() => Ok(Self { steps: None, bare }),
            Err(error) => Err(error),
        }
    }

    fn unsigned(self) -> Self {
        Self { steps: self.steps.map(f64::abs), bare: self.bare.map(f64::abs) }
    }

    /// Whether the tape shows it as `steps`.
    fn is(&self, steps: i64) -> bool {
        self.steps.is_some_and(|read| near(read.round(), steps as f64, 1e-6))
    }
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() <= within
}

/// What kind of slip a wrong length looks like: first what the question itself invites, then those of any hand.
fn length_slip(blank: &Blank, read: &Read, right: i64, scale: Scale) -> Option<Slip> {
    let own = trapped(blank, &|wrong| match *wrong {
        Wrong::Length(steps) => read.is(steps),
        Wrong::Bare { top, bottom } => {
            let number = top as f64 / bottom as f64;
            read.bare.is_some_and(|bare| near(bare, number, 1e-4 * number))
        }
        Wrong::Count(_) | Wrong::Word(_) => false,
    });
    own.or_else(|| any_hand(read.steps?, right, scale))
}

/// Slips that any length invites.
fn any_hand(read: f64, right: i64, scale: Scale) -> Option<Slip> {
    let exact = right as f64;
    let off = (read.round() - exact).abs();
    let factors: &[f64] = scale.of(&[10.0, 100.0, 1000.0], &[12.0, 10.0, 100.0]);
    let figures: &[f64] = scale.of(&[10.0, 100.0, 1000.0], &[16.0, 192.0, 1920.0]);
    if off <= 1.0 {
        Some(Slip::Rounding)
    } else if !scale.is_feet() && swapped(read, right) {
        Some(Slip::SwappedDigits)
    } else if factors
        .iter()
        .any(|f| near(read, exact * f, exact * f * 1e-3) || near(read * f, exact, exact * 1e-3 + 0.5))
    {
        Some(Slip::Unit)
    } else if figures.iter().any(|figure| near(off, *figure, 0.5)) {
        Some(Slip::RoundFigure)
    } else {
        None
    }
}

/// Whether two neighbouring digits of one make the other.
fn swapped(read: f64, right: i64) -> bool {
    let (read, right) = (format!("{:.0}", read.round()), right.to_string());
    let mut digits = right.into_bytes();
    (1..digits.len()).any(|i| {
        digits.swap(i - 1, i);
        let same = digits == read.as_bytes();
        digits.swap(i - 1, i);
        same
    })
}
