//! What to buy, what it comes to and how sure that is, in words and tables that plates and cut lists share.

use crate::cutting::Standing;
use crate::exact::{Pence, Tenths};
use crate::length::{Units, decimal};
use crate::page::{Page, Remarks, Rows, Table, each};
use crate::stock::{Alike, Buy, Cost, InVanTaken, Rest, Timber};
use crate::words::{and_list, count};

/// A cost in words: `96.00`, or `30.6 m of timber` without prices.
pub(super) fn cost(cost: Cost, units: Units) -> String {
    match cost {
        Cost::Money(pence) => pence.to_string(),
        Cost::Length(tenths) => metres(tenths, units),
    }
}

/// How a search for a list stands, in words.
#[must_use]
pub fn searching(standing: &Standing, priced: bool, units: Units) -> String {
    let cost = |amount: Pence| {
        let amount = if priced { Cost::Money(amount) } else { Cost::Length(Tenths(amount.0)) };
        cost(amount, units)
    };
    let looked_for = match standing.splices {
        Some(most) => format!("looking for a list of {} at most", count(most, "splice")),
        None => "looking for a better list".to_owned(),
    };
    let has = match standing.has {
        Some((price, None)) => format!("{} so far", cost(price)),
        Some((price, Some(splices))) => format!("{} with {} so far", cost(price), count(splices, "splice")),
        None => "none so far".to_owned(),
    };
    format!("{looked_for}: {has}, {} at best", cost(standing.least))
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
    "no prices are given, so every length counts the same and the least timber is bought";

/// Most rests that are told one by one.
const MOST_RESTS: usize = 6;

/// At the saw: in what order to cut, and what rests are worth keeping.
pub(super) fn bench(page: &mut Page, order: &[Alike], rests: &[Rest], units: Units) {
    let figure = |length: Tenths| units.figure(length.to_mm().0);
    let cut = |alike: &Alike| match alike.pieces.as_slice() {
        [piece] if !piece.name.is_empty() => format!("{} {}", piece.name, figure(alike.length)),
        pieces if pieces[0].name.is_empty() => {
            format!("{} × {}", pieces.len(), figure(alike.length))
        }
        pieces => {
            let names: Vec<&str> = pieces.iter().map(|piece| piece.name.as_str()).collect();
            format!("{} {} each", and_list(&names), figure(alike.length))
        }
    };
    let cuts: Vec<String> = order.iter().map(cut).collect();
    page.fact("Cut the longest first", cuts.join("; "));
    if rests.is_empty() {
        return;
    }
    let named = order.iter().flat_map(|alike| &alike.pieces).any(|piece| !piece.name.is_empty());
    let told = |rest: &Rest| {
        let bar = if named { format!(" of bar {}", rest.bar) } else { String::new() };
        let serves = match &rest.holds {
            Some(piece) if named => format!("{} {} again", piece.name, figure(piece.length)),
            Some(piece) => format!("one more {}", figure(piece.length)),
            None => "noggings or packers".to_owned(),
        };
        format!("{}{bar} ({serves})", figure(rest.length))
    };
    let mut groups: Vec<(String, usize)> = vec![];
    for rest in rests.iter().map(told) {
        match groups.last_mut() {
            Some((last, count)) if *last == rest => *count += 1,
            _ => groups.push((rest, 1)),
        }
    }
    let counted = |(rest, count): &(String, usize)| {
        if *count > 1 { format!("{count} × {rest}") } else { rest.clone() }
    };
    let mut told: Vec<String> = groups.iter().take(MOST_RESTS).map(counted).collect();
    let shorter: usize = groups.iter().skip(MOST_RESTS).map(|(_, count)| count).sum();
    if shorter > 0 {
        told.push(format!("{shorter} shorter"));
    }
    page.fact("Rests to keep, and what each would serve for", told.join("; "));
}

/// What is said where the merchant's whole stock of a length is taken.
pub(super) fn all_taken(remarks: &mut Remarks, timber: &Timber, buy: &[Buy], units: Units) {
    let all = timber
        .for_sale
        .iter()
        .filter(|sold| buy.iter().any(|line| line.length == sold.length && Some(line.count) == sold.count));
    let all: Vec<String> = all
        .map(|sold| format!("{} of {}", sold.count.unwrap_or(0), units.with_unit(sold.length.to_mm().0)))
        .collect();
    if !all.is_empty() {
        remarks.note(format!("this takes all that the merchant has: {}", and_list(&all)));
    }
}

/// What to buy, under the columns of the pieces.
pub(super) fn buy_rows(buy: &[Buy]) -> Rows {
    each(buy)
        .column("stock_mm", |line| line.length)
        .column("buy", |line| line.count)
        .column("rate", |line| line.rate.map(|rate| rate.to_string()))
        .column("amount", |line| line.amount.map(|amount| amount.to_string()))
        .into()
}

/// In feet and inches what is cut and from which length once more as a tape has it, then the lengths to buy.
pub(super) fn as_on_a_tape(
    rows: &mut Rows,
    pieces: impl Iterator<Item = (Tenths, Tenths)>,
    buy: &[Buy],
    units: Units,
) {
    if units != Units::FeetInches {
        return;
    }
    let figure = |length: Tenths| units.figure(length.to_mm().0);
    let (cut, stock): (Vec<String>, Vec<String>) =
        pieces.map(|(cut, stock)| (figure(cut), figure(stock))).unzip();
    rows.last("cut", cut);
    rows.last("stock", stock.into_iter().chain(buy.iter().map(|line| figure(line.length))));
}
