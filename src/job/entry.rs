//! A length as it stands in a job file: a number or a text, read later with the job's units in hand.

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserializer, Visitor};
use serde::{Deserialize, Serialize};

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

impl From<String> for LengthEntry {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl<'de> Deserialize<'de> for LengthEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Entry;

        impl Visitor<'_> for Entry {
            type Value = LengthEntry;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a length, such as 6435 or \"6.435m\"")
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
                Ok(LengthEntry::Text(value.to_string()))
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
                Ok(LengthEntry::Text(value.to_string()))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
                Ok(LengthEntry::Number(value))
            }

            fn visit_str<E: de::Error>(self, value: &str) -> Result<Self::Value, E> {
                Ok(LengthEntry::Text(value.to_owned()))
            }
        }

        deserializer.deserialize_any(Entry)
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
