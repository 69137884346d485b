//! The outline's own grid: the page cut along every corner's x and y, each cell all footprint, all ground or all house.

use super::footprint::Footprint;
use super::limits::SAME_PLACE;

/// What a cell of the grid is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cell {
    /// Inside the outline.
    Footprint,
    /// Outside it.
    Ground,
    /// Outside it, where the existing house stands.
    House,
}

/// The bounding box cut into cells along every corner's x and y.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// The cuts across the page, mm, ascending.
    pub xs: Vec<f64>,
    /// The cuts down the page, mm, ascending.
    pub ys: Vec<f64>,
    cells: Vec<Cell>,
}

impl Grid {
    /// The grid of a footprint.
    ///
    /// The house is taken to stand behind each house side, from there outward up to the next part of the footprint
    /// or the edge of the bounding box.
    #[must_use]
    pub fn new(footprint: &Footprint) -> Self {
        let corners = footprint.corners();
        let xs = distinct(corners.iter().map(|corner| corner.at.x));
        let ys = distinct(corners.iter().map(|corner| corner.at.y));
        let mut grid = Self { cells: vec![Cell::Ground; (xs.len() - 1) * (ys.len() - 1)], xs, ys };
        grid.fill_inside(footprint);
        grid.fill_house(footprint);
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

    /// The cell in `column`, `row`.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize) -> Cell {
        self.cells[row * self.columns() + column]
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
                for cell in &mut self.cells[row * columns + first..(row + 1) * columns] {
                    *cell = match cell {
                        Cell::Ground => Cell::Footprint,
                        Cell::Footprint | Cell::House => Cell::Ground,
                    };
                }
            }
        }
    }

    fn fill_house(&mut self, footprint: &Footprint) {
        for side in footprint.sides().iter().filter(|side| side.house) {
            let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
            let (out_x, out_y) = side.heading.outward();
            if side.heading.is_across() {
                let cut = self.row_at(a.y);
                for column in self.column_at(a.x.min(b.x))..self.column_at(a.x.max(b.x)) {
                    let behind = behind(cut, self.rows(), out_y);
                    self.fill_until_footprint(behind.map(|row| (column, row)));
                }
            } else {
                let cut = self.column_at(a.x);
                for row in self.row_at(a.y.min(b.y))..self.row_at(a.y.max(b.y)) {
                    let behind = behind(cut, self.columns(), out_x);
                    self.fill_until_footprint(behind.map(|column| (column, row)));
                }
            }
        }
    }

    fn fill_until_footprint(&mut self, cells: impl Iterator<Item = (usize, usize)>) {
        for (column, row) in cells {
            let index = row * self.columns() + column;
            if self.cells[index] == Cell::Footprint {
                return;
            }
            self.cells[index] = Cell::House;
        }
    }
}

/// The cells behind cut `cut` in order, nearest first, towards higher (`direction` > 0) or lower indices.
fn behind(cut: usize, count: usize, direction: f64) -> Box<dyn Iterator<Item = usize>> {
    if direction > 0.0 { Box::new(cut..count) } else { Box::new((0..cut).rev()) }
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
