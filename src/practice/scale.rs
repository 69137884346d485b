//! Whole steps of a tape, in which every question is made, so that no sheet depends on how a machine rounds.

use crate::board::grouped;
use crate::length::Units;

/// Sixteenths of an inch in a foot.
const FOOT: i64 = 192;
/// Sixteenths in an inch.
const INCH: i64 = 16;

/// The tape that a sheet is for: whole millimetres, or feet, inches and sixteenths. Sizes are whole steps of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Scale(pub(super) Units);

/// Sizes to draw from: the least, the most and the step between them, in steps of the tape.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sizes(pub(super) i64, pub(super) i64, pub(super) i64);

impl Scale {
    /// Whether the tape shows feet and inches.
    pub(super) const fn is_feet(self) -> bool {
        matches!(self.0, Units::FeetInches)
    }

    /// One of two, by the tape: millimetres, or sixteenths of an inch.
    pub(super) const fn of<T: Copy>(self, mm: T, sixteenths: T) -> T {
        if self.is_feet() { sixteenths } else { mm }
    }

    /// Steps in mm.
    pub(super) fn mm(self, steps: i64) -> f64 {
        steps as f64 * self.0.tape_step()
    }

    /// A size as it is written, with its unit.
    pub(super) fn text(self, steps: i64) -> String {
        self.0.with_unit(self.mm(steps))
    }

    /// A height as it is written, with its sign.
    pub(super) fn signed(self, steps: i64) -> String {
        let sign = if steps > 0 { "+" } else { "" };
        format!("{sign}{}", self.text(steps))
    }

    /// The tape's step in words.
    pub(super) const fn step(self) -> &'static str {
        self.of("1 mm", "1/16 in")
    }

    /// How many steps there are to the unit that squares of `lengths` are worked in: mm, feet if all are whole, or inches.
    pub(super) fn per(self, lengths: &[i64]) -> i64 {
        match (self.is_feet(), lengths.iter().all(|size| size % FOOT == 0)) {
            (false, _) => 1,
            (true, true) => FOOT,
            (true, false) => INCH,
        }
    }
}

/// `top / bottom` in decimals, exact for a bottom that divides 10⁸ (16², 1) or divides the top; no trailing zeros.
pub(super) fn quotient(top: i64, bottom: i64) -> String {
    let sign = if top < 0 { "−" } else { "" };
    let (top, bottom) = (u128::from(top.unsigned_abs()), u128::from(bottom.unsigned_abs().max(1)));
    let whole = top / bottom;
    let decimals = format!("{:08}", top % bottom * 100_000_000 / bottom);
    let decimals = decimals.trim_end_matches('0');
    let whole = grouped(&format!("{sign}{whole}"));
    if decimals.is_empty() { whole } else { format!("{whole}.{decimals}") }
}

/// √`square` to the nearest whole step. A whole number's root is never halfway.
pub(super) fn root(square: i64) -> i64 {
    let floor = square.max(0).isqrt();
    floor + i64::from(square > floor * floor + floor)
}

/// Whether √`square` is so near the edge between two steps (0.06 of a step) that a rounded working could go over it.
pub(super) fn root_near_edge(square: i64) -> bool {
    let floor = square.max(0).isqrt();
    let scaled = 2500 * square;
    (50 * floor + 22).pow(2) < scaled && scaled < (50 * floor + 28).pow(2)
}

/// `top / bottom` to the nearest whole step, half away from zero.
pub(super) fn nearest(top: i64, bottom: i64) -> i64 {
    let (top, bottom) = (top * bottom.signum(), bottom.abs().max(1));
    top.signum() * ((2 * top.abs() + bottom) / (2 * bottom))
}

/// Whether `top / bottom` is as near the edge between two steps as [`root_near_edge`] means.
pub(super) fn quotient_near_edge(top: i64, bottom: i64) -> bool {
    let bottom = bottom.abs().max(1);
    let over = 100 * (top.abs() % bottom);
    44 * bottom < over && over < 56 * bottom
}
