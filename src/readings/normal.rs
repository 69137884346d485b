//! The normal equations of a network of distances: sum of squares, gradient, and inverse in each datum.

use nalgebra::{DMatrix, DVector};

use super::adjust::{Datum, Observation};
use crate::geometry::Point;
use crate::network::{self, Distance};

pub(super) fn sum_of_squares(points: &[Point], observations: &[Observation], datum: Datum<'_>) -> f64 {
    let readings: f64 = observations
        .iter()
        .map(|o| ((points[o.from].distance(points[o.to]) - o.value) / o.sd).powi(2))
        .sum();
    let plan = match datum {
        Datum::Plan { corners, sd } => points
            .iter()
            .zip(corners)
            .map(|(p, c)| (p.distance(*c) / sd).powi(2))
            .sum(),
        Datum::Free | Datum::Fixed(_) => 0.0,
    };
    readings + plan
}

/// −½ the gradient of the sum of squares.
pub(super) fn gradient(
    design: &DMatrix<f64>,
    points: &[Point],
    observations: &[Observation],
    datum: Datum<'_>,
) -> DVector<f64> {
    let misfit = DVector::from_iterator(
        observations.len(),
        observations
            .iter()
            .map(|o| (o.value - points[o.from].distance(points[o.to])) / o.sd),
    );
    let mut gradient = design.tr_mul(&misfit);
    if let Datum::Plan { corners, sd } = datum {
        for (i, (p, c)) in points.iter().zip(corners).enumerate() {
            gradient[2 * i] += (c.x - p.x) / (sd * sd);
            gradient[2 * i + 1] += (c.y - p.y) / (sd * sd);
        }
    }
    gradient
}

pub(super) fn hold_columns(design: &mut DMatrix<f64>, datum: Datum<'_>) {
    if let Datum::Fixed(held) = datum {
        for corner in held {
            design.column_mut(2 * corner).fill(0.0);
            design.column_mut(2 * corner + 1).fill(0.0);
        }
    }
}

/// The weighted design at `points` and the covariance that goes with it, or `None` where it is singular.
pub(super) fn normal_inverse(
    points: &[Point],
    distances: &[Distance],
    datum: Datum<'_>,
) -> Option<(DMatrix<f64>, DMatrix<f64>)> {
    let mut design = network::weighted_design(points, distances);
    hold_columns(&mut design, datum);
    let mut normal = design.tr_mul(&design);
    let covariance = match datum {
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
    };
    Some((design, covariance))
}
