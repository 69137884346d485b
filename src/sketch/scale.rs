//! The scale of a drawing.

use std::fmt;
use std::str::FromStr;

use crate::words::quoted;

/// The smallest scale taken is 1 to this.
const SMALLEST: u32 = 1_000_000;

/// A scale of 1 to a whole number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Scale(u32);

impl Scale {
    /// The scales that are chosen from, largest first: full size and the reductions recommended by ISO 5455 (1, 2 and
    /// 5 times powers of ten; the table ends at 1:10000, from memory), carried on in the same steps.
    pub const STANDARD: [Self; 16] = [
        Self(1),
        Self(2),
        Self(5),
        Self(10),
        Self(20),
        Self(50),
        Self(100),
        Self(200),
        Self(500),
        Self(1000),
        Self(2000),
        Self(5000),
        Self(10_000),
        Self(20_000),
        Self(50_000),
        Self(100_000),
    ];

    /// How many mm on the ground 1 mm on paper is.
    #[must_use]
    pub const fn ratio(self) -> u32 {
        self.0
    }

    /// `mm` on the ground as mm on paper.
    #[must_use]
    pub fn on_paper(self, mm: f64) -> f64 {
        mm / f64::from(self.0)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "1:{}", self.0)
    }
}

/// A text that is not a scale.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a scale: write 1 to a whole number up to {SMALLEST}, such as 1:50", quoted(.0))]
pub struct ScaleError(pub String);

impl FromStr for Scale {
    type Err = ScaleError;

    /// Reads `1:50`; any whole number is taken, since imperial drawings use 1:48 and 1:96.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        text.trim()
            .split_once(':')
            .filter(|(one, _)| one.trim() == "1")
            .and_then(|(_, many)| many.trim().parse().ok())
            .filter(|many| (1..=SMALLEST).contains(many))
            .map(Self)
            .ok_or_else(|| ScaleError(text.to_owned()))
    }
}
