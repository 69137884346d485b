//! The page of corner triangles, and of a corner as found.

use super::cautions::BURIED_SERVICES;
use super::plan;
use crate::answer::Answered;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::square::{CornerCheck, CornerFound, Corners};
use crate::words::and_list;
use crate::working;

impl Answered for Corners {
    fn good(&self) -> bool {
        Self::good(self)
    }

    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let mut remarks = Remarks::default();
        if let Some(found) = &self.found {
            remarks.verdict = verdict(found, job.units);
        } else {
            remarks.verdict = biggest(&self.corners, job.units);
            without(&mut remarks, &self.corners);
        }
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    /// Fills the page; the multiples are on a page of its own.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        if let Some(found) = &self.found {
            // Who tapes a corner wants to know about that corner; the tables are a command away.
            as_found(page, found, job.units);
            plan::echo(page, job, detail);
            return;
        }
        plan::echo(page, job, detail);
        triangle_table(page, &self.corners, job.units, detail);
        if detail == Detail::Full {
            multiple_table(page, self, job.units);
        }
    }

    /// The rows for a spreadsheet, lengths in mm: the largest triangle at each corner, and the 3-4-5 where that is another.
    fn rows(&self, _: Units) -> Rows {
        let triangles = self.corners.iter().flat_map(|corner| {
            corner.best.iter().chain(&corner.three_four_five).map(move |triangle| (corner, triangle))
        });
        each(triangles)
            .column("corner", |(corner, _)| &corner.name)
            .column("triple", |(_, triangle)| &triangle.triple)
            .column("multiple_mm", |(_, triangle)| triangle.multiple)
            .column("first_side", |(_, triangle)| &triangle.first.side)
            .column("first_mm", |(_, triangle)| triangle.first.length)
            .column("second_side", |(_, triangle)| &triangle.second.side)
            .column("second_mm", |(_, triangle)| triangle.second.length)
            .column("diagonal_mm", |(_, triangle)| triangle.diagonal)
            .column("mm_at_end_per_mm", |(_, triangle)| triangle.mm_at_end_per_mm)
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        working::corners::steps(self, job)
    }
}

fn triangle_table(page: &mut Page, corners: &[CornerCheck], units: Units, detail: Detail) {
    page.heading("The biggest neat triangle at each corner, both legs from the corner");
    if detail != Detail::Short {
        page.paragraph(match units {
            Units::Mm | Units::M => "1 shows: 1 mm between the marks is so many mm at the longer side's end",
            Units::FeetInches => {
                "1 shows: 1/16\" between the marks is so many 1/16\" at the longer side's end"
            }
        });
    }
    page.table(triangles(corners, units, detail));
}

/// The biggest triangle of any corner, which is the first to peg.
fn biggest(corners: &[CornerCheck], units: Units) -> Option<Verdict> {
    let best = corners.iter().filter_map(|check| Some((&check.name, check.best.as_ref()?)));
    let (corner, best) = best.max_by(|(_, a), (_, b)| a.diagonal.0.total_cmp(&b.diagonal.0))?;
    let (first, second) = (&best.first, &best.second);
    Some(Verdict {
        good: true,
        words: format!(
            "From {corner} mark {} along {} and {} along {}: {} between the marks is square",
            units.figure(first.length.0),
            first.side,
            units.figure(second.length.0),
            second.side,
            units.figure(best.diagonal.0)
        ),
    })
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
    page.table(
        Table::of(&answer.multiples)
            .numbers(units.head("Multiple"), |row| units.figure(row.multiple.0))
            .numbers("3", |row| units.figure(row.a.0))
            .numbers("4", |row| units.figure(row.b.0))
            .numbers("5", |row| units.figure(row.c.0)),
    );
}

fn found_words(found: &CornerFound, units: Units) -> String {
    let which = found.name.as_ref().map_or_else(|| "The corner".to_owned(), |name| format!("Corner {name}"));
    format!("{which} is {}", found.angle.words(found.end.as_deref(), units))
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

fn triangles(corners: &[CornerCheck], units: Units, detail: Detail) -> Table {
    let rows = corners.iter().flat_map(|check| {
        let best = check.best.iter().map(|best| (check.name.as_str(), best));
        best.chain(check.three_four_five.iter().map(|plain| ("  or", plain)))
    });
    Table::of(rows)
        .words("Corner", |(name, _)| name)
        .words("Triple", |(_, triangle)| &triangle.triple)
        .words("Side", |(_, triangle)| &triangle.first.side)
        .numbers(units.head("Along"), |(_, triangle)| units.figure(triangle.first.length.0))
        .words("Side", |(_, triangle)| &triangle.second.side)
        .numbers(units.head("Along"), |(_, triangle)| units.figure(triangle.second.length.0))
        .numbers(units.head("Between"), |(_, triangle)| units.figure(triangle.diagonal.0))
        .when(detail != Detail::Short, |table| {
            table.numbers("1 shows", |(_, triangle)| decimal(triangle.mm_at_end_per_mm.0, 2))
        })
        .into()
}
