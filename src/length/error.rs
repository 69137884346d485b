//! What can be wrong with a length, and what to write instead.

use super::meant::instead;
use super::units::Units;

/// A length that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// Nothing was written.
    #[error("a length is missing: write a number such as 6435, 6.435m or 21ft1-3/8in")]
    Empty,
    /// The text does not begin with a number.
    #[error("`{text}` is not a length: write {}", instead(text, EXAMPLES))]
    NotALength {
        /// The text as given.
        text: String,
    },
    /// A number is followed by a unit that is not taken.
    #[error("`{text}` has the unit `{unit}`: write mm, m, ft or in (6435, 6.435m, 21ft1-3/8in)")]
    UnknownUnit {
        /// The text as given.
        text: String,
        /// The unit as given.
        unit: String,
    },
    /// A comma that could be a decimal comma or a thousands mark.
    #[error(
        "`{text}` can be read two ways: write {} for the decimal comma or {} for thousands",
        text.replacen(',', ".", 1),
        text.replacen(',', "", 1)
    )]
    AmbiguousComma {
        /// The text as given.
        text: String,
    },
    /// Inches of 12 or more beside feet, or a fraction of one or more.
    #[error("`{text}`: {what}")]
    BadInches {
        /// The text as given.
        text: String,
        /// What is wrong and what to write instead.
        what: &'static str,
    },
    /// A length over [`LONGEST`](super::LONGEST) either way.
    #[error("`{text}` is over {most}: check the number and its unit{}", bare.map(|units| format!(" (a bare number is {units})")).unwrap_or_default())]
    TooLong {
        /// The text as given.
        text: String,
        /// The longest taken, in the units it was written in.
        most: &'static str,
        /// What a bare number is taken as, where this one is.
        bare: Option<&'static str>,
    },
    /// Zero or less where a length must be more than zero.
    #[error("`{text}` must be more than zero")]
    NotPositive {
        /// The text as given.
        text: String,
    },
}

/// Lengths as they may be written, and in a job in feet and inches.
const EXAMPLES: &str = "6435, 6.435m or 21ft1-3/8in";
const IN_FEET: &str = "21ft1-3/8in, or 6-1/2in";

impl LengthError {
    /// What is wrong, with examples of what to write in `units`.
    #[must_use]
    pub fn message(&self, units: Units) -> String {
        match (self, units) {
            (Self::Empty, Units::FeetInches) => format!("a length is missing: write one such as {IN_FEET}"),
            (Self::NotALength { text }, Units::FeetInches) => {
                format!("`{text}` is not a length: write {}", instead(text, IN_FEET))
            }
            _ => self.to_string(),
        }
    }
}
