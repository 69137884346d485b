//! Money as people write it: a number with at most two decimals, in whatever money the job is in.

use crate::cutting::{MAX_PRICE, Pence};

/// An amount of money that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Not a plain number with up to two decimals.
    #[error("`{text}` is no price: write a number such as 10.80, without a money sign")]
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
/// use pegline::cutting::Pence;
/// use pegline::money::parse_money;
///
/// assert_eq!(parse_money("10.80"), Ok(Pence(1080)));
/// assert_eq!(parse_money("7"), Ok(Pence(700)));
/// assert!(parse_money("7.125").is_err());
/// ```
pub fn parse_money(text: &str) -> Result<Pence, MoneyError> {
    let given = text.trim();
    let wrong = || MoneyError::NotMoney {
        text: shortened(given),
    };
    let (whole, part) = given.split_once('.').unwrap_or((given, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !digits(whole) || !digits(part) || part.len() > 2 {
        return Err(wrong());
    }
    let too_much = || MoneyError::TooMuch {
        text: shortened(given),
    };
    let whole = whole.trim_start_matches('0');
    let pence = format!("{whole}{part:0<2}");
    let pence = Pence(pence.parse().map_err(|_| too_much())?);
    if pence > MAX_PRICE {
        return Err(too_much());
    }
    Ok(pence)
}

/// Enough of a text to recognise it by.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(24) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
