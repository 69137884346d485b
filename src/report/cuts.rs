//! The page of a cut list.

use super::bars::drawings;
use super::timber::{NO_PRICES, all_taken, as_on_a_tape, bench, buy_rows, buy_table, cost, to_buy, waste};
use crate::answer::Answered;
use crate::cuts::Cuts;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Verdict, each};
use crate::stock::Bar;
use crate::working;

impl Answered for Cuts {
    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let units = job.units;
        let verdict = Verdict {
            good: true,
            words: format!(
                "{}: {} % waste; {}",
                to_buy(&self.buy, &self.from_van, self.cost, units),
                decimal(self.waste_percent.0, 1),
                proof(self, units)
            ),
        };
        let mut remarks = Remarks { verdict: Some(verdict), ..Remarks::default() };
        if !self.priced && detail != Detail::Short {
            remarks.note(NO_PRICES);
        }
        if let Some(question) = &job.cuts {
            all_taken(&mut remarks, &question.timber, &self.buy, units);
        }
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        if let Some(name) = &job.name {
            page.fact("Job", name);
        }
        asked(page, job);
        bars_to_cut(page, self, units, detail);
    }

    /// The rows for a spreadsheet, lengths in mm: each piece of each length of timber.
    fn rows(&self, units: Units) -> Rows {
        let pieces = || self.bars.iter().flat_map(|bar| bar.pieces.iter().map(move |piece| (bar, piece)));
        let mut rows: Rows = each(pieces())
            .column("bar", |(bar, _)| bar.number)
            .column("stock_mm", |(bar, _)| bar.stock)
            .column("in_van", |(bar, _)| bar.in_van)
            .column("piece_mm", |(_, piece)| piece.length)
            .column("offcut_mm", |(bar, _)| bar.offcut)
            .into();
        rows.add(buy_rows(&self.buy));
        let lengths = pieces().map(|(bar, piece)| (piece.length, bar.stock));
        as_on_a_tape(&mut rows, lengths, &self.buy, units);
        rows
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(question) = &job.cuts else { return vec![] };
        working::plates::bar_steps(&self.bars, &question.timber, job.units).collect()
    }
}

/// The bars; on more than a short page what to buy and how much of it is used.
pub(super) fn bars_to_cut(page: &mut Page, answer: &Cuts, units: Units, detail: Detail) {
    page.heading("Bars, to scale");
    let drawn = drawings(&grouped(&answer.bars, units), units, page.columns);
    page.lines(drawn);
    if detail == Detail::Short {
        return;
    }
    buy_table(page, &answer.buy, &answer.from_van, units);
    waste(page, answer.bought, answer.used, answer.waste_percent.0, units);
    bench(page, &answer.cut_order, &answer.rests, units);
}

fn proof(answer: &Cuts, units: Units) -> String {
    let measure = if answer.priced { "costs less" } else { "takes less timber" };
    if answer.proven {
        return format!("proven: no cutting {measure}");
    }
    let Some(more) = answer.gap else { return "not proven".to_owned() };
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
