//! An amount of money as it stands in a job file.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize};

use super::number_or_text;
use crate::cutting::Pence;
use crate::money::{MoneyError, parse_money};

/// An amount of money as written: `10.8`, or `"10.80"`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum MoneyEntry {
    /// A number.
    Number(f64),
    /// A text.
    Text(String),
}

impl MoneyEntry {
    /// The amount.
    pub fn read(&self) -> Result<Pence, MoneyError> {
        match self {
            Self::Text(text) => parse_money(text),
            Self::Number(number) => parse_money(&number.to_string()),
        }
    }
}

impl From<f64> for MoneyEntry {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<String> for MoneyEntry {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl<'de> Deserialize<'de> for MoneyEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        number_or_text(deserializer, "a price, such as 10.80")
    }
}

impl JsonSchema for MoneyEntry {
    fn schema_name() -> Cow<'static, str> {
        "Money".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An amount in the job's money, with at most two decimals.",
            "type": ["number", "string"],
            "examples": [10.8, "10.80"]
        })
    }
}
