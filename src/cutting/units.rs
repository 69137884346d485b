//! Exact units: a saw cut and a bill leave no room for a rounding error, so both are whole numbers.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::geometry::Mm;

/// Tenths of a millimetre: less than this over or under a whole one is a rounding error.
const HAIR: f64 = 1e-6;

/// A length in tenths of a millimetre. It serializes as millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Tenths(pub i64);

impl Tenths {
    /// A whole number of millimetres; one too large to hold becomes the largest length.
    #[must_use]
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm.saturating_mul(10))
    }

    /// The nearest length to `mm`.
    #[must_use]
    pub fn nearest(mm: f64) -> Self {
        Self::of((mm * 10.0).round())
    }

    /// The longest that is not more than `mm`, but for a hair.
    #[must_use]
    pub fn at_most(mm: f64) -> Self {
        Self::of((mm * 10.0 + HAIR).floor())
    }

    /// The shortest that is not less than `mm`, but for a hair.
    #[must_use]
    pub fn at_least(mm: f64) -> Self {
        Self::of((mm * 10.0 - HAIR).ceil())
    }

    #[expect(clippy::cast_possible_truncation, reason = "lengths are at most a few km")]
    const fn of(tenths: f64) -> Self {
        Self(tenths as i64)
    }

    /// The same length in millimetres.
    #[must_use]
    pub const fn to_mm(self) -> Mm {
        Mm(self.0 as f64 / 10.0)
    }
}

impl std::fmt::Display for Tenths {
    /// Millimetres, with the tenth only where there is one.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, tenth) = (self.0.unsigned_abs() / 10, self.0.unsigned_abs() % 10);
        if tenth == 0 { write!(f, "{sign}{whole}") } else { write!(f, "{sign}{whole}.{tenth}") }
    }
}

impl Serialize for Tenths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_mm().serialize(serializer)
    }
}

impl JsonSchema for Tenths {
    fn schema_name() -> Cow<'static, str> {
        "Tenths".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "Millimetres, to a tenth: a length to cut or to buy.", "type": "number"})
    }
}

/// Money in hundredths of the job's money unit. It serializes as the money unit (1234 as 12.34).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Pence(pub i64);

impl std::fmt::Display for Pence {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100);
        write!(f, "{sign}{whole}.{part:02}")
    }
}

impl Serialize for Pence {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0 as f64 / 100.0)
    }
}

impl JsonSchema for Pence {
    fn schema_name() -> Cow<'static, str> {
        "Money".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "Money, in the job's money unit, to 0.01.", "type": "number"})
    }
}

/// A count as a length or money factor. Counts here are in the hundreds.
pub(super) fn int(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}
