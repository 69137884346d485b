//! The corners' covariance as distances come and go, and what one more distance would do to it.

use std::rc::Rc;

use nalgebra::DMatrix;

use crate::geometry::Point;
use crate::network::{DETECTABLE, Distance, columns, direction, rigid_motions, weighted_design};
use crate::plan::MOST_CORNERS;

/// Scores this close, relatively, are equal; the earlier set in order of names is kept.
pub(super) const TIE: f64 = 1e-7;

/// A prior standard deviation on every coordinate, mm: so wide that it does not matter once the shape is fixed (one
/// part in a million of the variance), but it lets a loose shape be reckoned with on the way there.
const WIDE_PRIOR: f64 = 1000.0;
/// Redundancy below this counts as none: what the wide prior alone gives is some millionths.
pub(super) const UNCHECKED: f64 = 1e-4;
/// A slip in an unchecked reading hides whatever its size; an unchecked reading counts as hiding this much, mm.
const HIDES_ANYTHING: f64 = 1e9;

/// A distance's design row divided by its standard deviation: the columns and the figures in them.
#[derive(Debug, Clone, Copy)]
struct Row {
    columns: [usize; 4],
    figures: [f64; 4],
    sd: f64,
}

impl Row {
    fn new(points: &[Point], distance: &Distance) -> Self {
        Self {
            columns: columns(distance.from, distance.to),
            figures: direction(points[distance.from], points[distance.to]).map(|f| f / distance.sd),
            sd: distance.sd,
        }
    }

    fn dot(&self, vector: &[f64]) -> f64 {
        self.columns.iter().zip(self.figures).map(|(c, f)| vector[*c] * f).sum()
    }
}

/// A figure for each coordinate; those past the plan's corners are nothing.
type Product = [f64; 2 * MOST_CORNERS];

/// The larger eigenvalue of a covariance block: the square of the ellipse's semi-major axis.
#[expect(
    clippy::imprecise_flops,
    reason = "the innermost step of the search; the figures are far from overflow"
)]
pub(super) fn worst_direction(xx: f64, yy: f64, xy: f64) -> f64 {
    let half = 0.5 * (xx - yy);
    0.5 * (xx + yy) + (half * half + xy * xy).sqrt()
}

/// The covariance of all corners under the wide prior, updated one distance at a time (Sherman and Morrison 1950).
#[derive(Debug, Clone)]
pub(super) struct State {
    size: usize,
    /// Row by row, mm².
    covariance: Vec<f64>,
    /// For each corner the xx, yy and xy that the shifts and the turn of the whole account for, mm². This and the rows
    /// stay as they are: copies of the state share them.
    motion: Rc<[[f64; 3]]>,
    sides: Rc<[Row]>,
    candidates: Rc<[Row]>,
}

impl State {
    /// With the sides taped and no diagonal yet.
    pub(super) fn new(points: &[Point], sides: &[Distance], candidates: &[Distance]) -> Self {
        let size = 2 * points.len();
        let design = weighted_design(points, sides);
        let motions = rigid_motions(points);
        let fixed = &motions * motions.transpose();
        let prior = WIDE_PRIOR.powi(-2);
        let normal = design.transpose() * &design + &fixed + DMatrix::identity(size, size) * prior;
        // Positive definite by the prior, so the factor exists; a zero covariance would only make every set score alike.
        let covariance =
            normal.cholesky().map_or_else(|| DMatrix::zeros(size, size), |factor| factor.inverse());
        let motion = (0..points.len())
            .map(|p| (2 * p, 2 * p + 1))
            .map(|(x, y)| [fixed[(x, x)], fixed[(y, y)], fixed[(x, y)]].map(|m| m / (1.0 + prior)))
            .collect();
        let rows = |distances: &[Distance]| distances.iter().map(|d| Row::new(points, d)).collect();
        Self {
            size,
            covariance: covariance.as_slice().to_vec(),
            motion,
            sides: rows(sides),
            candidates: rows(candidates),
        }
    }

    pub(super) fn candidate_count(&self) -> usize {
        self.candidates.len()
    }

    pub(super) fn size(&self) -> usize {
        self.size
    }

    /// The covariance times each candidate's row, one after the other, and each candidate's variance by it.
    pub(super) fn products(&self, products: &mut [f64], spreads: &mut [f64]) {
        let places = products.chunks_exact_mut(self.size).zip(spreads);
        for (row, (product, spread)) in self.candidates.iter().zip(places) {
            self.multiply(row, product);
            *spread = row.dot(product);
        }
    }

    /// A candidate's row times a vector.
    pub(super) fn along(&self, candidate: usize, vector: &[f64]) -> f64 {
        self.candidates[candidate].dot(vector)
    }

    /// A corner's xx, yy and xy in the free datum, mm².
    pub(super) fn block(&self, corner: usize) -> [f64; 3] {
        let (x, y) = (2 * corner, 2 * corner + 1);
        let at = |i: usize, j: usize| self.covariance[i * self.size + j];
        let motion = self.motion[corner];
        [at(x, x) - motion[0], at(y, y) - motion[1], at(x, y) - motion[2]]
    }

    /// The worst corner's variance in its worst direction, free datum, mm².
    pub(super) fn worst_variance(&self) -> f64 {
        (0..self.motion.len())
            .map(|corner| self.block(corner))
            .map(|[xx, yy, xy]| worst_direction(xx, yy, xy))
            .fold(0.0, f64::max)
    }

    pub(super) fn copy_from(&mut self, other: &Self) {
        self.covariance.copy_from_slice(&other.covariance);
    }

    /// The covariance times a row: symmetric, so its rows serve as columns.
    fn multiply(&self, row: &Row, product: &mut [f64]) {
        let [a, b, c, d] =
            row.columns.map(|column| &self.covariance[column * self.size..(column + 1) * self.size]);
        let [fa, fb, fc, fd] = row.figures;
        for (i, p) in product.iter_mut().enumerate() {
            *p = a[i] * fa + b[i] * fb + c[i] * fc + d[i] * fd;
        }
    }

    /// How uncertain a candidate is from what is taped already, in its own variances.
    pub(super) fn spread(&self, candidate: usize) -> f64 {
        self.variance_along(&self.candidates[candidate])
    }

    fn variance_along(&self, row: &Row) -> f64 {
        let mut sum = 0.0;
        for (i, f) in row.columns.iter().zip(row.figures) {
            for (j, g) in row.columns.iter().zip(row.figures) {
                sum += f * g * self.covariance[i * self.size + j];
            }
        }
        sum
    }

    /// What adding a candidate (`sign` 1, or −1 for taking it away) does: the covariance loses, or gains, `step · stepᵀ`.
    fn step(&self, candidate: usize, sign: f64) -> Product {
        let row = &self.candidates[candidate];
        // On the stack: these are the innermost steps of the search.
        let mut step = [0.0; 2 * MOST_CORNERS];
        let product = &mut step[..self.size];
        self.multiply(row, product);
        // Above zero while a reading that is taken away is in; the floor keeps a rounding error from turning the sign.
        let scale = (1.0 + sign * row.dot(product)).max(1e-12).sqrt();
        for p in product {
            *p /= scale;
        }
        step
    }

    pub(super) fn add(&mut self, candidate: usize) {
        self.shift(&self.step(candidate, 1.0), -1.0);
    }

    pub(super) fn remove(&mut self, candidate: usize) {
        self.shift(&self.step(candidate, -1.0), 1.0);
    }

    fn shift(&mut self, step: &[f64], sign: f64) {
        for (line, s) in self.covariance.chunks_exact_mut(self.size).zip(step) {
            let factor = sign * s;
            for (c, t) in line.iter_mut().zip(step) {
                *c += factor * t;
            }
        }
    }

    /// The worst corner's variance in its worst direction if `candidate` were taped too, free datum, mm²; once that is over
    /// `enough`, whatever is known of it by then.
    pub(super) fn worst_variance_with(&self, candidate: usize, enough: f64) -> f64 {
        let row = &self.candidates[candidate];
        let mut product = [0.0; 2 * MOST_CORNERS];
        let product = &mut product[..self.size];
        self.multiply(row, product);
        let share = (1.0 + row.dot(product)).recip();
        self.worst_variance_less(|i, j| share * product[i] * product[j], enough)
    }

    /// The same if two candidates were taped too, with what [`Self::products`] gives (Woodbury 1950).
    pub(super) fn worst_variance_with_both(
        &self,
        (i, j): (usize, usize),
        products: &[f64],
        spreads: &[f64],
        enough: f64,
    ) -> f64 {
        let [p, q] = [i, j].map(|candidate| &products[candidate * self.size..(candidate + 1) * self.size]);
        let (one, two, both) = (1.0 + spreads[i], 1.0 + spreads[j], self.along(i, q));
        let scale = (one * two - both * both).recip();
        let (pp, qq, pq) = (two * scale, one * scale, both * scale);
        let less = |x: usize, y: usize| p[x] * (pp * p[y] - pq * q[y]) + q[x] * (qq * q[y] - pq * p[y]);
        self.worst_variance_less(less, enough)
    }

    /// The worst corner's variance with the covariance less what `less` says of two coordinates, once over `enough` whatever
    /// is known of it by then.
    fn worst_variance_less(&self, less: impl Fn(usize, usize) -> f64, enough: f64) -> f64 {
        let mut worst = 0.0;
        for (corner, motion) in self.motion.iter().enumerate() {
            let (x, y) = (2 * corner, 2 * corner + 1);
            let at = |i: usize, j: usize| self.covariance[i * self.size + j] - less(i, j);
            let (xx, yy) = (at(x, x) - motion[0], at(y, y) - motion[1]);
            // The worst direction's variance is never more than both together, which spares most corners the root.
            if xx + yy > worst {
                worst = f64::max(worst, worst_direction(xx, yy, at(x, y) - motion[2]));
                if worst > enough {
                    break;
                }
            }
        }
        worst
    }

    /// The largest slip that a reading could hide if `candidate` were taped too, mm; unchecked readings count as
    /// hiding [`HIDES_ANYTHING`] each. Once that is over `enough`, whatever is known of it by then.
    pub(super) fn worst_hidden_with(
        &self,
        candidate: usize,
        taped: impl Iterator<Item = usize>,
        enough: f64,
    ) -> f64 {
        let step = self.step(candidate, 1.0);
        let rows = self.sides.iter().copied().chain(taped.chain([candidate]).map(|i| self.candidates[i]));
        let (mut worst, mut unchecked) = (0.0, 0.0);
        for row in rows {
            let along = row.dot(&step);
            let redundancy = 1.0 - (self.variance_along(&row) - along * along);
            if redundancy < UNCHECKED {
                unchecked += HIDES_ANYTHING;
            } else {
                worst = f64::max(worst, DETECTABLE * row.sd / redundancy.sqrt());
            }
            if worst + unchecked > enough {
                break;
            }
        }
        worst + unchecked
    }
}
