//! The user's price list, and finding an item in it.

use std::collections::BTreeMap;

use super::answer::UnusedPrice;
use super::figures::SizeKey;
use super::{ITEMS, Size, Unit, tidy};
use crate::exact::{Hundredths, Pence, Percent};
use crate::words::nearest;

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
    pub rate: Pence,
    /// What is added for waste before rounding up.
    pub waste: Option<Percent>,
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

    /// The prices that were not used, in the list's order; `own` are the user's own items.
    pub(super) fn unused(&self, own: &[&str]) -> Vec<UnusedPrice> {
        let known: Vec<&str> = ITEMS.iter().map(|item| item.name).chain(own.iter().copied()).collect();
        self.prices
            .iter()
            .zip(&self.used)
            .filter(|(_, used)| !**used)
            .map(|(price, _)| UnusedPrice {
                item: tidy(&price.item),
                size: price.size.clone(),
                did_you_mean: meant(&price.item, &known),
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
