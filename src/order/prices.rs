//! The user's price list, and finding an item in it.

use std::collections::BTreeMap;

use super::amount::amount;
use super::answer::UnusedPrice;
use super::figures::SizeKey;
use super::{Added, ITEMS, Line, Size, Unit, tidy};
use crate::exact::{Hundredths, Pence, Percent, Rate, Tenths, held, up};
use crate::words::nearest;

/// How far a size may be from the one that was meant, as a part of it.
const NEAR: f64 = 0.02;

/// A line of a price list.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// The item.
    pub item: String,
    /// Which of it; [`Size::Any`] for every size that has no price of its own.
    pub size: Size,
    /// What is counted; the item's own unit unless given.
    pub unit: Option<Unit>,
    /// How many units are in a pack or on a roll, where it is sold so.
    pub pack: Option<Hundredths>,
    /// The price of one unit, or of one pack.
    pub rate: Rate,
    /// What is added for waste before rounding up.
    pub waste: Option<Percent>,
    /// What is added to it in a quote.
    pub added: Added,
    /// How many of this length the merchant has, where there are not always more.
    pub available: Option<usize>,
}

impl Price {
    /// What one piece of this length costs; `None` where it is sold in packs, or by something else than the piece and length.
    #[must_use]
    pub fn of_one(&self, length: Tenths) -> Option<Pence> {
        let unit = self.unit.as_ref().unwrap_or(&Unit::Each);
        let quantity = match unit.tenths() {
            _ if self.pack.is_some() => return None,
            None if *unit == Unit::Each => Hundredths::whole(1),
            None => return None,
            Some(tenths) => Hundredths(held(up(i128::from(length.0) * 100, i128::from(tenths)))),
        };
        Some(amount(quantity, self.rate))
    }

    /// Whether it is per metre or foot.
    #[must_use]
    pub fn by_length(&self) -> bool {
        self.unit.as_ref().is_some_and(|unit| unit.tenths().is_some())
    }

    /// Whether this is a price of the item, of this size or of every size.
    #[must_use]
    pub fn names(&self, item: &str, size: &Size) -> bool {
        key(&self.item) == key(item) && (self.size == Size::Any || self.size.same(size))
    }
}

/// What a price list has for an item.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Found<'a> {
    Nothing,
    One(&'a Price),
    /// The item has no size here and several in the list.
    Several(Vec<&'a Price>),
}

/// A price list that remembers which of its prices were used.
#[derive(Debug)]
pub(super) struct PriceList<'a> {
    prices: &'a [Price],
    places: BTreeMap<String, BTreeMap<SizeKey, usize>>,
    used: Vec<bool>,
}

impl<'a> PriceList<'a> {
    pub(super) fn new(prices: &'a [Price]) -> Self {
        let mut places: BTreeMap<String, BTreeMap<SizeKey, usize>> = BTreeMap::new();
        for (i, price) in prices.iter().enumerate() {
            let sizes = places.entry(key(&price.item)).or_default();
            // Of two for the same, the first: the job's check tells of the second.
            sizes.entry(price.size.key()).or_insert(i);
        }
        Self { prices, places, used: vec![false; prices.len()] }
    }

    /// The price of an item: of its own size, else of any size; for an item without a size, the only one there is.
    pub(super) fn find(&mut self, item: &str, size: &Size) -> Found<'a> {
        let Some(sizes) = self.places.get(&key(item)) else {
            return Found::Nothing;
        };
        let own = sizes.get(&size.key()).or_else(|| sizes.get(&SizeKey::Any));
        let only = || match (size, sizes.len()) {
            (Size::Any, 1) => sizes.values().next(),
            _ => None,
        };
        if let Some(place) = own.or_else(only) {
            self.used[*place] = true;
            return Found::One(&self.prices[*place]);
        }
        if *size != Size::Any {
            return Found::Nothing;
        }
        for place in sizes.values() {
            self.used[*place] = true;
        }
        Found::Several(sizes.values().map(|place| &self.prices[*place]).collect())
    }

    /// The size of a line, which the list has no price of, that this price is most likely for: a length within one part in
    /// fifty of its own, or a thousand times as long, as where 3.6 was written for 3.6 m.
    fn size_meant(&self, price: &Price, lines: &[Line]) -> Option<Size> {
        let Size::Length(given) = price.size else { return None };
        let near = |size: &Size| match size {
            Size::Length(size) => {
                [1.0, 1000.0].iter().any(|times| (given.0 * times - size.0).abs() <= size.0 * NEAR)
            }
            Size::Any | Size::Text(_) => false,
        };
        let named = |line: &Line| self.prices.iter().any(|price| price.names(&line.item, &line.size));
        let of_item = lines.iter().filter(|line| key(&line.item) == key(&price.item));
        of_item.filter(|line| !named(line)).map(|line| &line.size).find(|size| near(size)).cloned()
    }

    /// The prices that none of the `lines` used, in the list's order.
    pub(super) fn unused(&self, lines: &[Line]) -> Vec<UnusedPrice> {
        let own = lines.iter().map(|line| line.item.as_str());
        let known: Vec<&str> = ITEMS.iter().map(|item| item.name).chain(own).collect();
        self.prices
            .iter()
            .zip(&self.used)
            .filter(|(_, used)| !**used)
            .map(|(price, _)| UnusedPrice {
                item: tidy(&price.item),
                size: price.size.clone(),
                did_you_mean: meant(&price.item, &known),
                size_meant: self.size_meant(price, lines),
            })
            .collect()
    }
}

/// A name as it is compared.
pub(super) fn key(item: &str) -> String {
    tidy(item).to_lowercase()
}

/// The known item that was meant, if the name is none of them and near enough to one.
fn meant(name: &str, known: &[&str]) -> Option<String> {
    let name = key(name);
    let is_known = known.iter().any(|item| key(item) == name);
    nearest(&name, known).filter(|_| !is_known).map(str::to_owned)
}
