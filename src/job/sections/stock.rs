//! The timber: what can be bought, what is in the van, what the saw takes.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::cutting::MAX_STOCK;
use crate::exact::Tenths;
use crate::job::cursor::Cursor;
use crate::job::entries::{or_text, short_list};
use crate::job::{EntryError, LengthEntry, MoneyEntry};
use crate::length::Units;
use crate::stock::{ForSale, InVan, Timber};

/// The timber: what can be bought, what is in the van, what the saw takes.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[cfg_attr(feature = "cli", command(next_help_heading = "Stock"))]
#[serde(deny_unknown_fields)]
pub struct StockSection {
    /// The lengths that can be bought, each with its price or none, and how many there are if the merchant runs out:
    /// 3.6m:10.80,4.8m:15.60x6.
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "stock.lengths",
            long = "stock",
            value_name = "LENGTH[:PRICE][xCOUNT]",
            value_delimiter = ','
        )
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub lengths: Option<Vec<ForSaleEntry>>,
    /// What is in the van already, used first at no cost: 2x3.6m,4.2m.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "stock.have", value_name = "COUNTxLENGTH", value_delimiter = ',')
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub have: Option<Vec<CountEntry>>,
    /// What one saw cut takes [default: 3mm, or 1/8in in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "stock.kerf", value_name = "LENGTH"))]
    pub kerf: Option<LengthEntry>,
    /// What is trimmed off each length first, both ends together [default: 0].
    #[cfg_attr(feature = "cli", arg(long, id = "stock.trim", value_name = "LENGTH"))]
    pub trim: Option<LengthEntry>,
}

/// A length that can be bought.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct ForSaleEntry {
    /// Its length.
    pub length: LengthEntry,
    /// The price of one, in the job's money.
    pub price: Option<MoneyEntry>,
    /// How many are to be had; always more unless given.
    pub count: Option<usize>,
}

/// From `3.6m`, `3.6m:10.80` or `3.6m:10.80x6`; the price may stand behind @ or = too.
impl FromStr for ForSaleEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (sold, count) = match text.rsplit_once(TIMES).filter(|(_, count)| !count.trim().is_empty()) {
            Some((sold, count)) => (sold.trim(), Some(number_to_be_had(sold.trim(), count.trim())?)),
            None => (text, None),
        };
        let (length, price) = match sold.rsplit_once([':', '@', '=']) {
            Some((length, price)) => (length, Some(MoneyEntry::Text(price.to_owned()))),
            None => (sold, None),
        };
        Ok(Self { length: LengthEntry::Text(length.to_owned()), price, count })
    }
}

/// What stands between a number and a length.
const TIMES: [char; 3] = ['x', '×', 'X'];

/// How many of what is `sold` are to be had.
fn number_to_be_had(sold: &str, count: &str) -> Result<usize, EntryError> {
    count.parse().map_err(|_| {
        let example =
            if sold.parse::<usize>().is_ok() { format!("{count}x{sold}") } else { "4.8m:15.60x6".to_owned() };
        EntryError::new(format!(
            "`{count}` is no number of lengths: how many there are stands last: write {example}"
        ))
    })
}

/// So many of a length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct CountEntry {
    /// The length of each.
    pub length: LengthEntry,
    /// How many; 1 unless given.
    pub count: Option<usize>,
}

/// The most that can be a number of pieces where the length is one too, and the least that is a length, mm.
const MOST_COUNTED: f64 = 30.0;
const LEAST_LENGTH: f64 = 200.0;

impl CountEntry {
    /// What to write where the length stands before the number: `1200x4`.
    pub(super) fn turned_about(&self, default_units: Units) -> Option<String> {
        let (length, number, count) = turned_about(&self.length, self.count, default_units)?;
        Some(format!(
            "`{count}x{number}` is {count} of {length}: the number stands first: write {number}x{count}"
        ))
    }
}

/// The length read, the number it is typed as, and the count: where it can only be that the one was written for the other.
fn turned_about(
    length: &LengthEntry,
    count: Option<usize>,
    default_units: Units,
) -> Option<(String, usize, usize)> {
    let mm = length.read(default_units).ok()?.mm;
    let count = count.filter(|count| *count as f64 >= LEAST_LENGTH)?;
    let number: usize = length.text().trim().parse().ok()?;
    (mm > 0.0 && mm <= MOST_COUNTED && default_units == Units::Mm)
        .then(|| (default_units.with_unit(mm), number, count))
}

/// From `4x1200`, or `1200` for one.
impl FromStr for CountEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (count, length) = match text.split_once(['x', '×', 'X', '*', '@']) {
            Some((count, length)) => {
                let count = count.trim();
                let problem = |_| EntryError::new(format!("`{count}` is no number of pieces: write 4x1200"));
                (Some(count.parse().map_err(problem)?), length)
            }
            None => (None, text),
        };
        Ok(Self { length: LengthEntry::Text(length.to_owned()), count })
    }
}

/// The timber, checked; `None` where none is given.
pub(in crate::job) fn timber(section: Option<&StockSection>, at: Cursor<'_>) -> Option<Timber> {
    let section = section?;
    let mut timber = lengths(
        section.lengths.as_deref().unwrap_or_default(),
        at.field("lengths"),
        section.have.as_deref().unwrap_or_default(),
        at.field("have"),
    );
    if let Some(kerf) = at.field("kerf").not_negative(section.kerf.as_ref()) {
        timber.kerf = Tenths::nearest(kerf);
    }
    if let Some(trim) = at.field("trim").not_negative(section.trim.as_ref()) {
        timber.trim = Tenths::nearest(trim);
        let shortest = timber
            .for_sale
            .iter()
            .map(|item| item.length)
            .chain(timber.in_van.iter().map(|item| item.length))
            .min();
        if let Some(shortest) = shortest.filter(|shortest| *shortest <= timber.trim) {
            at.field("trim").fault(format!(
                "it leaves nothing of a length of {}: write a smaller one",
                at.units.fine(shortest.to_mm().0)
            ));
        }
    }
    Some(timber)
}

/// What is said of a price with a comma in it, which starts the next length: `4.8m:15,60`.
fn split_price(before: &ForSaleEntry, entry: &ForSaleEntry) -> Option<String> {
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    let whole = before.price.as_ref().map(MoneyEntry::text).filter(|whole| digits(whole))?;
    let rest = entry.length.text();
    (entry.price.is_none() && rest.len() == 2 && digits(&rest)).then(|| {
        format!(
            "`{whole},{rest}`: a comma starts the next length: write {}:{whole}.{rest}",
            before.length.text()
        )
    })
}

/// What can be bought and what is in the van, each from a field of its own.
pub(super) fn lengths(
    for_sale: &[ForSaleEntry],
    sale_at: Cursor<'_>,
    have: &[CountEntry],
    have_at: Cursor<'_>,
) -> Timber {
    let usual = Timber::default();
    let kerf = Tenths::nearest(sale_at.units.usual(usual.kerf.to_mm().0, 1.0 / 8.0));
    let mut timber = Timber { for_sale: self::for_sale(for_sale, sale_at), kerf, ..usual };
    for (i, entry) in have.iter().enumerate() {
        let at = have_at.nth(i);
        if let Some(turned) = entry.turned_about(at.default_units) {
            at.fault(turned);
        } else if let Some(length) = at.field("length").positive(Some(&entry.length)) {
            timber.in_van.push(InVan { length: Tenths::nearest(length), count: entry.count.unwrap_or(1) });
        }
    }
    let given = timber.for_sale.len() + timber.in_van.len();
    if given > MAX_STOCK {
        sale_at.fault(format!(
            "{given} lengths are given, those in the van among them: {MAX_STOCK} is the most"
        ));
    }
    timber
}

fn for_sale(lengths: &[ForSaleEntry], at: Cursor<'_>) -> Vec<ForSale> {
    let mut for_sale: Vec<ForSale> = vec![];
    for (i, entry) in lengths.iter().enumerate() {
        let at = at.nth(i);
        if let Some(split) = i.checked_sub(1).and_then(|before| split_price(&lengths[before], entry)) {
            at.fault(split);
            continue;
        }
        if let Some((length, number, count)) = turned_about(&entry.length, entry.count, at.default_units) {
            at.fault(format!(
                "`{number}x{count}` is a length of {length}, of which there are {count}: write {count}x{number}"
            ));
            continue;
        }
        if entry.count == Some(0) {
            at.field("count").fault("0 are to be had: leave the length out");
            continue;
        }
        let length = at.field("length").positive(Some(&entry.length));
        let price = entry.price.as_ref().map(|price| at.field("price").take(price.read()));
        if let (Some(length), None | Some(Some(_))) = (length, price) {
            let length = Tenths::nearest(length);
            if for_sale.iter().any(|item| item.length == length) {
                let length = at.units.fine(length.to_mm().0);
                at.fault(format!("{length} is given twice: write each length once"));
            }
            for_sale.push(ForSale { length, price: price.flatten(), count: entry.count });
        }
    }
    let without: Vec<String> = for_sale
        .iter()
        .filter(|item| item.price.is_none())
        .map(|item| at.units.fine(item.length.to_mm().0))
        .collect();
    if !without.is_empty() && without.len() < for_sale.len() {
        at.fault(format!(
            "there is no price for {}: give it one too, or leave all prices out",
            without.join(", ")
        ));
    }
    for_sale
}
