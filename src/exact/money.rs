//! Money as people write it: a number with at most two decimals, in whatever money the job is in.

use super::fixed::Pence;

/// The dearest thing that is taken, and the highest worth of a splice: a million of the money unit.
pub const MAX_PRICE: Pence = Pence(100_000_000);

/// An amount of money that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Nothing at all.
    #[error("the price is missing: write a number such as 10.80")]
    Empty,
    /// Not a plain number with up to two decimals.
    #[error(
        "`{text}` is no price: write a number such as 10.80, with a point, at most two decimals and no money sign"
    )]
    NotMoney {
        /// The text as given.
        text: String,
    },
    /// More than is taken.
    #[error("`{text}` is no usable price: write one from 0.00 to {MAX_PRICE}")]
    TooMuch {
        /// The text as given.
        text: String,
    },
}

/// Reads an amount such as `10.80`, `7` or `.5`. Never negative.
///
/// ```
/// use pegline::exact::{Pence, parse_money};
///
/// assert_eq!(parse_money("10.80"), Ok(Pence(1080)));
/// assert_eq!(parse_money("7"), Ok(Pence(700)));
/// assert!(parse_money("7.125").is_err());
/// ```
pub fn parse_money(text: &str) -> Result<Pence, MoneyError> {
    let given = text.trim();
    if given.is_empty() {
        return Err(MoneyError::Empty);
    }
    let Some(pence) = parse_hundredths(given) else {
        return Err(MoneyError::NotMoney { text: shortened(given) });
    };
    let too_much = || MoneyError::TooMuch { text: shortened(given) };
    let pence = Pence(pence);
    if pence > MAX_PRICE {
        return Err(too_much());
    }
    Ok(pence)
}

/// Reads a plain number of zero or more with at most two decimals, as hundredths; one too large to hold becomes the
/// largest. `None` for anything else.
///
/// ```
/// use pegline::exact::parse_hundredths;
///
/// assert_eq!(parse_hundredths("17.5"), Some(1750));
/// assert_eq!(parse_hundredths("-1"), None);
/// ```
#[must_use]
pub fn parse_hundredths(text: &str) -> Option<i64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !digits(whole) || !digits(part) || part.len() > 2 {
        return None;
    }
    let whole = whole.trim_start_matches('0');
    Some(format!("{whole}{part:0<2}").parse().unwrap_or(i64::MAX))
}

/// Enough of a text to recognise it by.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(24) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
