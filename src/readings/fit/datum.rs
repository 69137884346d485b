//! What holds the true outline on what was built: lines of sides that are kept, and the placement that keeps them.
//!
//! A corner's place is measured square to its two sides. Each of those measures is a component, numbered by side: `2 s` is
//! the start of side `s` off the side's own line, `2 s + 1` its end.

use nalgebra::{DMatrix, Vector2, Vector3};

use super::placement::{Placement, overhangs};
use crate::geometry::Point;
use crate::plan::Footprint;

/// A turn is told in thousandths of a radian, so that it weighs about as much as a shift in the sums.
const LEVER: f64 = 1000.0;

/// The lines of a plan's sides.
#[derive(Debug)]
pub(in crate::readings) struct Lines {
    plan: Vec<Point>,
    /// Outward, of each side.
    normals: Vec<Vector2<f64>>,
}

impl Lines {
    pub(in crate::readings) fn of(plan: &Footprint) -> Self {
        let normal = |side: &crate::plan::Side| {
            let (x, y) = side.heading.outward();
            Vector2::new(x, y)
        };
        Self { plan: plan.points(), normals: plan.sides().iter().map(normal).collect() }
    }

    pub(in crate::readings) fn components(&self) -> usize {
        2 * self.plan.len()
    }

    /// The corner that component `k` is of.
    pub(in crate::readings) fn corner(&self, k: usize) -> usize {
        (k / 2 + k % 2) % self.plan.len()
    }

    /// Outward, square to the side of component `k`.
    pub(in crate::readings) fn normal(&self, k: usize) -> Vector2<f64> {
        self.normals[k / 2]
    }

    /// How far each component is off, mm: + the plan stands outside what was built.
    pub(in crate::readings) fn offsets(&self, placement: &Placement) -> Vec<f64> {
        overhangs(&self.plan, &placement.points).into_iter().flat_map(|(start, end)| [start, end]).collect()
    }

    /// What a shift across, one down and a turn take off component `k`.
    pub(in crate::readings) fn motion(&self, k: usize) -> Vector3<f64> {
        let (n, p) = (self.normal(k), self.plan[self.corner(k)]);
        Vector3::new(n.x, n.y, (n.y * p.x - n.x * p.y) / LEVER)
    }

    /// Whether component `k` changes where the outline slides along `side`.
    pub(in crate::readings) fn slides(&self, side: usize, k: usize) -> bool {
        self.normal(k).dot(&self.normals[side]).abs() < 0.5
    }

    /// +1 where component `k` is measured the way that `side` runs, −1 against it.
    pub(in crate::readings) fn ahead(&self, side: usize, k: usize) -> f64 {
        // A clockwise outline, y down: outward is to the left of the way round.
        let n = self.normals[side];
        self.normal(k).dot(&Vector2::new(-n.y, n.x)).signum()
    }

    /// Laid from `start` so that the components that stay are off as little as can be, by least squares; exactly on the line of
    /// the side that is held. With what holds it: three conditions on the coordinates (2n × 3). Nothing where they don't.
    pub(in crate::readings) fn laid(
        &self,
        start: &Placement,
        held: Option<usize>,
        stays: &[usize],
    ) -> Option<(Placement, DMatrix<f64>)> {
        let conditions = self.conditions(held, stays);
        let mut placement = start.clone();
        // The turn is small; a second step leaves nothing that counts, a third is for rough outlines.
        for _ in 0..3 {
            let off = DMatrix::from_fn(self.components(), 1, |row, _| {
                let (p, q) = (self.plan[row / 2], placement.points[row / 2]);
                if row % 2 == 0 { p.x - q.x } else { p.y - q.y }
            });
            let step = conditions.tr_mul(&rigid(&placement.points)).try_inverse()? * conditions.tr_mul(&off);
            let (sin, cos) = (step[2] / LEVER).sin_cos();
            for p in &mut placement.points {
                *p = Point::new(cos * p.x - sin * p.y + step[0], sin * p.x + cos * p.y + step[1]);
            }
            placement.turn += step[2] / LEVER;
        }
        Some((placement, conditions))
    }

    fn conditions(&self, held: Option<usize>, stays: &[usize]) -> DMatrix<f64> {
        let mut conditions = DMatrix::zeros(self.components(), 3);
        let mut add = |k: usize, share: Vector3<f64>| {
            let block = self.normal(k) * share.transpose();
            let mut rows = conditions.fixed_rows_mut::<2>(2 * self.corner(k));
            rows += block;
        };
        if let Some(side) = held {
            add(2 * side, Vector3::x());
            add(2 * side + 1, Vector3::y());
            for k in stays.iter().copied().filter(|k| self.slides(side, *k)) {
                add(k, Vector3::z() * self.ahead(side, k));
            }
        } else {
            for k in stays {
                add(*k, self.motion(*k));
            }
        }
        conditions
    }
}

/// The rigid motions of `points` about the origin: a shift across, one down, and a turn.
fn rigid(points: &[Point]) -> DMatrix<f64> {
    DMatrix::from_fn(2 * points.len(), 3, |row, column| {
        let p = points[row / 2];
        match (column, row % 2) {
            (0, 0) | (1, 1) => 1.0,
            (2, 0) => -p.y / LEVER,
            (2, _) => p.x / LEVER,
            _ => 0.0,
        }
    })
}
