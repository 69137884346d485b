//! The order as it is answered.

use schemars::JsonSchema;
use serde::Serialize;

use super::{Size, Unit};
use crate::exact::{Hundredths, Pence, Percent, Rate};
use crate::geometry::Mm;

/// An order: lines for a quote.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Order {
    /// The lines, priced or not.
    pub lines: Vec<Line>,
    /// What the money is, if it was said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub money: Option<String>,
    /// What the markups on the priced lines come to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub markup: Option<Pence>,
    /// The contingency, percent of the priced lines with their markup.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub contingency_percent: Option<Percent>,
    /// The contingency, rounded half up to a penny, once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub contingency: Option<Pence>,
    /// What the priced lines come to before tax, with markup and contingency.
    pub net: Pence,
    /// The rate of tax, if one was given for all.
    pub tax_percent: Option<Percent>,
    /// The tax by its rates.
    pub taxes: Vec<TaxAt>,
    /// The tax in all, at each rate rounded half up to a penny, once.
    pub tax: Option<Pence>,
    /// The net with the tax.
    pub total: Pence,
    /// How many lines have no price and are in no total.
    pub unpriced: usize,
    /// Whether every line has a price.
    pub complete: bool,
    /// Whether it was to be complete, and is not good otherwise.
    #[serde(skip)]
    pub to_be_complete: bool,
    /// The plots that it is for, where it is for several.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub plots: Vec<String>,
    /// How the timber that is cut for all plots together is cut.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cut_together: Vec<CutTogether>,
    /// What is in the van and is not bought.
    pub from_van: Vec<FromVan>,
    /// Prices that no line used.
    pub unused_prices: Vec<UnusedPrice>,
    /// Prices that gave way to those the timber was chosen by.
    pub overruled: Vec<Overruled>,
    /// Parts of the job that nothing is ordered for, since there is nothing given for them.
    pub not_ordered: Vec<NotOrdered>,
    /// What to know about the parts that the quantities come from.
    #[serde(skip)]
    pub remarks: Vec<String>,
}

/// A line of an order: `quantity` × `rate` is `amount`, rounded half up to a penny.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "OrderLine")]
pub struct Line {
    /// The item.
    pub item: String,
    /// Which of it: mm where it is a length.
    pub size: Size,
    /// How many of `unit` to buy.
    pub quantity: Hundredths,
    /// What is bought: `each`, `m`, `ft`, `pack of 25`, `roll of 30 m`, or the user's own.
    pub unit: String,
    /// The price of one `unit`.
    pub rate: Option<Rate>,
    /// What the line comes to.
    pub amount: Option<Pence>,
    /// The markup on it, percent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub markup_percent: Option<Percent>,
    /// The markup, beside `amount`, rounded half up to a penny.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub markup: Option<Pence>,
    /// The rate of tax on it.
    pub tax_percent: Option<Percent>,
    /// What the job needs, before waste and whole packs.
    pub needed: Hundredths,
    /// What `needed` counts.
    pub needed_unit: Unit,
    /// What is added for waste before anything is rounded up.
    pub waste_percent: Percent,
    /// How many of `needed_unit` are in one pack or roll.
    pub pack: Option<Hundredths>,
    /// What a joint between two rolls takes, in `needed_unit`.
    #[serde(skip)]
    pub lap: Hundredths,
    /// How many whole lengths the quantity is, where they are priced by the metre or foot.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lengths: Option<u64>,
    /// How many of the lengths are spare: what the waste on all of this item comes to, in whole lengths.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spare: Option<u64>,
    /// The part of the job that needs it.
    pub from: String,
    /// What each plot needs of it, where the order is for several.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub plots: Vec<PlotNeed>,
}

impl Line {
    /// What it comes to with its markup, before tax.
    #[must_use]
    pub fn net(&self) -> Option<Pence> {
        let amount = self.amount?;
        Some(Pence(amount.0.saturating_add(self.markup.unwrap_or_default().0)))
    }

    /// Whether it is of whole lengths, whose waste is spare lengths.
    #[must_use]
    pub fn by_length(&self) -> bool {
        super::Item::named(&self.item).is_some_and(|item| item.kind == super::Kind::Lengths)
    }
}

/// The tax at one rate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TaxAt {
    /// The rate.
    pub percent: Percent,
    /// What it is on, before tax.
    pub net: Pence,
    /// The tax, rounded half up to a penny, once.
    pub tax: Pence,
}

/// What a plot needs of a line.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PlotNeed {
    /// The plot.
    pub plot: String,
    /// How much, in the line's `needed_unit`, before waste and whole packs.
    pub needed: Hundredths,
}

/// The timber of a part of several plots, cut together.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutTogether {
    /// The part.
    pub from: &'static str,
    /// How much less it costs than plot by plot, where the timber has prices; nothing where it costs no less.
    pub saved: Option<Pence>,
    /// How much less is bought, mm, where it has none.
    pub saved_length: Option<Mm>,
    /// The lengths, and what is cut from each; none where that would cost no less, and the plots are cut by themselves.
    pub bars: Vec<CutBar>,
}

impl CutTogether {
    /// Of a part that costs no less so, and is cut plot by plot.
    #[must_use]
    pub const fn in_vain(from: &'static str) -> Self {
        Self { from, saved: None, saved_length: None, bars: vec![] }
    }
}

/// A length of timber that several plots may share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutBar {
    /// Its number, from 1.
    pub number: usize,
    /// What it is bought as.
    pub item: &'static str,
    /// Its length, mm.
    pub length: Mm,
    /// Whether it comes from the van.
    pub in_van: bool,
    /// Its pieces in cutting order.
    pub pieces: Vec<CutPiece>,
    /// What is left of it, mm.
    pub offcut: Mm,
}

/// A piece of a length that several plots may share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutPiece {
    /// The plot that it is for.
    pub plot: String,
    /// What is written on it, if anything.
    pub name: String,
    /// Its length, mm.
    pub length: Mm,
}

/// Something taken from the van.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FromVan {
    /// The item.
    pub item: String,
    /// Which of it: mm where it is a length.
    pub size: Size,
    /// How many.
    pub quantity: u64,
    /// The part of the job that takes it.
    pub from: &'static str,
}

/// A price that no line used.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct UnusedPrice {
    /// The item as given.
    pub item: String,
    /// The size as given.
    pub size: Size,
    /// The item that may have been meant, where there is none of that name.
    pub did_you_mean: Option<String>,
    /// The size that may have been meant, where a line of this item has a size near it that the list has not.
    pub size_meant: Option<Size>,
}

/// A price in the list for timber that was chosen by another.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Overruled {
    /// The item.
    pub item: String,
    /// Its length, mm.
    pub size: Size,
    /// The price that the timber was chosen by.
    pub rate: Rate,
    /// The price in the list.
    pub listed: Rate,
}

/// Something that nothing is ordered for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct NotOrdered {
    /// The items.
    pub what: &'static str,
    /// What to give for it.
    pub give: &'static str,
}
