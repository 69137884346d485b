//! Which corners the distances leave loose.
//!
//! A distance is implied by those taped when every motion that keeps the taped ones also keeps it. The corners all
//! of whose distances to each other are implied move as one body; the largest such body counts as fixed, and the
//! corners outside it are loose.

use nalgebra::DMatrix;

use crate::geometry::Point;
use crate::network::{self, Distance};

/// The loose corners, in order. Empty when the figure is fixed; every corner when no three hold together.
#[must_use]
pub fn loose_corners(points: &[Point], distances: &[Distance]) -> Vec<usize> {
    let n = points.len();
    let motions = free_motions(points, distances);
    let implied = |i: usize, j: usize| {
        let row = network::direction(points[i], points[j]);
        let columns = network::columns(i, j);
        motions.column_iter().all(|motion| {
            let change: f64 = row.iter().zip(columns).map(|(a, c)| a * motion[c]).sum();
            change.abs() < 1e-7
        })
    };
    let mut largest: Vec<usize> = Vec::new();
    for i in 0..n {
        for j in (i + 1..n).filter(|j| implied(i, *j)) {
            let body: Vec<usize> =
                (0..n).filter(|k| *k == i || *k == j || (implied(i, *k) && implied(j, *k))).collect();
            if body.len() > largest.len() {
                largest = body;
            }
        }
    }
    if largest.len() < 3 {
        largest.clear();
    }
    (0..n).filter(|i| !largest.contains(i)).collect()
}

/// An orthonormal basis of the motions that keep every taped distance, shifts and turn included; a column each.
fn free_motions(points: &[Point], distances: &[Distance]) -> DMatrix<f64> {
    let columns = 2 * points.len();
    let design = network::weighted_design(points, distances);
    // Zero rows make the decomposition give every right singular vector.
    let rows = design.nrows().max(columns);
    let square = design.resize(rows, columns, 0.0);
    let decomposition = square.svd(false, true);
    let largest = decomposition.singular_values.max();
    let kept: Vec<usize> =
        (0..columns).filter(|i| decomposition.singular_values[*i] <= network::LOOSE * largest).collect();
    let mut basis = DMatrix::zeros(columns, kept.len());
    if let Some(v_t) = decomposition.v_t {
        for (column, i) in kept.into_iter().enumerate() {
            basis.set_column(column, &v_t.row(i).transpose());
        }
    }
    basis
}
