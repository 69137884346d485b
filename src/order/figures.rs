//! Units and sizes, and the largest figures on a quote.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::exact::{Hundredths, Pence, Tenths};
use crate::geometry::Mm;

/// Tenths of a millimetre in a foot: 304.8 mm, exact by definition.
const TENTHS_PER_FOOT: i64 = 3048;
/// Tenths of a millimetre in a metre.
const TENTHS_PER_METRE: i64 = 10_000;

/// The largest quantity on a line: a million of its unit.
pub const MOST_QUANTITY: Hundredths = Hundredths(100_000_000);

/// The largest amount or total: a hundred thousand million of the money unit.
pub const MOST_MONEY: Pence = Pence(10_000_000_000_000);

/// What is counted on a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unit {
    /// Things.
    Each,
    /// Metres run.
    Metre,
    /// Feet run.
    Foot,
    /// Whatever the user calls it: hours, tubes.
    Named(String),
}

impl Unit {
    /// Reads a unit: `each` or `ea`, `m`, `ft` or `lf`, or a name of the user's own.
    ///
    /// ```
    /// use pegline::order::Unit;
    ///
    /// assert_eq!(Unit::parse(" Each "), Unit::Each);
    /// assert_eq!(Unit::parse("m"), Unit::Metre);
    /// assert_eq!(Unit::parse("LF"), Unit::Foot);
    /// assert_eq!(Unit::parse("hour"), Unit::Named("hour".to_owned()));
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Self {
        let word = tidy(text);
        match word.to_lowercase().as_str() {
            "each" | "ea" => Self::Each,
            "m" => Self::Metre,
            "ft" | "lf" => Self::Foot,
            _ => Self::Named(word),
        }
    }

    /// Tenths of a millimetre in one of this unit; `None` where it is none of length.
    pub(super) const fn tenths(&self) -> Option<i64> {
        match self {
            Self::Metre => Some(TENTHS_PER_METRE),
            Self::Foot => Some(TENTHS_PER_FOOT),
            Self::Each | Self::Named(_) => None,
        }
    }

    /// So many hundredths of this unit as a length; `None` where it is none of length.
    #[must_use]
    pub fn length(&self, hundredths: Hundredths) -> Option<Tenths> {
        // Down to a tenth of a millimetre, 0.01 ft being 3.048 mm, so that counting up again gives the same.
        self.tenths().map(|tenths| Tenths(hundredths.0.saturating_mul(tenths) / 100))
    }

    /// The word on a line.
    #[must_use]
    pub fn word(&self) -> &str {
        match self {
            Self::Each => "each",
            Self::Metre => "m",
            Self::Foot => "ft",
            Self::Named(name) => name,
        }
    }

    /// Whether two units are the same, whatever the case of their letters.
    #[must_use]
    pub fn same(&self, other: &Self) -> bool {
        self.word().to_lowercase() == other.word().to_lowercase()
    }
}

impl Serialize for Unit {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.word())
    }
}

impl JsonSchema for Unit {
    fn schema_name() -> Cow<'static, str> {
        "Unit".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "What is counted: each, m, ft, or the user's own word.", "type": "string"})
    }
}

/// Which of an item it is. It serializes as millimetres, as the text, or as null.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Size {
    /// There is only one; for a price, it is for every size that has none of its own.
    #[default]
    Any,
    /// A length: of a bar or a board, a packer's thickness, a strip's width.
    Length(Mm),
    /// In the user's words.
    Text(String),
}

impl Size {
    /// What it is found by: equal for sizes that are the same to a tenth of a millimetre, or in other letters.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "the cast is held to the largest length there is")]
    pub(super) fn key(&self) -> SizeKey {
        match self {
            Self::Any => SizeKey::Any,
            Self::Length(mm) => SizeKey::Length((mm.0 * 10.0).round() as i64),
            Self::Text(text) => SizeKey::Text(tidy(text).to_lowercase()),
        }
    }

    /// Whether both are the same.
    #[must_use]
    pub fn same(&self, other: &Self) -> bool {
        self.key() == other.key()
    }
}

impl Serialize for Size {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Any => serializer.serialize_none(),
            Self::Length(mm) => mm.serialize(serializer),
            Self::Text(text) => serializer.serialize_str(text),
        }
    }
}

impl JsonSchema for Size {
    fn schema_name() -> Cow<'static, str> {
        "ItemSize".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "Millimetres where it is a length, text in the user's words, or null where there is only one.", "type": ["number", "string", "null"]})
    }
}

/// A size as it is compared.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum SizeKey {
    Any,
    Length(i64),
    Text(String),
}

/// A name without needless space: what was typed in a spreadsheet often has some.
#[must_use]
pub fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
