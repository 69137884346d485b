//! The lines as rows for a spreadsheet: one kind of row for each thing that is marked or taped.

use super::extras::words;
use crate::length::Units;
use crate::lines::{Board, BoardKind, Checks, Lines, Nail, Offset, SideMarks, WallLine};
use crate::page::{Rows, each};

/// Each string with its nails, the boards, what proves them, the outline held off, the running marks.
pub(super) fn rows(answer: &Lines, units: Units) -> Rows {
    let mut rows = Rows::under(&[
        "what",
        "line",
        "board",
        "at",
        "setback_mm",
        "mark",
        "offset_mm",
        "x_mm",
        "y_mm",
        "length_mm",
    ]);
    for line in &answer.lines {
        rows.add(
            each([line])
                .column("what", |_| "string")
                .column("line", |line| &line.side)
                .column("length_mm", |line| line.string_length),
        );
        rows.add(nails(line));
    }
    let boards = answer.profiles.iter().filter(|profile| profile.kind == BoardKind::Profile);
    rows.add(
        each(boards)
            .column("what", |_| "board")
            .column("line", |board| board.carries.join(" "))
            .column("board", |board| &board.label)
            .column("x_mm", |board| board.x)
            .column("y_mm", |board| board.y)
            .column("length_mm", |board| board.length)
            .when(units == Units::FeetInches, |rows| {
                rows.column("length", |board| units.figure(board.length.0))
            }),
    );
    checks(&mut rows, &answer.checks);
    if let Some(outline) = &answer.offset {
        offset(&mut rows, outline);
    }
    rows.add(marks(&answer.marks));
    rows
}

fn nails(line: &WallLine) -> Rows {
    let what = |board: &Board, nail: &Nail| match (board.kind, nail.past_wall) {
        (BoardKind::Profile, _) => "nail on board",
        (BoardKind::HouseWall, false) => "nail in house",
        (BoardKind::HouseWall, true) => "nail past house",
    };
    let nails = line.boards.iter().flat_map(|board| board.marks.iter().map(move |nail| (board, nail)));
    each(nails)
        .column("what", |(board, nail)| what(board, nail))
        .column("line", |_| &line.side)
        .column("board", |(board, _)| &board.label)
        .column("at", |(board, _)| &board.at)
        .column("setback_mm", |(board, _)| board.setback)
        .column("mark", |(_, nail)| &nail.face)
        .column("offset_mm", |(_, nail)| nail.offset)
        .column("x_mm", |(_, nail)| nail.x)
        .column("y_mm", |(_, nail)| nail.y)
        .into()
}

fn checks(rows: &mut Rows, checks: &Checks) {
    rows.add(
        each(&checks.parallel)
            .column("what", |_| "between")
            .column("line", |between| between.lines.join(" "))
            .column("length_mm", |between| between.distance),
    );
    let diagonals = checks.rectangles.iter().flat_map(|rectangle| {
        let [a, b, c, d] = &rectangle.crossings;
        [(rectangle, a, c), (rectangle, b, d)]
    });
    rows.add(
        each(diagonals)
            .column("what", |_| "crossings")
            .column("line", |(_, from, to)| format!("{from} {to}"))
            .column("length_mm", |(rectangle, ..)| rectangle.diagonal),
    );
}

fn offset(rows: &mut Rows, outline: &Offset) {
    rows.add(
        each(&outline.sides)
            .column("what", |_| "offset side")
            .column("line", |side| &side.name)
            .column("length_mm", |side| side.length),
    );
    rows.add(
        each(outline.diagonals.iter().chain(&outline.straight_checks))
            .column("what", |_| "offset diagonal")
            .column("line", |diagonal| &diagonal.name)
            .column("length_mm", |diagonal| diagonal.length),
    );
}

/// A row for each thing at a mark.
fn marks(sides: &[SideMarks]) -> Rows {
    let marks = sides.iter().flat_map(|side| side.marks.iter().map(move |mark| (side, mark)));
    let things = marks.flat_map(|(side, mark)| mark.things.iter().map(move |thing| (side, mark, thing)));
    each(things)
        .column("what", |_| "running mark")
        .column("line", |(side, ..)| &side.side)
        .column("at", |(side, ..)| &side.from)
        .column("mark", |(.., thing)| words(thing))
        .column("length_mm", |(_, mark, _)| mark.at)
        .into()
}
