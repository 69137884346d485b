//! Quantities, percentages, units and sizes, all exact: a quote leaves no room for a rounding error.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::cutting::{Pence, Tenths};
use crate::geometry::Mm;

/// Tenths of a millimetre in a foot: 304.8 mm, exact by definition.
const TENTHS_PER_FOOT: i64 = 3048;
/// Tenths of a millimetre in a metre.
const TENTHS_PER_METRE: i64 = 10_000;

/// The largest quantity on a line: a million of its unit.
pub const MOST_QUANTITY: Hundredths = Hundredths(100_000_000);

/// The largest amount or total: a hundred thousand million of the money unit.
pub const MOST_MONEY: Pence = Pence(10_000_000_000_000);

/// A quantity in hundredths of its unit. It serializes as the unit (1250 as 12.5).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Hundredths(pub i64);

impl Hundredths {
    /// So many whole units; one too large to hold becomes the largest.
    #[must_use]
    pub const fn whole(count: i64) -> Self {
        Self(count.saturating_mul(100))
    }

    /// Whether it is a whole number of units.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.0 % 100 == 0
    }

    /// With two decimals, as on a bill.
    #[must_use]
    pub fn two_places(self) -> String {
        Pence(self.0).to_string()
    }
}

impl std::fmt::Display for Hundredths {
    /// With no more decimals than it needs: `6`, `2.5`, `36.96`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let text = self.two_places();
        f.write_str(text.trim_end_matches('0').trim_end_matches('.'))
    }
}

impl Serialize for Hundredths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.is_whole() {
            serializer.serialize_i64(self.0 / 100)
        } else {
            serializer.serialize_f64(self.0 as f64 / 100.0)
        }
    }
}

impl JsonSchema for Hundredths {
    fn schema_name() -> Cow<'static, str> {
        "Hundredths".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "A quantity, to a hundredth.", "type": "number"})
    }
}

/// A percentage in hundredths of one per cent. It serializes as the percentage (1750 as 17.5).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent(pub i64);

impl std::fmt::Display for Percent {
    /// With no more decimals than it needs: `20`, `17.5`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        Hundredths(self.0).fmt(f)
    }
}

impl Serialize for Percent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Hundredths(self.0).serialize(serializer)
    }
}

impl JsonSchema for Percent {
    fn schema_name() -> Cow<'static, str> {
        "Percent".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "A percentage, to a hundredth.", "type": "number"})
    }
}

impl Percent {
    /// The tax on `net`, rounded half up to a penny.
    ///
    /// ```
    /// use pegline::cutting::Pence;
    /// use pegline::order::Percent;
    ///
    /// assert_eq!(Percent(2000).of(Pence(1234)), Pence(247)); // 2.468
    /// assert_eq!(Percent(1750).of(Pence(20)), Pence(4)); // 0.035 exactly, up
    /// ```
    #[must_use]
    pub fn of(self, net: Pence) -> Pence {
        let exact = i128::from(net.0) * i128::from(self.0);
        Pence(held((exact + 5_000).div_euclid(10_000)))
    }

    /// `need` with this much more, × 10 000: kept unrounded until whole units or packs are counted.
    pub(super) fn added(self, need: i128) -> i128 {
        need * (10_000 + i128::from(self.0))
    }
}

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
    /// Reads a unit: `each`, `m`, `ft`, or a name of the user's own.
    ///
    /// ```
    /// use pegline::order::Unit;
    ///
    /// assert_eq!(Unit::parse(" Each "), Unit::Each);
    /// assert_eq!(Unit::parse("m"), Unit::Metre);
    /// assert_eq!(Unit::parse("hour"), Unit::Named("hour".to_owned()));
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Self {
        let word = tidy(text);
        match word.to_lowercase().as_str() {
            "each" => Self::Each,
            "m" => Self::Metre,
            "ft" => Self::Foot,
            _ => Self::Named(word),
        }
    }

    /// A running length in hundredths of this unit as a fraction: multiply tenths of a millimetre by the first and
    /// divide by the second.
    pub(super) const fn per_tenth(&self) -> (i128, i128) {
        match self {
            Self::Foot => (100, TENTHS_PER_FOOT as i128),
            _ => (100, TENTHS_PER_METRE as i128),
        }
    }

    /// So many hundredths of this unit of length.
    #[must_use]
    pub const fn length(&self, hundredths: Hundredths) -> Tenths {
        let per = match self {
            Self::Foot => TENTHS_PER_FOOT,
            _ => TENTHS_PER_METRE,
        };
        // Down to a tenth of a millimetre, 0.01 ft being 3.048 mm, so that counting up again gives the same.
        Tenths(hundredths.0.saturating_mul(per) / 100)
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

/// `a / b` rounded up, for `a` of zero or more and `b` of more than zero.
pub(super) fn up(a: i128, b: i128) -> i128 {
    (a + b - 1).div_euclid(b)
}

/// The value, or the largest there is: what is too large is refused by its limit.
pub(super) fn held(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(i64::MAX)
}
