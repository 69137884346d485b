//! Where a tape between two corners lies.

use schemars::JsonSchema;
use serde::Serialize;

use super::grid::{Cell, Grid};
use super::limits::SAME_PLACE;
use crate::geometry::Point;

/// Where a tape pulled straight between two corners lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Lies {
    /// Over the footprint all the way, or along its edge.
    Inside,
    /// Partly over ground outside the footprint, across a cut-out.
    Outside,
    /// Through the existing house: it can't be taped.
    Blocked,
}

impl Lies {
    /// The word in tables and JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
            Self::Blocked => "blocked",
        }
    }
}

/// Where the tape from `a` to `b`, two corners of the grid's footprint, lies.
#[must_use]
pub fn lies(grid: &Grid, a: Point, b: Point) -> Lies {
    let cells = if (a.y - b.y).abs() <= SAME_PLACE {
        along_row(grid, a, b)
    } else if (a.x - b.x).abs() <= SAME_PLACE {
        along_column(grid, a, b)
    } else {
        crossed(grid, a, b)
    };
    if cells.contains(&Cell::House) {
        Lies::Blocked
    } else if cells.contains(&Cell::Ground) {
        Lies::Outside
    } else {
        Lies::Inside
    }
}

/// A line along a cut lies between two rows of cells: it takes the better of the two, since a tape along an edge of
/// the footprint lies on it, and one along a house wall can be pulled beside it.
fn along_row(grid: &Grid, a: Point, b: Point) -> Vec<Cell> {
    let row = grid.row_at(a.y);
    (grid.column_at(a.x.min(b.x))..grid.column_at(a.x.max(b.x)))
        .map(|column| {
            let above = (row > 0).then(|| grid.cell(column, row - 1));
            let below = (row < grid.rows()).then(|| grid.cell(column, row));
            better(above, below)
        })
        .collect()
}

fn along_column(grid: &Grid, a: Point, b: Point) -> Vec<Cell> {
    let column = grid.column_at(a.x);
    (grid.row_at(a.y.min(b.y))..grid.row_at(a.y.max(b.y)))
        .map(|row| {
            let left = (column > 0).then(|| grid.cell(column - 1, row));
            let right = (column < grid.columns()).then(|| grid.cell(column, row));
            better(left, right)
        })
        .collect()
}

/// Beyond the bounding box there is ground.
fn better(one: Option<Cell>, other: Option<Cell>) -> Cell {
    match (one.unwrap_or(Cell::Ground), other.unwrap_or(Cell::Ground)) {
        (Cell::Footprint, _) | (_, Cell::Footprint) => Cell::Footprint,
        (Cell::Ground, _) | (_, Cell::Ground) => Cell::Ground,
        (Cell::House, Cell::House) => Cell::House,
    }
}

/// The cells that a slanting line passes through, column by column.
fn crossed(grid: &Grid, a: Point, b: Point) -> Vec<Cell> {
    let (left, right) = if a.x < b.x { (a, b) } else { (b, a) };
    let slope = (right.y - left.y) / (right.x - left.x);
    let y_at = |x: f64| left.y + slope * (x - left.x);
    let mut cells = vec![];
    for column in grid.column_at(left.x)..grid.column_at(right.x) {
        let (y1, y2) = (y_at(grid.xs[column]), y_at(grid.xs[column + 1]));
        let (top, bottom) = (y1.min(y2), y1.max(y2));
        for row in 0..grid.rows() {
            // A cell that the line only touches at a corner is not passed through.
            let overlap = bottom.min(grid.ys[row + 1]) - top.max(grid.ys[row]);
            if overlap > SAME_PLACE {
                cells.push(grid.cell(column, row));
            }
        }
    }
    cells
}
