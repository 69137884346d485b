//! The sizes of one kind of length: what it can be, what it usually is, and what was probably meant by one that can't be.

use crate::length::{LONGEST, Length, MM_PER_FOOT, MM_PER_INCH, Units, trimmed};
use crate::words::{or_list, quoted};

/// The sizes of one kind of length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::job) struct Size {
    /// Its field in the job file, without the numbers of items.
    pub(in crate::job) field: &'static str,
    /// What it is called.
    name: &'static str,
    /// The least and the most it can be, mm; nothing at all is another question.
    possible: (f64, f64),
    /// The least and the most it usually is, mm.
    usual: (f64, f64),
}

pub(super) const fn size(
    field: &'static str,
    name: &'static str,
    possible: (f64, f64),
    usual: (f64, f64),
) -> Size {
    Size { field, name, possible, usual }
}

/// The units that a bare number may have been meant in.
const MEANT: [(&str, f64); 5] =
    [("m", 1_000.0), ("mm", 1.0), ("cm", 10.0), ("in", MM_PER_INCH), ("ft", MM_PER_FOOT)];

impl Size {
    /// What is possible and what is usual, mm.
    #[cfg(test)]
    pub(super) const fn ranges(&self) -> ((f64, f64), (f64, f64)) {
        (self.possible, self.usual)
    }

    /// What is said of a bare number in a job in feet and inches, where it is not of a kind that is told in feet.
    pub(in crate::job) fn without_unit(
        &self,
        typed: &str,
        length: Length,
        default_units: Units,
    ) -> Option<String> {
        let told_in_feet = default_units == Units::FeetInches && self.usual.1 > TOLD_IN_FEET;
        if length.written_in.is_some() || length.mm == 0.0 || told_in_feet {
            return None;
        }
        let typed = typed.trim();
        if let Some((feet, inches)) = self.door(typed) {
            return Some(format!(
                "`{typed}` has no unit: write {feet}ft{inches}in for a door that is {feet}ft {inches}in wide"
            ));
        }
        let number = length.mm / default_units.in_mm();
        let meant = [("in", MM_PER_INCH), ("ft", MM_PER_FOOT)]
            .into_iter()
            .filter(|(_, factor)| lies(number * factor, self.usual))
            .map(
                |(unit, factor)| {
                    if unit == "in" { in_inches(number * factor, typed) } else { format!("{typed}ft") }
                },
            );
        let meant: Vec<String> = meant.collect();
        Some(match &meant[..] {
            [] => format!("`{}` has no unit: write in or ft behind it, or mm", quoted(typed)),
            meant => format!("`{}` has no unit: write {}", quoted(typed), or_list(meant)),
        })
    }

    /// The width in a door's two sizes run together, as 3068 for one of 3 ft 0 in by 6 ft 8 in: feet and inches.
    fn door(&self, typed: &str) -> Option<(char, char)> {
        let opening = self.field == "openings.width" && typed.bytes().all(|b| b.is_ascii_digit());
        match typed.chars().collect::<Vec<_>>()[..] {
            [feet, inches, _, _] if opening => Some((feet, inches)),
            _ => None,
        }
    }

    /// What is wrong with a length that can't be, as it was typed, and what was probably meant; sizes in `shown`.
    pub(in crate::job) fn refusal(
        &self,
        typed: &str,
        length: Length,
        default_units: Units,
        shown: Units,
    ) -> Option<String> {
        if length.mm == 0.0 || lies(length.mm, self.possible) {
            return None;
        }
        let meant = self.meant(typed, length, default_units);
        let (least, most) = (least(self.possible.0, shown), most(self.possible.1, shown));
        let range = if self.possible.1 < LONGEST {
            format!("{} is {least} to {most}", self.name)
        } else {
            format!("{} is {least} or more", self.name)
        };
        let typed = quoted(typed);
        Some(match &meant[..] {
            [] => format!("`{typed}`: {range}: look at the number and its unit"),
            meant => {
                let is = plain(length.mm, shown);
                format!("`{typed}` is {is}: write {} ({range})", or_list(meant))
            }
        })
    }

    /// What is said of a length that can be but seldom is.
    pub(in crate::job) fn doubt(&self, mm: f64, shown: Units) -> Option<String> {
        if mm == 0.0 || lies(mm, self.usual) {
            return None;
        }
        let (least, most) = (least(self.usual.0, shown), most(self.usual.1, shown));
        Some(format!("{} of {} is unusual: {least} to {most} is usual", self.name, plain(mm, shown)))
    }

    /// What to write for a bare number: in the unit that makes a usual size of it, those of its own kind before others.
    fn meant(&self, typed: &str, length: Length, default_units: Units) -> Vec<String> {
        let number = length.mm / default_units.in_mm();
        let usual = |(_, factor): &(&str, f64)| lies(number * factor, self.usual);
        if length.written_in.is_some() {
            return vec![];
        }
        let near = |unit: &str| match default_units {
            Units::Mm | Units::M => matches!(unit, "m" | "mm"),
            Units::FeetInches => unit == "in",
        };
        let likely: Vec<_> = match MEANT.iter().find(|meant| near(meant.0) && usual(meant)) {
            Some(meant) => vec![meant],
            None => MEANT.iter().filter(|meant| usual(meant)).collect(),
        };
        let typed = typed.trim();
        let words = likely.into_iter().flat_map(|(unit, factor)| match (*unit, default_units) {
            ("m", Units::Mm) => vec![format!("{typed}m"), trimmed(number * factor, 1)],
            (unit, _) => vec![format!("{typed}{unit}")],
        });
        words.collect()
    }
}

/// A kind of length that is usually longer than this, mm, is told in feet, and a bare number of it may be feet.
const TOLD_IN_FEET: f64 = 5_000.0;

/// A number of inches as it is written on a tape, if it is on a mark.
fn in_inches(mm: f64, typed: &str) -> String {
    let on_mark = (Units::FeetInches.on_tape(mm) - mm).abs() < 1e-6;
    if on_mark && mm < MM_PER_FOOT { Units::FeetInches.typed(mm) } else { format!("{typed}in") }
}

fn lies(mm: f64, (least, most): (f64, f64)) -> bool {
    (least..=most).contains(&mm.abs())
}

/// The least of a range and the most, where feet are told as what somebody would name: up or down to a whole inch or
/// foot, below an inch to a part of one.
fn least(mm: f64, units: Units) -> String {
    named(mm, units, f64::ceil)
}

fn most(mm: f64, units: Units) -> String {
    named(mm, units, f64::floor)
}

fn named(mm: f64, units: Units, whole: fn(f64) -> f64) -> String {
    if units != Units::FeetInches {
        return plain(mm, units);
    }
    let step = match mm {
        mm if mm < MM_PER_INCH / 16.0 => MM_PER_INCH / 64.0,
        mm if mm < 2.0 * MM_PER_INCH => MM_PER_INCH / 16.0,
        mm if mm < 10.0 * MM_PER_FOOT => MM_PER_INCH,
        _ => MM_PER_FOOT,
    };
    units.gap(whole(mm / step) * step)
}

/// A length that may be far below what a tape shows.
pub(super) fn plain(mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => format!("{} {}", trimmed(mm / units.in_mm(), 6), units.name()),
        Units::FeetInches if units.on_tape(mm) == 0.0 => format!("{}\"", trimmed(mm / MM_PER_INCH, 3)),
        Units::FeetInches => units.with_unit(mm),
    }
}
