//! The first few of a list, and what a figure is within.

use crate::length::Units;

/// The first few of a list, and how many more there are.
pub(super) fn few(items: &[String], most: usize) -> Vec<String> {
    if items.len() <= most + 1 {
        return items.to_vec();
    }
    let mut few = items[..most].to_vec();
    few.push(format!("{} more", items.len() - most));
    few
}

/// The whole step of the tape that `mm` is within: `4 mm`.
pub(super) fn within(mm: f64, units: Units) -> String {
    let step = units.tape_step();
    // What is printed to the step is not to be called a step more for the last bit of its sum.
    units.short(((mm.abs() / step - 1e-6).ceil().max(1.0)) * step)
}
