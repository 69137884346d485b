//! Lengths as a tape shows them. Rounding happens here and nowhere earlier.

use super::{MM_PER_INCH, Units};

const SIXTEENTHS_PER_FOOT: f64 = 192.0;

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

    /// `mm` as the tape shows it, without a unit where the column head can carry one: `8591`, `8.591`, `28ft 2-1/4in`.
    #[must_use]
    pub fn figure(self, mm: f64) -> String {
        match self {
            Self::Mm => decimal(self.on_tape(mm), 0),
            Self::M => decimal(self.on_tape(mm) / 1000.0, 3),
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

    /// `mm` as the tape shows it, with its unit: `8591 mm`, `8.591 m`, `28ft 2-1/4in`.
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
            Self::Mm => decimal(mm, 3),
            Self::M => decimal(mm / 1000.0, 6),
            Self::FeetInches => decimal(mm / MM_PER_INCH, 3),
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

    /// A small amount, such as an error or a standard deviation, to a tenth of a millimetre or 1/100 in: `1.3 mm`.
    #[must_use]
    pub fn small(self, mm: f64) -> String {
        format!("{} {}", self.small_figure(mm), self.small_unit())
    }

    /// A short distance as the tape shows it, in mm whatever the metric units: `6 mm`, `1/4in`.
    #[must_use]
    pub fn short(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => Self::Mm.with_unit(mm),
            Self::FeetInches => self.with_unit(mm),
        }
    }

    /// [`Units::small`] without its unit.
    #[must_use]
    pub fn small_figure(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => decimal(mm, 1),
            Self::FeetInches => decimal(mm / MM_PER_INCH, 2),
        }
    }

    /// A length with the tenth of a millimetre that a board's thickness may have: `12.5 mm`, `2.3985 m`, `1/2in`.
    #[must_use]
    pub fn fine(self, mm: f64) -> String {
        match self {
            Self::Mm => format!("{} mm", trimmed(mm, 1)),
            Self::M => {
                let figure = decimal(mm / 1000.0, 4);
                format!("{} m", figure.strip_suffix('0').unwrap_or(&figure))
            }
            Self::FeetInches => self.with_unit(mm),
        }
    }

    /// A gap or a limit: in mm whatever the metric units, to a tenth where it has one; in sixteenths of an inch where
    /// it is some, or to 1/100 in, so that a limit is never rounded past itself.
    #[must_use]
    pub fn gap(self, mm: f64) -> String {
        match self {
            Self::Mm | Self::M => format!("{} mm", trimmed(mm, 1)),
            Self::FeetInches if (self.on_tape(mm) - mm).abs() < 1e-6 => self.with_unit(mm),
            Self::FeetInches => self.small(mm),
        }
    }

    /// The unit of [`Units::small`].
    #[must_use]
    pub const fn small_unit(self) -> &'static str {
        match self {
            Self::Mm | Self::M => "mm",
            Self::FeetInches => "in",
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

/// `steps` to a whole number, half away from zero, never −0.
///
/// A length written as a half seldom comes through its arithmetic as one: 3/32 in is 1.4999999999999998 sixteenths. So
/// a ten-millionth short of a half counts as the half.
fn whole(steps: f64) -> f64 {
    (steps + 1e-7_f64.copysign(steps)).round() + 0.0
}

fn feet_inches(mm: f64) -> String {
    let sixteenths = whole(mm / Units::FeetInches.tape_step());
    let sign = if sixteenths < 0.0 { "-" } else { "" };
    let total = sixteenths.abs();
    let feet = (total / SIXTEENTHS_PER_FOOT).floor();
    let left = total - feet * SIXTEENTHS_PER_FOOT;
    let inches = (left / 16.0).floor();
    let over = left - inches * 16.0;
    let inches = match (inches > 0.0, over > 0.0) {
        (false, false) => String::new(),
        (true, false) => format!("{inches}in"),
        (false, true) => format!("{}in", fraction(over)),
        (true, true) => format!("{inches}-{}in", fraction(over)),
    };
    match (feet > 0.0, inches.is_empty()) {
        (true, true) => format!("{sign}{feet}ft"),
        (true, false) => format!("{sign}{feet}ft {inches}"),
        (false, true) => "0in".to_owned(),
        (false, false) => format!("{sign}{inches}"),
    }
}

/// A whole number of sixteenths, 1 to 15, in lowest terms.
fn fraction(sixteenths: f64) -> String {
    let (mut top, mut bottom) = (sixteenths, 16.0);
    while top % 2.0 == 0.0 {
        top /= 2.0;
        bottom /= 2.0;
    }
    format!("{top}/{bottom}")
}
