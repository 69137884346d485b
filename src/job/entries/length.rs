//! A length as it stands in a job file: a number or a text, read later with the job's units in hand.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize};

use super::number_or_text;
use crate::length::{Length, LengthError, Units};

/// A length as written: `6435`, or `"6.435m"`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum LengthEntry {
    /// A bare number, in the job's units.
    Number(f64),
    /// A text with or without a unit.
    Text(String),
}

impl LengthEntry {
    /// The length; a bare number is in `bare`.
    pub fn read(&self, bare: Units) -> Result<Length, LengthError> {
        match self {
            Self::Text(text) => Length::parse(text, bare),
            // Through the scanner, so that one set of rules and limits holds for both spellings.
            Self::Number(number) => Length::parse(&number.to_string(), bare),
        }
    }
}

impl From<f64> for LengthEntry {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<String> for LengthEntry {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl<'de> Deserialize<'de> for LengthEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        number_or_text(deserializer, "a length, such as 6435 or \"6.435m\"")
    }
}

impl JsonSchema for LengthEntry {
    fn schema_name() -> Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A length: a bare number in the job's units, or a text with a unit (\"6435mm\", \"6.435m\", \"21ft1-3/8in\").",
            "type": ["number", "string"],
            "examples": [6435, "6.435m", "21ft1-3/8in"]
        })
    }
}
