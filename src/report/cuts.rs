//! The page of a cut list.

use super::bars::drawings;
use super::timber::{NO_PRICES, buy_table, cost, to_buy, waste};
use crate::cuts::Cuts;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Page, Records, Remarks, Verdict};
use crate::stock::{Bar, Cost};

/// What is said of the answer as a whole.
pub(super) fn remarks(answer: &Cuts, job: &Job) -> Remarks {
    let units = job.units;
    let verdict = Verdict {
        good: true,
        words: format!(
            "{}: {} % waste; {}",
            to_buy(&answer.buy, &answer.from_van, answer.cost, units),
            decimal(answer.waste_percent.0, 1),
            proof(answer, units)
        ),
    };
    let mut remarks = Remarks { verdict: Some(verdict), ..Remarks::default() };
    if !answer.priced {
        remarks.note(NO_PRICES);
    }
    remarks
}

/// Fills the page.
pub(super) fn body(page: &mut Page, answer: &Cuts, job: &Job) {
    let units = job.units;
    page.data(|| records(answer));
    if let Some(name) = &job.name {
        page.fact("Job", name);
    }
    asked(page, job);
    page.heading("Bars, to scale");
    page.lines(drawings(&grouped(&answer.bars, units), units));
    buy_table(page, &answer.buy, &answer.from_van, units);
    waste(page, answer.bought, answer.used, answer.waste_percent.0, units);
}

fn proof(answer: &Cuts, units: Units) -> String {
    let measure = if answer.priced { "costs less" } else { "takes less timber" };
    if answer.proven {
        return format!("proven: no cutting {measure}");
    }
    let more = match (answer.cost, answer.bound) {
        (Cost::Money(cost), Cost::Money(bound)) => Cost::Money(crate::exact::Pence(cost.0 - bound.0)),
        (Cost::Length(cost), Cost::Length(bound)) => Cost::Length(crate::exact::Tenths(cost.0 - bound.0)),
        (cost, _) => cost,
    };
    let saved = if answer.priced { "cost" } else { "take" };
    format!("not proven: the best may {saved} up to {} less", cost(more, units))
}

/// The pieces as understood.
fn asked(page: &mut Page, job: &Job) {
    let Some(question) = &job.cuts else { return };
    let pieces: Vec<String> = question
        .pieces
        .iter()
        .map(|wanted| format!("{} × {}", wanted.count, job.units.figure(wanted.length.to_mm().0)))
        .collect();
    let kerf = job.units.small(question.timber.kerf.to_mm().0);
    page.fact("Pieces", format!("{}, saw cut {kerf}", pieces.join(", ")));
}

/// Bars cut alike, with how many there are.
fn grouped(bars: &[Bar], units: Units) -> Vec<(String, &Bar)> {
    let mut groups: Vec<(&Bar, usize)> = vec![];
    for bar in bars {
        let alike = groups.iter_mut().find(|(first, _)| {
            first.stock == bar.stock && first.pieces == bar.pieces && first.in_van == bar.in_van
        });
        match alike {
            Some((_, count)) => *count += 1,
            None => groups.push((bar, 1)),
        }
    }
    groups
        .into_iter()
        .map(|(bar, count)| {
            let van = if bar.in_van { " (van)" } else { "" };
            (format!("{count} × {}{van}", units.figure(bar.stock.to_mm().0)), bar)
        })
        .collect()
}

fn records(answer: &Cuts) -> Records {
    let mut records = Records::new(&["bar", "stock_mm", "in_van", "piece_mm", "offcut_mm"]);
    for bar in &answer.bars {
        for piece in &bar.pieces {
            records.rows.push(vec![
                bar.number.to_string(),
                bar.stock.to_string(),
                bar.in_van.to_string(),
                piece.length.to_string(),
                bar.offcut.to_string(),
            ]);
        }
    }
    records
}
