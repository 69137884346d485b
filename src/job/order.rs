//! The job file's section on ordering, and its checking.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::decimal::DecimalEntry;
use super::faults::Faults;
use super::{JobFile, LengthEntry, MoneyEntry};
use crate::cutting::Pence;
use crate::geometry::Mm;
use crate::length::{Length, Units};
use crate::order::{Hundredths, Item, Kind, MOST_QUANTITY, Percent, Price, Size, Unit, tidy};
use crate::quote::quoted;

/// The most waste, and the most tax, hundredths of one per cent: more is a slip of the keys.
const MOST_PERCENT: i64 = 10_000;

/// The most items of the user's own.
const MOST_EXTRAS: usize = 200;

/// The longest name of an item, size or unit, characters.
const LONGEST_NAME: usize = 60;

/// What to order besides what the job's parts need, and at what prices.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct OrderSection {
    /// The price list.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prices: Option<Vec<PriceEntry>>,
    /// The rate of tax on the whole, percent; no tax unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tax_percent: Option<DecimalEntry>,
    /// Waste by item, percent: "line=5". It stands before the price list's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub waste: Option<Vec<String>>,
    /// Items of your own: "sealant", "labour"; or more of what the job needs already.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub extras: Option<Vec<ExtraEntry>>,
}

/// A line of a price list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceEntry {
    /// The item: wall plate, head binder, timber, DPC, packer, anchor, strap, temporary screw, line, peg, profile board,
    /// or one of your own.
    pub item: String,
    /// Which of it: a length, thickness or width where the item has one; for every size unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<LengthEntry>,
    /// What is priced, or counted in a pack: each, m or ft, or a unit of your own; the item's own unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// How many are in one pack, or how long a roll is in `unit`, where it is sold so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<DecimalEntry>,
    /// The price of one unit, or of one pack, in the job's money and before tax.
    pub rate: MoneyEntry,
    /// What is added for waste before whole units and packs are counted, percent; 0 unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waste_percent: Option<DecimalEntry>,
}

/// An item of the user's own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExtraEntry {
    /// The item.
    pub item: String,
    /// Which of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<LengthEntry>,
    /// How many.
    pub quantity: DecimalEntry,
    /// Of what: each, m or ft, or a unit of your own such as hour; each unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// The price of one, in the job's money and before tax; the price list's unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<MoneyEntry>,
}

/// What an order depends on besides the answers of the job's parts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OrderJob {
    /// The price list.
    pub prices: Vec<Price>,
    /// The rate of tax.
    pub tax: Option<Percent>,
    /// Waste by item.
    pub waste: Vec<(String, Percent)>,
    /// Items of the user's own.
    pub extras: Vec<Extra>,
    /// The parts of the job that something is given for.
    pub parts: Parts,
}

/// The parts of a job that something can be ordered for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(clippy::struct_excessive_bools, reason = "one for each part, each by itself")]
pub struct Parts {
    /// There is a section on plates.
    pub plates: bool,
    /// There is a list of pieces to cut.
    pub cuts: bool,
    /// There are levels.
    pub packs: bool,
    /// There is a section on lines.
    pub lines: bool,
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
    pub rate: Option<Pence>,
}

/// What the job gives for an order. A bare number is in `bare`.
pub(super) fn order(file: &JobFile, bare: Units, faults: &mut Faults) -> OrderJob {
    let none = OrderSection::default();
    let section = file.order.as_ref().unwrap_or(&none);
    let percent = |entry: Option<&DecimalEntry>, field: &str, faults: &mut Faults| {
        entry.and_then(|entry| faults.take(field, entry.read(0, MOST_PERCENT)).map(Percent))
    };
    let extras = extras(section.extras.as_deref().unwrap_or_default(), bare, faults);
    OrderJob {
        prices: prices(section.prices.as_deref().unwrap_or_default(), bare, faults),
        tax: percent(section.tax_percent.as_ref(), "order.tax_percent", faults),
        waste: waste(section.waste.as_deref().unwrap_or_default(), &extras, faults),
        extras,
        parts: Parts {
            plates: file.plates.is_some(),
            cuts: file.cuts.as_ref().is_some_and(|cuts| cuts.pieces.is_some()),
            packs: file
                .packs
                .as_ref()
                .is_some_and(|packs| packs.staff.is_some() || packs.heights.is_some()),
            lines: file.lines.is_some(),
        },
    }
}

fn prices(entries: &[PriceEntry], bare: Units, faults: &mut Faults) -> Vec<Price> {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut prices = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let field = format!("order.prices[{i}]");
        let before = faults.count();
        let price = price(entry, &field, bare, faults);
        if faults.count() > before {
            continue;
        }
        let Some(price) = price else { continue };
        let same = format!(
            "{}\n{:?}",
            price.item.to_lowercase(),
            shown(&price.size).to_lowercase()
        );
        if let Some(first) = seen.get(&same) {
            faults.add(
                &format!("{field}.item"),
                format!(
                    "`{}` is priced already, as price {} of the list: leave one of them out",
                    named(&price.item, &price.size),
                    first + 1
                ),
            );
            continue;
        }
        seen.insert(same, i);
        prices.push(price);
    }
    prices
}

fn price(entry: &PriceEntry, field: &str, bare: Units, faults: &mut Faults) -> Option<Price> {
    let item = name(&entry.item, &format!("{field}.item"), faults).unwrap_or_default();
    let known = Item::named(&item);
    let size = size(entry.size.as_ref(), known, &format!("{field}.size"), bare, faults);
    let unit_field = format!("{field}.unit");
    let unit = entry
        .unit
        .as_deref()
        .filter(|unit| !unit.trim().is_empty())
        .and_then(|unit| name(unit, &unit_field, faults))
        .map(|unit| Unit::parse(&unit));
    if let (Some(known), Some(unit)) = (known, &unit) {
        fits(known, unit, &unit_field, faults);
    }
    let pack = entry.pack.as_ref().and_then(|pack| {
        let field = format!("{field}.pack");
        let pack = Hundredths(faults.take(&field, pack.read(1, MOST_QUANTITY.0))?);
        let counted = known.is_some_and(|known| known.kind != Kind::Running);
        if counted && !pack.is_whole() {
            faults.add(
                &field,
                format!("`{pack}` is no whole number: write how many are in one pack"),
            );
        }
        if known.is_some_and(|known| known.kind == Kind::Lengths)
            && matches!(unit, Some(Unit::Metre | Unit::Foot))
        {
            faults.add(
                &field,
                format!("{item} is packed by the piece: leave `pack` out, or write unit each"),
            );
        }
        Some(pack)
    });
    let waste = entry
        .waste_percent
        .as_ref()
        .and_then(|percent| faults.take(&format!("{field}.waste_percent"), percent.read(0, MOST_PERCENT)));
    let rate = match &entry.rate {
        MoneyEntry::Text(text) if text.trim().is_empty() => {
            Err("it is empty: write a price such as 10.80, or leave the line out".to_owned())
        }
        rate => rate.read().map_err(|error| error.to_string()),
    };
    let rate = faults.take(&format!("{field}.rate"), rate);
    Some(Price {
        item: known.map_or(item, |known| known.name.to_owned()),
        size: size?,
        unit,
        pack,
        rate: rate?,
        waste: waste.map(Percent),
    })
}

/// Whether an item can be counted in a unit.
fn fits(item: Item, unit: &Unit, field: &str, faults: &mut Faults) {
    let words = match (item.kind, unit) {
        (Kind::Things, Unit::Each)
        | (Kind::Lengths | Kind::Running, Unit::Each | Unit::Metre | Unit::Foot) => return,
        (Kind::Things, _) => "each",
        (Kind::Lengths, _) => "each for one of its length, m or ft",
        (Kind::Running, _) => "m or ft, and the length of a roll as `pack` where it is sold by the roll",
    };
    faults.add(
        field,
        format!(
            "{} is not counted by `{}`: write {words}",
            item.name,
            quoted(unit.word())
        ),
    );
}

fn size(
    entry: Option<&LengthEntry>,
    item: Option<Item>,
    field: &str,
    bare: Units,
    faults: &mut Faults,
) -> Option<Size> {
    let text = match entry {
        None => return Some(Size::Any),
        Some(LengthEntry::Number(number)) => number.to_string(),
        Some(LengthEntry::Text(text)) => tidy(text),
    };
    if text.is_empty() {
        return Some(Size::Any);
    }
    if item.is_some_and(|item| item.by_length) {
        let length = faults.take(field, Length::parse_positive(&text, bare))?;
        return Some(Size::Length(Mm(length.mm)));
    }
    name(&text, field, faults).map(Size::Text)
}

/// A name that can stand on a line of a quote.
fn name(text: &str, field: &str, faults: &mut Faults) -> Option<String> {
    let name = tidy(text);
    let problem = if name.is_empty() {
        "it is empty: write what it is called".to_owned()
    } else if name.chars().count() > LONGEST_NAME {
        format!(
            "`{}` is too long: write up to {LONGEST_NAME} characters",
            quoted(&name)
        )
    } else if name.chars().any(char::is_control) {
        format!("`{}` has characters that can't be printed", quoted(&name))
    } else {
        return Some(name);
    };
    faults.add(field, problem);
    None
}

fn waste(entries: &[String], extras: &[Extra], faults: &mut Faults) -> Vec<(String, Percent)> {
    let mut all: Vec<(String, Percent)> = vec![];
    for (i, text) in entries.iter().enumerate() {
        let field = format!("order.waste[{i}]");
        let Some((item, percent)) = text.rsplit_once('=') else {
            faults.add(
                &field,
                format!(
                    "`{}` is no waste: write the item and its percentage: line=5",
                    quoted(text)
                ),
            );
            continue;
        };
        let item = tidy(item);
        let own = |extra: &Extra| extra.item.to_lowercase() == item.to_lowercase();
        let item = match (Item::named(&item), extras.iter().find(|extra| own(extra))) {
            (Some(known), _) => known.name.to_owned(),
            (None, Some(extra)) => extra.item.clone(),
            (None, None) => {
                let names: Vec<&str> = crate::order::ITEMS.iter().map(|item| item.name).collect();
                faults.add(
                    &field,
                    format!(
                        "nothing is called `{}`: write {} or one of the extras",
                        quoted(&item),
                        names.join(", ")
                    ),
                );
                continue;
            }
        };
        let read = DecimalEntry::Text(percent.to_owned()).read(0, MOST_PERCENT);
        if let Some(percent) = faults.take(&field, read) {
            if all.iter().any(|(other, _)| *other == item) {
                faults.add(
                    &field,
                    format!("the waste of {item} is given twice: leave one of them out"),
                );
            }
            all.push((item, Percent(percent)));
        }
    }
    all
}

fn extras(entries: &[ExtraEntry], bare: Units, faults: &mut Faults) -> Vec<Extra> {
    if entries.len() > MOST_EXTRAS {
        faults.add(
            "order.extras",
            format!("{} are given: {MOST_EXTRAS} is the most", entries.len()),
        );
        return vec![];
    }
    let mut extras: Vec<Extra> = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let field = format!("order.extras[{i}]");
        let Some(extra) = extra(entry, &field, bare, faults) else {
            continue;
        };
        let same = |other: &Extra| {
            other.item.to_lowercase() == extra.item.to_lowercase() && other.size.same(&extra.size)
        };
        if extras.iter().any(same) {
            let named = named(&extra.item, &extra.size);
            faults.add(
                &field,
                format!("`{named}` is given twice: write it once, with the quantity in all"),
            );
        }
        extras.push(extra);
    }
    extras
}

fn extra(entry: &ExtraEntry, field: &str, bare: Units, faults: &mut Faults) -> Option<Extra> {
    let item = name(&entry.item, &format!("{field}.item"), faults)?;
    let known = Item::named(&item);
    let size = size(entry.size.as_ref(), known, &format!("{field}.size"), bare, faults);
    let unit_field = format!("{field}.unit");
    let unit = match entry.unit.as_deref() {
        Some(unit) => Unit::parse(&name(unit, &unit_field, faults)?),
        // A running length without a unit would be a guess.
        None if known.is_some_and(|known| known.kind == Kind::Running) => {
            faults.add(&unit_field, format!("{item} is counted by length: write m or ft"));
            return None;
        }
        None => Unit::Each,
    };
    if let Some(known) = known {
        let problem = match (known.kind, &unit) {
            (Kind::Running, Unit::Each) => Some("write m or ft"),
            (Kind::Lengths, Unit::Metre | Unit::Foot) => Some("write each"),
            _ => {
                fits(known, &unit, &unit_field, faults);
                None
            }
        };
        if let Some(instead) = problem {
            faults.add(
                &unit_field,
                format!("{item} is not counted by `{}` here: {instead}", unit.word()),
            );
        }
        if known.kind == Kind::Lengths && size == Some(Size::Any) {
            faults.add(
                &format!("{field}.size"),
                format!("which {item} is not said: write its length"),
            );
        }
    }
    let quantity_field = format!("{field}.quantity");
    let quantity = Hundredths(faults.take(&quantity_field, entry.quantity.read(1, MOST_QUANTITY.0))?);
    if unit == Unit::Each && !quantity.is_whole() {
        faults.add(
            &quantity_field,
            format!("`{quantity}` is no whole number: write one, or the unit that it counts, such as hour"),
        );
    }
    let rate = entry
        .rate
        .as_ref()
        .and_then(|rate| faults.take(&format!("{field}.rate"), rate.read()));
    Some(Extra {
        item: known.map_or(item, |known| known.name.to_owned()),
        size: size?,
        quantity,
        unit,
        rate,
    })
}

fn shown(size: &Size) -> String {
    match size {
        Size::Any => String::new(),
        Size::Length(mm) => format!("{} mm", crate::length::trimmed(mm.0, 1)),
        Size::Text(text) => text.clone(),
    }
}

fn named(item: &str, size: &Size) -> String {
    tidy(&format!("{item} {}", shown(size)))
}
