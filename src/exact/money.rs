//! Money as people write it: a number with at most two decimals, in whatever money the job is in.

use super::fixed::{Pence, Rate};

/// The dearest thing that is taken, and the highest worth of a splice: a million of the money unit.
pub const MAX_PRICE: Pence = Pence(100_000_000);

/// An amount of money that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Nothing at all.
    #[error("the price is missing: write a number such as 10.80")]
    Empty,
    /// Not a plain number with up to so many decimals.
    #[error("`{text}` is no price: write {}", instead(text, decimals))]
    NotMoney {
        /// The text as given.
        text: String,
        /// How many decimals are taken, in words.
        decimals: &'static str,
    },
    /// More than is taken.
    #[error("`{text}` is no usable price: write one from 0.00 to {MAX_PRICE}")]
    TooMuch {
        /// The text as given.
        text: String,
    },
}

/// What to write for what is no price: what was meant, if only a sign is too much or the comma is a decimal one.
fn instead(text: &str, decimals: &str) -> String {
    let is_digit = |c: char| c.is_ascii_digit();
    let plain = text.trim_matches(|c: char| !is_digit(c) && !matches!(c, '.' | '-')).replacen(',', ".", 1);
    let signs = text.chars().filter(|c| !is_digit(*c));
    if plain != text && !text.contains(['/', '-']) && parse_parts(&plain, 2).is_some() {
        let why = if signs.clone().any(|c| !matches!(c, ',' | '.')) {
            ", without its sign"
        } else {
            ", with a point"
        };
        return format!("{plain}{why}");
    }
    let of_one = if text.contains('/') { ", the price of one" } else { "" };
    format!("a number such as 10.80{of_one}, with a point, at most {decimals} decimals and no money sign")
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
    Ok(Pence(parts(text, 2, "two", MAX_PRICE.0)?))
}

/// Reads the price of one, which may have four decimals: `0.0499`. Never negative.
///
/// ```
/// use pegline::exact::{Pence, Rate, parse_rate};
///
/// assert_eq!(parse_rate("0.0499"), Ok(Rate(499)));
/// assert_eq!(parse_rate("10.80"), Ok(Rate::from(Pence(1080))));
/// assert!(parse_rate("0.04999").is_err());
/// ```
pub fn parse_rate(text: &str) -> Result<Rate, MoneyError> {
    Ok(Rate(parts(text, 4, "four", Rate::from(MAX_PRICE).0)?))
}

/// An amount up to `most` in parts of as many decimals as are taken.
fn parts(text: &str, places: usize, decimals: &'static str, most: i64) -> Result<i64, MoneyError> {
    let given = text.trim();
    if given.is_empty() {
        return Err(MoneyError::Empty);
    }
    let Some(parts) = parse_parts(given, places) else {
        return Err(MoneyError::NotMoney { text: shortened(given), decimals });
    };
    if parts > most {
        return Err(MoneyError::TooMuch { text: shortened(given) });
    }
    Ok(parts)
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
    parse_parts(text, 2)
}

/// The same with up to `places` decimals, as parts of as many.
fn parse_parts(text: &str, places: usize) -> Option<i64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !digits(whole) || !digits(part) || part.len() > places {
        return None;
    }
    let whole = whole.trim_start_matches('0');
    Some(format!("{whole}{part:0<places$}").parse().unwrap_or(i64::MAX))
}

/// Enough of a text to recognise it by.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(24) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
