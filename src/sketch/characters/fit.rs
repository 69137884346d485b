//! Which cell a place on the plan falls in.

use crate::geometry::Point;
use crate::plan::{Footprint, Grid, SAME_PLACE};

/// Corners on different uprights stand at least this many columns apart, so that their letters can be told apart.
const APART: usize = 2;

/// The plan's cuts and the cells they fall in.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fit {
    /// mm of plan to a column; a row is twice that.
    pub(super) column: f64,
    /// Whether some step was drawn longer than it is.
    pub(super) stretched: bool,
    xs: Vec<(f64, usize)>,
    ys: Vec<(f64, usize)>,
}

impl Fit {
    /// The largest drawing that fits in `columns` by `rows`, which must hold 26 corners.
    pub(super) fn new(footprint: &Footprint, columns: usize, rows: usize) -> Self {
        let grid = Grid::new(footprint);
        let (width, depth) = footprint.extent();
        let (last_column, last_row) = (columns.saturating_sub(1), rows.saturating_sub(1));
        let least = f64::max(width / last_column.max(1) as f64, depth / (2.0 * last_row.max(1) as f64));
        // Short steps drawn longer can push the far end over; a smaller scale makes room, and at a scale small enough
        // every step is as short as steps come.
        let mut column = two_figures(least);
        loop {
            let (xs, stretched_x) = cells(&grid.xs, column, APART);
            let (ys, stretched_y) = cells(&grid.ys, 2.0 * column, 1);
            let last = |cuts: &[(f64, usize)]| cuts.last().map_or(0, |cut| cut.1);
            if (last(&xs) <= last_column && last(&ys) <= last_row) || column > 1e12 {
                return Self { column, stretched: stretched_x || stretched_y, xs, ys };
            }
            column = two_figures(column * 1.02);
        }
    }

    /// (column, row) of a corner.
    pub(super) fn cell(&self, p: Point) -> (usize, usize) {
        (at(&self.xs, p.x), at(&self.ys, p.y))
    }
}

fn at(cuts: &[(f64, usize)], value: f64) -> usize {
    cuts.iter().find(|(cut, _)| (cut - value).abs() <= SAME_PLACE).map_or(0, |(_, cell)| *cell)
}

fn cells(cuts: &[f64], step: f64, apart: usize) -> (Vec<(f64, usize)>, bool) {
    let mut stretched = false;
    let mut placed: Vec<(f64, usize)> = vec![];
    for cut in cuts {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "cuts are from 0 up, and a step is no shorter than a cut over the number of cells; `as` saturates"
        )]
        let true_cell = (cut / step).round() as usize;
        let least = placed.last().map_or(0, |(_, cell)| cell + apart);
        stretched |= true_cell < least;
        placed.push((*cut, true_cell.max(least)));
    }
    (placed, stretched)
}

/// `value` rounded up to two figures, so that a column is a round number of millimetres.
fn two_figures(value: f64) -> f64 {
    let unit = 10_f64.powf(value.log10().floor() - 1.0);
    let rounded = (value / unit - 1e-9).ceil() * unit;
    if rounded.is_finite() && rounded > 0.0 { rounded } else { value }
}
