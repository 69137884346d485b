//! Reading one length, and nothing behind it.

use super::error::LengthError;
use super::scan::{self, scan};
use super::units::{Length, MM_PER_FOOT, Units};
use crate::words::quoted;

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
