//! Sums on a corner that is nearly a right angle.

/// The hypotenuse of legs `a` and `b`; `None` unless all three are positive and finite.
#[must_use]
pub fn hypotenuse(a: f64, b: f64) -> Option<f64> {
    let c = a.hypot(b);
    (a > 0.0 && b > 0.0 && c.is_finite()).then_some(c)
}

/// How far over 90° the corner stands, radians, when the diagonal of legs `a` and `b` is `excess` longer than
/// the true one (negative: shorter, the corner is closed).
///
/// By the cosine law: sin(δ) = (c² − a² − b²)/(2ab) = excess (2c₀ + excess)/(2ab), c₀ the true hypotenuse.
/// `None` where no triangle has those sides.
#[must_use]
pub fn opened_by(a: f64, b: f64, excess: f64) -> Option<f64> {
    let c = hypotenuse(a, b)?;
    let sine = (excess / a) * ((2.0 * c + excess) / b) / 2.0;
    let angle = sine.asin();
    (c + excess > 0.0 && angle.is_finite()).then_some(angle)
}

/// How much longer the diagonal of legs `a` and `b` gets when the corner opens by `angle` radians.
#[must_use]
pub fn hypotenuse_change(a: f64, b: f64, angle: f64) -> Option<f64> {
    let c = hypotenuse(a, b)?;
    // c' = c √(1 + x), x = 2ab sin δ / c²; the difference written so that it keeps its figures when small.
    let x = 2.0 * (a / c) * (b / c) * angle.sin();
    let change = c * x / (1.0 + (1.0 + x).sqrt());
    change.is_finite().then_some(change)
}
