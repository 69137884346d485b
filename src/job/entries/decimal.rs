//! A plain number with at most two decimals as it stands in a job file: a quantity, a percentage.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize};

use super::number_or_text;
use crate::money::parse_hundredths;
use crate::quote::quoted;

/// A number as written: `17.5`, or `"17.5"`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum DecimalEntry {
    /// A number.
    Number(f64),
    /// A text.
    Text(String),
}

impl DecimalEntry {
    /// The number in hundredths, from `least` to `most` of them; or what to write instead.
    pub(in crate::job) fn read(&self, least: i64, most: i64) -> Result<i64, String> {
        let text = match self {
            Self::Number(number) => number.to_string(),
            Self::Text(text) => text.trim().to_owned(),
        };
        if let Some(value) = parse_hundredths(&text).filter(|value| (least..=most).contains(value)) {
            return Ok(value);
        }
        let whole = |hundredths: i64| crate::order::Hundredths(hundredths);
        let found = if text.is_empty() {
            "a number is missing".to_owned()
        } else {
            format!("`{}` is no number that can be used here", quoted(&text))
        };
        Err(format!(
            "{found}: write one from {} to {}, at most two decimals after a point",
            whole(least),
            whole(most)
        ))
    }
}

impl From<f64> for DecimalEntry {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<String> for DecimalEntry {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl<'de> Deserialize<'de> for DecimalEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        number_or_text(deserializer, "a number with at most two decimals, such as 17.5")
    }
}

impl JsonSchema for DecimalEntry {
    fn schema_name() -> Cow<'static, str> {
        "Decimal".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A number with at most two decimals.",
            "type": ["number", "string"],
            "examples": [20, "17.5"]
        })
    }
}
