//! A small plan in characters: the outline, the strings, and the boards with their labels.

use crate::geometry::Point;
use crate::lines::{BoardKind, Lines};
use crate::page::Detail;
use crate::plan::Footprint;

/// The most columns that the plan itself takes, and the most rows on a short page and on a whole one; labels stand round it.
const COLUMNS: usize = 64;
const ROWS: (f64, f64) = (12.0, 24.0);
/// Columns and rows kept free round the plan for labels.
const AROUND: (usize, usize) = (5, 2);
/// A character is about twice as high as wide.
const HIGH: f64 = 2.0;

/// The sketch on a page of so many columns, a line of characters each.
pub(super) fn sketch(footprint: &Footprint, answer: &Lines, columns: usize, detail: Detail) -> Vec<String> {
    let rows = if detail == Detail::Short { ROWS.0 } else { ROWS.1 };
    let inside = columns.saturating_sub(2 * AROUND.0 + 1).min(COLUMNS);
    let mut canvas = Canvas::around(footprint, answer, inside as f64, rows);
    // Strings first, so that what matters more is drawn over them.
    for line in &answer.lines {
        let [start, end] = ends(line);
        canvas.stroke(start, end, ['·', '·']);
    }
    for side in footprint.sides() {
        let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
        canvas.stroke(a, b, if side.house { ['═', '║'] } else { ['─', '│'] });
    }
    for corner in footprint.corners() {
        let (column, row) = canvas.cell(corner.at);
        canvas.put(column, row, corner.name);
    }
    for line in &answer.lines {
        let points = ends(line);
        for (i, board) in line.boards.iter().enumerate() {
            let (at, other) = (points[i], points[1 - i]);
            let (column, row) = canvas.cell(at);
            let across = (at.y - other.y).abs() < (at.x - other.x).abs();
            // Labels stand beyond the end of the string.
            let width = board.label.chars().count();
            let label = match (across, at.x > other.x, at.y > other.y) {
                (true, true, _) => (column + 2, row),
                (true, false, _) => (column.saturating_sub(1 + width), row),
                (false, _, true) => (column.saturating_sub(width / 2), row + 1),
                (false, _, false) => (column.saturating_sub(width / 2), row.saturating_sub(1)),
            };
            if board.kind == BoardKind::Profile {
                if across {
                    canvas.put(column, row, '┃');
                } else {
                    for beside in column.saturating_sub(1)..=column + 1 {
                        canvas.put(beside, row, '━');
                    }
                }
            }
            for (j, letter) in board.label.chars().enumerate() {
                canvas.put(label.0 + j, label.1, letter);
            }
        }
    }
    canvas.lines()
}

/// Where a line's outline string ends.
fn ends(line: &crate::lines::WallLine) -> [Point; 2] {
    [0, 1].map(|i| {
        let marks = &line.boards[i].marks;
        let outline = marks.iter().min_by(|a, b| a.offset.0.abs().total_cmp(&b.offset.0.abs()));
        outline.map_or_else(Point::default, |mark| Point::new(mark.x.0, mark.y.0))
    })
}

struct Canvas {
    origin: Point,
    /// Millimetres to a column.
    scale: f64,
    cells: Vec<Vec<char>>,
}

impl Canvas {
    fn around(footprint: &Footprint, answer: &Lines, columns: f64, rows: f64) -> Self {
        let points: Vec<Point> =
            footprint.points().into_iter().chain(answer.lines.iter().flat_map(ends)).collect();
        let fold = |pick: fn(&Point) -> f64| {
            points
                .iter()
                .map(pick)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
        };
        let ((left, right), (top, bottom)) = (fold(|p| p.x), fold(|p| p.y));
        let scale = ((right - left) / columns).max((bottom - top) / (rows * HIGH)).max(1e-6);
        let (columns, rows) = (
            whole((right - left) / scale) + 2 * AROUND.0 + 1,
            whole((bottom - top) / (scale * HIGH)) + 2 * AROUND.1 + 1,
        );
        Self { origin: Point::new(left, top), scale, cells: vec![vec![' '; columns]; rows] }
    }

    fn cell(&self, p: Point) -> (usize, usize) {
        (
            whole((p.x - self.origin.x) / self.scale) + AROUND.0,
            whole((p.y - self.origin.y) / (self.scale * HIGH)) + AROUND.1,
        )
    }

    fn put(&mut self, column: usize, row: usize, c: char) {
        if let Some(cell) = self.cells.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = c;
        }
    }

    /// A stroke across or down the page in the first or the second of two characters.
    fn stroke(&mut self, a: Point, b: Point, [across, down]: [char; 2]) {
        let (from, to) = (self.cell(a), self.cell(b));
        let c = if from.1 == to.1 { across } else { down };
        for column in from.0.min(to.0)..=from.0.max(to.0) {
            for row in from.1.min(to.1)..=from.1.max(to.1) {
                self.put(column, row, c);
            }
        }
    }

    fn lines(self) -> Vec<String> {
        let lines: Vec<String> =
            self.cells.iter().map(|row| row.iter().collect::<String>().trim_end().to_owned()).collect();
        let first = lines.iter().position(|line| !line.is_empty()).unwrap_or(0);
        let last = lines.iter().rposition(|line| !line.is_empty()).map_or(0, |last| last + 1);
        lines.get(first..last).unwrap_or_default().to_vec()
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place on a canvas of less than a hundred columns"
)]
fn whole(value: f64) -> usize {
    value.round().clamp(0.0, 1000.0) as usize
}
