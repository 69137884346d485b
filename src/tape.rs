//! What a tape can tell: the legal error limits of a measuring tape and the standard deviation of one reading.
//!
//! Sources: material measures of length, Directive 2014/32/EU Annex X (UK: Measuring Instruments
//! Regulations 2016, Schedule 1I) for classes I to III; NIST Handbook 44 for US tapes.
//!
//! ```
//! use pegline::tape::{Tape, TapeClass};
//!
//! // Annex X: a class II tape may be ±(0.3 + 0.2 × 10) mm out over 10 m.
//! assert!((TapeClass::II.maximum_permissible_error(10_000.0, false) - 2.3).abs() < 1e-9);
//! let eight = Tape { length: Some(8000.0), ..Tape::default() };
//! assert!(eight.reaches(7684.0) && !eight.reaches(8591.0));
//! ```

use std::fmt;
use std::str::FromStr;

use crate::words::quoted;

const MM_PER_INCH: f64 = 25.4;
const MM_PER_FOOT: f64 = 304.8;

/// The accuracy class printed on the tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TapeClass {
    /// Class I: ±(0.1 + 0.1 L) mm.
    I,
    /// Class II: ±(0.3 + 0.2 L) mm. The usual site tape.
    #[default]
    II,
    /// Class III: ±(0.6 + 0.4 L) mm.
    III,
    /// A US tape: NIST Handbook 44's steps in fractions of an inch.
    Us,
}

impl TapeClass {
    /// Every class, in the order the help lists them.
    pub const ALL: [Self; 4] = [Self::I, Self::II, Self::III, Self::Us];

    /// The class as it is written on the command line and in a job file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::I => "I",
            Self::II => "II",
            Self::III => "III",
            Self::Us => "US",
        }
    }

    /// Where the class's limits are published.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::I | Self::II | Self::III => "Directive 2014/32/EU Annex X",
            Self::Us => "NIST Handbook 44",
        }
    }

    /// Maximum permissible error, ± mm, over `length` mm.
    ///
    /// Classes I to III take the length in metres rounded **up** to the next whole metre; `from_hook` adds the
    /// directive's allowance for starting from the hook, an end surface. US tapes take the length in feet rounded
    /// up to the next whole foot; past the table's 100 ft its last rate, 1/4 in per 100 ft, is carried on
    /// (our extension, not published).
    #[must_use]
    pub fn maximum_permissible_error(self, length: f64, from_hook: bool) -> f64 {
        let (a, b, hook): (f64, f64, f64) = match self {
            Self::I => (0.1, 0.1, 0.1),
            Self::II => (0.3, 0.2, 0.2),
            Self::III => (0.6, 0.4, 0.3),
            Self::Us => return us_limit(length),
        };
        let metres = whole_units(length, 1000.0);
        a + b * metres + if from_hook { hook } else { 0.0 }
    }
}

/// `length` in units of `unit` mm, rounded up; a hair over a whole number (1e-9) is that number.
fn whole_units(length: f64, unit: f64) -> f64 {
    (length / unit - 1e-9).ceil().max(1.0)
}

fn us_limit(length: f64) -> f64 {
    let feet = whole_units(length, MM_PER_FOOT);
    let inches = match feet {
        f if f <= 6.0 => 1.0 / 32.0,
        f if f <= 30.0 => 1.0 / 16.0,
        f if f <= 55.0 => 1.0 / 8.0,
        f if f <= 80.0 => 3.0 / 16.0,
        f if f <= 100.0 => 1.0 / 4.0,
        f => f / 100.0 / 4.0,
    };
    inches * MM_PER_INCH
}

impl fmt::Display for TapeClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A tape class that is not one of [`TapeClass::ALL`].
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no tape class `{0}`: write I, II or III (on the tape's blade), or US")]
pub struct UnknownTapeClass(pub String);

impl FromStr for TapeClass {
    type Err = UnknownTapeClass;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let word = text.trim();
        Self::ALL
            .into_iter()
            .find(|class| class.name().eq_ignore_ascii_case(word))
            .or(match word {
                "1" => Some(Self::I),
                "2" => Some(Self::II),
                "3" => Some(Self::III),
                _ => None,
            })
            .ok_or_else(|| UnknownTapeClass(quoted(text)))
    }
}

/// The most pulls that a length is taped in; what takes more wants a longer tape.
pub const MOST_PULLS: f64 = 4.0;

/// The tape in use and the hand that reads it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tape {
    /// Accuracy class.
    pub class: TapeClass,
    /// The longest distance it reaches in one pull, mm; `None` for no limit.
    pub length: Option<f64>,
    /// Standard deviation of reading the blade, mm.
    pub reading: f64,
    /// Standard deviation of holding the two ends on their marks, mm.
    pub ends: f64,
    /// Whether the hook is used as the zero (adds the directive's end-surface allowance).
    pub from_hook: bool,
}

impl Default for Tape {
    /// A class II tape of any length, read to 1 mm (one standard deviation).
    fn default() -> Self {
        Self { class: TapeClass::default(), length: None, reading: 1.0, ends: 0.0, from_hook: false }
    }
}

impl Tape {
    /// Whether it can be read: its two deviations from nothing to a metre, its length from 1 mm to 1 km.
    pub fn check(&self) -> Result<(), TapeError> {
        let within = |what, value, low: f64, high: f64, allowed| {
            if (low..=high).contains(&value) { Ok(()) } else { Err(TapeError { what, value, allowed }) }
        };
        within("reading sd", self.reading, 0.0, 1e3, "0 to 1000 mm")?;
        within("end sd", self.ends, 0.0, 1e3, "0 to 1000 mm")?;
        self.length.map_or(Ok(()), |length| within("length", length, 1.0, 1e6, "1 mm to 1 km"))
    }

    /// Standard deviation, mm, of one reading of `length` mm: √((MPE/√3)² + reading² + ends²).
    ///
    /// The maximum permissible error is taken as the half-width of a uniform distribution. A length past the tape's
    /// reach is taped in as few equal pulls as will do, each read and held anew.
    #[must_use]
    pub fn standard_deviation(&self, length: f64) -> f64 {
        let pulls = self.pull_count(length);
        let limit = self.class.maximum_permissible_error(length / pulls, self.from_hook);
        (pulls * (limit * limit / 3.0 + self.reading * self.reading + self.ends * self.ends)).sqrt()
    }

    /// How many pulls `length` mm takes.
    fn pull_count(&self, length: f64) -> f64 {
        self.length.map_or(1.0, |reach| (length / reach).ceil().max(1.0))
    }

    /// The pulls, mm, that `length` mm takes: as few as will do, and all but the last of whole `step`s where the tape
    /// reaches so far. None where it takes more than [`MOST_PULLS`].
    #[must_use]
    pub fn pulls(&self, length: f64, step: f64) -> Vec<f64> {
        let count = self.pull_count(length);
        if count > MOST_PULLS {
            return vec![];
        }
        let even = length / count;
        let each = Some((even / step).ceil() * step).filter(|whole| self.reaches(*whole)).unwrap_or(even);
        let mut pulls = vec![];
        let mut left = length;
        while !self.reaches(left) {
            pulls.push(each);
            left -= each;
        }
        pulls.push(left);
        pulls
    }

    /// Whether `length` mm can be taped in one pull.
    #[must_use]
    pub fn reaches(&self, length: f64) -> bool {
        self.length.is_none_or(|limit| length <= limit)
    }
}

/// A tape that can be none.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("the tape's {what} is {value}: write {allowed}")]
pub struct TapeError {
    /// Which of its figures.
    pub what: &'static str,
    /// As given, mm.
    pub value: f64,
    /// What it can be.
    pub allowed: &'static str,
}
