//! What is asked for besides the lines: the offset outline and the running marks.

use crate::job::Job;
use crate::length::Units;
use crate::lines::{ItemKind, Lines, MarkAt, Offset, OffsetDiagonal, SideMarks, Thing};
use crate::page::{Detail, Page, Remarks, Table};
use crate::report::plan::area;
use crate::words::and_list;

/// The offset outline.
pub(super) fn offset(page: &mut Page, offset: &Offset, job: &Job) {
    let units = job.units;
    let way = if offset.by.0 < 0.0 { "inside" } else { "outside" };
    page.heading(format!(
        "Outline held {} {way} the plan: its corners are named as the plan's",
        units.with_unit(offset.by.0.abs())
    ));
    page.table(
        Table::of(&offset.sides)
            .words("Side", |side| &side.name)
            .numbers(units.head("On plan"), |side| units.figure(side.length.0 - side.change.0))
            .numbers(units.head("Offset"), |side| units.figure(side.length.0))
            .numbers(units.head("Change"), |side| units.figure(side.change.0)),
    );
    page.fact(
        "Offset outline",
        format!(
            "area {}, round the outside {}",
            area(offset.area_m2.0 * 1e6, units),
            units.with_unit(offset.perimeter.0)
        ),
    );
    page.heading("Its check diagonals");
    page.table(
        Table::of(&offset.diagonals)
            .words("Line", |d| &d.name)
            .numbers(units.head("Across"), |d| units.figure(d.across.0))
            .numbers(units.head("Down"), |d| units.figure(d.down.0))
            .when(units != Units::FeetInches, |table| {
                table.numbers(units.head("Exact"), |d| units.exact(d.length.0))
            })
            .numbers(units.head("Tape"), |d| units.figure(d.length.0))
            .words("", |d| out_of_reach(d, job)),
    );
    if !offset.straight_checks.is_empty() {
        let list: Vec<String> = offset
            .straight_checks
            .iter()
            .map(|d| format!("{} {} {}", d.name, units.figure(d.length.0), out_of_reach(d, job)))
            .map(|words| words.trim_end().to_owned())
            .collect();
        page.fact("Corners on one line", list.join(", "));
    }
}

/// Why a line can't be taped in one pull.
fn out_of_reach(line: &OffsetDiagonal, job: &Job) -> &'static str {
    match (line.blocked, job.tape.reaches(line.length.0)) {
        (true, _) => "blocked",
        (false, false) => "past tape",
        (false, true) => "",
    }
}

fn mark_table(sides: &[SideMarks], units: Units) -> Table {
    let marks = sides.iter().flat_map(|side| side.marks.iter().enumerate().map(move |mark| (side, mark)));
    Table::of(marks)
        .words("Side", |(side, (i, _))| if i == 0 { side.side.as_str() } else { "" })
        .words("From", |(side, (i, _))| if i == 0 { side.from.as_str() } else { "" })
        .numbers(units.head("At"), |(_, (_, mark))| units.figure(mark.at.0))
        .words("Mark", |(_, (_, mark))| mark.things.iter().map(words).collect::<Vec<_>>().join(", "))
        .into()
}

/// The running marks: a row each on a full page, elsewhere a line a side.
pub(super) fn marks(page: &mut Page, sides: &[SideMarks], job: &Job, detail: Detail) {
    let units = job.units;
    if sides.is_empty() {
        return;
    }
    let studs = job.lines.marks.as_ref().and_then(|marks| marks.studs);
    let studs = studs.map_or_else(String::new, |mm| format!(", studs at {} centres", units.centres(mm)));
    page.heading(format!("Running marks, one pull of the tape from the corner{studs}"));
    if detail == Detail::Full {
        page.table(mark_table(sides, units));
        return;
    }
    for side in sides {
        let marks: Vec<String> = side.marks.iter().map(|mark| in_a_line(mark, units)).collect();
        page.fact(format!("{} from {}", side.side, side.from), marks.join(", "));
    }
    let stud = |mark: &MarkAt| mark.things == [Thing::Stud];
    if sides.iter().any(|side| side.marks.iter().any(stud)) {
        page.paragraph("A figure alone is the middle of a stud.");
    }
}

/// A mark with what is there, where that is more than a stud.
fn in_a_line(mark: &MarkAt, units: Units) -> String {
    let things: Vec<String> = mark.things.iter().filter(|thing| **thing != Thing::Stud).map(words).collect();
    format!("{} {}", units.figure(mark.at.0), things.join(" and ")).trim_end().to_owned()
}

/// What is said of both.
pub(super) fn notes(remarks: &mut Remarks, answer: &Lines, job: &Job) {
    if let Some(offset) = answer.offset.as_ref().filter(|offset| !offset.held.is_empty()) {
        remarks.note(format!("the offset outline stays on the house wall along {}", and_list(&offset.held)));
    }
    let left_out: usize = answer.marks.iter().map(|side| side.studs_in_openings).sum();
    if left_out > 0 {
        remarks.note(format!(
            "{left_out} stud centres fall in openings and are left out; studs and trimmers beside an opening are not marked"
        ));
    }
    let past: Vec<String> = answer
        .marks
        .iter()
        .filter(|side| side.marks.last().is_some_and(|mark| !job.tape.reaches(mark.at.0)))
        .map(|side| side.side.clone())
        .collect();
    if !past.is_empty() {
        remarks.note(format!("the tape doesn't reach along {} in one pull", and_list(&past)));
    }
}

/// What a mark is for.
pub(super) fn words(thing: &Thing) -> String {
    let with_kind = |kind: &ItemKind, name: &str| {
        let kind = match kind {
            ItemKind::Opening => "opening",
            ItemKind::Partition => "partition",
            ItemKind::Joint => "panel joint",
        };
        if name.starts_with(kind) { name.to_owned() } else { format!("{kind} {name}") }
    };
    match thing {
        Thing::Corner { name } => format!("corner {name}"),
        Thing::Begins { kind, name } => format!("{} begins", with_kind(kind, name)),
        Thing::Ends { kind, name } => format!("{} ends", with_kind(kind, name)),
        Thing::Joint { name } => name.clone(),
        Thing::Stud => "stud, middle".to_owned(),
    }
}
