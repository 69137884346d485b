//! The tables: corners, sides, readings, corrections.

use crate::length::{Units, decimal, printed};
use crate::page::{Page, Table};
use crate::readings::{Angle, COVERAGE, Call, Corrections, ReadingLine, Readings, Sense};
use crate::words::capital;

/// Every corner's angle, and how far out at the ends of its sides.
pub(super) fn corners(page: &mut Page, answer: &Readings, units: Units) {
    // While a tie stands the figure carries the misread in it.
    if answer.moves.is_empty() {
        return;
    }
    let limited = answer.angles.iter().flat_map(|a| &a.ends).any(|end| end.limit.is_some());
    let small = |name: &str| units.small_head(name);
    page.heading("Corners: how far out of square at the end of each side, + open, − closed");
    let ends = answer.angles.iter().flat_map(|angle| {
        angle.ends.iter().enumerate().map(move |(i, end)| ((i == 0).then_some(angle), end))
    });
    let table = Table::of(ends)
        .words("Corner", |(first, _)| first.map_or("", |angle| &angle.corner))
        .numbers("Degrees", |(first, _)| {
            first.map_or_else(String::new, |angle| decimal(angle.angle_deg.0, 3))
        })
        .words("End of", |(_, end)| &end.side)
        .numbers(units.head("Length"), |(_, end)| units.figure(end.length.0))
        .numbers(small("Out"), |(_, end)| units.small_signed(end.out.0))
        .numbers(small("±"), |(_, end)| units.small_figure(end.uncertainty.0))
        .when(limited, |table| {
            table.numbers(small("Limit"), |(_, end)| {
                end.limit.map_or_else(String::new, |limit| units.small_figure(limit.0))
            })
        })
        .words("Says", |(first, _)| first.map_or("", called));
    page.table(table);
}

const fn called(angle: &Angle) -> &'static str {
    match (angle.call, angle.sense) {
        (Call::Square, _) => "square",
        (Call::TooClose, _) => "too close",
        (Call::Out, Sense::Open) => "out: open",
        (Call::Out, Sense::Closed) => "out: closed",
        (Call::Out, Sense::True) => "out",
    }
}

/// Every side's length against the plan.
pub(super) fn sides(page: &mut Page, answer: &Readings, units: Units) {
    if answer.moves.is_empty() {
        return;
    }
    page.heading("Sides as built");
    let small = |name: &str| units.small_head(name);
    let table = Table::of(&answer.sides)
        .words("Side", |side| &side.name)
        .numbers(units.head("Plan"), |side| units.figure(side.plan.0))
        .numbers(units.head("Built"), |side| units.figure(side.built.0))
        .numbers(small("Off"), |side| units.small_signed(side.difference.0))
        .numbers(small("±"), |side| units.small_figure(COVERAGE * side.sd.0));
    page.table(table);
}

/// Every reading with what the adjustment says of it.
pub(super) fn readings(page: &mut Page, answer: &Readings, units: Units) {
    page.heading(match units {
        Units::Mm | Units::M => "Readings; sd, off and hides in mm",
        Units::FeetInches => "Readings",
    });
    let corrected = answer.readings.iter().any(|line| line.used != line.read);
    let fitted = answer.readings.iter().any(|line| line.residual.is_some());
    let remarked = answer.readings.iter().any(|line| !remark(line, units).is_empty());
    let table = Table::of(&answer.readings)
        .words("Line", |line| &line.name)
        .numbers(units.head("Read"), |line| units.figure(line.read.0))
        .when(corrected, |table| table.numbers(units.head("Used"), |line| units.figure(line.used.0)))
        .numbers("Sd", |line| units.small_figure(line.sd.0))
        .when(fitted, |table| {
            table
                .numbers("Off", |line| line.residual.map_or_else(String::new, |v| units.small_signed(v.0)))
                .numbers("Checked", |line| {
                    line.redundancy.map_or_else(String::new, |r| format!("{} %", decimal(100.0 * r.0, 0)))
                })
                .numbers("Out of step", |line| line.w.map_or_else(String::new, |w| printed(w.0, 2)))
                .numbers("Hides", |line| {
                    line.hides.map_or_else(|| "any".to_owned(), |h| units.small_figure(h.0))
                })
        })
        .when(remarked, |table| table.words("Remark", |line| remark(line, units)));
    page.table(table);
}

fn remark(line: &ReadingLine, units: Units) -> String {
    let mut remarks = vec![];
    if line.left_out {
        remarks.push("left out".to_owned());
    } else if line.suspect {
        remarks.push("suspect".to_owned());
    }
    if line.residual.is_some() && line.redundancy.is_some_and(|r| r.0 == 0.0) {
        remarks.push("unchecked".to_owned());
    }
    if let Some(spread) = line.spread {
        remarks.push(format!("mean of {}, sd {}", line.count, units.small_figure(spread.0)));
    }
    remarks.join(", ")
}

/// What was added to or taken off each reading, where there is more to it than the held-on length.
pub(super) fn corrections(page: &mut Page, answer: &Readings, units: Units) {
    let none = Corrections::default().parts();
    let used: Vec<usize> = (0..none.len())
        .filter(|i| answer.readings.iter().any(|line| line.corrections.parts()[*i].1.is_some()))
        .collect();
    if used.iter().all(|i| *i == 0) {
        return;
    }
    page.heading("Corrections");
    let unit = units.exact_unit();
    let mut table = Table::of(&answer.readings)
        .words("Line", |line| &line.name)
        .numbers(format!("Read {unit}"), |line| units.exact(line.read.0));
    for i in used {
        table = table.numbers(format!("{} {unit}", capital(none[i].0)), |line| {
            let part = line.corrections.parts()[i].1;
            part.map_or_else(String::new, |mm| units.exact(mm.0))
        });
    }
    page.table(table.numbers(format!("Used {unit}"), |line| units.exact(line.used.0)));
}
