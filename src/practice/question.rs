//! A question, and its blanks.

use schemars::JsonSchema;
use serde::Serialize;

use super::answer::{Answer, Trap, Wrong};
use super::follow::Follow;
use super::slip::Slip;

/// A question of a sheet. What is asked serializes; what is the answer does not.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Question {
    /// Its number, from 1.
    pub number: u32,
    /// A plan in characters; none where it would not help.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sketch: Vec<String>,
    /// What is known, in sentences.
    pub given: String,
    /// What is asked, in a sentence.
    pub asked: String,
    /// What is to be filled in.
    pub blanks: Vec<Blank>,
    /// The working, one operation a step, the rounding last.
    #[serde(skip)]
    pub working: Vec<String>,
    /// The figures that it turns on: two questions with the same ones are the same question, whatever letters they
    /// stand at.
    #[serde(skip)]
    pub(super) gist: Vec<i64>,
}

/// What is written in a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// A length.
    Length,
    /// A whole number.
    Count,
    /// A word, such as a line's two letters.
    Word,
}

/// A blank.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Blank {
    /// What stands before the `=`.
    pub label: String,
    /// What is written in it.
    pub kind: Kind,
    /// What belongs in it.
    #[serde(skip)]
    pub answer: Answer,
    /// The wrong answers that known slips lead to, likeliest first.
    #[serde(skip)]
    pub traps: Vec<Trap>,
    /// Whether a minus before the length is as right as none: how far something is out can be written either way.
    #[serde(skip)]
    pub either_sign: bool,
    /// Whether the answer was rounded to the tape, so that it can be rounded wrongly.
    #[serde(skip)]
    pub(super) rounded: bool,
    /// How the answer follows from another blank's, if it does.
    #[serde(skip)]
    pub(super) follows: Option<Follow>,
}

impl Blank {
    /// A blank for a length.
    pub(super) fn length(label: impl Into<String>, steps: i64) -> Self {
        Self::new(label, Kind::Length, Answer::Length(steps))
    }

    /// A blank for a length that comes out rounded.
    pub(super) fn rounded(label: impl Into<String>, steps: i64) -> Self {
        Self { rounded: true, ..Self::length(label, steps) }
    }

    /// A blank for a whole number.
    pub(super) fn count(label: impl Into<String>, count: i64) -> Self {
        Self::new(label, Kind::Count, Answer::Count(count))
    }

    /// A blank for one of some words.
    pub(super) fn word(label: impl Into<String>, right: impl Into<String>, allowed: Vec<String>) -> Self {
        let right = right.into();
        Self::new(label, Kind::Word, Answer::Word { right, allowed })
    }

    fn new(label: impl Into<String>, kind: Kind, answer: Answer) -> Self {
        Self {
            label: label.into(),
            kind,
            answer,
            traps: vec![],
            either_sign: false,
            rounded: false,
            follows: None,
        }
    }

    /// Notes the length that a slip leads to. One within a step of the answer would be no slip to see, and one that an
    /// earlier slip leads to as well is that one's.
    pub(super) fn slip(&mut self, slip: Slip, steps: i64) -> &mut Self {
        let plain = match self.answer {
            Answer::Length(right) => (steps - right).abs() > 1,
            Answer::Count(_) | Answer::Word { .. } => false,
        };
        let taken = self.traps.iter().any(|trap| trap.to == Wrong::Length(steps));
        if plain && !taken && steps > 0 {
            self.traps.push(Trap { slip, to: Wrong::Length(steps) });
        }
        self
    }

    /// Notes several.
    pub(super) fn slips(&mut self, slips: impl IntoIterator<Item = (Slip, i64)>) -> &mut Self {
        for (slip, steps) in slips {
            self.slip(slip, steps);
        }
        self
    }

    /// Notes any other wrong answer.
    pub(super) fn trap(&mut self, slip: Slip, to: Wrong) -> &mut Self {
        self.traps.push(Trap { slip, to });
        self
    }
}
