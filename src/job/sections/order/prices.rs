//! The price list of an order.

use std::collections::BTreeMap;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::items::{fits, label, name, percent, size};
use crate::exact::Hundredths;
use crate::job::cursor::Cursor;
use crate::job::entries::or_text;
use crate::job::{DecimalEntry, EntryError, LengthEntry, MoneyEntry};
use crate::length::Units;
use crate::order::{Added, Item, JOIST, Kind, MOST_QUANTITY, Price, Size, TIMBER, Unit, WALL_PLATE};

/// The most prices taken: no merchant's list that a job is priced from comes near it.
pub(in crate::job) const MOST_PRICES: usize = 5_000;

/// A line of a price list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct PriceEntry {
    /// The item: wall plate, head binder, timber, joist, joist hanger, bearer, bearer bolt, DPC, packer, anchor, strap, temporary screw, line, peg, masonry nail, profile board,
    /// or one of your own.
    pub item: String,
    /// Which of it: a length, thickness or width where the item has one; for every size unless given.
    pub size: Option<LengthEntry>,
    /// What is priced, or counted in a pack: each, m or ft, or a unit of your own; the item's own unless given.
    pub unit: Option<String>,
    /// How many are in one pack, or how long a roll is in `unit`, where it is sold so.
    pub pack: Option<DecimalEntry>,
    /// The price of one unit, or of one pack, in the job's money and before tax.
    pub rate: MoneyEntry,
    /// What is added for waste before whole units and packs are counted, percent; 0 unless given.
    pub waste_percent: Option<DecimalEntry>,
    /// The markup on it, percent; the order's unless given.
    pub markup_percent: Option<DecimalEntry>,
    /// The rate of tax on it, percent; the order's unless given.
    pub tax_percent: Option<DecimalEntry>,
    /// How many of this length the merchant has; only for the lengths of wall plate, timber and joist; always more unless
    /// given.
    pub available: Option<DecimalEntry>,
}

/// From `peg:0.64` or `wall plate 4.8m:15.60`; the price may stand behind @ or = too.
impl FromStr for PriceEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (priced, rate) = text.rsplit_once([':', '@', '=']).ok_or_else(|| {
            EntryError::new("write what is priced and its price: peg:0.64, or wall plate 4.8m:15.60")
        })?;
        let is_size = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
        let (item, size) = match priced.trim().rsplit_once(' ') {
            Some((item, size)) if is_size(size) => (item, Some(size)),
            _ => (priced, None),
        };
        Ok(Self {
            item: item.trim().to_owned(),
            size: size.map(|size| LengthEntry::Text(size.to_owned())),
            unit: None,
            pack: None,
            rate: MoneyEntry::Text(rate.trim().to_owned()),
            waste_percent: None,
            markup_percent: None,
            tax_percent: None,
            available: None,
        })
    }
}

/// The prices that can be read; each item and size once.
pub(super) fn prices(entries: &[PriceEntry], at: Cursor<'_>) -> Vec<Price> {
    if entries.len() > MOST_PRICES {
        at.field("prices").fault(format!("{} prices are given: {MOST_PRICES} is the most", entries.len()));
        return vec![];
    }
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut prices = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let at = at.item("prices", i);
        let before = at.faults();
        let price = price(entry, at);
        if at.faults() > before {
            continue;
        }
        let Some(price) = price else { continue };
        let same = label(&price.item, &price.size, Units::Mm).to_lowercase();
        if let Some(first) = seen.get(&same) {
            at.field("item").fault(format!(
                "`{}` is priced already, as price {} of the list: leave one of them out",
                label(&price.item, &price.size, at.units),
                first + 1
            ));
            continue;
        }
        seen.insert(same, i);
        prices.push(price);
    }
    prices
}

fn price(entry: &PriceEntry, at: Cursor<'_>) -> Option<Price> {
    let item = name(&entry.item, at.field("item")).unwrap_or_default();
    let known = Item::named(&item);
    let size = size(entry.size.as_ref(), known, at.field("size"));
    let unit_at = at.field("unit");
    let unit = entry
        .unit
        .as_deref()
        .filter(|unit| !unit.trim().is_empty())
        .and_then(|unit| name(unit, unit_at))
        .map(|unit| Unit::parse(&unit));
    if let (Some(known), Some(unit)) = (known, &unit) {
        fits(known, unit, unit_at);
    }
    let pack = entry.pack.as_ref().and_then(|pack| {
        let at = at.field("pack");
        let pack = Hundredths(at.take(pack.read(1, MOST_QUANTITY.0))?);
        let counted = known.is_some_and(|known| known.kind != Kind::Running);
        if counted && !pack.is_whole() {
            at.fault(format!("`{pack}` is no whole number: write how many are in one pack"));
        }
        if known.is_some_and(|known| known.kind == Kind::Lengths)
            && matches!(unit, Some(Unit::Metre | Unit::Foot))
        {
            at.fault(format!("{item} is packed by the piece: leave `pack` out, or write unit each"));
        }
        Some(pack)
    });
    let waste = percent(entry.waste_percent.as_ref(), at.field("waste_percent"));
    let added = Added {
        markup: percent(entry.markup_percent.as_ref(), at.field("markup_percent")),
        tax: percent(entry.tax_percent.as_ref(), at.field("tax_percent")),
    };
    let rate = match &entry.rate {
        MoneyEntry::Text(text) if text.trim().is_empty() => {
            Err("the price is missing: write one such as 10.80, or leave the line out".to_owned())
        }
        rate => rate.read_rate().map_err(|error| error.to_string()),
    };
    let rate = at.field("rate").take(rate);
    let available = entry
        .available
        .as_ref()
        .and_then(|count| available(count, &item, size.as_ref(), at.field("available")));
    Some(Price {
        item: known.map_or(item, |known| known.name.to_owned()),
        size: size?,
        unit,
        pack,
        rate: rate?,
        waste,
        added,
        available,
    })
}

/// How many the merchant has of a length that the cut chooses from.
fn available(count: &DecimalEntry, item: &str, size: Option<&Size>, at: Cursor<'_>) -> Option<usize> {
    let chosen_from = [WALL_PLATE, TIMBER, JOIST].iter().any(|name| name.eq_ignore_ascii_case(item));
    if !chosen_from || !matches!(size, Some(Size::Length(_))) {
        at.fault(format!(
            "how many there are is asked only of a length of {WALL_PLATE}, {TIMBER} or {JOIST}, which the cut chooses from: leave it out"
        ));
        return None;
    }
    let count = Hundredths(at.take(count.read(0, MOST_QUANTITY.0))?);
    if !count.is_whole() {
        at.fault(format!("`{count}` is no whole number: write how many there are"));
    }
    usize::try_from(count.0 / 100).ok()
}
