//! A figure that is not a length as it stands in a job file: a number in its usual unit, or a text with a unit.

use super::value::entry;
use crate::sag::{GRAMS_PER_POUND, GRAVITY, NEWTONS_PER_POUND};

entry! {
    /// A figure as written: `50`, or `"50N"`.
    QuantityEntry, called "Quantity", expected "a number, or a text with a unit such as \"50N\"",
    described "A figure: a number in its usual unit, or a text with a unit (\"1g/m\", \"50N\").",
    such as [50, "50N", "1g/m"]
}

/// A unit's name and how many of the usual unit it is; the usual one first.
pub(in crate::job) type UnitTable = [(&'static str, f64)];

/// The weight of a string: g/m, pounds a foot, or grains a foot (1 gr = 0.064 798 91 g exactly).
pub(in crate::job) const GRAMS_PER_METRE: &UnitTable =
    &[("g/m", 1.0), ("lb/ft", GRAMS_PER_POUND / 0.3048), ("gr/ft", 0.064_798_91 / 0.3048)];

/// A pull: newtons, or kilograms or pounds of force.
pub(in crate::job) const NEWTONS: &UnitTable =
    &[("N", 1.0), ("kgf", GRAVITY), ("lbf", NEWTONS_PER_POUND), ("lb", NEWTONS_PER_POUND)];

impl QuantityEntry {
    /// The figure in the first of `units`, which must be more than zero; or what to write instead.
    pub(in crate::job) fn read(&self, units: &UnitTable) -> Result<f64, String> {
        let text = self.text();
        let text = text.trim();
        let names: Vec<&str> = units.iter().map(|(name, _)| *name).collect();
        let start =
            text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+'))).unwrap_or(text.len());
        let (number, unit) = text.split_at(start);
        let unit = unit.trim();
        let scale = units
            .iter()
            .find(|(name, _)| name.eq_ignore_ascii_case(unit))
            .map_or(f64::from(u8::from(unit.is_empty())), |(_, scale)| *scale);
        let value = number.parse::<f64>().unwrap_or(f64::NAN) * scale;
        // Between a breath and a locomotive: anything else is a slip of the keys.
        if (1e-6..=1e6).contains(&value) {
            return Ok(value);
        }
        let shown: String = text.chars().take(40).collect();
        Err(format!(
            "`{shown}` is not a figure that can be used here: write one of more than zero, such as 1 or 1{} (units: {})",
            names.first().unwrap_or(&""),
            names.join(", ")
        ))
    }
}
