//! What belongs in a blank, and the wrong answers that known slips lead to.

use schemars::JsonSchema;
use serde::Serialize;

use super::scale::Scale;
use super::slip::Slip;
use crate::geometry::Mm;

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
