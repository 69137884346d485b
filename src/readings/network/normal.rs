//! The normal equations of a network of distances: sum of squares, gradient, and inverse in each datum.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

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
#[derive(Debug, Clone, PartialEq)]
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

impl Row {
    /// This row times the covariance times another: what one reading's adjusted distance has to do with another's.
    pub(super) fn through(&self, covariance: &DMatrix<f64>, other: &Self) -> f64 {
        self.parts().map(|(i, a)| other.parts().map(|(j, b)| a * b * covariance[(i, j)]).sum::<f64>()).sum()
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

/// The normal equations of a design, factored: `None` where they are singular. What the datum leaves free is held, so that
/// they are not.
pub(super) fn factor(points: &[Point], design: &[Row], datum: Datum<'_>) -> Option<Cholesky<f64, Dyn>> {
    let mut normal = DMatrix::zeros(2 * points.len(), 2 * points.len());
    for row in design {
        for (i, a) in row.parts() {
            for (j, b) in row.parts() {
                normal[(i, j)] += a * b;
            }
        }
    }
    match datum {
        Datum::Free => {
            let motions = network::rigid_motions(points);
            for motion in motions.column_iter() {
                normal.ger(1.0, &motion, &motion, 1.0);
            }
        }
        Datum::Fixed(held) => {
            for corner in held {
                normal[(2 * corner, 2 * corner)] = 1.0;
                normal[(2 * corner + 1, 2 * corner + 1)] = 1.0;
            }
        }
        Datum::Plan { sd, .. } => {
            for i in 0..normal.nrows() {
                normal[(i, i)] += 1.0 / (sd * sd);
            }
        }
    }
    normal.cholesky()
}

/// The covariance that goes with the factored equations: what was held for their sake is taken out again.
pub(super) fn covariance(points: &[Point], factor: &Cholesky<f64, Dyn>, datum: Datum<'_>) -> DMatrix<f64> {
    let mut inverse = factor.inverse();
    match datum {
        Datum::Free => {
            let motions = network::rigid_motions(points);
            for motion in motions.column_iter() {
                inverse.ger(-1.0, &motion, &motion, 1.0);
            }
        }
        Datum::Fixed(held) => {
            for corner in held {
                inverse[(2 * corner, 2 * corner)] = 0.0;
                inverse[(2 * corner + 1, 2 * corner + 1)] = 0.0;
            }
        }
        Datum::Plan { .. } => {}
    }
    inverse
}
