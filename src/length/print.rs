//! Lengths as a tape shows them. Rounding happens here and nowhere earlier.

use super::{MM_PER_INCH, Units};

impl Units {
    /// The tape's step, mm: 1 mm, or 1/16 in.
    #[must_use]
    pub const fn tape_step(self) -> f64 {
        match self {
            Self::Mm | Self::M => 1.0,
            Self::FeetInches => MM_PER_INCH / 16.0,
        }
    }

    /// `mm` rounded to the tape's step, half away from zero, in mm. Never −0.
    #[must_use]
    pub fn on_tape(self, mm: f64) -> f64 {
        whole(mm / self.tape_step()) * self.tape_step()
    }

    /// `mm` as the tape shows it, without a unit where the column head can carry one: `8591`, `8.591`, `28' 2-1/4"`.
    #[must_use]
    pub fn figure(self, mm: f64) -> String {
        match self {
            Self::Mm => printed(self.on_tape(mm), 0),
            Self::M => printed(self.on_tape(mm) / 1000.0, 3),
            Self::FeetInches => feet_inches(mm),
        }
    }

    /// The head of a column of [`Units::figure`]s: with the unit, unless each figure carries its own.
    #[must_use]
    pub fn head(self, name: &str) -> String {
        match self {
            Self::Mm | Self::M => format!("{name} {}", self.name()),
            Self::FeetInches => name.to_owned(),
        }
    }

    /// `mm` as the tape shows it, with its unit: `8591 mm`, `8.591 m`, `28' 2-1/4"`.
    #[must_use]
    pub fn with_unit(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => format!("{} {}", self.figure(mm), self.name()),
            Self::FeetInches => feet_inches(mm),
        }
    }

    /// `mm` before tape rounding: `8590.693`, `8.590693`, or decimal inches `338.216`.
    #[must_use]
    pub fn exact(self, mm: f64) -> String {
        match self {
            Self::Mm => printed(mm, 3),
            Self::M => printed(mm / 1000.0, 6),
            Self::FeetInches => printed(mm / MM_PER_INCH, 3),
        }
    }

    /// The unit of [`Units::exact`].
    #[must_use]
    pub const fn exact_unit(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::M => "m",
            Self::FeetInches => "in",
        }
    }

    /// A small amount, such as an error or a standard deviation, to a tenth of a millimetre or to 1/16 in: `1.3 mm`,
    /// `1/16"`; what is under 1/32 in to 1/64 in, so that little is not told as nothing.
    #[must_use]
    pub fn small(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => format!("{} mm", printed(mm, 1)),
            Self::FeetInches if self.on_tape(mm) == 0.0 => tape(mm, FINEST, MARKS),
            Self::FeetInches => feet_inches(mm),
        }
    }

    /// A short distance as the tape shows it, in mm whatever the metric units: `6 mm`, `1/4"`.
    #[must_use]
    pub fn short(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => Self::Mm.with_unit(mm),
            Self::FeetInches => self.with_unit(mm),
        }
    }

    /// How much more or less it is as the tape shows it: `+2 mm`, `−1/8"`; nothing where the tape shows no difference.
    #[must_use]
    pub fn difference(self, mm: f64) -> Option<String> {
        let sign = if mm < 0.0 { "−" } else { "+" };
        (self.on_tape(mm) != 0.0).then(|| format!("{sign}{}", self.short(mm.abs())))
    }

    /// [`Units::small`] for a column of [`Units::small_head`].
    #[must_use]
    pub fn small_figure(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => printed(mm, 1),
            Self::FeetInches => self.small(mm),
        }
    }

    /// [`Units::small_figure`] with its sign; none before a zero.
    #[must_use]
    pub fn small_signed(self, mm: f64) -> String {
        let figure = self.small_figure(mm);
        let plus = !figure.starts_with('−') && figure.contains(|c| matches!(c, '1'..='9'));
        if plus { format!("+{figure}") } else { figure }
    }

    /// The head of a column of [`Units::small_figure`]s.
    #[must_use]
    pub fn small_head(self, name: &str) -> String {
        match self {
            Self::Mm | Self::M => format!("{name} mm"),
            Self::FeetInches => name.to_owned(),
        }
    }

    /// A length with the tenth of a millimetre that a board's thickness may have: `12.5 mm`, `2.3985 m`, `1/2"`.
    #[must_use]
    pub fn fine(self, mm: f64) -> String {
        match self {
            Self::Mm => format!("{} mm", with_minus(&trimmed(mm, 1))),
            Self::M => {
                let figure = printed(mm / 1000.0, 4);
                format!("{} m", figure.strip_suffix('0').unwrap_or(&figure))
            }
            Self::FeetInches => self.with_unit(mm),
        }
    }

    /// A limit, a packer, or what is held against one: in mm whatever the metric units, to a tenth where it has one; in
    /// feet and inches to 1/64 in, or what is just over a limit would be told as the limit.
    #[must_use]
    pub fn gap(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => format!("{} mm", with_minus(&trimmed(mm, 1))),
            Self::FeetInches => tape(mm, FINEST, MARKS),
        }
    }

    /// How deep a gap is packed, as the place's row has it: to a tenth of a millimetre, or to 1/16 in.
    #[must_use]
    pub fn depth(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => self.gap(mm),
            Self::FeetInches => self.with_unit(mm),
        }
    }

    /// The distance from one stud or joist to the next, as it is spoken of: `600 mm`, `0.6 m`, `16"`, `19.2"`.
    #[must_use]
    pub fn centres(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => self.fine(mm),
            Self::FeetInches if (self.on_tape(mm) - mm).abs() > 1e-4 => {
                format!("{}\"", trimmed(mm / MM_PER_INCH, 2))
            }
            Self::FeetInches => inches(whole(mm / self.tape_step()), 16.0, "\""),
        }
    }

    /// A length as it can be typed at any prompt, without a space and without a mark that a shell takes away: `8591mm`,
    /// `8.591m`, `28ft2-1/4in`.
    #[must_use]
    pub fn typed(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => format!("{}{}", self.figure(mm), self.name()).replace('−', "-"),
            Self::FeetInches => tape(mm, 16.0, ["ft", "in", ""]).replace('−', "-"),
        }
    }
}

/// `value` with no more decimals than it needs, up to `places`.
#[must_use]
pub fn trimmed(value: f64, places: usize) -> String {
    let text = decimal(value, places);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// `value` to `places` decimals, half away from zero, never −0.
#[must_use]
pub fn decimal(value: f64, places: usize) -> String {
    let scale = 10_f64.powi(i32::try_from(places).unwrap_or(i32::MAX));
    let rounded = (value * scale).round() / scale + 0.0;
    format!("{rounded:.places$}")
}

/// [`decimal`] for people, who are shown one kind of minus everywhere.
pub(crate) fn printed(value: f64, places: usize) -> String {
    with_minus(&decimal(value, places))
}

/// A figure with a minus, which a keyboard's hyphen is not.
fn with_minus(figure: &str) -> String {
    figure.strip_prefix('-').map_or_else(|| figure.to_owned(), |rest| format!("−{rest}"))
}

/// `steps` to a whole number, half away from zero, never −0.
///
/// A length written as a half seldom comes through its arithmetic as one: 3/32 in is 1.4999999999999998 sixteenths. So
/// a ten-millionth short of a half counts as the half.
pub(crate) fn whole(steps: f64) -> f64 {
    (steps + 1e-7_f64.copysign(steps)).round() + 0.0
}

fn feet_inches(mm: f64) -> String {
    tape(mm, 16.0, MARKS)
}

/// The marks of feet and inches, and what stands between them.
const MARKS: [&str; 3] = ["'", "\"", " "];
/// The finest part of an inch that is told.
const FINEST: f64 = 64.0;

/// Feet, inches and a fraction, to so many `parts` of an inch, with the marks of both and what stands between. Inches
/// of less than one are written as 0 behind feet, or 20' 13/16" would be read as 20 13/16.
fn tape(mm: f64, parts: f64, [foot, inch, between]: [&str; 3]) -> String {
    let steps = whole(mm / (MM_PER_INCH / parts));
    let sign = if steps < 0.0 { "−" } else { "" };
    let feet = (steps.abs() / (12.0 * parts)).floor();
    let left = steps.abs() - feet * 12.0 * parts;
    let zero = if feet > 0.0 && left < parts { "0-" } else { "" };
    match (feet > 0.0, left > 0.0) {
        (true, true) => format!("{sign}{feet}{foot}{between}{zero}{}", inches(left, parts, inch)),
        (true, false) => format!("{sign}{feet}{foot}"),
        (false, _) => format!("{sign}{}", inches(left, parts, inch)),
    }
}

/// Inches and a fraction, from so many `parts` of one.
fn inches(steps: f64, parts: f64, mark: &str) -> String {
    let whole = (steps / parts).floor();
    let over = steps - whole * parts;
    match (whole > 0.0, over > 0.0) {
        (_, false) => format!("{whole}{mark}"),
        (true, true) => format!("{whole}-{}{mark}", fraction(over, parts)),
        (false, true) => format!("{}{mark}", fraction(over, parts)),
    }
}

/// A whole number of `parts`, less than all of them, in lowest terms.
fn fraction(steps: f64, parts: f64) -> String {
    let (mut top, mut bottom) = (steps, parts);
    while top % 2.0 == 0.0 {
        top /= 2.0;
        bottom /= 2.0;
    }
    format!("{top}/{bottom}")
}
