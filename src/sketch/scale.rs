//! The scale of a drawing.

use std::fmt;
use std::str::FromStr;

use crate::length::{Length, Units};
use crate::words::quoted;

/// The smallest scale taken is 1 to this.
const SMALLEST: u32 = 1_000_000;

/// A scale of 1 to a whole number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Scale(u32);

impl Scale {
    /// The scales that are chosen from in metric units, largest first: full size and the reductions recommended by ISO
    /// 5455 (1, 2 and 5 times powers of ten; the table ends at 1:10000, from memory), carried on in the same steps; and
    /// between them those that drawings of houses use as well, where a standard one would leave most of the sheet empty
    /// (common practice, no source).
    pub const METRIC: [Self; 28] = [
        Self(1),
        Self(2),
        Self(5),
        Self(10),
        Self(15),
        Self(20),
        Self(25),
        Self(30),
        Self(40),
        Self(50),
        Self(60),
        Self(75),
        Self(100),
        Self(125),
        Self(150),
        Self(200),
        Self(250),
        Self(300),
        Self(400),
        Self(500),
        Self(1000),
        Self(2000),
        Self(5000),
        Self(10_000),
        Self(20_000),
        Self(50_000),
        Self(100_000),
        Self(1_000_000),
    ];

    /// Those in feet and inches: 12 to 1/32 of an inch to the foot, then so many feet to the inch (common practice, no
    /// source).
    pub const FEET: [Self; 24] = [
        Self(1),
        Self(2),
        Self(4),
        Self(8),
        Self(12),
        Self(16),
        Self(24),
        Self(32),
        Self(48),
        Self(64),
        Self(96),
        Self(128),
        Self(192),
        Self(240),
        Self(384),
        Self(480),
        Self(600),
        Self(1200),
        Self(2400),
        Self(6000),
        Self(12_000),
        Self(24_000),
        Self(120_000),
        Self(1_000_000),
    ];

    /// The scales to choose from where figures are in `units`.
    #[must_use]
    pub const fn usual(units: Units) -> &'static [Self] {
        match units {
            Units::Mm | Units::M => &Self::METRIC,
            Units::FeetInches => &Self::FEET,
        }
    }

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

/// How many times `paper` goes into `ground`, if it is a whole number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a float cast saturates, and what is no whole number has been left out"
)]
fn equal(paper: &str, ground: &str) -> Option<u32> {
    let [paper, ground] = [paper, ground].map(|text| Length::parse_positive(text, Units::FeetInches).ok());
    let many = ground?.mm / paper?.mm;
    ((many - many.round()).abs() < 1e-6).then_some(many.round() as u32)
}

/// A text that is not a scale.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a scale: write 1 to a whole number up to {SMALLEST}, such as 1:50, or 1/4in=1ft", quoted(.0))]
pub struct ScaleError(pub String);

impl FromStr for Scale {
    type Err = ScaleError;

    /// Reads `1:50`, any whole number, or what is equal on paper and on the ground: `1/4in=1ft`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let many = match text.split_once('=') {
            Some((paper, ground)) => equal(paper, ground),
            None => text
                .trim()
                .split_once(':')
                .filter(|(one, _)| one.trim() == "1")
                .and_then(|(_, many)| many.trim().parse().ok()),
        };
        many.filter(|many| (1..=SMALLEST).contains(many)).map(Self).ok_or_else(|| ScaleError(text.to_owned()))
    }
}
