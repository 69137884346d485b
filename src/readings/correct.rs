//! Corrections for a steel tape that is warm, hangs free, is pulled harder than its standard, or runs up a slope.
//!
//! Each is off unless given, is worked from the length read, and is reported on its own; their sum is added.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::sag::{line_weight, tape_sag, tape_stretch};

/// Thermal expansion of a steel blade, per °C (published for steel tapes; 0.00065 ft per °F per 100 ft in US tables).
pub const STEEL_EXPANSION: f64 = 11.6e-6;

/// The temperature at which a tape is right, °C (Directive 2014/32/EU Annex X).
pub const STANDARD_TEMPERATURE: f64 = 20.0;

/// A tape hanging free between its supports.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Sag {
    /// Mass of the blade, g per metre.
    #[serde(rename = "mass_g_per_m")]
    pub mass: f64,
    /// Pull on the tape, N.
    #[serde(rename = "pull_n")]
    pub pull: f64,
    /// Equal spans between supports over the length read; 1 when held at both ends only.
    pub spans: u32,
}

/// A tape pulled with another force than its standard pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tension {
    /// Pull on the tape, N.
    pub pull: f64,
    /// The pull at which it is right, N (50 N for tapes of 5 m and over, Directive 2014/32/EU Annex X).
    pub standard: f64,
    /// Section area × elastic modulus of the blade, N.
    pub stiffness: f64,
}

/// The state of a tape while it was read. Everything off by default.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Conditions {
    /// Temperature of the blade, °C.
    pub temperature: Option<f64>,
    /// Hanging free.
    pub sag: Option<Sag>,
    /// Pulled off its standard.
    pub tension: Option<Tension>,
}

/// What was taken off or added to one reading, mm; an entry is absent where the correction is off.
#[derive(Debug, Clone, Copy, PartialEq, Default, JsonSchema, Serialize)]
pub struct Corrections {
    /// Held-on length, taken off: negative.
    pub held_on: Option<Mm>,
    /// Temperature.
    pub temperature: Option<Mm>,
    /// Slope: from the length along the slope to the level length, negative.
    pub slope: Option<Mm>,
    /// Sag: from the curve to the chord, negative.
    pub sag: Option<Mm>,
    /// Pull.
    pub tension: Option<Mm>,
}

impl Corrections {
    /// Each of them with its name.
    #[must_use]
    pub const fn parts(&self) -> [(&'static str, Option<Mm>); 5] {
        [
            ("held on", self.held_on),
            ("heat", self.temperature),
            ("slope", self.slope),
            ("sag", self.sag),
            ("pull", self.tension),
        ]
    }

    /// The sum of all of them, mm.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.parts().into_iter().filter_map(|(_, part)| part).map(|part| part.0).sum()
    }
}

/// Temperature correction, mm, of `length` mm: +α·L·(T − 20 °C).
#[must_use]
pub fn temperature(length: f64, temperature: f64) -> f64 {
    STEEL_EXPANSION * length * (temperature - STANDARD_TEMPERATURE)
}

/// Slope correction, mm, of `length` mm whose ends differ in level by `rise` mm: by Pythagoras, never positive.
///
/// Not a number where the rise is more than the length.
#[must_use]
pub fn slope(length: f64, rise: f64) -> f64 {
    // (L − h)(L + h) keeps the digits that L² − h² would lose; the difference form keeps those of a small slope.
    let level = ((length - rise) * (length + rise)).sqrt();
    -(rise * rise) / (length + level)
}

/// Sag correction, mm, of `length` mm: −w²L³/(24P²) for each span, never positive; 0 for a blade of no mass.
#[must_use]
pub fn sag(length: f64, sag: Sag) -> f64 {
    let spans = f64::from(sag.spans);
    let each = tape_sag(line_weight(sag.mass), length / spans, sag.pull);
    -spans * each.unwrap_or(0.0)
}

/// Pull correction, mm, of `length` mm: (P − P₀)L/(AE).
#[must_use]
pub fn tension(length: f64, tension: Tension) -> f64 {
    tape_stretch(length, tension.pull, tension.standard, tension.stiffness).unwrap_or(0.0)
}

/// Every correction of a reading of `length` mm (the held-on length already off) with `rise` mm between its ends.
#[must_use]
pub(super) fn corrections(length: f64, rise: f64, conditions: &Conditions) -> Corrections {
    Corrections {
        held_on: None,
        temperature: conditions.temperature.map(|t| Mm(temperature(length, t))),
        slope: (rise != 0.0).then(|| Mm(slope(length, rise))),
        sag: conditions.sag.map(|s| Mm(sag(length, s))),
        tension: conditions.tension.map(|t| Mm(tension(length, t))),
    }
}
