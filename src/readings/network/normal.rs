//! The normal equations of a network of distances: sum of squares, gradient, and inverse in each datum.

use nalgebra::{DMatrix, DVector};

use super::observation::{Datum, Observation};
use crate::geometry::Point;
use crate::network;

pub(super) fn sum_of_squares(points: &[Point], observations: &[Observation], datum: Datum<'_>) -> f64 {
    let readings: f64 =
        observations.iter().map(|o| ((points[o.from].distance(points[o.to]) - o.value) / o.sd).powi(2)).sum();
    let plan = match datum {
        Datum::Plan { corners, sd } => {
            points.iter().zip(corners).map(|(p, c)| (p.distance(*c) / sd).powi(2)).sum()
        }
        Datum::Free | Datum::Fixed(_) => 0.0,
    };
    readings + plan
}

/// One row of the weighted design: its four figures and their columns. The rest of the row is zero, and a network of
/// hundreds of distances is mostly that, so the sums below never visit it.
pub(super) struct Row {
    columns: [usize; 4],
    figures: [f64; 4],
}

/// The weighted design at `points`, with nothing in the columns of held corners.
pub(super) fn design(points: &[Point], observations: &[Observation], datum: Datum<'_>) -> Vec<Row> {
    let held = |corner: usize| matches!(datum, Datum::Fixed(held) if held.contains(&corner));
    observations
        .iter()
        .map(|o| {
            let mut figures = network::direction(points[o.from], points[o.to]).map(|f| f / o.sd);
            if held(o.from) {
                figures[..2].fill(0.0);
            }
            if held(o.to) {
                figures[2..].fill(0.0);
            }
            Row { columns: network::columns(o.from, o.to), figures }
        })
        .collect()
}

impl Row {
    fn parts(&self) -> impl Iterator<Item = (usize, f64)> + Clone {
        self.columns.into_iter().zip(self.figures)
    }
}

/// −½ the gradient of the sum of squares.
pub(super) fn gradient(
    design: &[Row],
    points: &[Point],
    observations: &[Observation],
    datum: Datum<'_>,
) -> DVector<f64> {
    let mut gradient = DVector::zeros(2 * points.len());
    for (row, o) in design.iter().zip(observations) {
        let misfit = (o.value - points[o.from].distance(points[o.to])) / o.sd;
        for (column, figure) in row.parts() {
            gradient[column] += figure * misfit;
        }
    }
    if let Datum::Plan { corners, sd } = datum {
        for (i, (p, c)) in points.iter().zip(corners).enumerate() {
            gradient[2 * i] += (c.x - p.x) / (sd * sd);
            gradient[2 * i + 1] += (c.y - p.y) / (sd * sd);
        }
    }
    gradient
}

/// The covariance that goes with a design, or `None` where it is singular.
pub(super) fn covariance(points: &[Point], design: &[Row], datum: Datum<'_>) -> Option<DMatrix<f64>> {
    let mut normal = DMatrix::zeros(2 * points.len(), 2 * points.len());
    for row in design {
        for (i, a) in row.parts() {
            for (j, b) in row.parts() {
                normal[(i, j)] += a * b;
            }
        }
    }
    Some(match datum {
        Datum::Free => {
            let motions = network::rigid_motions(points);
            let fixed = &motions * motions.transpose();
            normal += &fixed;
            normal.cholesky()?.inverse() - fixed
        }
        Datum::Fixed(held) => {
            for corner in held {
                normal[(2 * corner, 2 * corner)] = 1.0;
                normal[(2 * corner + 1, 2 * corner + 1)] = 1.0;
            }
            let mut inverse = normal.cholesky()?.inverse();
            for corner in held {
                inverse[(2 * corner, 2 * corner)] = 0.0;
                inverse[(2 * corner + 1, 2 * corner + 1)] = 0.0;
            }
            inverse
        }
        Datum::Plan { sd, .. } => {
            for i in 0..normal.nrows() {
                normal[(i, i)] += 1.0 / (sd * sd);
            }
            normal.cholesky()?.inverse()
        }
    })
}

/// The residuals' cofactor I − Ā C Āᵀ.
pub(super) fn cofactor(design: &[Row], covariance: &DMatrix<f64>) -> DMatrix<f64> {
    let count = design.len();
    let mut cofactor = DMatrix::identity(count, count);
    for (i, row) in design.iter().enumerate() {
        let mut reach = DVector::zeros(covariance.nrows());
        for (column, figure) in row.parts() {
            reach.axpy(figure, &covariance.column(column), 1.0);
        }
        for (j, other) in design.iter().enumerate() {
            cofactor[(j, i)] -= other.parts().map(|(column, figure)| figure * reach[column]).sum::<f64>();
        }
    }
    cofactor
}
