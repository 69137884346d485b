//! The page of plates: what to buy, each run piece by piece, each length of timber drawn, then what goes with the plates.

use super::bars::drawings;
use super::cautions::FIXINGS;
use super::plan;
use super::plates_extra::{anchors, at_doors, dpc, notes, straps};
use super::timber::{as_on_a_tape, bench, buy_rows, buy_table, cost, to_buy, waste};
use crate::answer::Answered;
use crate::cutting::Favour;
use crate::exact::Tenths;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::plates::{Choice, Gap, Layer, Options, Piece, Plates, Run, SplicesForMoney};
use crate::stock::Bar;
use crate::words::count;
use crate::working;

impl Answered for Plates {
    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let units = job.units;
        let proof = match detail {
            Detail::Short if self.proven => "proven: there is no better list".to_owned(),
            _ => proof(self, units),
        };
        let mut remarks = Remarks {
            verdict: Some(Verdict {
                good: true,
                words: format!(
                    "{}: {}, {} % waste; {}",
                    to_buy(&self.buy, &self.from_van, self.cost, units),
                    count(self.splices, "splice"),
                    decimal(self.waste_percent.0, 1),
                    proof
                ),
            }),
            ..Remarks::default()
        };
        notes(&mut remarks, self, job, detail);
        remarks.caution(FIXINGS);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        let given = job.plates.as_ref().map(|options| ("Plate", plate(options, units)));
        plan::echo_beside(page, job, detail, given);
        if detail == Detail::Short {
            page.table(to_lay(self, units));
            if let Some(doors) = at_doors(self, job) {
                page.fact("Doors", doors);
            }
            bars(page, self, units);
            if !self.anchors.is_empty() {
                page.fact("Anchors", format!("{}; --full says where", self.anchors.len()));
            }
            return;
        }
        for (layer, heading) in
            [(Layer::Plate, "Plate, piece by piece"), (Layer::Binder, "Head binder, piece by piece")]
        {
            let runs: Vec<&Run> = self.runs.iter().filter(|run| run.layer == layer).collect();
            if !runs.is_empty() {
                page.heading(heading);
                page.table(run_table(&runs, units));
            }
        }
        bars(page, self, units);
        buy_table(page, &self.buy, &self.from_van, units);
        waste(page, self.bought, self.used, self.waste_percent.0, units);
        bench(page, &self.cut_order, &self.rests, units);
        // Only who chooses waits for it to be looked for; a sheet is for who cuts.
        if detail == Detail::Full {
            choice(page, self, units);
        }
        anchors(page, self, job);
        dpc(page, self, units);
        straps(page, self, units);
    }

    /// The rows for a spreadsheet, lengths in mm: each piece of each run.
    fn rows(&self, units: Units) -> Rows {
        let pieces = || self.runs.iter().flat_map(|run| run.pieces.iter().map(move |piece| (run, piece)));
        let mut rows: Rows = each(pieces())
            .column("layer", |(run, _)| run.layer)
            .column("run", |(run, _)| &run.side)
            .column("start", |(run, _)| run.start)
            .column("end", |(run, _)| run.end)
            .column("run_mm", |(run, _)| run.length)
            .column("piece", |(_, piece)| &piece.name)
            .column("from_mm", |(_, piece)| piece.from)
            .column("to_mm", |(_, piece)| piece.to)
            .column("cut_mm", |(_, piece)| piece.length)
            .column("bar", |(_, piece)| piece.bar + 1)
            .column("stock_mm", |(_, piece)| self.bars.get(piece.bar).map(|bar| bar.stock))
            .into();
        rows.add(buy_rows(&self.buy));
        let stock = |piece: &Piece| self.bars.get(piece.bar).map(|bar| bar.stock);
        let lengths = pieces().filter_map(|(_, piece)| Some((piece.length, stock(piece)?)));
        as_on_a_tape(&mut rows, lengths, &self.buy, units);
        rows
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        match (&job.plates, &job.footprint) {
            (Some(options), Some(footprint)) => {
                working::plates::steps(self, footprint, &options.timber, job.units)
            }
            _ => vec![],
        }
    }
}

/// What was said of the plate: a slip of the keys shows here.
fn plate(options: &Options, units: Units) -> String {
    let studs = options.studs.map(|studs| format!(", studs at {} centres", units.centres(studs.centres)));
    format!("{} wide{}", units.fine(options.width), studs.unwrap_or_default())
}

fn bars(page: &mut Page, answer: &Plates, units: Units) {
    page.heading("Bars, to scale");
    let drawn = drawings(&labelled(&answer.bars, units), units, page.columns);
    page.lines(drawn);
}

/// A row for each side's run, with the head binder's beside the plate's; a run of several pieces names them.
fn to_lay(answer: &Plates, units: Units) -> Table {
    let of = |layer: Layer, side: &str| answer.runs.iter().find(|run| run.layer == layer && run.side == side);
    let pieces = |run: Option<&Run>| match run.map(|run| &run.pieces[..]) {
        Some([piece]) => units.figure(piece.length.to_mm().0),
        Some(pieces) => {
            let named = |piece: &Piece| format!("{} {}", piece.name, units.figure(piece.length.to_mm().0));
            pieces.iter().map(named).collect::<Vec<_>>().join(", ")
        }
        None => String::new(),
    };
    let ends = |run: Option<&Run>| {
        run.map_or_else(String::new, |run| format!("{}, {}", run.start.name(), run.end.name()))
    };
    let binder = answer.runs.iter().any(|run| run.layer == Layer::Binder);
    let mut sides: Vec<&str> = vec![];
    for run in &answer.runs {
        if !sides.contains(&run.side.as_str()) {
            sides.push(&run.side);
        }
    }
    Table::of(sides)
        .words("Run", |side| side)
        .numbers(units.head("Plate"), |side| pieces(of(Layer::Plate, side)))
        .words("Between", |side| ends(of(Layer::Plate, side)))
        .when(binder, |table| {
            table
                .numbers(units.head("Binder"), |side| pieces(of(Layer::Binder, side)))
                .words("Between", |side| ends(of(Layer::Binder, side)))
        })
        .into()
}

fn proof(answer: &Plates, units: Units) -> String {
    let less = if answer.priced { "costs less" } else { "takes less timber" };
    if answer.proven {
        let way = match answer.corners.of {
            1 => String::new(),
            of => format!(" over all {of} ways round the corners"),
        };
        return match answer.favour {
            Favour::Splices => format!("proven{way}: no list has fewer splices, or as few and {less}"),
            Favour::Cost => format!("proven{way}: no list {less}"),
            Favour::ASplice(worth) => format!("proven{way}: no list comes to less at {worth} a splice"),
        };
    }
    let splices = |more| count(usize::try_from(more).unwrap_or(0), "splice");
    match (answer.favour, answer.gap) {
        (Favour::Splices, Some(Gap::Cost(more))) => format!(
            "proven: no list has fewer splices; not proven: one with as few may cost up to {} less",
            cost(more, units)
        ),
        (Favour::Cost, Some(Gap::Splices(more))) => {
            format!("proven: no list {less}; not proven: one as cheap may have up to {} less", splices(more))
        }
        (Favour::ASplice(worth), Some(Gap::Cost(more))) => format!(
            "not proven: the best list may come to up to {} less, at {worth} a splice",
            cost(more, units)
        ),
        (_, Some(Gap::Splices(more))) => {
            format!("not proven: the best list may have up to {} less", splices(more))
        }
        (_, Some(Gap::Cost(more))) => {
            format!("not proven: the best list may cost up to {} less", cost(more, units))
        }
        (_, None) => "not proven".to_owned(),
    }
}

/// The runs' pieces. Feet and inches are wide, so there what the other columns say already is left out: how long the run is,
/// and where a piece begins.
fn run_table(runs: &[&Run], units: Units) -> Table {
    let wide = units == Units::FeetInches;
    let figure = |at: Tenths| units.figure(at.to_mm().0);
    let pieces =
        runs.iter().flat_map(|run| run.pieces.iter().enumerate().map(move |(i, piece)| (i, *run, piece)));
    Table::of(pieces)
        .words("Run", |(i, run, _)| if i == 0 { run.side.as_str() } else { "" })
        .words("Start", |(i, run, _)| if i == 0 { run.start.name() } else { "" })
        .words("End", |(i, run, _)| if i == 0 { run.end.name() } else { "" })
        .when(!wide, |table| {
            table.numbers(
                units.head("Long"),
                |(i, run, _)| {
                    if i == 0 { units.figure(run.length.0) } else { String::new() }
                },
            )
        })
        .words("Piece", |(.., piece)| &piece.name)
        .when(!wide, |table| table.numbers(units.head("From"), |(.., piece)| figure(piece.from)))
        .numbers(units.head("To"), |(.., piece)| figure(piece.to))
        .numbers(units.head("Cut"), |(.., piece)| figure(piece.length))
        .numbers("Bar", |(.., piece)| (piece.bar + 1).to_string())
        .into()
}

/// The bars with their numbers.
fn labelled(bars: &[Bar], units: Units) -> Vec<(String, &Bar)> {
    bars.iter()
        .map(|bar| {
            let van = if bar.in_van { " (van)" } else { "" };
            let stock = units.figure(bar.stock.to_mm().0);
            (format!("{}: {stock}{van}", bar.number), bar)
        })
        .collect()
}

/// What more splices save, step by step.
fn choice(page: &mut Page, answer: &Plates, units: Units) {
    let choice = answer.more_splices.choice();
    let words = |step: &SplicesForMoney| {
        let proven = if step.proven { "" } else { " (not proven)" };
        format!("{} at {}{proven}", count(step.splices, "splice"), cost(step.cost, units))
    };
    let steps: Vec<String> = choice.choices.iter().map(words).collect();
    page.fact(
        "The choice",
        match steps.as_slice() {
            [only] => format!("the fewest splices are also the cheapest: {only}"),
            _ => format!("{}{}", steps.join(", "), bend(choice, units)),
        },
    );
}

/// Where the steps bend most: what a splice saves up to there, and what it saves after.
fn bend(choice: &Choice, units: Units) -> String {
    let steps = &choice.choices;
    let Some(at) = choice.knee.and_then(|knee| steps.iter().position(|step| step.splices == knee)) else {
        return String::new();
    };
    let saving = |from: usize, to: usize| {
        let (from, to) = (steps[from], steps[to]);
        let splices = i64::try_from(to.splices - from.splices).unwrap_or(i64::MAX);
        cost(from.cost.of((from.cost.amount() - to.cost.amount()) / splices.max(1)), units)
    };
    format!(
        "; to {} each saves {}, after that {}",
        count(steps[at].splices, "splice"),
        saving(0, at),
        saving(at, steps.len() - 1)
    )
}
