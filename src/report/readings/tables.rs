//! The tables: corners, sides, readings, corrections.

use super::moves::signed;
use crate::length::{Units, decimal};
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
    let small = |name: &str| format!("{name} {}", units.small_unit());
    page.heading("Corners: how far out of square at the end of each side, + open, − closed");
    let mut table = Table::new()
        .words("Corner")
        .numbers("Degrees")
        .words("End of")
        .numbers(units.head("Length"))
        .numbers(small("Out"))
        .numbers(small("±"));
    if limited {
        table = table.numbers(small("Limit"));
    }
    table = table.words("Says");
    for angle in &answer.angles {
        for (i, end) in angle.ends.iter().enumerate() {
            let first = |text: String| if i == 0 { text } else { String::new() };
            let mut row = vec![
                first(angle.corner.clone()),
                first(decimal(angle.angle_deg.0, 3)),
                end.side.clone(),
                units.figure(end.length.0),
                signed(units, end.out.0),
                units.small_figure(end.uncertainty.0),
            ];
            if limited {
                row.push(end.limit.map_or_else(String::new, |limit| units.small_figure(limit.0)));
            }
            row.push(first(says(angle).to_owned()));
            table.row(row);
        }
    }
    page.table(table);
}

const fn says(angle: &Angle) -> &'static str {
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
    let small = |name: &str| format!("{name} {}", units.small_unit());
    let mut table = Table::new()
        .words("Side")
        .numbers(units.head("Plan"))
        .numbers(units.head("Built"))
        .numbers(small("Off"))
        .numbers(small("±"));
    for side in &answer.sides {
        table.row([
            side.name.clone(),
            units.figure(side.plan.0),
            units.figure(side.built.0),
            signed(units, side.difference.0),
            units.small_figure(COVERAGE * side.sd.0),
        ]);
    }
    page.table(table);
}

/// Every reading with what the adjustment says of it.
pub(super) fn readings(page: &mut Page, answer: &Readings, units: Units) {
    let unit = match units {
        Units::Mm | Units::M => "mm",
        Units::FeetInches => "inches",
    };
    page.heading(format!("Readings; sd, off and hides in {unit}"));
    let fitted = answer.readings.iter().any(|line| line.residual.is_some());
    let mut table =
        Table::new().words("Line").numbers(units.head("Read")).numbers(units.head("Used")).numbers("Sd");
    if fitted {
        table = table.numbers("Off").numbers("Checked").numbers("Out of step").numbers("Hides");
    }
    let remarks: Vec<String> = answer.readings.iter().map(|line| remark(line, units)).collect();
    let remarked = remarks.iter().any(|remark| !remark.is_empty());
    if remarked {
        table = table.words("Remark");
    }
    for (line, remark) in answer.readings.iter().zip(remarks) {
        let mut row = vec![
            line.name.clone(),
            units.figure(line.read.0),
            units.figure(line.used.0),
            units.small_figure(line.sd.0),
        ];
        if fitted {
            row.push(line.residual.map_or_else(String::new, |v| signed(units, v.0)));
            row.push(line.redundancy.map_or_else(String::new, |r| format!("{} %", decimal(100.0 * r.0, 0))));
            row.push(line.w.map_or_else(String::new, |w| decimal(w.0, 2).replace('-', "−")));
            row.push(line.hides.map_or_else(|| "any".to_owned(), |h| units.small_figure(h.0)));
        }
        if remarked {
            row.push(remark);
        }
        table.row(row);
    }
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
    let mut table = Table::new().words("Line").numbers(format!("Read {}", units.exact_unit()));
    let unit = units.exact_unit();
    for i in &used {
        table = table.numbers(format!("{} {unit}", capital(none[*i].0)));
    }
    table = table.numbers(format!("Used {unit}"));
    for line in &answer.readings {
        let parts = line.corrections.parts();
        let mut row = vec![line.name.clone(), units.exact(line.read.0)];
        row.extend(used.iter().map(|i| {
            let part = parts[*i].1;
            part.map_or_else(String::new, |mm| units.exact(mm.0).replace('-', "−"))
        }));
        row.push(units.exact(line.used.0));
        table.row(row);
    }
    page.table(table);
}
