//! What to buy, what it comes to and how sure that is, in words and tables that plates and cut lists share.

use crate::exact::{Pence, Tenths};
use crate::length::{Units, decimal};
use crate::page::{Page, Table};
use crate::stock::{Buy, Cost, InVanTaken};
use crate::words::and_list;

/// A cost in words: `96.00`, or `30.6 m of timber` without prices.
pub(super) fn cost(cost: Cost, units: Units) -> String {
    match cost {
        Cost::Money(pence) => pence.to_string(),
        Cost::Length(tenths) => metres(tenths, units),
    }
}

/// A total length in metres, or in feet.
pub(super) fn metres(tenths: Tenths, units: Units) -> String {
    let mm = tenths.to_mm().0;
    match units {
        Units::Mm | Units::M => format!("{} m", decimal(mm / 1000.0, 2)),
        Units::FeetInches => format!("{} ft", decimal(mm / crate::length::MM_PER_FOOT, 2)),
    }
}

/// What to buy and take, in words: the beginning of a page's first line.
pub(super) fn to_buy(buy: &[Buy], from_van: &[InVanTaken], total: Cost, units: Units) -> String {
    let item = |count: usize, length: Tenths| format!("{count} of {}", units.with_unit(length.to_mm().0));
    let bought: Vec<String> = buy.iter().map(|line| item(line.count, line.length)).collect();
    let taken: Vec<String> = from_van.iter().map(|line| item(line.count, line.length)).collect();
    let words = if bought.is_empty() {
        "Nothing to buy".to_owned()
    } else {
        let price = match total {
            Cost::Money(pence) => format!(" for {pence}"),
            Cost::Length(_) => String::new(),
        };
        format!("Buy {}{price}", and_list(&bought))
    };
    if taken.is_empty() { words } else { format!("{words} and take {} from the van", and_list(&taken)) }
}

/// The table of what to buy and what to take from the van.
pub(super) fn buy_table(page: &mut Page, buy: &[Buy], from_van: &[InVanTaken], units: Units) {
    let priced = buy.iter().any(|line| line.amount.is_some());
    let money = |money: Option<Pence>| money.map_or_else(String::new, |money| money.to_string());
    let bought = buy.iter().map(|line| (line.length, line.count, line.rate, line.amount, "to buy"));
    let taken = from_van.iter().map(|line| (line.length, line.count, None, None, "in the van"));
    page.heading("Timber");
    page.table(
        Table::of(bought.chain(taken))
            .numbers(units.head("Length"), |(length, ..)| units.figure(length.to_mm().0))
            .numbers("How many", |(_, count, ..)| count.to_string())
            .when(priced, |table| {
                table
                    .numbers("Each", |(_, _, rate, ..)| money(rate))
                    .numbers("Amount", |(.., amount, _)| money(amount))
            })
            .when(!from_van.is_empty(), |table| table.words("", |(.., from)| from)),
    );
}

/// How much of it is used.
pub(super) fn waste(page: &mut Page, bought: Tenths, used: Tenths, percent: f64, units: Units) {
    page.fact(
        "In all",
        format!(
            "{}, of which {} is used and {} % is offcuts, saw cuts and trim",
            metres(bought, units),
            metres(used, units),
            decimal(percent, 1)
        ),
    );
}

/// Said where there are no prices.
pub(super) const NO_PRICES: &str =
    "no prices are given, so every metre counts the same and the least timber is bought";
