//! Lines for a limit: how far out of square a corner may be before its tapes can tell, and which lines bring that down.

use nalgebra::{DMatrix, DVector};

use crate::geometry::Point;
use crate::network::{self, Distance, angle_gradient, neighbours};

/// A corner is too close to call within 1.96 standard deviations of the limit (19 times in 20), and of a perfect plate all of
/// up to 26 corners together lie within 3.10 of square as often (the normal distribution at 0.05 / 26, both ways): a limit of
/// so many standard deviations is called.
const CALLED: f64 = 1.96 + 3.10;

/// What limit a set can call.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Called {
    /// The least limit that the set with its spares can call, mm.
    pub by_set: f64,
    /// The least that can be called with every line taped, mm.
    pub by_all: f64,
}

/// The corners' angles as a network sees them.
struct Angles {
    gradients: Vec<DVector<f64>>,
    /// The longer side of each corner, mm.
    longer: Vec<f64>,
}

impl Angles {
    fn new(points: &[Point]) -> Self {
        let n = points.len();
        let longer = |corner: usize| {
            let (before, after) = neighbours(corner, n);
            points[corner].distance(points[before]).max(points[corner].distance(points[after]))
        };
        Self {
            gradients: (0..n).map(|corner| angle_gradient(points, corner)).collect(),
            longer: (0..n).map(longer).collect(),
        }
    }

    /// The least limit that is called, mm, once what is known is `less` by that along each gradient, radians².
    fn called(&self, covariance: &DMatrix<f64>, less: impl Fn(&DVector<f64>) -> f64) -> f64 {
        let at = |(gradient, longer): (&DVector<f64>, &f64)| {
            let variance = gradient.dot(&(covariance * gradient)) - less(gradient);
            CALLED * longer * variance.max(0.0).sqrt()
        };
        self.gradients.iter().zip(&self.longer).map(at).fold(0.0, f64::max)
    }
}

/// Adds to the chosen, the most telling first, until a limit of `limit` mm can be called; they stay as they were where even
/// every line can't. `None` where the lines leave the shape loose.
pub(super) fn add_for_limit(
    points: &[Point],
    sides: &[Distance],
    candidates: &[Distance],
    chosen: &mut Vec<usize>,
    limit: f64,
) -> Option<(Called, DMatrix<f64>)> {
    let angles = Angles::new(points);
    let all: Vec<usize> = (0..candidates.len()).collect();
    let by_all = angles.called(&network::free_covariance(points, &taped(sides, candidates, &all))?, |_| 0.0);
    let mut covariance = network::free_covariance(points, &taped(sides, candidates, chosen))?;
    let mut by_set = angles.called(&covariance, |_| 0.0);
    while by_set > limit && by_all <= limit {
        let left = all.iter().filter(|i| !chosen.contains(i));
        let tried = left.map(|i| {
            let (reach, variance) = network::reach(&covariance, points, &candidates[*i]);
            let scale = 1.0 / (candidates[*i].sd.powi(2) + variance);
            (angles.called(&covariance, |gradient| scale * gradient.dot(&reach).powi(2)), *i)
        });
        let best = tried.reduce(|a, b| if b.0 < a.0 * (1.0 - 1e-9) { b } else { a });
        let Some((called, index)) = best else { break };
        covariance = network::with_distance(covariance, points, &candidates[index]);
        chosen.push(index);
        by_set = called;
    }
    chosen.sort_unstable();
    Some((Called { by_set, by_all }, covariance))
}

/// The sides, and these of the candidates.
pub(super) fn taped(sides: &[Distance], candidates: &[Distance], chosen: &[usize]) -> Vec<Distance> {
    sides.iter().copied().chain(chosen.iter().map(|i| candidates[*i])).collect()
}
