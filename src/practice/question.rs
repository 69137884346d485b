//! A question, its blanks, what belongs in them, and the wrong answers that known slips lead to.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use super::scale::Scale;
use super::slip::Slip;
use crate::geometry::Mm;

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
}

/// What belongs in a blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// A length in whole steps of the sheet's tape: mm, or sixteenths of an inch.
    Length(i64),
    /// A whole number.
    Count(i64),
    /// One of the words that can be written.
    Word {
        /// The right one.
        right: String,
        /// All of them.
        allowed: Vec<String>,
    },
}

/// A wrong answer and the slip that leads to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trap {
    /// The slip.
    pub slip: Slip,
    /// What it leads to.
    pub to: Wrong,
}

/// A wrong answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// A length, in steps of the sheet's tape.
    Length(i64),
    /// A bare number that is no length at all, such as a sum of squares left without its root: exact quotient.
    Bare {
        /// The number times `bottom`.
        top: i64,
        /// What it is divided by.
        bottom: i64,
    },
    /// A whole number.
    Count(i64),
    /// A word.
    Word(String),
}

impl Blank {
    /// A blank for a length.
    pub(super) fn length(label: impl Into<String>, steps: i64) -> Self {
        Self::new(label, Kind::Length, Answer::Length(steps))
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
        Self { label: label.into(), kind, answer, traps: vec![], either_sign: false }
    }

    /// Notes the length that a slip leads to. One within a step of the answer would be no slip to see, and one that an
    /// earlier slip leads to as well is that one's.
    pub(super) fn slip(&mut self, slip: Slip, steps: i64) -> &mut Self {
        let plain = match self.answer {
            Answer::Length(right) => (steps - right).abs() > 1,
            Answer::Count(_) | Answer::Word { .. } => false,
        };
        let taken = self
            .traps
            .iter()
            .any(|trap| matches!(trap.to, Wrong::Length(other) if (other - steps).abs() <= 1));
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

/// An answer as JSON has it: lengths in mm, like everywhere.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[serde(untagged)]
pub enum Value {
    /// A length, mm.
    Length(Mm),
    /// A whole number.
    Count(i64),
    /// A word.
    Word(String),
}

impl Answer {
    /// As JSON has it.
    pub(super) fn value(&self, scale: Scale) -> Value {
        match self {
            Self::Length(steps) => Value::Length(Mm(scale.mm(*steps))),
            Self::Count(count) => Value::Count(*count),
            Self::Word { right, .. } => Value::Word(right.clone()),
        }
    }

    /// As it is written.
    pub(super) fn text(&self, scale: Scale) -> String {
        match self {
            Self::Length(steps) => scale.text(*steps),
            Self::Count(count) => count.to_string(),
            Self::Word { right, .. } => right.clone(),
        }
    }
}

impl JsonSchema for Slip {
    fn schema_name() -> Cow<'static, str> {
        "Slip".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let kinds: Vec<&str> = Self::ALL.iter().map(|slip| slip.name()).collect();
        json_schema!({
            "description": "A usual slip.",
            "type": "object",
            "properties": {
                "kind": {"description": "Its name for programs.", "type": "string", "enum": kinds},
                "words": {"description": "What was probably done, to follow \"it looks like\".", "type": "string"}
            },
            "required": ["kind", "words"]
        })
    }
}

/// A slip as JSON has it: a name for programs and words for people.
impl Serialize for Slip {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeStruct;
        let mut slip = serializer.serialize_struct("Slip", 2)?;
        slip.serialize_field("kind", self.name())?;
        slip.serialize_field("words", self.words())?;
        slip.end()
    }
}
