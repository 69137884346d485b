//! What was written in a blank, read as what belongs there: a length, a whole number or a word.

use super::answer::{Answer, Value, Wrong};
use super::error::PracticeError;
use super::question::Blank;
use super::scale::Scale;
use super::shape::whole;
use crate::geometry::Mm;
use crate::length::{Length, Units};
use crate::words::quoted;

/// What was written in a blank.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Found {
    /// A length.
    Length(Read),
    /// A whole number.
    Count(i64),
    /// One of the words that can be written, as it is printed.
    Word(String),
}

/// A length as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Read {
    /// In steps of the tape; none for a number past any length.
    pub(super) steps: Option<f64>,
    /// The bare number, whatever its unit.
    bare: Option<f64>,
}

impl Found {
    /// Reads `text` as what belongs in `blank` of question `number`.
    pub(super) fn read(number: u32, blank: &Blank, text: &str, scale: Scale) -> Result<Self, PracticeError> {
        let label = || blank.label.clone();
        match &blank.answer {
            Answer::Length(_) => {
                let read = Read::length(text, scale).ok_or_else(|| PracticeError::NotALength {
                    number,
                    label: label(),
                    given: quoted(text),
                    such_as: scale.of("6435", "21ft 1-3/8in"),
                })?;
                Ok(Self::Length(if blank.either_sign { read.unsigned() } else { read }))
            }
            Answer::Count(_) => {
                let first = text.split_whitespace().next().unwrap_or_default();
                let count = first.parse().map_err(|_| PracticeError::NotACount {
                    number,
                    label: label(),
                    given: text.to_owned(),
                })?;
                Ok(Self::Count(count))
            }
            Answer::Word { allowed, .. } => {
                let found = allowed.iter().find(|word| same_word(word, text));
                let word = found.ok_or_else(|| PracticeError::NotAWord {
                    number,
                    label: label(),
                    given: text.to_owned(),
                    allowed: allowed.clone(),
                })?;
                Ok(Self::Word(word.clone()))
            }
        }
    }

    /// Whether it is the answer, to the nearest mark of the tape.
    pub(super) fn is(&self, answer: &Answer) -> bool {
        match (self, answer) {
            (Self::Length(read), Answer::Length(steps)) => read.is(*steps),
            (Self::Count(count), Answer::Count(right)) => count == right,
            (Self::Word(word), Answer::Word { right, .. }) => word == right,
            _ => false,
        }
    }

    /// Whether it is what a slip leads to.
    pub(super) fn is_wrong(&self, wrong: &Wrong) -> bool {
        match (self, wrong) {
            (Self::Length(read), Wrong::Length(steps)) => read.is(*steps),
            (Self::Length(read), Wrong::Bare { top, bottom }) => {
                let number = *top as f64 / *bottom as f64;
                read.bare.is_some_and(|bare| (bare - number).abs() <= 1e-4 * number)
            }
            (Self::Count(count), Wrong::Count(wrong)) => count == wrong,
            (Self::Word(word), Wrong::Word(wrong)) => word == wrong,
            _ => false,
        }
    }

    /// The whole number of steps, or the count, that another answer can follow from.
    pub(super) fn number(&self) -> Option<i64> {
        match self {
            Self::Length(read) => read.steps.filter(|steps| steps.abs() < 1e9).map(whole),
            Self::Count(count) => Some(*count),
            Self::Word(_) => None,
        }
    }

    /// As JSON and CSV have it: mm, a count or a word; nothing for a number past any length.
    pub(super) fn value(&self, scale: Scale) -> Option<Value> {
        match self {
            Self::Length(read) => Some(Value::Length(Mm(read.steps? * scale.0.tape_step()))),
            Self::Count(count) => Some(Value::Count(*count)),
            Self::Word(word) => Some(Value::Word(word.clone())),
        }
    }
}

/// A line can be named from either end, and in either case.
fn same_word(word: &str, text: &str) -> bool {
    let text = text.trim();
    let turned: String = text.chars().rev().collect();
    word.eq_ignore_ascii_case(text) || word.len() == 2 && word.eq_ignore_ascii_case(&turned)
}

impl Read {
    fn length(text: &str, scale: Scale) -> Option<Self> {
        let text = &together(text, scale.0);
        let number = text.trim_end_matches(|c: char| c.is_alphabetic() || c == '²').trim();
        let plain = number.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-'));
        let bare = number.parse().ok().filter(|number: &f64| plain && number.is_finite());
        match Length::parse(text, scale.0) {
            Ok(length) => Some(Self { steps: Some(length.mm / scale.0.tape_step()), bare }),
            // A sum of squares left as it is reads as a length of kilometres, or in square millimetres.
            Err(_) => bare.is_some().then_some(Self { steps: None, bare }),
        }
    }

    fn unsigned(self) -> Self {
        Self { steps: self.steps.map(f64::abs), bare: self.bare.map(f64::abs) }
    }

    /// Whether the tape shows it as `steps`.
    fn is(&self, steps: i64) -> bool {
        self.steps.is_some_and(|read| (read.round() - steps as f64).abs() <= 1e-6)
    }
}

/// `14 364 mm` without the gap, as the working groups its digits; anything else as it is. A minus as the keyboard has it.
fn together(text: &str, units: Units) -> String {
    let text = text.replace('−', "-");
    let (number, unit) = text.split_at(text.trim_end_matches(|c: char| !c.is_ascii_digit()).len());
    let groups: Vec<&str> = number.split(is_gap).collect();
    let digits = |group: &str| group.chars().all(|c| c.is_ascii_digit());
    let first = groups[0].trim_start_matches('-');
    let grouped = groups.len() > 1
        && units == Units::Mm
        && (1..=3).contains(&first.len())
        && digits(first)
        && groups[1..].iter().all(|group| group.len() == 3 && digits(group));
    if grouped { groups.concat() + unit } else { text }
}

/// A space that stands between groups of digits: plain, no-break or thin.
fn is_gap(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}')
}
