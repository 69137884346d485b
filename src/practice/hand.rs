//! Slips of any hand: what a wrong length looks like whatever was asked.

use super::question::Blank;
use super::scale::Scale;
use super::slip::Slip;

/// What kind of slip `read`, in steps of the tape, looks like in a blank where `right` belongs.
pub(super) fn any_hand(blank: &Blank, read: f64, right: i64, scale: Scale) -> Option<Slip> {
    let exact = right as f64;
    let off = (read.round() - exact).abs();
    let factors: &[f64] = scale.of(&[10.0, 100.0, 1000.0], &[12.0, 10.0, 100.0]);
    let figures: &[f64] = scale.of(&[10.0, 100.0, 1000.0], &[16.0, 192.0, 1920.0]);
    if off <= 1.0 {
        Some(if blank.rounded { Slip::Rounding } else { Slip::OneMark })
    } else if near(read.round(), -exact, 1e-6) {
        Some(Slip::MinusLeft)
    } else if blank.rounded && scale.is_feet() && tenths(read.round(), right, 192, 12) {
        Some(Slip::FeetDecimals)
    } else if blank.rounded && scale.is_feet() && tenths(read.round(), right, 16, 16) {
        Some(Slip::InchDecimals)
    } else if !scale.is_feet() && swapped(read, right) {
        Some(Slip::SwappedDigits)
    } else if factors
        .iter()
        .any(|f| near(read, exact * f, exact * f * 1e-3) || near(read * f, exact, exact * 1e-3 + 0.5))
    {
        Some(Slip::Unit)
    } else if figures.iter().any(|figure| near(off, *figure, 0.5)) {
        Some(Slip::RoundFigure)
    } else {
        None
    }
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() <= within
}

/// Whether `read` has the whole units of `right`, and the decimals of the rest written as if there were ten parts to a
/// unit of `unit` steps, not `parts`: to a mark, or to the half or the whole part that one decimal gives.
fn tenths(read: f64, right: i64, unit: i64, parts: i64) -> bool {
    if right < unit {
        return false;
    }
    let whole = (right - right.rem_euclid(unit)) as f64;
    let part = (unit / parts) as f64;
    let written = 10.0 * right.rem_euclid(unit) as f64 / unit as f64;
    [written * part, (2.0 * written).round() / 2.0 * part, written.round() * part, written.floor() * part]
        .iter()
        .any(|wrong| near(read, whole + wrong, if part > 1.0 { 1.0 } else { 0.5 }))
}

/// Whether two neighbouring digits of one make the other.
fn swapped(read: f64, right: i64) -> bool {
    let (read, right) = (format!("{:.0}", read.round()), right.to_string());
    let mut digits = right.into_bytes();
    (1..digits.len()).any(|i| {
        digits.swap(i - 1, i);
        let same = digits == read.as_bytes();
        digits.swap(i - 1, i);
        same
    })
}
