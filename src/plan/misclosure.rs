//! By how much a walk misses its start, and which sides may carry the error: the likeliest slip first.

use std::fmt;

use super::limits::SAME_PLACE;
use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units};

/// A direction on the page in which a walk misses its start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Left and right.
    Across,
    /// Up and down the page.
    Down,
}

impl fmt::Display for Axis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Across => "across",
            Self::Down => "down the page",
        })
    }
}

/// By how much a walk misses its start on one axis, and which dimensions could carry the error.
#[derive(Debug, Clone, PartialEq)]
pub struct Misclosure {
    /// The axis.
    pub axis: Axis,
    /// How far the walk ends beyond A, mm: positive to the right of A or below it.
    pub beyond: f64,
    /// Each side on this axis that could be wrong alone, those that a usual slip explains first.
    pub repairs: Vec<Repair>,
    /// The units to say it in.
    pub units: Units,
}

/// A side that would close the walk if it alone were wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// Its name.
    pub side: String,
    /// Its length as given, mm.
    pub given: f64,
    /// The length that would close the walk, mm.
    pub closing: f64,
}

impl fmt::Display for Misclosure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = match (self.axis, self.beyond > 0.0) {
            (Axis::Across, true) => "too far to the right of A",
            (Axis::Across, false) => "too far to the left of A",
            (Axis::Down, true) => "short of A, below it",
            (Axis::Down, false) => "too far, above A",
        };
        let amount = match self.units {
            Units::M => as_given(Units::Mm, self.beyond.abs()),
            units => as_given(units, self.beyond.abs()),
        };
        let unit = match self.units {
            Units::Mm | Units::M => " mm",
            Units::FeetInches => "",
        };
        write!(f, "{amount}{unit} {side} ({})", self.axis)?;
        if !self.repairs.is_empty() {
            let list: Vec<String> = self.repairs.iter().map(|repair| repair.words(self.units)).collect();
            write!(f, "; any one of these would close it: {}", list.join(", "))?;
        }
        Ok(())
    }
}

impl Repair {
    fn words(&self, units: Units) -> String {
        let lengths = format!("{} -> {}", as_given(units, self.given), as_given(units, self.closing));
        let slip = match self.slip(units) {
            Some(Slip::Swapped) => " (two digits swapped)",
            Some(Slip::LeftOut) => " (a digit left out)",
            Some(Slip::Twice) => " (a digit written twice)",
            // One wrong digit explains most misses on most sides: it ranks them, and is not worth a word.
            Some(Slip::Digit) | None => "",
        };
        format!("{} {lengths}{slip}", self.side)
    }

    /// The slip of the pencil that makes the length given of the one that closes.
    pub(super) fn slip(&self, units: Units) -> Option<Slip> {
        let digits = |mm: f64| format!("{mm:.0}");
        match units {
            Units::Mm | Units::M => Slip::between(&digits(self.given), &digits(self.closing)),
            Units::FeetInches => {
                let out = (self.given - self.closing).abs();
                let feet = |mm: f64| digits(((mm + SAME_PLACE) / MM_PER_FOOT).floor());
                if (out / MM_PER_FOOT - (out / MM_PER_FOOT).round()).abs() <= SAME_PLACE {
                    Slip::between(&feet(self.given), &feet(self.closing))
                } else {
                    ((out - MM_PER_INCH).abs() <= SAME_PLACE).then_some(Slip::Digit)
                }
            }
        }
    }
}

/// How a length is written down wrongly; the likelier before the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Slip {
    Swapped,
    LeftOut,
    Twice,
    Digit,
}

impl Slip {
    fn between(given: &str, closing: &str) -> Option<Self> {
        let (given, closing) = (given.as_bytes(), closing.as_bytes());
        let without = |digits: &[u8], i: usize| [&digits[..i], &digits[i + 1..]].concat();
        let apart: Vec<usize> =
            (0..given.len().min(closing.len())).filter(|i| given[*i] != closing[*i]).collect();
        if given.len() + 1 == closing.len() {
            (0..closing.len()).any(|i| without(closing, i) == given).then_some(Self::LeftOut)
        } else if given.len() == closing.len() + 1 {
            let twice = |i: usize| given[i] == given[i - 1] && without(given, i) == closing;
            (1..given.len()).any(twice).then_some(Self::Twice)
        } else if given.len() != closing.len() {
            None
        } else if let [i, j] = apart[..] {
            (j == i + 1 && given[i] == closing[j] && given[j] == closing[i]).then_some(Self::Swapped)
        } else {
            (apart.len() == 1).then_some(Self::Digit)
        }
    }
}

/// A length as the tape shows it where it is on a mark; as exactly as it was given where it is not, since the error may
/// lie in what a tape would round away.
pub(super) fn as_given(units: Units, mm: f64) -> String {
    if (units.on_tape(mm) - mm).abs() <= SAME_PLACE {
        return units.figure(mm);
    }
    let exact = units.exact(mm);
    let exact = exact.trim_end_matches('0');
    match units {
        Units::Mm | Units::M => exact.to_owned(),
        Units::FeetInches => format!("{exact}\""),
    }
}
