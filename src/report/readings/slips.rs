//! A slip in words, and the first few of a list.

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

/// A slip in words: `about 100 mm short`.
pub(super) fn slip_words(slip: f64, units: Units) -> String {
    let way = if slip < 0.0 { "short" } else { "long" };
    format!("about {} {way}", units.short(slip.abs()))
}
