//! The outline's own grid: the page cut along every corner's x and y, each cell all inside the outline or all outside it.

use super::footprint::Footprint;
use super::limits::SAME_PLACE;
use crate::geometry::Point;

/// A part of the page cut into cells, each inside the outline or outside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// The cuts across the page, mm, ascending.
    pub xs: Vec<f64>,
    /// The cuts down the page, mm, ascending.
    pub ys: Vec<f64>,
    inside: Vec<bool>,
}

impl Grid {
    /// The bounding box of a footprint, cut along every corner's x and y.
    #[must_use]
    pub fn new(footprint: &Footprint) -> Self {
        let along =
            |pick: fn(Point) -> f64| distinct(footprint.corners().iter().map(|corner| pick(corner.at)));
        Self::cut(footprint, along(|p| p.x), along(|p| p.y))
    }

    /// The page cut along `xs` and `ys`, ascending, every corner's x and y among them.
    pub(super) fn cut(footprint: &Footprint, xs: Vec<f64>, ys: Vec<f64>) -> Self {
        let mut grid = Self { inside: vec![false; (xs.len() - 1) * (ys.len() - 1)], xs, ys };
        grid.fill_inside(footprint);
        grid
    }

    /// Columns of cells.
    #[must_use]
    pub fn columns(&self) -> usize {
        self.xs.len() - 1
    }

    /// Rows of cells.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.ys.len() - 1
    }

    /// Whether the cell in `column`, `row` is inside the outline.
    #[must_use]
    pub fn is_inside(&self, column: usize, row: usize) -> bool {
        self.inside[row * self.columns() + column]
    }

    /// The index of the cut at `x`.
    #[must_use]
    pub fn column_at(&self, x: f64) -> usize {
        index_of(&self.xs, x)
    }

    /// The index of the cut at `y`.
    #[must_use]
    pub fn row_at(&self, y: f64) -> usize {
        index_of(&self.ys, y)
    }

    /// A cell is inside where an odd number of upright sides lie to its left.
    fn fill_inside(&mut self, footprint: &Footprint) {
        let columns = self.columns();
        for side in footprint.sides().iter().filter(|side| !side.heading.is_across()) {
            let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
            let first = self.column_at(a.x);
            for row in self.row_at(a.y.min(b.y))..self.row_at(a.y.max(b.y)) {
                for inside in &mut self.inside[row * columns + first..(row + 1) * columns] {
                    *inside = !*inside;
                }
            }
        }
    }
}

/// The different values in ascending order; values within [`SAME_PLACE`] count once.
pub(super) fn distinct(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut sorted: Vec<f64> = values.collect();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup_by(|b, a| (*b - *a).abs() <= SAME_PLACE);
    sorted
}

fn index_of(cuts: &[f64], value: f64) -> usize {
    cuts.partition_point(|cut| *cut < value - SAME_PLACE)
}
