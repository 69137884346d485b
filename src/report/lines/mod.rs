//! The page of lines: strings and boards first, then the nails on them, the sketch, the checks, what else was asked for.

mod boards;
mod extras;
mod notes;
mod rows;
mod sketch;
mod strings;

use strings::sides;

use super::plan;
use crate::answer::Answered;
use crate::job::Job;
use crate::length::Units;
use crate::lines::{Board, BoardKind, Lines};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict};
use crate::working;

impl Answered for Lines {
    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let verdict = Verdict { good: true, words: boards::headline(self, job.units) };
        let mut remarks = Remarks { verdict: Some(verdict), ..Remarks::default() };
        if detail != Detail::Short {
            extras::notes(&mut remarks, self, job);
            notes::small_print(&mut remarks, self, job);
        }
        notes::sag(&mut remarks, self, job.units, detail);
        notes::notes(&mut remarks, self, job);
        remarks
    }

    /// Fills the page: the strings, the nails and where the boards stand; what else a whole page has.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        plan::echo(page, job, detail);
        if detail != Detail::Short {
            inputs(page, self, units);
        }
        page.heading(format!("Lines, a string each, on the {}", face(self)));
        page.table(lines(self, units));
        if self.wall.faces.len() > 1 {
            page.heading(format!(
                "Nails, from the {} nail and in one pull from the outermost",
                self.wall.outline
            ));
            page.table(faces(self, units));
        }
        if detail == Detail::Short {
            boards::moved(page, self, units);
        } else {
            page.heading("Boards");
            boards::boards(page, self, units);
        }
        if let Some(footprint) = &job.footprint
            && detail.alone()
        {
            page.heading("Where the boards stand");
            let drawn = sketch::sketch(footprint, self, page.columns, detail);
            page.lines(drawn);
        }
        if detail != Detail::Short {
            checks(page, self, units);
        }
        if let Some(offset) = &self.offset {
            extras::offset(page, offset, job);
        }
        extras::marks(page, &self.marks, job, detail);
    }

    fn rows(&self, units: Units) -> Rows {
        rows::rows(self, units)
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(footprint) = &job.footprint else { return vec![] };
        working::lines::steps(self, &job.lines.wall, footprint, job.units)
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
    Table::of(answer.strings())
        .words("Line", sides)
        .numbers(units.head("String"), |line| units.figure(line.string_length.0))
        .words("From", |line| &line.boards[0].label)
        .words(units.head("Stands"), |line| stands(&line.boards[0], units))
        .words("To", |line| &line.boards[1].label)
        .words(units.head("Stands"), |line| stands(&line.boards[1], units))
        .into()
}

fn faces(answer: &Lines, units: Units) -> Table {
    Table::of(&answer.wall.faces)
        .words("Face", |face| &face.face)
        .numbers(units.head("From outline"), |face| units.figure(face.offset.0.abs()))
        .words("Which way", |face| match face.offset.0 {
            offset if offset > 0.0 => "out",
            offset if offset < 0.0 => "in",
            _ => "the outline",
        })
        .numbers(units.head("From outermost"), |face| units.figure(face.from_outermost.0))
        .into()
}

fn checks(page: &mut Page, answer: &Lines, units: Units) {
    page.heading(format!("Tape between the strings, on the {}", face(answer)));
    let house = |name: &String| {
        if answer.lines.iter().any(|line| line.side == *name) {
            name.clone()
        } else {
            format!("{name} (house)")
        }
    };
    page.table(
        Table::of(&answer.checks.parallel)
            .words("Between", |between| house(&between.lines[0]))
            .words("And", |between| house(&between.lines[1]))
            .numbers(units.head("Distance"), |between| units.figure(between.distance.0)),
    );
    if !answer.checks.rectangles.is_empty() {
        page.heading("Both diagonals alike where strings cross");
        page.table(
            Table::of(&answer.checks.rectangles)
                .words("From", |part| &part.crossings[0])
                .words("To", |part| &part.crossings[2])
                .words("And from", |part| &part.crossings[1])
                .words("To", |part| &part.crossings[3])
                .numbers(units.head("Across"), |part| units.figure(part.across.0))
                .numbers(units.head("Down"), |part| units.figure(part.down.0))
                .numbers(units.head("Diagonal"), |part| units.figure(part.diagonal.0)),
        );
    }
}
