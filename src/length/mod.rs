//! Lengths as people write them and as a tape shows them. Inside the program a length is millimetres in an `f64`.
//!
//! | Written | Read as |
//! | --- | --- |
//! | `6435`, `6435mm`, `6435 mm` | 6435 mm (a bare number is in the units in force, mm unless said) |
//! | `6.435m`, `6,43m` | metres; a decimal comma is taken where it can't be a thousands mark |
//! | `27ft6-1/2in`, `27'6-1/2"`, `27ft 6 1/2in`, `27'-6"` | feet, inches and a fraction |
//! | `27ft`, `27.5ft`, `6-1/2in`, `1/2in`, `6.5in` | either part alone |
//!
//! ```
//! use pegline::length::{Length, Units};
//!
//! for (text, mm) in [
//!     ("6435", 6435.0),
//!     ("6.435m", 6435.0),
//!     ("6,43m", 6430.0),
//!     ("27ft6-1/2in", 8394.7),
//!     ("27'6-1/2\"", 8394.7),
//!     ("27'-6\"", 8382.0),
//!     ("1/2in", 12.7),
//! ] {
//!     let length: Length = Length::parse(text, Units::Mm)?;
//!     assert!((length.mm - mm).abs() < 1e-9, "{text}");
//! }
//! assert_eq!(Units::FeetInches.with_unit(8394.7), "27ft 6-1/2in");
//! # Ok::<(), pegline::length::LengthError>(())
//! ```

mod amount;
mod error;
mod print;
mod scan;

use std::str::FromStr;

pub use amount::AmountError;
pub(crate) use amount::{at_most, not_negative, positive, usable};
pub use error::{LengthError, UnknownUnits};
pub use print::{decimal, trimmed};
pub(crate) use scan::scan;

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

impl Length {
    /// Reads one length; a bare number is taken in `bare`. The value may be negative or zero.
    ///
    /// A hyphen between feet and inches (`27'-6"`) is taken here; in a plan it would take something away.
    pub fn parse(text: &str, bare: Units) -> Result<Self, LengthError> {
        let (feet, rest) = scan(text, bare)?;
        if rest.trim().is_empty() {
            return Ok(feet);
        }
        if let Some(rest) = rest.trim_start().strip_prefix('-').filter(|_| scan::ends_in_feet(text, rest)) {
            let inches = Self::parse(rest, bare)?;
            if (0.0..MM_PER_FOOT).contains(&inches.mm) && inches.written_in == Some(Units::FeetInches) {
                return Ok(Self { mm: feet.mm + inches.mm.copysign(feet.mm), ..feet });
            }
        }
        Err(scan::leftover(text, rest))
    }

    /// Reads one length that must be more than zero.
    pub fn parse_positive(text: &str, bare: Units) -> Result<Self, LengthError> {
        let length = Self::parse(text, bare)?;
        if length.mm > 0.0 { Ok(length) } else { Err(LengthError::NotPositive { text: quoted(text) }) }
    }
}
