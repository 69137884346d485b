//! Taped distances between points as a network: what they fix, and how well.
//!
//! A distance between points i and j has the design row (−cos α, −sin α, +cos α, +sin α) in the columns of
//! xᵢ, yᵢ, xⱼ, yⱼ. Distances alone leave the whole figure free to shift and turn, so covariances are given in the
//! *free datum*: `N⁺ = (N + GGᵀ)⁻¹ − GGᵀ`, with G an orthonormal basis of the two shifts and the turn.
//!
//! ```
//! use pegline::geometry::Point;
//! use pegline::network::{Distance, needed, rank};
//!
//! let corners = [(0.0, 0.0), (6000.0, 0.0), (6000.0, 4000.0), (0.0, 4000.0)].map(|(x, y)| Point::new(x, y));
//! let line = |from, to| Distance { from, to, sd: 1.0 };
//! let mut taped = vec![line(0, 1), line(1, 2), line(2, 3), line(3, 0)];
//! // Four sides leave a rectangle loose; one diagonal more fixes it.
//! assert_eq!((needed(4), rank(&corners, &taped)), (5, 4));
//! taped.push(line(0, 2));
//! assert_eq!(rank(&corners, &taped), 5);
//! ```

use nalgebra::{DMatrix, DVector, Matrix2};

use crate::geometry::Point;

/// The ratio of smallest to largest singular value under which a figure counts as loose.
pub const LOOSE: f64 = 1e-9;

/// An eigenvalue of the normal matrix above this part of the largest is no rounding error, and far above [`LOOSE`] squared.
const CLEARLY_FIXED: f64 = 1e-9;

/// A slip of this many σ/√r is found four times in five by a test at 0.1 % (Baarda 1968: δ₀ for α₀ = 0.001, power 0.80).
pub const DETECTABLE: f64 = 4.1321;

/// A slip of this many σ/√r is found 999 times in 1,000 by the same test: 3.2905 + 3.0902 of the normal distribution.
pub const SURELY_DETECTABLE: f64 = 6.3807;

/// One distance between two points of a network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Distance {
    /// Index of the first point.
    pub from: usize,
    /// Index of the second point.
    pub to: usize,
    /// Standard deviation of the taped length, mm.
    pub sd: f64,
}

/// The design row's four figures for the distance from `a` to `b`, in the order `x, y` of `a`, then `x, y` of `b`.
///
/// All zero where the points coincide.
#[must_use]
pub fn direction(a: Point, b: Point) -> [f64; 4] {
    let length = a.distance(b);
    if length == 0.0 {
        return [0.0; 4];
    }
    let (c, s) = ((b.x - a.x) / length, (b.y - a.y) / length);
    [-c, -s, c, s]
}

/// The columns of a distance's design row, in the order of [`direction`].
#[must_use]
pub const fn columns(from: usize, to: usize) -> [usize; 4] {
    [2 * from, 2 * from + 1, 2 * to, 2 * to + 1]
}

/// The design matrix with each row divided by its standard deviation: one row a distance, two columns a point. A distance
/// to a point that is not there is a row of noughts: it fixes nothing.
#[must_use]
pub fn weighted_design(points: &[Point], distances: &[Distance]) -> DMatrix<f64> {
    let mut design = DMatrix::zeros(distances.len(), 2 * points.len());
    for (row, d) in distances.iter().enumerate() {
        let (Some(from), Some(to)) = (points.get(d.from), points.get(d.to)) else { continue };
        let figures = direction(*from, *to);
        for (column, figure) in columns(d.from, d.to).into_iter().zip(figures) {
            design[(row, column)] = figure / d.sd;
        }
    }
    design
}

/// An orthonormal basis of the figure's shifts and turn: 2n rows, three columns.
#[must_use]
pub fn rigid_motions(points: &[Point]) -> DMatrix<f64> {
    let n = points.len();
    let count = n as f64;
    let (cx, cy) = points.iter().fold((0.0, 0.0), |(x, y), p| (x + p.x / count, y + p.y / count));
    let spread = points.iter().map(|p| (p.x - cx).powi(2) + (p.y - cy).powi(2)).sum::<f64>().sqrt();
    let shift = 1.0 / count.sqrt();
    let mut basis = DMatrix::zeros(2 * n, 3);
    for (i, p) in points.iter().enumerate() {
        basis[(2 * i, 0)] = shift;
        basis[(2 * i + 1, 1)] = shift;
        if spread > 0.0 {
            basis[(2 * i, 2)] = -(p.y - cy) / spread;
            basis[(2 * i + 1, 2)] = (p.x - cx) / spread;
        }
    }
    basis
}

/// The number of independent distances: the rank of the design matrix, judged by its singular values.
#[must_use]
pub fn rank(points: &[Point], distances: &[Distance]) -> usize {
    if distances.is_empty() {
        return 0;
    }
    let values = weighted_design(points, distances).singular_values();
    let largest = values.max();
    values.iter().filter(|v| **v > LOOSE * largest).count()
}

/// The number of independent distances that fix `n` points up to moving the whole: 2n − 3 (Laman 1970).
#[must_use]
pub const fn needed(n: usize) -> usize {
    (2 * n).saturating_sub(3)
}

/// Covariance of the points, mm², in the free datum (2n × 2n), or `None` where the distances leave the figure loose.
#[must_use]
pub fn free_covariance(points: &[Point], distances: &[Distance]) -> Option<DMatrix<f64>> {
    let design = weighted_design(points, distances);
    let motions = rigid_motions(points);
    let fixed = &motions * motions.transpose();
    let normal = design.transpose() * &design + &fixed;
    let largest = normal.trace();
    let inverse = normal.cholesky()?.inverse();
    // The smallest eigenvalue is at least 1/trace of the inverse and the largest at most the trace, so that most figures
    // need no singular values to be told from loose ones. Eigenvalues are squares of these, and near the last bits of the
    // largest they are noise: what is not clear of that is left to the singular values.
    let surely_fixed = 1.0 / inverse.trace() > CLEARLY_FIXED * largest;
    if !surely_fixed && rank(points, distances) < needed(points.len()) {
        return None;
    }
    Some(inverse - fixed)
}

/// The covariance with one distance more, by one step (Sherman and Morrison 1950): a distance tells nothing of where the
/// whole lies, so that the datum stays free.
pub(crate) fn with_distance(mut covariance: DMatrix<f64>, points: &[Point], line: &Distance) -> DMatrix<f64> {
    let (reach, variance) = reach(&covariance, points, line);
    covariance.ger(-1.0 / (line.sd * line.sd + variance), &reach, &reach, 1.0);
    covariance
}

/// The standard error ellipse of one point (39.35 % of the time the point lies inside).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Semi-major axis, mm: the point's standard deviation in its worst direction.
    pub major: f64,
    /// Semi-minor axis, mm.
    pub minor: f64,
    /// Direction of the major axis, radians from x towards y (clockwise on the page), in (−π/2, π/2].
    pub bearing: f64,
}

/// The error ellipse of point `index` in a covariance of 2n × 2n.
#[must_use]
pub fn ellipse(covariance: &DMatrix<f64>, index: usize) -> Ellipse {
    let block: Matrix2<f64> = covariance.fixed_view::<2, 2>(2 * index, 2 * index).into();
    let (xx, yy, xy) = (block[(0, 0)], block[(1, 1)], block[(0, 1)]);
    let (major, minor) = semi_axes(xx, yy, xy);
    Ellipse { major, minor, bearing: 0.5 * (2.0 * xy).atan2(xx - yy) }
}

/// Semi-axes, mm, of the ellipse with variances `xx`, `yy` and covariance `xy`, mm²: larger first.
#[must_use]
pub fn semi_axes(xx: f64, yy: f64, xy: f64) -> (f64, f64) {
    let mean = f64::midpoint(xx, yy);
    let half_spread = (0.5 * (xx - yy)).hypot(xy);
    ((mean + half_spread).max(0.0).sqrt(), (mean - half_spread).max(0.0).sqrt())
}

/// The largest ellipse semi-axis over all points, mm.
#[must_use]
pub fn worst_corner_sd(covariance: &DMatrix<f64>) -> f64 {
    (0..covariance.nrows() / 2).map(|i| ellipse(covariance, i).major).fold(0.0, f64::max)
}

/// Variance, mm², of the distance between two points of an adjusted figure.
#[must_use]
pub fn distance_variance(points: &[Point], covariance: &DMatrix<f64>, from: usize, to: usize) -> f64 {
    let row = direction(points[from], points[to]);
    let columns = columns(from, to);
    let mut variance = 0.0;
    for (a, i) in row.into_iter().zip(columns) {
        for (b, j) in row.into_iter().zip(columns) {
            variance += a * b * covariance[(i, j)];
        }
    }
    variance.max(0.0)
}

/// The covariance in the datum that three conditions on the coordinates make (2n × 3), instead of the free one.
///
/// An S-transformation: S = I − G(BᵀG)⁻¹Bᵀ, with G the rigid motions and B the conditions. `None` where they don't hold it.
#[must_use]
pub fn covariance_in(
    covariance: &DMatrix<f64>,
    points: &[Point],
    conditions: &DMatrix<f64>,
) -> Option<DMatrix<f64>> {
    let size = 2 * points.len();
    let motions = rigid_motions(points);
    let inverse = conditions.tr_mul(&motions).try_inverse()?;
    let s = DMatrix::identity(size, size) - motions * inverse * conditions.transpose();
    Some(&s * covariance * s.transpose())
}

/// The covariance of the same points after the whole is turned by `turn` radians from x towards y.
#[must_use]
pub fn turned_covariance(covariance: &DMatrix<f64>, turn: f64) -> DMatrix<f64> {
    let (sin, cos) = turn.sin_cos();
    let size = covariance.nrows();
    let mut rotation = DMatrix::zeros(size, size);
    for i in (0..size).step_by(2) {
        rotation[(i, i)] = cos;
        rotation[(i, i + 1)] = -sin;
        rotation[(i + 1, i)] = sin;
        rotation[(i + 1, i + 1)] = cos;
    }
    &rotation * covariance * rotation.transpose()
}

/// The gradient of the angle at `corner` over all coordinates, radians per mm.
#[must_use]
pub fn angle_gradient(points: &[Point], corner: usize) -> DVector<f64> {
    let (before, after) = neighbours(corner, points.len());
    let (p, a, b) = (points[corner], points[before], points[after]);
    let cross = (a.x - p.x) * (b.y - p.y) - (a.y - p.y) * (b.x - p.x);
    let turn = if cross < 0.0 { -1.0 } else { 1.0 };
    let mut gradient = DVector::zeros(2 * points.len());
    // The angle is the bearing of `after` less that of `before`, the way round that makes it positive.
    for (end, other, sign) in [(after, b, turn), (before, a, -turn)] {
        let (dx, dy) = (other.x - p.x, other.y - p.y);
        let squared = (dx * dx + dy * dy).max(f64::MIN_POSITIVE);
        let (gx, gy) = (-dy / squared, dx / squared);
        gradient[2 * end] += sign * gx;
        gradient[2 * end + 1] += sign * gy;
        gradient[2 * corner] -= sign * gx;
        gradient[2 * corner + 1] -= sign * gy;
    }
    gradient
}

/// The corners before and after `corner` round the outline.
#[must_use]
pub(crate) const fn neighbours(corner: usize, count: usize) -> (usize, usize) {
    ((corner + count - 1) % count, (corner + 1) % count)
}

/// C a, and aᵀ C a, of a line's design row a.
pub(crate) fn reach(covariance: &DMatrix<f64>, points: &[Point], line: &Distance) -> (DVector<f64>, f64) {
    let figures = direction(points[line.from], points[line.to]);
    let columns = columns(line.from, line.to);
    let mut reach = DVector::zeros(covariance.nrows());
    for (figure, column) in figures.into_iter().zip(columns) {
        reach.axpy(figure, &covariance.column(column), 1.0);
    }
    let variance = figures.into_iter().zip(columns).map(|(f, c)| f * reach[c]).sum();
    (reach, variance)
}
