//! Figures as they are written on a board.

use crate::length::{MM_PER_INCH, Units, trimmed};

/// How figures are written: in which unit and with how many decimals at most.
#[derive(Debug, Clone, Copy)]
pub(super) struct Board {
    mm_per_unit: f64,
    places: u32,
    unit: &'static str,
}

impl Board {
    /// For lengths: mm, m or decimal inches.
    pub(super) const fn lengths(units: Units) -> Self {
        let (mm_per_unit, places) = match units {
            Units::Mm => (1.0, 3),
            Units::M => (1000.0, 6),
            Units::FeetInches => (MM_PER_INCH, 4),
        };
        Self { mm_per_unit, places, unit: units.exact_unit() }
    }

    /// For gaps: mm in a metric job, whether it is in mm or m.
    pub(super) const fn gaps(units: Units) -> Self {
        match units {
            Units::Mm | Units::M => Self::lengths(Units::Mm),
            Units::FeetInches => Self::lengths(Units::FeetInches),
        }
    }

    /// The figure alone. A minus is written as one.
    pub(super) fn figure(self, mm: f64) -> String {
        trimmed(mm / self.mm_per_unit, self.places as usize).replace('-', "−")
    }

    /// The figure with its unit.
    pub(super) fn with_unit(self, mm: f64) -> String {
        format!("{} {}", self.figure(mm), self.unit)
    }

    /// `mm` as it is shown, so that a sum adds up as it stands on the board.
    fn shown(self, mm: f64) -> f64 {
        let grain = f64::from(10_u32.pow(self.places)) / self.mm_per_unit;
        (mm * grain).round() / grain
    }

    /// `a − b = c`, brackets round a negative `b`.
    pub(super) fn difference(self, a: f64, b: f64) -> String {
        let (a, b) = (self.shown(a), self.shown(b));
        format!("{} − {} = {}", self.figure(a), self.bracketed(b), self.with_unit(a - b))
    }

    /// `a + b = c`, brackets round a negative `b`.
    pub(super) fn sum(self, a: f64, b: f64) -> String {
        let (a, b) = (self.shown(a), self.shown(b));
        format!("{} + {} = {}", self.figure(a), self.bracketed(b), self.with_unit(a + b))
    }

    fn bracketed(self, mm: f64) -> String {
        let figure = self.figure(mm);
        if figure.starts_with('−') { format!("({figure})") } else { figure }
    }
}
