//! How a word of the command line becomes a field's value, where its kind alone does not say.

use std::convert::Infallible;

/// Values in a text separated by commas: `A=1412,B=1409`.
#[expect(clippy::unnecessary_wraps, reason = "what reads a word may refuse it")]
pub(super) fn words(text: &str) -> Result<Vec<String>, Infallible> {
    let items = text.split(',').map(str::trim).filter(|item| !item.is_empty());
    Ok(items.map(str::to_owned).collect())
}

/// A number; NaN and infinity are none, though Rust reads them.
pub(super) fn number(text: &str) -> Result<f64, &'static str> {
    let number = text.trim().parse().ok().filter(|number: &f64| number.is_finite());
    number.ok_or("write a number, such as 0.5")
}

/// Degrees on the page.
pub(super) fn degrees(text: &str) -> Result<f64, &'static str> {
    number(text).map_err(|_| "write degrees clockwise from up the page, 0 to 360, such as 20")
}

/// Degrees on the site's grid.
pub(super) fn bearing(text: &str) -> Result<f64, &'static str> {
    number(text).map_err(|_| "write degrees clockwise from grid north, 0 to 360, such as 95.5")
}

/// A count that may be nothing.
pub(super) fn whole_number(text: &str) -> Result<usize, &'static str> {
    text.trim().parse().map_err(|_| "write a whole number, 0 or more")
}
