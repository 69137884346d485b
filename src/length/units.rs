//! The units that lengths are written in, and what they are in millimetres.

use std::str::FromStr;

use crate::words::quoted;

/// Millimetres in an inch, exactly.
pub const MM_PER_INCH: f64 = 25.4;
/// Millimetres in a foot, exactly.
pub const MM_PER_FOOT: f64 = 304.8;
/// The longest length taken, mm: 1 km. Anything longer on a house extension is a slip of the keys.
pub const LONGEST: f64 = 1e6;

/// The units that lengths are written in: those of a bare number on the way in, those of every figure on the way out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// Whole millimetres.
    #[default]
    Mm,
    /// Metres to three places.
    M,
    /// Feet, inches and sixteenths. A bare number is feet.
    FeetInches,
}

impl Units {
    /// Every choice, in the order the help lists them.
    pub const ALL: [Self; 3] = [Self::Mm, Self::M, Self::FeetInches];

    /// How many millimetres a bare number of one is.
    #[must_use]
    pub const fn in_mm(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::M => 1_000.0,
            Self::FeetInches => MM_PER_FOOT,
        }
    }

    /// A usual length, mm: `metric` mm, or so many `inches` for who works in feet and inches.
    #[must_use]
    pub const fn usual(self, metric: f64, inches: f64) -> f64 {
        match self {
            Self::Mm | Self::M => metric,
            Self::FeetInches => inches * MM_PER_INCH,
        }
    }

    /// An example of what to write, `metric` or in `feet` and inches.
    #[must_use]
    pub(crate) const fn example(self, metric: &'static str, feet: &'static str) -> &'static str {
        match self {
            Self::Mm | Self::M => metric,
            Self::FeetInches => feet,
        }
    }

    /// The name on the command line, in a job file and in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::M => "m",
            Self::FeetInches => "ft-in",
        }
    }
}

/// Units that are not one of [`Units::ALL`].
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no units `{0}`: write mm, m or ft-in")]
pub struct UnknownUnits(pub String);

impl FromStr for Units {
    type Err = UnknownUnits;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|units| units.name().eq_ignore_ascii_case(text.trim()))
            .ok_or_else(|| UnknownUnits(quoted(text)))
    }
}

/// A length as it was written: its value and the units it was given in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// Value, mm.
    pub mm: f64,
    /// The units it was written in, or `None` for a bare number.
    pub written_in: Option<Units>,
}
