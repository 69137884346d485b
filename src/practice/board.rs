//! The working as on a board: one operation a line, the unit on every line, the rounding last.

use super::scale::{Scale, nearest, quotient, quotient_text, root, root_text};
use crate::length::Units;

/// From two legs, in whole steps of the tape of `units` (mm, or sixteenths of an inch), to the diagonal on the tape.
///
/// Worked in whole feet where both legs are, in inches otherwise. Every figure is exact or rounded from the exact
/// value, in integers.
#[must_use]
pub fn by_hand(units: Units, a: u32, b: u32) -> Vec<String> {
    let scale = Scale(units);
    pythagoras(scale, ("one leg", a.into()), ("the other", b.into()), "c")
}

/// Legs with what each of them is, and the name of the diagonal.
pub(super) fn pythagoras(scale: Scale, a: (&str, i64), b: (&str, i64), name: &str) -> Vec<String> {
    let mut steps = squares(scale, a, b);
    steps.push(to_tape(scale, name, root(a.1 * a.1 + b.1 * b.1)));
    steps
}

/// The same up to the root, not yet rounded.
pub(super) fn squares(scale: Scale, (a_is, a): (&str, i64), (b_is, b): (&str, i64)) -> Vec<String> {
    let work = scale.work(&[a, b]);
    let (unit, per) = (work.unit, work.per);
    let length = |steps| quotient(steps, per);
    let area = |square| quotient(square, per * per);
    let sum = a * a + b * b;
    vec![
        format!("a, {a_is} = {}", scale.worked(a, work)),
        format!("b, {b_is} = {}", scale.worked(b, work)),
        format!("a² = {0} × {0} = {1} {unit}²", length(a), area(a * a)),
        format!("b² = {0} × {0} = {1} {unit}²", length(b), area(b * b)),
        format!("a² + b² = {} + {} = {} {unit}²", area(a * a), area(b * b), area(sum)),
        format!("c = √{} = {} {unit}", area(sum), root_text(sum, per)),
    ]
}

/// The last step: on the tape.
pub(super) fn to_tape(scale: Scale, name: &str, steps: i64) -> String {
    format!("on the tape, to the nearest {}: {name} = {}", scale.step(), scale.text(steps))
}

/// The last step of a sum in which nothing is rounded.
pub(super) fn so(scale: Scale, name: &str, steps: i64) -> String {
    format!("so {name} = {}", scale.text(steps))
}

/// `top / bottom` steps before the rounding, to three decimals, in mm or inches.
pub(super) fn amount(scale: Scale, top: i64, bottom: i64) -> String {
    let (per, unit) = scale.of((1, "mm"), (16, "in"));
    format!("{} {unit}", quotient_text(top, bottom * per))
}

/// A sum or a difference of two lengths, as a line of its own.
pub(super) fn sum(scale: Scale, first: i64, sign: char, second: i64) -> String {
    let total = if sign == '+' { first + second } else { first - second };
    // A minus that belongs to the second figure needs brackets to be read.
    let second_text = if second < 0 { format!("({})", scale.text(second)) } else { scale.text(second) };
    format!("{} {sign} {second_text} = {}", scale.text(first), scale.text(total))
}

/// `top / bottom` to the nearest step, said.
pub(super) fn rounded(scale: Scale, name: &str, top: i64, bottom: i64) -> String {
    to_tape(scale, name, nearest(top, bottom))
}
