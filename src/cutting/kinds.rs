//! The stock lengths that may be of use, checked, in plain numbers.

use super::error::Error;
use super::model::{MAX_LENGTH, MAX_STOCK, Rules, Stock};
use crate::exact::{MAX_PRICE, Pence, Tenths};

/// A stock length that may be of use.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    /// What a bar gives after trimming.
    pub(super) length: i64,
    pub(super) price: i64,
    pub(super) count: Option<usize>,
    /// Place in the problem's list.
    pub(super) stock: usize,
}

/// Checks stock and rules; leaves out each length that a longer one undercuts of which there are always more, and counted
/// bars over `most`.
pub(super) fn usable_kinds(stock: &[Stock], rules: Rules, most: usize) -> Result<Vec<Kind>, Error> {
    if stock.is_empty() {
        return Err(Error::Nothing("stock length"));
    }
    if stock.len() > MAX_STOCK {
        return Err(Error::TooMany { what: "stock lengths", count: stock.len(), most: MAX_STOCK });
    }
    for (what, length) in [
        ("the kerf", rules.kerf),
        ("the end trim", rules.trim),
        ("the least piece", rules.least_piece),
        ("the overlap of a splice", rules.overlap),
    ] {
        check_length(what, length, Tenths(0))?;
    }
    let mut kinds = Vec::new();
    for (place, item) in stock.iter().enumerate() {
        check_length(&format!("stock length {}", place + 1), item.length, Tenths(1))?;
        check_price(&format!("the price of stock length {}", place + 1), item.price)?;
        if item.length <= rules.trim {
            return Err(Error::Trim { trim: rules.trim, length: item.length });
        }
        let kind = Kind {
            length: item.length.0 - rules.trim.0,
            price: item.price.0,
            count: item.count.map(|count| count.min(most)),
            stock: place,
        };
        if kind.count != Some(0) {
            kinds.push(kind);
        }
    }
    if kinds.is_empty() {
        return Err(Error::StockRunsOut);
    }
    kinds.sort_by_key(|kind| (kind.count.is_some(), -kind.length, kind.price, kind.stock));
    let mut endless: Vec<Kind> = vec![];
    kinds.retain(|kind| {
        let undercuts = |other: &Kind| other.length >= kind.length && other.price <= kind.price;
        let free = kind.count.is_some() && kind.price == 0;
        let keep = free || !endless.iter().any(undercuts);
        if keep && kind.count.is_none() {
            endless.push(*kind);
        }
        keep
    });
    Ok(kinds)
}

pub(super) fn check_length(what: &str, length: Tenths, least: Tenths) -> Result<(), Error> {
    if length < least || length > MAX_LENGTH {
        return Err(Error::Length { what: what.to_owned(), length, least, most: MAX_LENGTH });
    }
    Ok(())
}

pub(super) fn check_price(what: &str, price: Pence) -> Result<(), Error> {
    if price.0 < 0 || price > MAX_PRICE {
        return Err(Error::Price { what: what.to_owned(), price, most: MAX_PRICE });
    }
    Ok(())
}
