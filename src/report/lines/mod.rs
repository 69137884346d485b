//! The page of lines: strings and boards first, then the nails on them, the sketch, the checks, what else was asked for.

mod boards;
mod extras;
mod notes;
mod rows;
mod sketch;
mod strings;

use strings::{sides, strings};

use super::plan;
use crate::answer::Answered;
use crate::job::Job;
use crate::length::Units;
use crate::lines::{Board, BoardKind, Lines};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table};
use crate::working;

impl Answered for Lines {
    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let mut remarks = plan::remarks(job);
        extras::notes(&mut remarks, self, job);
        notes::notes(&mut remarks, self, job);
        remarks
    }

    /// Fills the page; where the boards stand and the running marks are on a page of its own.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        plan::echo(page, job);
        inputs(page, self, units);
        page.heading(format!("Lines, a string each, on the {}", face(self)));
        page.table(lines(self, units));
        if self.wall.faces.len() > 1 {
            page.heading(format!(
                "Nails, from the {} nail and in one pull from the outermost",
                self.wall.outline
            ));
            page.table(faces(self, units));
        }
        page.heading("Boards");
        boards::boards(page, self, units);
        if let Some(footprint) = &job.footprint
            && detail.alone()
        {
            page.heading("Where the boards stand");
            page.lines(sketch::sketch(footprint, self));
        }
        checks(page, self, units);
        if let Some(offset) = &self.offset {
            extras::offset(page, offset, job);
        }
        extras::marks(page, &self.marks, units, detail.alone());
    }

    fn rows(&self, _: Units) -> Rows {
        rows::rows(self)
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(footprint) = &job.footprint else { return vec![] };
        working::lines::steps(self, footprint, job.units)
    }
}

/// The face that the plan's outline is.
fn face(answer: &Lines) -> String {
    let outline = &answer.wall.outline;
    if answer.wall.width.0 > 0.0 { format!("{outline} face") } else { outline.clone() }
}

fn inputs(page: &mut Page, answer: &Lines, units: Units) {
    let wall = if answer.wall.width.0 > 0.0 {
        format!(
            "the plan is the {}; the wall is {} through",
            face(answer),
            units.with_unit(answer.wall.width.0)
        )
    } else {
        "the plan's outline alone; --layers adds nails for the faces of a wall".to_owned()
    };
    page.fact("Wall", wall);
    page.fact("Setback", units.with_unit(answer.setback.0));
}

fn stands(board: &Board, units: Units) -> String {
    let past = if board.setback.0 > 0.0 {
        format!("{} past {}", units.figure(board.setback.0), board.at)
    } else {
        format!("at {}", board.at)
    };
    match board.kind {
        BoardKind::Profile => past,
        BoardKind::HouseWall => format!("house, {past}"),
    }
}

fn lines(answer: &Lines, units: Units) -> Table {
    let mut table = Table::new()
        .words("Line")
        .numbers(units.head("String"))
        .words("From")
        .words(units.head("Stands"))
        .words("To")
        .words(units.head("Stands"));
    for line in strings(answer) {
        let [start, end] = &line.boards;
        table.row([
            sides(line),
            units.figure(line.string_length.0),
            start.label.clone(),
            stands(start, units),
            end.label.clone(),
            stands(end, units),
        ]);
    }
    table
}

fn faces(answer: &Lines, units: Units) -> Table {
    let mut table = Table::new()
        .words("Face")
        .numbers(units.head("From outline"))
        .words("Which way")
        .numbers(units.head("From outermost"));
    for face in &answer.wall.faces {
        let way = match face.offset.0 {
            offset if offset > 0.0 => "out",
            offset if offset < 0.0 => "in",
            _ => "the outline",
        };
        table.row([
            face.face.clone(),
            units.figure(face.offset.0.abs()),
            way.to_owned(),
            units.figure(face.from_outermost.0),
        ]);
    }
    table
}

fn checks(page: &mut Page, answer: &Lines, units: Units) {
    page.heading(format!("Tape between the strings, on the {}", face(answer)));
    let mut table = Table::new().words("Between").words("And").numbers(units.head("Distance"));
    let house = |name: &String| {
        if answer.lines.iter().any(|line| line.side == *name) {
            name.clone()
        } else {
            format!("{name} (house)")
        }
    };
    for between in &answer.checks.parallel {
        let [first, second] = &between.lines;
        table.row([house(first), house(second), units.figure(between.distance.0)]);
    }
    page.table(table);
    if !answer.checks.rectangles.is_empty() {
        page.heading("Both diagonals alike where strings cross");
        let mut table = Table::new()
            .words("From")
            .words("To")
            .words("And from")
            .words("To")
            .numbers(units.head("Across"))
            .numbers(units.head("Down"))
            .numbers(units.head("Diagonal"));
        for part in &answer.checks.rectangles {
            let [a, b, c, d] = &part.crossings;
            table.row([
                a.clone(),
                c.clone(),
                b.clone(),
                d.clone(),
                units.figure(part.across.0),
                units.figure(part.down.0),
                units.figure(part.diagonal.0),
            ]);
        }
        page.table(table);
    }
}
