//! The plan in characters, for a terminal: to scale both ways, a cell being taken as twice as high as wide.
//!
//! Every corner is its letter, every side a line with its length on it or beside it, house sides are thick, and the proof set is
//! dotted in. Beyond [`MOST_WITH_CHECKS`] corners the dotted lines would be a tangle and are left out; letters are shown for all 26.

mod canvas;
mod fit;
mod labels;

use canvas::Canvas;
use fit::Fit;

use super::drawing::{CheckUse, Drawing};

/// The most corners that a plan drawn with its proof set has.
const MOST_WITH_CHECKS: usize = 12;
/// The fewest columns and rows that 26 corners can be drawn in, with a length beside them.
const FEWEST: (usize, usize) = (40, 14);

/// A plan drawn in characters.
#[derive(Debug, Clone, PartialEq)]
pub struct CharacterDrawing {
    /// Its lines, without blanks at their ends.
    pub lines: Vec<String>,
    /// How many mm of plan a column is; a row is twice that.
    pub column: f64,
    /// Whether a step too short for that was drawn longer than it is.
    pub stretched: bool,
    /// Whether the proof set is drawn in.
    pub with_checks: bool,
    /// Indices of the sides whose lengths found no place.
    pub unlabelled: Vec<usize>,
}

/// Draws the plan in at most `columns` by `rows` characters (40 by 14 at least, and fewer rows for fewer corners than 12).
#[must_use]
pub fn character_drawing(drawing: &Drawing, columns: usize, rows: usize) -> CharacterDrawing {
    let fewest = FEWEST.1.min(drawing.footprint.len() + 2);
    let (columns, rows) = (columns.max(FEWEST.0), rows.max(fewest));
    // Outside the outline there is room for the lengths of upright sides, and for lines of text above and below it if
    // that is what it takes.
    let beside = labels::longest_upright(drawing);
    let attempts = [0, 1, 2].map(|above| attempt(drawing, columns, rows, beside.min(columns / 4), above));
    let mut best: Option<CharacterDrawing> = None;
    for drawn in attempts {
        if best.as_ref().is_none_or(|best| drawn.unlabelled.len() < best.unlabelled.len()) {
            best = Some(drawn);
        }
    }
    best.unwrap_or_else(|| attempt(drawing, columns, rows, 0, 0))
}

/// The lines of [`character_drawing`].
#[must_use]
pub fn characters(drawing: &Drawing, columns: usize, rows: usize) -> Vec<String> {
    character_drawing(drawing, columns, rows).lines
}

fn attempt(drawing: &Drawing, columns: usize, rows: usize, beside: usize, above: usize) -> CharacterDrawing {
    let footprint = &drawing.footprint;
    let fit = Fit::new(footprint, columns - 2 * beside, rows - 2 * above);
    let corners: Vec<(usize, usize)> = footprint
        .points()
        .into_iter()
        .map(|p| {
            let (column, row) = fit.cell(p);
            (column + beside, row + above)
        })
        .collect();
    let mut canvas = Canvas::new(columns, rows);
    for (i, side) in footprint.sides().iter().enumerate() {
        canvas.side(corners[i], corners[side.to], side.house);
    }
    for (corner, at) in footprint.corners().iter().zip(&corners) {
        canvas.letter(*at, corner.name);
    }
    let with_checks = footprint.len() <= MOST_WITH_CHECKS
        && drawing.checks.iter().any(|check| check.purpose == CheckUse::Proof);
    if with_checks {
        for check in &drawing.checks {
            if let (CheckUse::Proof, Some(a), Some(b)) =
                (check.purpose, corners.get(check.from), corners.get(check.to))
            {
                canvas.dotted(*a, *b);
            }
        }
    }
    let unlabelled = labels::write(&mut canvas, drawing, &corners);
    CharacterDrawing {
        lines: canvas.lines(),
        column: fit.column,
        stretched: fit.stretched,
        with_checks,
        unlabelled,
    }
}
