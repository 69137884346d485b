//! Columns of figures with as many decimals as the finest of them needs; weights and pulls in the units of the job.

use crate::geometry::Mm;
use crate::length::{MM_PER_FOOT, Units, printed, trimmed};
use crate::sag::{GRAMS_PER_POUND, NEWTONS_PER_POUND};

/// Lengths with the tenth of a millimetre where any of them has one.
pub(super) fn lengths(units: Units, values: &[f64]) -> Vec<String> {
    match units {
        Units::Mm => tenths(values, 1.0, 0),
        Units::M => tenths(values, 1000.0, 3),
        Units::FeetInches => values.iter().map(|mm| units.figure(*mm)).collect(),
    }
}

/// Gaps: in mm whatever the metric units.
pub(super) fn gaps(units: Units, values: &[f64]) -> Vec<String> {
    match units {
        Units::Mm | Units::M => tenths(values, 1.0, 0),
        Units::FeetInches => values.iter().map(|mm| units.figure(*mm)).collect(),
    }
}

/// The head of a column of [`gaps`].
pub(super) fn gap_head(units: Units, name: &str) -> String {
    match units {
        Units::Mm | Units::M => format!("{name} mm"),
        Units::FeetInches => name.to_owned(),
    }
}

/// The weight of a string or a blade of so many grams a metre: `1 g/m`, `0.00067 lb/ft`.
pub(super) fn weight(units: Units, grams_per_metre: f64) -> String {
    match units {
        Units::Mm | Units::M => format!("{} g/m", trimmed(grams_per_metre, 2)),
        Units::FeetInches => {
            format!("{} lb/ft", trimmed(grams_per_metre * MM_PER_FOOT / 1000.0 / GRAMS_PER_POUND, 5))
        }
    }
}

/// A pull of so many newtons: `50 N`, `11.2 lb`.
pub(super) fn pull(units: Units, newtons: f64) -> String {
    match units {
        Units::Mm | Units::M => format!("{} N", trimmed(newtons, 2)),
        Units::FeetInches => format!("{} lb", trimmed(newtons / NEWTONS_PER_POUND, 1)),
    }
}

/// What a fall of so many mm in a metre comes to: `12.5 mm in each metre`, `1/4" in each foot`.
pub(super) fn fall(units: Units, mm_per_metre: f64) -> String {
    match units {
        Units::Mm | Units::M => format!("{} in each metre", units.gap(mm_per_metre)),
        Units::FeetInches => format!("{} in each foot", units.gap(mm_per_metre * MM_PER_FOOT / 1000.0)),
    }
}

/// Values in a unit of `mm_per_unit`, to `places` decimals, which are whole millimetres, or one more.
fn tenths(values: &[f64], mm_per_unit: f64, places: usize) -> Vec<String> {
    let whole = |mm: &f64| (mm * 10.0).round() % 10.0 == 0.0;
    let places = if values.iter().all(whole) { places } else { places + 1 };
    values.iter().map(|mm| printed(mm / mm_per_unit, places)).collect()
}

/// A stack of packers, mm, thickest first: `2×10 + 5`.
#[must_use]
pub fn stack(packers: &[Mm], units: Units) -> String {
    let mut runs: Vec<(f64, usize)> = vec![];
    for packer in packers {
        match runs.last_mut() {
            Some((thickness, count)) if (*thickness - packer.0).abs() < 1e-6 => *count += 1,
            _ => runs.push((packer.0, 1)),
        }
    }
    let parts: Vec<String> = runs
        .iter()
        .map(|(thickness, count)| {
            let figure = gaps(units, &[*thickness]).concat();
            match count {
                1 => figure,
                _ => format!("{count}×{figure}"),
            }
        })
        .collect();
    if parts.is_empty() { "–".to_owned() } else { parts.join(" + ") }
}
