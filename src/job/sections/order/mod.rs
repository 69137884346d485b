//! What to order besides what the job's parts need, and at what prices.

mod extras;
mod prices;

#[cfg(feature = "cli")]
use clap::ArgAction::Set;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use extras::{Extra, ExtraEntry};
pub(in crate::job) use prices::MOST_PRICES;
pub use prices::PriceEntry;

use crate::exact::{Hundredths, Percent};
use crate::geometry::Mm;
use crate::job::faults::Faults;
use crate::job::{DecimalEntry, Fault, JobFile, LengthEntry};
use crate::length::{Length, Units};
use crate::order::{Item, Kind, Price, Size, Unit, tidy};
use crate::words::quoted;

/// The most waste, and the most tax, hundredths of one per cent: more is a slip of the keys.
const MOST_PERCENT: i64 = 10_000;

/// The longest name of an item, size or unit, characters.
const LONGEST_NAME: usize = 60;

/// What to order besides what the job's parts need, and at what prices.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct OrderSection {
    /// The price list.
    #[cfg_attr(feature = "cli", arg(skip))]
    pub prices: Option<Vec<PriceEntry>>,
    /// The rate of tax on the whole, percent [default: no tax].
    #[cfg_attr(
        feature = "cli",
        arg(id = "order.tax_percent", long = "tax", value_name = "PERCENT", help_heading = "Prices")
    )]
    pub tax_percent: Option<DecimalEntry>,
    /// Waste by item, percent, before whole units and packs; it stands before the price list's.
    #[cfg_attr(feature = "cli", arg(long, id = "order.waste", value_name = "line=5,DPC=3", action = Set, value_delimiter = ',', help_heading = "Prices"))]
    pub waste: Option<Vec<String>>,
    /// Items of your own: "sealant", "labour"; or more of what the job needs already.
    #[cfg_attr(feature = "cli", arg(skip))]
    pub extras: Option<Vec<ExtraEntry>>,
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
    /// There are joists.
    pub joists: bool,
    /// There is a section on lines.
    pub lines: bool,
}

/// What the job gives for an order. A bare number is in `bare`.
pub(in crate::job) fn order(file: &JobFile, bare: Units, faults: &mut Faults) -> OrderJob {
    let none = OrderSection::default();
    let section = file.order.as_ref().unwrap_or(&none);
    let percent = |entry: Option<&DecimalEntry>, field: &str, faults: &mut Faults| {
        entry.and_then(|entry| faults.take(field, entry.read_percent(MOST_PERCENT)).map(Percent))
    };
    let extras = extras::extras(section.extras.as_deref().unwrap_or_default(), bare, faults);
    OrderJob {
        prices: prices::prices(section.prices.as_deref().unwrap_or_default(), bare, faults),
        tax: percent(section.tax_percent.as_ref(), "order.tax_percent", faults),
        waste: waste(section.waste.as_deref().unwrap_or_default(), &extras, faults),
        extras,
        parts: Parts {
            plates: file.plates.is_some(),
            cuts: file.cuts.as_ref().is_some_and(|cuts| cuts.pieces.is_some()),
            packs: file.packs.as_ref().is_some_and(|packs| packs.staff.is_some() || packs.heights.is_some()),
            joists: file.joists.as_ref().is_some_and(|joists| joists.from.is_some() && joists.to.is_some()),
            lines: file.lines.is_some(),
        },
    }
}

/// A rate of tax or waste that is a fraction of one percent, as where 0.2 was typed for 20 %.
pub(in crate::job) fn doubts(order: &OrderJob) -> Vec<Fault> {
    let small = |percent: &Percent| (1..100).contains(&percent.0);
    let words = |percent: Percent, what: &str| {
        format!(
            "{what} of {} % is less than one percent: write {} for {} %",
            Hundredths(percent.0),
            percent.0,
            percent.0
        )
    };
    let tax = order.tax.filter(small).map(|tax| Fault::new("order.tax_percent", words(tax, "tax")));
    let waste = order.waste.iter().filter(|(_, percent)| small(percent));
    let waste =
        waste.map(|(item, percent)| Fault::new("order.waste", words(*percent, &format!("waste of {item}"))));
    tax.into_iter().chain(waste).collect()
}

fn waste(entries: &[String], extras: &[Extra], faults: &mut Faults) -> Vec<(String, Percent)> {
    let mut all: Vec<(String, Percent)> = vec![];
    let lower: Vec<(String, &Extra)> =
        extras.iter().map(|extra| (extra.item.to_lowercase(), extra)).collect();
    let entries = entries.iter().map(|text| text.trim()).enumerate();
    for (i, text) in entries.filter(|(_, text)| !text.is_empty()) {
        let field = format!("order.waste[{i}]");
        let Some((item, percent)) = text.rsplit_once('=') else {
            faults.add(
                &field,
                format!("`{}` is no waste: write the item and its percentage: line=5", quoted(text)),
            );
            continue;
        };
        let item = tidy(item);
        let wanted = item.to_lowercase();
        let item = match (Item::named(&item), lower.iter().find(|(item, _)| *item == wanted)) {
            (Some(known), _) => known.name.to_owned(),
            (None, Some((_, extra))) => extra.item.clone(),
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
        let read = DecimalEntry::Text(percent.to_owned()).read_percent(MOST_PERCENT);
        let read = read.map_err(|problem| format!("the waste of {item}: {problem}"));
        if let Some(percent) = faults.take(&field, read) {
            if all.iter().any(|(other, _)| *other == item) {
                faults.add(&field, format!("the waste of {item} is given twice: leave one of them out"));
            }
            all.push((item, Percent(percent)));
        }
    }
    all
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
    faults.add(field, format!("{} is not counted by `{}`: write {words}", item.name, quoted(unit.word())));
}

fn size(
    entry: Option<&LengthEntry>,
    item: Option<Item>,
    field: &str,
    bare: Units,
    faults: &mut Faults,
) -> Option<Size> {
    let text = entry.map_or_else(String::new, |entry| tidy(&entry.text()));
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
        "the name is missing: write what it is called".to_owned()
    } else if name.chars().count() > LONGEST_NAME {
        format!("`{}` is too long: write up to {LONGEST_NAME} characters", quoted(&name))
    } else if name.chars().any(char::is_control) {
        format!("`{}` has characters that can't be printed", quoted(&name))
    } else {
        return Some(name);
    };
    faults.add(field, problem);
    None
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
