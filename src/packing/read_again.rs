//! A reading so far from all the others that it is rather a slip than the masonry.
//!
//! The rule, ours and checkable by hand: the highest or the lowest place is to be read again if it lies more than 30 mm
//! beyond all the others, and more than twice as far as they differ among themselves, of which there are at least three.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;

/// Others needed before one place can be far from them.
const OTHERS: usize = 3;
/// How far beyond the others is too far, mm (ours, no source).
const FAR: f64 = 30.0;

/// The place to read again before anything is packed.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct ReadAgain {
    /// The place.
    pub name: String,
    /// How far it lies above the highest of the others, mm; negative if it lies below the lowest of them.
    pub beyond: Mm,
    /// How much the others differ among themselves, mm.
    pub others_spread: Mm,
}

/// The place of `heights` (name, height) to read again, if there is one by the rule above.
pub(super) fn find(heights: &[(String, f64)]) -> Option<ReadAgain> {
    if heights.len() <= OTHERS {
        return None;
    }
    let mut up: Vec<&(String, f64)> = heights.iter().collect();
    up.sort_by(|a, b| a.1.total_cmp(&b.1));
    let far = |place: &(String, f64), beyond: f64, others_spread: f64| {
        (beyond.abs() > FAR && beyond.abs() > 2.0 * others_spread).then(|| ReadAgain {
            name: place.0.clone(),
            beyond: Mm(beyond),
            others_spread: Mm(others_spread),
        })
    };
    let [lowest, next, .., before, highest] = up.as_slice() else { return None };
    far(highest, highest.1 - before.1, before.1 - lowest.1)
        .or_else(|| far(lowest, lowest.1 - next.1, highest.1 - next.1))
}
