//! Points on the plan. Millimetres, x to the right, y **down** the page, as a drawing is read.
//!
//! ```
//! use pegline::geometry::{Point, angle_between};
//!
//! assert_eq!(Point::new(0.0, 0.0).distance(Point::new(3000.0, 4000.0)), 5000.0);
//! let angle = angle_between(3000.0, 4000.0, 5000.0).expect("a triangle");
//! assert!((angle.to_degrees() - 90.0).abs() < 1e-9);
//! ```

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

/// A point on the plan, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Distance to the right of the outline's left edge, mm.
    pub x: f64,
    /// Distance down the page from the outline's top edge, mm.
    pub y: f64,
}

impl Point {
    /// The point `x` mm to the right and `y` mm down.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Straight-line distance to `other`, mm.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }
}

/// The angle between `a` and `b`, radians, of a triangle whose third side is `c`.
///
/// Kahan's form, accurate for needle-like triangles too. `None` where the three make no triangle.
#[must_use]
pub fn angle_between(a: f64, b: f64, c: f64) -> Option<f64> {
    let (long, short) = (a.max(b), a.min(b));
    // How much the shorter of b and c reaches past what the other two leave.
    let slack = if short >= c { c - (long - short) } else { short - (long - c) };
    let under = ((long - short) + c) * slack;
    let over = (long + (short + c)) * ((long - c) + short);
    (short > 0.0 && c > 0.0 && under > 0.0 && over > 0.0).then(|| 2.0 * (under / over).sqrt().atan())
}

/// A length in an answer, mm. It serializes as a number rounded to 0.001 mm, never as −0.
///
/// The value inside is not rounded: rounding happens only on the way out.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Mm(pub f64);

impl Serialize for Mm {
    /// Fails on a value that is not finite, since JSON has no way to write one.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serialize_rounded(self.0, 1e3, serializer)
    }
}

impl JsonSchema for Mm {
    fn schema_name() -> Cow<'static, str> {
        "Mm".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"description": "Millimetres, to 0.001.", "type": "number"})
    }
}

/// A plain ratio or an angle in an answer. It serializes rounded to 0.000001, never as −0.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Ratio(pub f64);

impl Serialize for Ratio {
    /// Fails on a value that is not finite, since JSON has no way to write one.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serialize_rounded(self.0, 1e6, serializer)
    }
}

impl JsonSchema for Ratio {
    fn schema_name() -> Cow<'static, str> {
        "Ratio".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A plain ratio, or a figure in the unit that its key names, to 0.000001.",
            "type": "number"
        })
    }
}

fn serialize_rounded<S: Serializer>(value: f64, scale: f64, serializer: S) -> Result<S::Ok, S::Error> {
    if !value.is_finite() {
        return Err(serde::ser::Error::custom(format!(
            "a figure came out as {value}, which cannot be written"
        )));
    }
    // `round` is half away from zero; adding 0.0 turns −0 into 0.
    let rounded = (value * scale).round() / scale + 0.0;
    #[expect(clippy::cast_possible_truncation, reason = "guarded: a whole number that fits an i64 exactly")]
    if rounded.fract() == 0.0 && rounded.abs() < 9e15 {
        serializer.serialize_i64(rounded as i64)
    } else {
        serializer.serialize_f64(rounded)
    }
}
