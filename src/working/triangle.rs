//! Pythagoras in steps: the squares, their sum, the root, the rounding.

use crate::length::{MM_PER_INCH, Units, trimmed};

/// A length in the units that squares are worked in: mm, or inches.
fn worked(units: Units, mm: f64) -> f64 {
    match units {
        Units::Mm => mm,
        Units::M => mm / 1000.0,
        Units::FeetInches => mm / MM_PER_INCH,
    }
}

/// How many decimals the working needs: enough that the root's third decimal is right.
const fn places(units: Units) -> usize {
    match units {
        Units::Mm => 3,
        Units::M => 6,
        Units::FeetInches => 4,
    }
}

/// A length as it is worked with, without its unit.
pub(super) fn figure(units: Units, mm: f64) -> String {
    trimmed(worked(units, mm), places(units))
}

/// A length as it is worked with: `4800 mm`, `4.8 m`, `14ft 6in = 174 in`.
pub(super) fn length(units: Units, mm: f64) -> String {
    let figure = format!("{} {}", figure(units, mm), units.exact_unit());
    match units {
        Units::Mm | Units::M => figure,
        Units::FeetInches => format!("{} = {figure}", units.with_unit(mm)),
    }
}

/// From legs `a` and `b`, mm, to the diagonal on the tape: six steps.
pub(super) fn pythagoras(units: Units, a_is: &str, a: f64, b_is: &str, b: f64) -> Vec<String> {
    let unit = units.exact_unit();
    let (wa, wb) = (worked(units, a), worked(units, b));
    let show = |value: f64| trimmed(value, places(units));
    // The squares as they are shown, so that the sum adds up as it stands on the board.
    let grain = 10_f64.powi(i32::try_from(places(units)).unwrap_or_default());
    let square = |side: f64| (side * side * grain).round() / grain;
    let (aa, bb) = (square(wa), square(wb));
    let sum = aa + bb;
    let c = a.hypot(b);
    vec![
        format!("a, {a_is} = {}", length(units, a)),
        format!("b, {b_is} = {}", length(units, b)),
        format!("a² = {} × {} = {} {unit}²", show(wa), show(wa), show(aa)),
        format!("b² = {} × {} = {} {unit}²", show(wb), show(wb), show(bb)),
        format!("a² + b² = {} + {} = {} {unit}²", show(aa), show(bb), show(sum)),
        format!("c = √{} = {} {unit}", show(sum), units.exact(c)),
        format!("on the tape, to the nearest {}: {}", step(units), units.with_unit(c)),
    ]
}

/// The tape's step in words.
pub(super) const fn step(units: Units) -> &'static str {
    match units {
        Units::Mm | Units::M => "1 mm",
        Units::FeetInches => "1/16 in",
    }
}
