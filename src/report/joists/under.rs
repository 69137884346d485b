//! What goes under each joist.

use crate::answer::RoofJoists;
use crate::geometry::Mm;
use crate::job::Job;
use crate::joists::{Held, Joist, JoistEnd, Support};
use crate::length::Units;
use crate::page::{Page, Table};
use crate::report::figures::{gap_head, gaps, stack};
use crate::words::and_list;

/// Adds the heights as read, the packs and the hangers, where heights were read.
pub(super) fn under(page: &mut Page, answer: &RoofJoists, job: &Job) {
    let (Some(levels), Some(asked), Some(footprint)) = (&answer.set_out.levels, &job.joists, &job.footprint)
    else {
        return;
    };
    let units = job.units;
    page.heading("Under the joists");
    let sign = if asked.staff { -1.0 } else { 1.0 };
    let means = if asked.staff { "staff, the bigger, the lower" } else { "up is +" };
    for (sides, read) in [
        (&answer.set_out.from, &asked.question.heights_from),
        (&answer.set_out.to, &asked.question.heights_to),
    ] {
        let values: Vec<f64> = read.iter().map(|(_, mm)| sign * mm).collect();
        let figures = gaps(units, &values);
        let list: Vec<String> = read
            .iter()
            .zip(figures)
            .map(|((spot, _), figure)| format!("{} {figure}", spot.name(footprint, units)))
            .collect();
        if !list.is_empty() {
            page.fact(format!("Read on {}", and_list(sides)), format!("{} ({means})", list.join(", ")));
        }
    }
    let lies = match answer.set_out.down_to {
        None => "all lie level with it".to_owned(),
        Some(support) => {
            let sides = if support == Support::To { &answer.set_out.to } else { &answer.set_out.from };
            let fall = units.gap(levels.fall_per_metre.0.abs());
            format!("all lie to a fall of {fall} in each metre down to {}", and_list(sides))
        }
    };
    page.fact("Highest", format!("under joist {} on {}; {lies}", levels.joist, levels.on));
    if let Some(ceiling) = answer.ceiling {
        let (from, to) = (units.fine(ceiling.at_from.0), units.fine(ceiling.at_to.0));
        page.fact(
            "Ceiling",
            if from == to { from } else { format!("{from} at the first support, {to} at the far end") },
        );
    }
    let packed = !asked.question.packers.is_empty();
    if packed {
        let totals: Vec<String> = levels
            .totals
            .iter()
            .map(|total| format!("{} of {}", total.count, units.gap(total.thickness.0)))
            .collect();
        let all = if totals.is_empty() { "no packers".to_owned() } else { totals.join(", ") };
        page.fact("Take from the van", all);
    }
    if answer
        .set_out
        .joists
        .iter()
        .any(|j| [&j.from, &j.to].iter().any(|e| e.held == Held::Hung && e.seat.is_some()))
    {
        page.fact(
            "A hanger",
            "goes up by its figure from the height read there; down where that is negative",
        );
    }
    page.table(table(&answer.set_out.joists, units, packed));
}

/// Joists beside each other that come out alike are one row.
fn table(joists: &[Joist], units: Units, packed: bool) -> Table {
    let seated: Vec<&Joist> =
        joists.iter().filter(|j| j.from.seat.is_some() || j.to.seat.is_some()).collect();
    let held = |of: &dyn Fn(&Joist) -> &JoistEnd, held: Held| {
        seated.iter().any(|joist| of(joist).held == held && of(joist).seat.is_some())
    };
    let mut table = Table::new().words("Joist");
    let mut columns: Vec<Column> = vec![];
    for (name, of) in [("first", (|joist| &joist.from) as End), ("far", |joist| &joist.to)] {
        if held(&of, Held::Hung) {
            table = table.numbers(gap_head(units, &format!("Hanger up, {name}")));
            columns.push(Column {
                of,
                held: Held::Hung,
                packers: false,
                figures: figures(&seated, of, Held::Hung, units),
            });
        }
        if held(&of, Held::Bears) {
            table = table.numbers(gap_head(units, &format!("Pack, {name}")));
            columns.push(Column {
                of,
                held: Held::Bears,
                packers: false,
                figures: figures(&seated, of, Held::Bears, units),
            });
            if packed {
                table = table.words(gap_head(units, "Packers"));
                columns.push(Column { of, held: Held::Bears, packers: true, figures: vec![] });
            }
        }
    }
    let rows: Vec<Vec<String>> = seated
        .iter()
        .enumerate()
        .map(|(i, joist)| columns.iter().map(|column| column.cell(i, joist, units)).collect())
        .collect();
    let mut at = 0;
    for alike in rows.chunk_by(|a, b| a == b) {
        let (first, last) = (&seated[at].name, &seated[at + alike.len() - 1].name);
        let name = if alike.len() == 1 { first.clone() } else { format!("{first} to {last}") };
        table.row([name].into_iter().chain(alike[0].iter().cloned()));
        at += alike.len();
    }
    table
}

type End = fn(&Joist) -> &JoistEnd;

/// What a column says of an end held so: its figure, or its packers.
struct Column {
    of: End,
    held: Held,
    packers: bool,
    figures: Vec<Option<String>>,
}

impl Column {
    fn cell(&self, index: usize, joist: &Joist, units: Units) -> String {
        let end = (self.of)(joist);
        let Some(seat) = end.seat.as_ref().filter(|_| end.held == self.held) else { return String::new() };
        if self.packers {
            let packers: &[Mm] = &seat.packers;
            let made = stack(packers, units);
            return if seat.made_up { made } else { format!("{made}, short") };
        }
        self.figures.get(index).cloned().flatten().unwrap_or_default()
    }
}

/// The figures of a column, all to the same decimals.
fn figures(seated: &[&Joist], of: End, held: Held, units: Units) -> Vec<Option<String>> {
    let ups: Vec<Option<f64>> = seated
        .iter()
        .map(|joist| of(joist).seat.as_ref().filter(|_| of(joist).held == held).map(|seat| seat.up.0))
        .collect();
    let known: Vec<f64> = ups.iter().copied().flatten().collect();
    let mut written = gaps(units, &known).into_iter();
    ups.iter().map(|up| up.and_then(|_| written.next())).collect()
}
