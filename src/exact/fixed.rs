//! Numbers of a fixed part: a saw cut and a bill leave no room for a rounding error, so they are whole numbers of it.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use super::whole::held;
use crate::geometry::Mm;

/// Tenths of a millimetre: less than this over or under a whole one is a rounding error.
const HAIR: f64 = 1e-6;

/// A whole number of parts of a unit, with what the schema says of it; it serializes as that unit.
macro_rules! fixed {
    ($(#[$doc:meta])* $name:ident, $schema:literal, $says:literal, $serialized:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
        pub struct $name(pub i64);

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $serialized(*self, serializer)
            }
        }

        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                $schema.into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({"description": $says, "type": "number"})
            }
        }
    };
}

fixed!(
    /// A length in tenths of a millimetre. It serializes as millimetres.
    Tenths,
    "Tenths",
    "Millimetres, to a tenth: a length to cut or to buy.",
    |length: Tenths, serializer| length.to_mm().serialize(serializer)
);

fixed!(
    /// Money in hundredths of the job's money unit. It serializes as the money unit (1234 as 12.34).
    Pence,
    "Money",
    "Money, in the job's money unit, to 0.01.",
    |money: Pence, serializer: S| serializer.serialize_f64(money.0 as f64 / 100.0)
);

fixed!(
    /// A price of one in ten-thousandths of the job's money unit, as screws and metres are priced. It serializes as the
    /// money unit (499 as 0.0499).
    Rate,
    "Rate",
    "A price of one, in the job's money unit, to 0.0001.",
    |rate: Rate, serializer: S| serializer.serialize_f64(rate.0 as f64 / 10_000.0)
);

fixed!(
    /// A quantity in hundredths of its unit. It serializes as the unit (1250 as 12.5).
    Hundredths,
    "Hundredths",
    "A quantity, to a hundredth.",
    hundredths
);

fixed!(
    /// A percentage in hundredths of one per cent. It serializes as the percentage (1750 as 17.5).
    Percent,
    "Percent",
    "A percentage, to a hundredth.",
    |percent: Percent, serializer| hundredths(Hundredths(percent.0), serializer)
);

/// Hundredths as whole units where they are.
fn hundredths<S: Serializer>(quantity: Hundredths, serializer: S) -> Result<S::Ok, S::Error> {
    if quantity.is_whole() {
        serializer.serialize_i64(quantity.0 / 100)
    } else {
        serializer.serialize_f64(quantity.0 as f64 / 100.0)
    }
}

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
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100);
        format!("{sign}{whole}.{part:02}")
    }
}

impl From<Pence> for Rate {
    fn from(pence: Pence) -> Self {
        Self(pence.0.saturating_mul(100))
    }
}

impl Percent {
    /// The tax on `net`, rounded half up to a penny.
    ///
    /// ```
    /// use pegline::exact::{Pence, Percent};
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
    pub(crate) fn added(self, need: i128) -> i128 {
        need * (10_000 + i128::from(self.0))
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

impl std::fmt::Display for Pence {
    /// With two decimals: `10.80`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&Hundredths(self.0).two_places())
    }
}

impl std::fmt::Display for Rate {
    /// With two decimals, or as many more as it has: `10.80`, `0.0499`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{:04}", self.0.unsigned_abs() / 10_000, self.0.unsigned_abs() % 10_000);
        let text = text.strip_suffix("00").unwrap_or_else(|| text.strip_suffix('0').unwrap_or(&text));
        f.write_str(text)
    }
}

impl std::fmt::Display for Hundredths {
    /// With no more decimals than it needs: `6`, `2.5`, `36.96`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.two_places().trim_end_matches('0').trim_end_matches('.'))
    }
}

impl std::fmt::Display for Percent {
    /// With no more decimals than it needs: `20`, `17.5`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        Hundredths(self.0).fmt(f)
    }
}
