//! What to order besides what the job's parts need, and at what prices.

mod extras;
mod items;
mod prices;

#[cfg(feature = "cli")]
use clap::ArgAction::Set;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use extras::{Extra, ExtraEntry};
pub(in crate::job) use prices::MOST_PRICES;
pub use prices::PriceEntry;

use items::{MOST_PERCENT, name, percent};

use crate::exact::{Hundredths, Percent};
use crate::job::cursor::Cursor;
use crate::job::entries::short_list;
use crate::job::{DecimalEntry, Fault};
use crate::order::{Item, Price, tidy};
use crate::words::quoted;

/// What to order besides what the job's parts need, and at what prices.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct OrderSection {
    /// The price list.
    #[cfg_attr(feature = "cli", arg(skip))]
    #[serde(default, deserialize_with = "short_list")]
    pub prices: Option<Vec<PriceEntry>>,
    /// What the prices are in, such as EUR: it stands in the head of every column of money.
    #[cfg_attr(feature = "cli", arg(long, id = "order.money", value_name = "NAME", help_heading = "Prices"))]
    pub money: Option<String>,
    /// The rate of tax on every line that has no rate of its own, percent [default: no tax].
    #[cfg_attr(
        feature = "cli",
        arg(id = "order.tax_percent", long = "tax", value_name = "PERCENT", help_heading = "Prices")
    )]
    pub tax_percent: Option<DecimalEntry>,
    /// What is added to the price of every line that has no markup of its own, percent [default: nothing].
    #[cfg_attr(
        feature = "cli",
        arg(id = "order.markup_percent", long = "markup", value_name = "PERCENT", help_heading = "Prices")
    )]
    pub markup_percent: Option<DecimalEntry>,
    /// What is added to the sum of the lines for what can't be foreseen, percent [default: nothing].
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "order.contingency_percent",
            long = "contingency",
            value_name = "PERCENT",
            help_heading = "Prices"
        )
    )]
    pub contingency_percent: Option<DecimalEntry>,
    /// Waste by item, percent, before whole units and packs; it stands before the price list's.
    #[cfg_attr(feature = "cli", arg(long, id = "order.waste", value_name = "line=5,DPC=3", action = Set, value_delimiter = ',', help_heading = "Prices"))]
    pub waste: Option<Vec<String>>,
    /// Not good, exit code 1, unless every line has a price.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "order.complete",
            num_args = 0,
            default_missing_value = "true",
            help_heading = "Prices"
        )
    )]
    pub complete: Option<bool>,
    /// Cut the timber of several jobs together, so that one length may serve two plots, and not plot by plot.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "order.cut_together",
            num_args = 0,
            default_missing_value = "true",
            help_heading = "Prices"
        )
    )]
    pub cut_together: Option<bool>,
    /// Items of your own: "sealant", "labour"; or more of what the job needs already.
    #[cfg_attr(feature = "cli", arg(skip))]
    pub extras: Option<Vec<ExtraEntry>>,
}

/// What an order depends on besides the answers of the job's parts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OrderJob {
    /// The price list.
    pub prices: Vec<Price>,
    /// What the prices are in.
    pub money: Option<String>,
    /// The rate of tax.
    pub tax: Option<Percent>,
    /// The markup.
    pub markup: Option<Percent>,
    /// The contingency.
    pub contingency: Option<Percent>,
    /// Waste by item.
    pub waste: Vec<(String, Percent)>,
    /// Whether every line must have a price.
    pub complete: bool,
    /// Whether the timber of several jobs is cut together.
    pub cut_together: bool,
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

/// What the job gives for an order of these parts.
pub(in crate::job) fn order(section: Option<&OrderSection>, parts: Parts, at: Cursor<'_>) -> OrderJob {
    let none = OrderSection::default();
    let section = section.unwrap_or(&none);
    let extras = extras::extras(section.extras.as_deref().unwrap_or_default(), at);
    OrderJob {
        prices: prices::prices(section.prices.as_deref().unwrap_or_default(), at),
        money: section.money.as_deref().and_then(|money| name(money, at.field("money"))),
        tax: percent(section.tax_percent.as_ref(), at.field("tax_percent")),
        markup: percent(section.markup_percent.as_ref(), at.field("markup_percent")),
        contingency: percent(section.contingency_percent.as_ref(), at.field("contingency_percent")),
        waste: waste(section.waste.as_deref().unwrap_or_default(), &extras, at),
        complete: section.complete.unwrap_or(false),
        cut_together: section.cut_together.unwrap_or(false),
        extras,
        parts,
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
    let of_all = [
        (order.tax, "order.tax_percent", "tax"),
        (order.markup, "order.markup_percent", "a markup"),
        (order.contingency, "order.contingency_percent", "a contingency"),
    ];
    let of_all = of_all
        .into_iter()
        .filter_map(|(percent, field, what)| Some(Fault::new(field, words(percent.filter(small)?, what))));
    let waste = order.waste.iter().filter(|(_, percent)| small(percent));
    let waste =
        waste.map(|(item, percent)| Fault::new("order.waste", words(*percent, &format!("waste of {item}"))));
    of_all.chain(waste).collect()
}

fn waste(entries: &[String], extras: &[Extra], at: Cursor<'_>) -> Vec<(String, Percent)> {
    let mut all: Vec<(String, Percent)> = vec![];
    let lower: Vec<(String, &Extra)> =
        extras.iter().map(|extra| (extra.item.to_lowercase(), extra)).collect();
    let entries = entries.iter().map(|text| text.trim()).enumerate();
    for (i, text) in entries.filter(|(_, text)| !text.is_empty()) {
        let at = at.item("waste", i);
        let Some((item, percent)) = text.rsplit_once('=') else {
            at.fault(format!("`{}` is no waste: write the item and its percentage: line=5", quoted(text)));
            continue;
        };
        let item = tidy(item);
        let wanted = item.to_lowercase();
        let item = match (Item::named(&item), lower.iter().find(|(item, _)| *item == wanted)) {
            (Some(known), _) => known.name.to_owned(),
            (None, Some((_, extra))) => extra.item.clone(),
            (None, None) => {
                let names: Vec<&str> = crate::order::ITEMS.iter().map(|item| item.name).collect();
                at.fault(format!(
                    "nothing is called `{}`: write {} or one of the extras",
                    quoted(&item),
                    names.join(", ")
                ));
                continue;
            }
        };
        let read = DecimalEntry::Text(percent.to_owned()).read_percent(MOST_PERCENT);
        let read = read.map_err(|problem| format!("the waste of {item}: {problem}"));
        if let Some(percent) = at.take(read) {
            if all.iter().any(|(other, _)| *other == item) {
                at.fault(format!("the waste of {item} is given twice: leave one of them out"));
            }
            all.push((item, Percent(percent)));
        }
    }
    all
}
