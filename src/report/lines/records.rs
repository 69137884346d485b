//! The lines as rows of data: one kind of row for each thing that is marked or taped.

use super::extras::words;
use crate::length::Units;
use crate::lines::{BoardKind, Lines};
use crate::page::Records;

/// The columns, and for each its place in [`Row::cells`].
const HEADER: [&str; 10] =
    ["what", "line", "board", "at", "setback_mm", "mark", "offset_mm", "x_mm", "y_mm", "length_mm"];

/// A row: every cell but those set is empty.
#[derive(Default)]
struct Row {
    cells: [String; HEADER.len()],
}

impl Row {
    fn new(what: &str, line: &str) -> Self {
        Self::default().with("what", what).with("line", line)
    }

    fn with(mut self, column: &str, cell: impl Into<String>) -> Self {
        if let Some(i) = HEADER.iter().position(|name| *name == column) {
            self.cells[i] = cell.into();
        }
        self
    }

    fn mm(self, column: &str, mm: f64) -> Self {
        self.with(column, Units::Mm.exact(mm))
    }
}

/// The records.
pub(super) fn records(answer: &Lines) -> Records {
    let mut rows = vec![];
    for line in &answer.lines {
        rows.push(Row::new("string", &line.side).mm("length_mm", line.string_length.0));
        for board in &line.boards {
            for mark in &board.marks {
                let what = match (board.kind, mark.past_wall) {
                    (BoardKind::Profile, _) => "nail on board",
                    (BoardKind::HouseWall, false) => "nail in house",
                    (BoardKind::HouseWall, true) => "nail past house",
                };
                rows.push(
                    Row::new(what, &line.side)
                        .with("board", &board.label)
                        .with("at", &board.at)
                        .mm("setback_mm", board.setback.0)
                        .with("mark", &mark.face)
                        .mm("offset_mm", mark.offset.0)
                        .mm("x_mm", mark.x.0)
                        .mm("y_mm", mark.y.0),
                );
            }
        }
    }
    for profile in answer.profiles.iter().filter(|profile| profile.kind == BoardKind::Profile) {
        rows.push(
            Row::new("board", &profile.carries.join(" "))
                .with("board", &profile.label)
                .mm("x_mm", profile.x.0)
                .mm("y_mm", profile.y.0)
                .mm("length_mm", profile.length.0),
        );
    }
    for between in &answer.checks.parallel {
        rows.push(Row::new("between", &between.lines.join(" ")).mm("length_mm", between.distance.0));
    }
    for part in &answer.checks.rectangles {
        let [a, b, c, d] = &part.crossings;
        for line in [format!("{a} {c}"), format!("{b} {d}")] {
            rows.push(Row::new("crossings", &line).mm("length_mm", part.diagonal.0));
        }
    }
    if let Some(offset) = &answer.offset {
        for side in &offset.sides {
            rows.push(Row::new("offset side", &side.name).mm("length_mm", side.length.0));
        }
        for d in offset.diagonals.iter().chain(&offset.straight_checks) {
            rows.push(Row::new("offset diagonal", &d.name).mm("length_mm", d.length.0));
        }
    }
    for side in &answer.marks {
        for mark in &side.marks {
            for thing in &mark.things {
                rows.push(
                    Row::new("running mark", &side.side)
                        .with("at", &side.from)
                        .with("mark", words(thing))
                        .mm("length_mm", mark.at.0),
                );
            }
        }
    }
    let mut records = Records::new(&HEADER);
    records.rows = rows.into_iter().map(|row| row.cells.to_vec()).collect();
    records
}
