//! What hangs between two supports: a string line, a wire, a tape.
//!
//! The parabola is the working formula, the catenary its exact check. Any consistent units: a weight per length and
//! a pull in the same force, lengths in the same length. For a site string of 1 g/m pulled at 50 N, `weight` is
//! 0.001 × 9.80665 / 1000 N/mm.
//!
//! Sources: textbook statics of the parabola and the catenary; tape corrections as in textbook surveying
//! (sag w²L³/(24P²) a span, stretch (P − P₀)L/(AE)).
//!
//! ```
//! use pegline::sag::{line_weight, parabola, pull_for};
//!
//! // A site string of 1 g/m over 9.8 m, pulled to 50 N, and the pull that leaves it 1 mm.
//! let weight = line_weight(1.0);
//! assert_eq!(parabola(weight, 9800.0, 50.0).map(|sag| format!("{sag:.1} mm")).as_deref(), Some("2.4 mm"));
//! assert_eq!(pull_for(weight, 9800.0, 1.0).map(|pull| format!("{pull:.0} N")).as_deref(), Some("118 N"));
//! ```

/// Standard gravity, m/s² (by definition).
pub const GRAVITY: f64 = 9.806_65;
/// Grams in a pound, exactly.
pub const GRAMS_PER_POUND: f64 = 453.592_37;
/// Newtons that a pound weighs, by standard gravity.
pub const NEWTONS_PER_POUND: f64 = GRAMS_PER_POUND / 1000.0 * GRAVITY;

/// The weight of a line of `grams_per_metre`, N/mm.
#[must_use]
pub fn line_weight(grams_per_metre: f64) -> f64 {
    grams_per_metre * GRAVITY * 1e-6
}

fn positive(values: &[f64]) -> bool {
    values.iter().all(|v| v.is_finite() && *v > 0.0)
}

fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// Sag at mid-span by the parabola: w L²/(8T).
///
/// Its error against the catenary is about (4/3)(s/L)² of the sag. `None` unless every input is positive and
/// finite, and so is the sag.
#[must_use]
pub fn parabola(weight: f64, span: f64, tension: f64) -> Option<f64> {
    positive(&[weight, span, tension]).then(|| weight * span / tension * span / 8.0).and_then(finite)
}

/// The pull at which the parabola sags by `sag`: w L²/(8s). `None` as [`parabola`].
#[must_use]
pub fn pull_for(weight: f64, span: f64, sag: f64) -> Option<f64> {
    // Pull and sag stand in the same place of the formula.
    parabola(weight, span, sag)
}

/// Sag at `at` from one support by the parabola: w x (L − x)/(2T). `None` outside the span, or as [`parabola`].
#[must_use]
pub fn parabola_at(weight: f64, span: f64, tension: f64, at: f64) -> Option<f64> {
    let inside = positive(&[weight, span, tension]) && at >= 0.0 && at <= span;
    inside.then(|| weight * at / tension * (span - at) / 2.0).and_then(finite)
}

/// A line hanging freely between two supports at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Catenary {
    weight: f64,
    span: f64,
    pull: f64,
}

impl Catenary {
    /// The line of `weight` per length over `span` with the horizontal pull `pull`.
    ///
    /// `None` unless all are positive and finite.
    #[must_use]
    pub fn new(weight: f64, span: f64, pull: f64) -> Option<Self> {
        positive(&[weight, span, pull]).then_some(Self { weight, span, pull })
    }

    /// The parameter c = H/w: the height of the lowest point above the directrix.
    #[must_use]
    pub fn parameter(&self) -> f64 {
        self.pull / self.weight
    }

    /// Half the span over the parameter.
    fn half(&self) -> f64 {
        self.span / 2.0 / self.parameter()
    }

    /// Sag at mid-span: c (cosh(L/2c) − 1), written as 2c sinh²(L/4c) so that a taut line keeps its figures.
    ///
    /// `None` where it overflows.
    #[must_use]
    pub fn sag(&self) -> Option<f64> {
        let s = (self.half() / 2.0).sinh();
        finite(2.0 * self.parameter() * s * s)
    }

    /// Length of the line itself: 2c sinh(L/2c). `None` where it overflows.
    #[must_use]
    pub fn length(&self) -> Option<f64> {
        finite(2.0 * self.parameter() * self.half().sinh())
    }

    /// The tension at the supports, the greatest in the line: H cosh(L/2c). `None` where it overflows.
    #[must_use]
    pub fn end_tension(&self) -> Option<f64> {
        finite(self.pull * self.half().cosh())
    }
}

/// How much a tape hanging free over one span reads long: w²L³/(24P²), to be **subtracted** from the reading.
///
/// `None` as [`parabola`].
#[must_use]
pub fn tape_sag(weight: f64, span: f64, pull: f64) -> Option<f64> {
    let ratio = weight * span / pull;
    positive(&[weight, span, pull]).then(|| ratio * ratio * span / 24.0).and_then(finite)
}

/// How much longer a tape gets than at its standard pull: (P − P₀)L/(AE), to be **added** to the reading.
///
/// `stiffness` is A·E, a force. `None` unless length and stiffness are positive and everything is finite.
#[must_use]
pub fn tape_stretch(length: f64, pull: f64, standard_pull: f64, stiffness: f64) -> Option<f64> {
    positive(&[length, stiffness]).then(|| (pull - standard_pull) / stiffness * length).and_then(finite)
}
