//! The working of a question, from the steps that every working shares: one operation a line, the rounding last.

use super::scale::Scale;
use crate::board::{self, Board};
use crate::length::Units;

/// From two legs, in whole steps of the tape of `units` (mm, or sixteenths of an inch), to the diagonal on the tape.
///
/// Worked in whole feet where both legs are, in inches otherwise.
#[must_use]
pub fn by_hand(units: Units, a: u32, b: u32) -> Vec<String> {
    pythagoras(Scale(units), ("one leg", a.into()), ("the other", b.into()), "c")
}

/// Legs with what each of them is, and the name of the diagonal.
pub(super) fn pythagoras(scale: Scale, a: (&str, i64), b: (&str, i64), name: &str) -> Vec<String> {
    board::pythagoras(scale.0, (a.0, scale.mm(a.1)), (b.0, scale.mm(b.1)), name)
}

/// The last step of a sum in which nothing is rounded.
pub(super) fn so(scale: Scale, name: &str, steps: i64) -> String {
    format!("so {name} = {}", scale.text(steps))
}

/// `top / bottom` steps before the rounding, in mm or inches.
pub(super) fn amount(scale: Scale, top: i64, bottom: i64) -> String {
    Board::lengths(scale.0).with_unit(mm(scale, top, bottom))
}

fn mm(scale: Scale, top: i64, bottom: i64) -> f64 {
    scale.mm(top) / bottom as f64
}

/// A sum or a difference of two lengths that need not be whole steps, each as so many steps over a number, as a line of
/// its own.
pub(super) fn exact_sum(scale: Scale, first: (i64, i64), sign: char, second: (i64, i64)) -> String {
    let board = Board::lengths(scale.0);
    let [first, second] = [first, second].map(|(top, bottom)| mm(scale, top, bottom));
    if sign == '+' { board.sum(first, second) } else { board.difference(first, second) }
}

/// A sum or a difference of two lengths, as a line of its own.
pub(super) fn sum(scale: Scale, first: i64, sign: char, second: i64) -> String {
    let total = if sign == '+' { first + second } else { first - second };
    // A minus that belongs to the second figure needs brackets to be read.
    let second_text = if second < 0 { format!("({})", scale.text(second)) } else { scale.text(second) };
    format!("{} {sign} {second_text} = {}", scale.text(first), scale.text(total))
}

/// `top / bottom` to the nearest step: in feet its sixteenths first.
pub(super) fn rounded(scale: Scale, name: &str, top: i64, bottom: i64) -> Vec<String> {
    board::to_tape(Board::lengths(scale.0), scale.0, mm(scale, top, bottom), name)
}
