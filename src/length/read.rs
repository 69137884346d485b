//! Reading one length, and nothing behind it.

use super::error::LengthError;
use super::scan::{self, scan};
use super::units::{Length, Units};
use crate::words::quoted;

impl Length {
    /// Reads one length; a bare number is taken in `bare`. The value may be negative or zero.
    ///
    /// A hyphen between feet and inches (`27'-6"`) is taken.
    pub fn parse(text: &str, bare: Units) -> Result<Self, LengthError> {
        let (feet, rest) = scan(text, bare)?;
        if rest.trim().is_empty() {
            return Ok(feet);
        }
        if let Some((inches, after)) = scan::dashed_inches(text, rest)
            && after.trim().is_empty()
        {
            return Ok(Self { mm: feet.mm + inches.copysign(feet.mm), ..feet });
        }
        Err(scan::leftover(text, rest))
    }

    /// Reads one length that must be more than zero.
    pub fn parse_positive(text: &str, bare: Units) -> Result<Self, LengthError> {
        let length = Self::parse(text, bare)?;
        if length.mm > 0.0 { Ok(length) } else { Err(LengthError::NotPositive { text: quoted(text) }) }
    }
}
