//! The best straight line through points: least squares, and the one with the smallest largest deviation.

/// A straight line `at + slope · x`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The value at x = 0.
    pub at_zero: f64,
    /// The rise for each 1 of x.
    pub slope: f64,
}

impl Fit {
    /// The line's value at `x`.
    #[must_use]
    pub fn value(&self, x: f64) -> f64 {
        self.at_zero + self.slope * x
    }

    /// The largest deviation of the points from the line, as a size.
    #[must_use]
    pub fn worst(&self, points: &[(f64, f64)]) -> f64 {
        points.iter().map(|(x, y)| (y - self.value(*x)).abs()).fold(0.0, f64::max)
    }
}

/// The line with the smallest sum of squared deviations; `None` for fewer than two different x.
#[must_use]
pub fn least_squares(points: &[(f64, f64)]) -> Option<Fit> {
    let n = points.len() as f64;
    let mean_x = points.iter().map(|p| p.0).sum::<f64>() / n;
    let mean_y = points.iter().map(|p| p.1).sum::<f64>() / n;
    let squares: f64 = points.iter().map(|(x, _)| (x - mean_x).powi(2)).sum();
    let products: f64 = points.iter().map(|(x, y)| (x - mean_x) * (y - mean_y)).sum();
    (squares > 0.0).then(|| {
        let slope = products / squares;
        Fit { at_zero: mean_y - slope * mean_x, slope }
    })
}

/// The line whose largest deviation is smallest; `None` for fewer than two different x.
///
/// It lies midway in the narrowest band that holds all the points, and one edge of that band passes through two of
/// them: so every pair's slope is tried.
#[must_use]
pub fn narrowest(points: &[(f64, f64)]) -> Option<Fit> {
    let pairs = points
        .iter()
        .enumerate()
        .flat_map(|(i, first)| points[i + 1..].iter().map(move |second| (first, second)));
    pairs
        .filter(|(first, second)| (second.0 - first.0).abs() > 0.0)
        .map(|(first, second)| {
            let slope = (second.1 - first.1) / (second.0 - first.0);
            let (low, high) = points
                .iter()
                .map(|(x, y)| y - slope * x)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
            let fit = Fit { at_zero: f64::midpoint(low, high), slope };
            (high - low, fit)
        })
        .reduce(|best, next| if next.0 < best.0 - 1e-12 { next } else { best })
        .map(|(_, fit)| fit)
}
