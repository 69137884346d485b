//! The page of corner triangles, and of a corner as found.

use super::BURIED_SERVICES;
use super::plan;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Page, Records, Remarks, Table, Verdict};
use crate::square::{CornerCheck, CornerFound, CornerTriangle, Corners};
use crate::words::and_list;

/// What is said of the answer as a whole.
pub(super) fn remarks(answer: &Corners, job: &Job) -> Remarks {
    let mut remarks = plan::remarks(job);
    match &answer.found {
        Some(found) => remarks.verdict = verdict(found, job.units),
        None => without(&mut remarks, &answer.corners),
    }
    remarks.caution(BURIED_SERVICES);
    remarks
}

/// Fills the page; the multiples are on a `whole` one alone.
pub(super) fn body(page: &mut Page, answer: &Corners, job: &Job, whole: bool) {
    page.data(|| records(answer));
    if let Some(found) = &answer.found {
        // Who tapes a corner wants to know about that corner; the tables are a command away.
        as_found(page, found, job.units);
        plan::echo(page, job);
        return;
    }
    plan::echo(page, job);
    triangle_table(page, &answer.corners, job.units);
    if whole {
        multiple_table(page, answer, job.units);
    }
}

fn triangle_table(page: &mut Page, corners: &[CornerCheck], units: Units) {
    page.heading("The biggest neat triangle at each corner, both legs from the corner");
    page.paragraph(match units {
        Units::Mm | Units::M => "1 shows: 1 mm between the marks is so many mm at the longer side's end",
        Units::FeetInches => "1 shows: 1/16in between the marks is so many 1/16in at the longer side's end",
    });
    page.table(triangles(corners, units));
}

fn without(remarks: &mut Remarks, corners: &[CornerCheck]) {
    let without: Vec<&str> =
        corners.iter().filter(|check| check.best.is_none()).map(|check| check.name.as_str()).collect();
    if !without.is_empty() {
        remarks.note(format!(
            "no neat triangle can be taped at {}: use the diagonals there",
            and_list(&without)
        ));
    }
}

fn multiple_table(page: &mut Page, answer: &Corners, units: Units) {
    if answer.multiples.is_empty() {
        return;
    }
    page.heading("3-4-5 and its multiples");
    let mut table = Table::new().numbers(units.head("Multiple")).numbers("3").numbers("4").numbers("5");
    for row in &answer.multiples {
        table.row([row.multiple, row.a, row.b, row.c].map(|mm| units.figure(mm.0)));
    }
    page.table(table);
}

fn found_words(found: &CornerFound, units: Units) -> String {
    let which = found.name.as_ref().map_or_else(|| "The corner".to_owned(), |name| format!("Corner {name}"));
    format!("{which} is {}° and {}", decimal(found.angle.angle_deg.0, 3), found.angle.words(units))
}

/// The corner against its limit, if there is one.
fn verdict(found: &CornerFound, units: Units) -> Option<Verdict> {
    let (limit, good) = (found.limit?, found.within?);
    let held = if good { "Within" } else { "Over" };
    let words = found_words(found, units);
    Some(Verdict { good, words: format!("{held} the limit of {}: {words}", units.small(limit.0)) })
}

fn as_found(page: &mut Page, found: &CornerFound, units: Units) {
    if found.limit.is_none() {
        page.paragraph(found_words(found, units));
    }
    page.fact(
        "Tapes",
        format!(
            "{} and {} along the sides, {} between the ends; square, it would be {}",
            units.with_unit(found.angle.a.0),
            units.with_unit(found.angle.b.0),
            units.with_unit(found.angle.c.0),
            units.with_unit(found.angle.square_diagonal.0)
        ),
    );
}

fn triangles(corners: &[CornerCheck], units: Units) -> Table {
    let mut table = Table::new()
        .words("Corner")
        .words("Triple")
        .words("Side")
        .numbers(units.head("Along"))
        .words("Side")
        .numbers(units.head("Along"))
        .numbers(units.head("Between"))
        .numbers("1 shows");
    for check in corners {
        let mut row = |name: &str, triangle: &CornerTriangle| {
            table.row([
                name.to_owned(),
                triangle.triple.clone(),
                triangle.first.side.clone(),
                units.figure(triangle.first.length.0),
                triangle.second.side.clone(),
                units.figure(triangle.second.length.0),
                units.figure(triangle.diagonal.0),
                decimal(triangle.mm_at_end_per_mm.0, 2),
            ]);
        };
        if let Some(best) = &check.best {
            row(&check.name, best);
        }
        if let Some(plain) = &check.three_four_five {
            row("  or", plain);
        }
    }
    table
}

fn records(answer: &Corners) -> Records {
    let mut records = Records::new(&[
        "corner",
        "triple",
        "multiple_mm",
        "first_side",
        "first_mm",
        "second_side",
        "second_mm",
        "diagonal_mm",
        "mm_at_end_per_mm",
    ]);
    let exact = |mm: f64| Units::Mm.exact(mm);
    for check in &answer.corners {
        for triangle in check.best.iter().chain(&check.three_four_five) {
            records.rows.push(vec![
                check.name.clone(),
                triangle.triple.clone(),
                exact(triangle.multiple.0),
                triangle.first.side.clone(),
                exact(triangle.first.length.0),
                triangle.second.side.clone(),
                exact(triangle.second.length.0),
                exact(triangle.diagonal.0),
                decimal(triangle.mm_at_end_per_mm.0, 6),
            ]);
        }
    }
    records
}
