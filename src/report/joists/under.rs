//! What goes under each joist.

use crate::answer::RoofJoists;
use crate::job::{Job, JoistsJob};
use crate::joists::{Held, Joist, JoistEnd, Support};
use crate::length::Units;
use crate::page::{Detail, Page, Table};
use crate::plan::Footprint;
use crate::report::figures::{fall, gap_head, gaps, stack};
use crate::words::and_list;

/// Adds the heights as read, the packs and the hangers, where heights were read.
pub(super) fn under(page: &mut Page, answer: &RoofJoists, job: &Job, detail: Detail) {
    let (Some(levels), Some(asked), Some(footprint)) = (&answer.set_out.levels, &job.joists, &job.footprint)
    else {
        return;
    };
    let units = job.units;
    page.heading("Under the joists");
    if detail != Detail::Short {
        as_read(page, answer, asked, footprint, units);
    }
    let lies = match answer.set_out.down_to {
        None => "all lie level with it".to_owned(),
        Some(support) => {
            let sides = if support == Support::To { &answer.set_out.to } else { &answer.set_out.from };
            let fall = fall(units, levels.fall_per_metre.0.abs());
            format!("all lie to a fall of {fall} down to {}", and_list(sides))
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

/// The heights as they were read, support by support.
fn as_read(page: &mut Page, answer: &RoofJoists, asked: &JoistsJob, footprint: &Footprint, units: Units) {
    let (sign, means) = if asked.staff { (-1.0, "staff, the bigger, the lower") } else { (1.0, "up is +") };
    let read = [
        (&answer.set_out.from, &asked.question.heights_from),
        (&answer.set_out.to, &asked.question.heights_to),
    ];
    for (sides, read) in read {
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
}

/// What the table says of an end of a joist.
#[derive(PartialEq)]
struct Cell {
    held: Held,
    up: String,
    packers: String,
}

/// Joists beside each other that come out alike are one row.
fn table(joists: &[Joist], units: Units, packed: bool) -> Table {
    let seated: Vec<&Joist> =
        joists.iter().filter(|j| j.from.seat.is_some() || j.to.seat.is_some()).collect();
    let ends = [cells(&seated, |joist| &joist.from, units), cells(&seated, |joist| &joist.to, units)];
    let places: Vec<usize> = (0..seated.len()).collect();
    let alike = |a: &usize, b: &usize| ends.iter().all(|cells| cells[*a] == cells[*b]);
    let mut table = Table::of(places.chunk_by(alike)).words("Joist", |places| match places {
        [first, .., last] => format!("{} to {}", seated[*first].name, seated[*last].name),
        _ => places.iter().map(|only| seated[*only].name.as_str()).collect(),
    });
    for (name, cells) in ["first", "far"].into_iter().zip(&ends) {
        let of = |place: usize, held| cells[place].as_ref().filter(|cell| cell.held == held);
        let any = |held| places.iter().any(|place| of(*place, held).is_some());
        let up = |held| move |places: &[usize]| of(places[0], held).map_or("", |cell| &cell.up);
        table = table
            .when(any(Held::Hung), |table| {
                table.numbers(gap_head(units, &format!("Hanger up, {name}")), up(Held::Hung))
            })
            .when(any(Held::Bears), |table| {
                let table = table.numbers(gap_head(units, &format!("Pack, {name}")), up(Held::Bears));
                table.when(packed, |table| {
                    table.words(gap_head(units, "Packers"), |places| {
                        of(places[0], Held::Bears).map_or("", |cell| &cell.packers)
                    })
                })
            });
    }
    table.into()
}

/// The cells of one end of the joists, the figures of those held alike to the same decimals; none of an end without a seat.
fn cells(seated: &[&Joist], of: fn(&Joist) -> &JoistEnd, units: Units) -> Vec<Option<Cell>> {
    let figures = |held| {
        let ends = seated.iter().map(|joist| of(joist)).filter(|end| end.held == held);
        let ups: Vec<f64> = ends.filter_map(|end| end.seat.as_ref()).map(|seat| seat.up.0).collect();
        gaps(units, &ups).into_iter()
    };
    let (mut hung, mut bears) = (figures(Held::Hung), figures(Held::Bears));
    let cell = |joist: &&Joist| {
        let end = of(joist);
        let seat = end.seat.as_ref()?;
        let up = if end.held == Held::Hung { hung.next() } else { bears.next() }?;
        let short = if seat.made_up { "" } else { ", short" };
        Some(Cell { held: end.held, up, packers: format!("{}{short}", stack(&seat.packers, units)) })
    };
    seated.iter().map(cell).collect()
}
