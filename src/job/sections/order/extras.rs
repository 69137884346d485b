//! Items of the user's own.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::items::{fits, label, name, percent, size};
use crate::exact::{Hundredths, Rate};
use crate::job::cursor::Cursor;
use crate::job::{DecimalEntry, LengthEntry, MoneyEntry};
use crate::order::{Added, Item, Kind, MOST_QUANTITY, Size, Unit};

/// The most items of the user's own.
const MOST_EXTRAS: usize = 200;

/// An item of the user's own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExtraEntry {
    /// The item.
    pub item: String,
    /// Which of it.
    pub size: Option<LengthEntry>,
    /// How many.
    pub quantity: DecimalEntry,
    /// Of what: each, m or ft, or a unit of your own such as hour; each unless given.
    pub unit: Option<String>,
    /// The price of one, in the job's money and before tax, for these alone; the price list's unless given.
    pub rate: Option<MoneyEntry>,
    /// The markup on it, percent; only beside a rate.
    pub markup_percent: Option<DecimalEntry>,
    /// The rate of tax on it, percent; only beside a rate.
    pub tax_percent: Option<DecimalEntry>,
}

/// An item of the user's own, checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Extra {
    /// The item.
    pub item: String,
    /// Which of it.
    pub size: Size,
    /// How many.
    pub quantity: Hundredths,
    /// Of what.
    pub unit: Unit,
    /// The price of one.
    pub rate: Option<Rate>,
    /// What a quote adds to it.
    pub added: Added,
}

/// The items that can be read; each and size once.
pub(super) fn extras(entries: &[ExtraEntry], at: Cursor<'_>) -> Vec<Extra> {
    if entries.len() > MOST_EXTRAS {
        at.field("extras").fault(format!("{} are given: {MOST_EXTRAS} is the most", entries.len()));
        return vec![];
    }
    let mut extras: Vec<Extra> = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let at = at.item("extras", i);
        let Some(extra) = extra(entry, at) else {
            continue;
        };
        let same = |other: &Extra| {
            other.item.to_lowercase() == extra.item.to_lowercase() && other.size.same(&extra.size)
        };
        if extras.iter().any(same) {
            let named = label(&extra.item, &extra.size, at.units);
            at.fault(format!("`{named}` is given twice: write it once, with the quantity in all"));
        }
        extras.push(extra);
    }
    extras
}

fn extra(entry: &ExtraEntry, at: Cursor<'_>) -> Option<Extra> {
    let item = name(&entry.item, at.field("item"))?;
    let known = Item::named(&item);
    let size = size(entry.size.as_ref(), known, at.field("size"));
    let unit_at = at.field("unit");
    let unit = match entry.unit.as_deref() {
        Some(unit) => Unit::parse(&name(unit, unit_at)?),
        // A running length without a unit would be a guess.
        None if known.is_some_and(|known| known.kind == Kind::Running) => {
            unit_at.fault(format!("{item} is counted by length: write m or ft"));
            return None;
        }
        None => Unit::Each,
    };
    if let Some(known) = known {
        let problem = match (known.kind, &unit) {
            (Kind::Running, Unit::Each) => Some("write m or ft"),
            (Kind::Lengths, Unit::Metre | Unit::Foot) => Some("write each"),
            _ => {
                fits(known, &unit, unit_at);
                None
            }
        };
        if let Some(instead) = problem {
            unit_at.fault(format!("{item} is not counted by `{}` here: {instead}", unit.word()));
        }
        if known.kind == Kind::Lengths && size == Some(Size::Any) {
            at.field("size").fault(format!("which {item} is not said: write its length"));
        }
    }
    let quantity_at = at.field("quantity");
    let quantity = Hundredths(quantity_at.take(entry.quantity.read(1, MOST_QUANTITY.0))?);
    if unit == Unit::Each && !quantity.is_whole() {
        quantity_at.fault(format!(
            "`{quantity}` is no whole number: write one, or the unit that it counts, such as hour"
        ));
    }
    let rate = entry.rate.as_ref().and_then(|rate| at.field("rate").take(rate.read_rate()));
    let added = Added {
        markup: percent(entry.markup_percent.as_ref(), at.field("markup_percent")),
        tax: percent(entry.tax_percent.as_ref(), at.field("tax_percent")),
    };
    if entry.rate.is_none() && added != Added::default() {
        at.fault(format!(
            "{item} has a markup or a tax and no rate: give its `rate`, or put both in the price list"
        ));
    }
    Some(Extra {
        item: known.map_or(item, |known| known.name.to_owned()),
        size: size?,
        quantity,
        unit,
        rate,
        added,
    })
}
