//! How far a string or a wire hangs below the straight line between its two level ends.

/// Standard gravity, m/s² (exact by definition; ISO 80000-3).
pub const GRAVITY: f64 = 9.806_65;

/// The sag in the middle, mm, by the parabola w·L²/(8·T): `weight_n_per_m` is the weight of the string, N/m,
/// `span_mm` the distance between its ends, mm, `tension_n` the pull along the level, N.
///
/// It falls short of [`catenary`] by about 4/3·(sag/span)² of itself: nothing at the sags of a string on site.
#[must_use]
pub fn parabola(weight_n_per_m: f64, span_mm: f64, tension_n: f64) -> f64 {
    let span_m = span_mm / 1000.0;
    weight_n_per_m * span_m * span_m / (8.0 * tension_n) * 1000.0
}

/// The exact sag in the middle, mm, of a string that does not stretch: (T/w)·(cosh(w·L/2T) − 1). Arguments as for
/// [`parabola`].
#[must_use]
pub fn catenary(weight_n_per_m: f64, span_mm: f64, tension_n: f64) -> f64 {
    let constant_m = tension_n / weight_n_per_m;
    // cosh x − 1 = 2·sinh²(x/2), which keeps its figures where x is small.
    let half = (span_mm / 1000.0 / (4.0 * constant_m)).sinh();
    constant_m * 2.0 * half * half * 1000.0
}

/// The pull, N, at which the parabola's sag is `sag_mm`.
#[must_use]
pub fn pull_for(weight_n_per_m: f64, span_mm: f64, sag_mm: f64) -> f64 {
    parabola(weight_n_per_m, span_mm, 1.0) / sag_mm
}
