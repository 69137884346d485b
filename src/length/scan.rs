//! The length scanner: reads one length off the front of a text, so that a plan can be read length by length.

use super::{LONGEST, Length, LengthError, MM_PER_FOOT, MM_PER_INCH, Units};
use crate::words::quoted;

/// Reads the length at the front of `text`: the length, and what follows it.
///
/// A hyphen belongs to the length only in a mixed fraction (`6-1/2in`), so that `20'-10'x8'` stops before the minus.
pub(crate) fn scan(text: &str, bare: Units) -> Result<(Length, &str), LengthError> {
    let start = text.trim_start();
    if start.is_empty() {
        return Err(LengthError::Empty);
    }
    let mut reader = Reader { text, rest: start };
    let sign = reader.sign();
    let (length, written_in) = reader.magnitude(bare)?;
    let mm = sign * length;
    let taken = text[..text.len() - reader.rest.len()].trim();
    if !mm.is_finite() || mm.abs() > LONGEST {
        let most = match written_in.unwrap_or(bare) {
            Units::Mm | Units::M => "1000 m",
            Units::FeetInches => "3280 ft",
        };
        let bare = match bare {
            Units::Mm => "mm",
            Units::M => "metres",
            Units::FeetInches => "feet",
        };
        let bare = written_in.is_none().then_some(bare);
        return Err(LengthError::TooLong { text: quoted(taken), most, bare });
    }
    Ok((Length { mm, written_in }, reader.rest))
}

/// The inches behind a hyphen that follows feet at the end of what was read of `text` (`25'-6"`), mm, and what follows
/// them.
pub(crate) fn dashed_inches<'a>(text: &str, rest: &'a str) -> Option<(f64, &'a str)> {
    let inches = rest.trim_start().strip_prefix('-').filter(|rest| ends_in_feet(text, rest))?;
    let (length, after) = scan(inches, Units::FeetInches).ok()?;
    let is_inches = (0.0..MM_PER_FOOT).contains(&length.mm) && length.written_in == Some(Units::FeetInches);
    is_inches.then_some((length.mm, after))
}

/// Whether what stands before `-rest` at the end of `text` is feet and nothing after them.
fn ends_in_feet(text: &str, rest: &str) -> bool {
    let before = text[..text.len() - rest.len()].trim_end_matches(['-', ' ']);
    ["ft", "feet", "foot", "'", "′", "’"].iter().any(|feet| before.ends_with(feet))
}

/// The error for text that follows a whole length.
pub(super) fn leftover(text: &str, rest: &str) -> LengthError {
    let rest = rest.trim();
    let unit: String = rest.chars().take_while(|c| c.is_alphabetic()).collect();
    if rest.starts_with(char::is_alphabetic) && unit.len() == rest.len() {
        LengthError::UnknownUnit { text: quoted(text), unit: quoted(&unit) }
    } else {
        LengthError::NotALength { text: quoted(text) }
    }
}

struct Reader<'a> {
    text: &'a str,
    rest: &'a str,
}

impl<'a> Reader<'a> {
    fn magnitude(&mut self, bare: Units) -> Result<(f64, Option<Units>), LengthError> {
        // Most lengths are metric or a number alone, and no mark of feet or inches begins as a metric one does.
        if let Some(length) = self.attempt(|reader| reader.metric(bare)) {
            return Ok(length);
        }
        if let Some(inches) = self.inches(INCHES) {
            return Ok((self.checked_inches(&inches, false)? * MM_PER_INCH, Some(Units::FeetInches)));
        }
        // A fraction is of feet if their mark follows, and can be of nothing but inches if no unit does.
        for (marks, factor) in [(FEET, MM_PER_FOOT), (NONE, MM_PER_INCH)] {
            // A slash between two dimensions is none.
            let is_fraction = |found: &Inches| {
                found.top > 0 && (!marks.is_empty() || found.bottom <= 64 && found.bottom.is_power_of_two())
            };
            if let Some(fraction) = self.attempt(|reader| reader.inches(marks).filter(is_fraction)) {
                return Ok((self.checked_inches(&fraction, false)? * factor, Some(Units::FeetInches)));
            }
        }
        let number = self.number()?;
        if self.unit(FEET) {
            let inches = match self.inches(INCHES).or_else(|| self.inches(NONE)) {
                Some(inches) => self.checked_inches(&inches, true)?,
                None => 0.0,
            };
            Ok((number * MM_PER_FOOT + inches * MM_PER_INCH, Some(Units::FeetInches)))
        } else {
            Ok((number * bare.in_mm(), None))
        }
    }

    /// A number with a metric unit, or with nothing after it but another dimension, mm, and the units that it is written in.
    fn metric(&mut self, bare: Units) -> Option<(f64, Option<Units>)> {
        let number = self.number().ok()?;
        if self.rest.is_empty() || self.rest.starts_with(['x', 'X', '×']) {
            return Some((number * bare.in_mm(), None));
        }
        let units = [("mm", 1.0, Units::Mm), ("cm", 10.0, Units::Mm), ("m", 1000.0, Units::M)];
        let (_, factor, written_in) = units.into_iter().find(|(unit, _, _)| self.unit(&[unit]))?;
        Some((number * factor, Some(written_in)))
    }

    /// Takes what `read` takes, or nothing.
    fn attempt<T>(&mut self, read: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let before = self.rest;
        let found = read(self);
        if found.is_none() {
            self.rest = before;
        }
        found
    }

    /// Inches that end in one of `marks`: `6in`, `6.5"`, `6-1/2in`, `6 1/2"`, `1/2in`, `6½"`. Takes nothing if they
    /// don't.
    fn inches(&mut self, marks: &[&str]) -> Option<Inches> {
        self.attempt(|reader| {
            let inches = reader.try_inches()?;
            let ends = if marks.is_empty() { reader.ends() } else { reader.unit(marks) };
            ends.then_some(inches)
        })
    }

    /// Whether no unit and no more of a number follows.
    fn ends(&self) -> bool {
        let next = self.rest.trim_start().chars().next();
        let runs_on = |c: char| c.is_alphabetic() && !matches!(c, 'x' | 'X' | 'r' | 'R' | 'l' | 'L');
        !next.is_some_and(|c| runs_on(c) || c.is_ascii_digit() || "\"'′’″”.⁄/".contains(c))
    }

    /// A fraction in one character: `½`.
    fn vulgar(&mut self) -> Option<(u32, u32)> {
        let first = self.rest.chars().next()?;
        let (_, top, bottom) = VULGAR.into_iter().find(|(c, _, _)| *c == first)?;
        self.rest = &self.rest[first.len_utf8()..];
        Some((top, bottom))
    }

    fn try_inches(&mut self) -> Option<Inches> {
        self.rest = self.rest.trim_start();
        if let Some((top, bottom)) = self.vulgar() {
            return Some(Inches { whole: 0.0, top, bottom });
        }
        let first = self.digits()?;
        let mut inches = Inches { whole: 0.0, top: 0, bottom: 1 };
        if let Some(bottom) = self.after_slash() {
            inches.top = first.parse().ok()?;
            inches.bottom = bottom;
        } else {
            inches.whole = first.parse().ok()?;
            if let Some(decimals) = self.after(".") {
                inches.whole = format!("{first}.{decimals}").parse().ok()?;
            } else {
                let whole_only = self.rest;
                self.rest = self.rest.strip_prefix('-').unwrap_or(self.rest).trim_start();
                if let Some((top, bottom)) = self.vulgar() {
                    return Some(Inches { top, bottom, ..inches });
                }
                match (self.digits(), self.after_slash()) {
                    (Some(top), Some(bottom)) => {
                        inches.top = top.parse().ok()?;
                        inches.bottom = bottom;
                    }
                    _ => self.rest = whole_only,
                }
            }
        }
        Some(inches)
    }

    fn checked_inches(&self, inches: &Inches, beside_feet: bool) -> Result<f64, LengthError> {
        let wrong = |what| Err(LengthError::BadInches { text: quoted(self.text), what });
        if inches.bottom == 0 {
            return wrong("a fraction can't have 0 below the line");
        }
        if inches.top >= inches.bottom && inches.top > 0 {
            return wrong("the fraction of an inch must be less than one: write 1-1/2in for 3/2in");
        }
        let value = inches.whole + f64::from(inches.top) / f64::from(inches.bottom);
        if beside_feet && value >= 12.0 {
            return wrong("inches beside feet must be under 12: write 2ft1in for 1ft13in");
        }
        Ok(value)
    }

    /// A decimal number with a point, or a comma that can only be a decimal comma.
    fn number(&mut self) -> Result<f64, LengthError> {
        let not_a_length = |reader: &Self| LengthError::NotALength { text: quoted(reader.text) };
        let before = self.rest;
        let whole = self.digits();
        let decimals = match (self.after("."), whole) {
            (None, Some(whole)) => self.decimal_comma(whole)?,
            (decimals, _) => decimals,
        };
        if whole.is_none() && decimals.is_none() {
            return Err(not_a_length(self));
        }
        // A second point or comma, or an exponent, would be read as something that was not meant.
        if self.rest.starts_with(['.', ',']) && self.rest[1..].starts_with(|c: char| c.is_ascii_digit()) {
            return Err(not_a_length(self));
        }
        let written = &before[..before.len() - self.rest.len()];
        let number = written.parse().or_else(|_| written.replace(',', ".").parse());
        number.map_err(|_| not_a_length(self))
    }

    /// The digits after a decimal comma. Exactly three after one to three could as well be thousands.
    fn decimal_comma(&mut self, whole: &str) -> Result<Option<&'a str>, LengthError> {
        let before = self.rest;
        let Some(decimals) = self.after(",") else {
            return Ok(None);
        };
        if decimals.len() == 3 && whole.len() <= 3 && whole != "0" {
            let end = self.text.len() - before.len() + 1 + decimals.len();
            return Err(LengthError::AmbiguousComma { text: self.text[..end].trim().to_owned() });
        }
        Ok(Some(decimals))
    }

    fn sign(&mut self) -> f64 {
        for minus in ["-", "−"] {
            if let Some(rest) = self.rest.strip_prefix(minus) {
                self.rest = rest.trim_start();
                return -1.0;
            }
        }
        self.rest = self.rest.strip_prefix('+').unwrap_or(self.rest);
        1.0
    }

    fn digits(&mut self) -> Option<&'a str> {
        let end = self.rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(self.rest.len());
        let (digits, rest) = self.rest.split_at(end);
        if digits.is_empty() {
            return None;
        }
        self.rest = rest;
        Some(digits)
    }

    /// The digits after `mark`, or nothing taken.
    fn after(&mut self, mark: &str) -> Option<&'a str> {
        let before = self.rest;
        self.rest = self.rest.strip_prefix(mark)?;
        let digits = self.digits();
        if digits.is_none() {
            self.rest = before;
        }
        digits
    }

    fn after_slash(&mut self) -> Option<u32> {
        let before = self.rest;
        let bottom = self.after("/").or_else(|| self.after("⁄")).and_then(|digits| digits.parse().ok());
        if bottom.is_none() {
            self.rest = before;
        }
        bottom
    }

    /// Takes one of the unit words, with or without a space before it. A word must not run on into another letter,
    /// but for the `x` between a plan's two dimensions.
    fn unit(&mut self, words: &[&str]) -> bool {
        let here = self.rest.trim_start();
        for word in words {
            let Some((head, rest)) = here.split_at_checked(word.len()) else {
                continue;
            };
            let runs_on = word.ends_with(char::is_alphabetic)
                && rest.starts_with(|c: char| c.is_alphabetic() && !matches!(c, 'x' | 'X' | '×'));
            if head.eq_ignore_ascii_case(word) && !runs_on {
                let after = rest.strip_prefix('.').filter(|after| {
                    word.ends_with(char::is_alphabetic) && !after.starts_with(|c: char| c.is_ascii_digit())
                });
                self.rest = after.unwrap_or(rest);
                return true;
            }
        }
        false
    }
}

/// The marks of feet and of inches, and none.
const FEET: &[&str] = &["feet", "foot", "ft", "'", "′", "’"];
const INCHES: &[&str] = &["inches", "inch", "in", "\"", "″", "”", "''"];
const NONE: &[&str] = &[];

/// Fractions that phones and word processors make one character of.
const VULGAR: [(char, u32, u32); 7] =
    [('½', 1, 2), ('¼', 1, 4), ('¾', 3, 4), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8)];

struct Inches {
    whole: f64,
    top: u32,
    bottom: u32,
}
