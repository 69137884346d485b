//! A high point that stands alone.
//!
//! The rule, ours and checkable by hand: the highest place is the odd one out if it stands higher above the next
//! highest than all the others differ among themselves, there are at least three others, and bringing it down would
//! save at least the thinnest packer. Nothing is planed or cut silently: the answer names both ways out.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;

/// Others needed before one place can be odd.
const OTHERS: usize = 3;
/// The least step worth the work when no packers are named, mm.
const LEAST_STEP: f64 = 1.0;

/// The high point that the whole plate would be packed up to.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct OddOne {
    /// The place.
    pub name: String,
    /// How far it stands above the next highest, mm: what to bring it down by, or what everything else is lifted by.
    pub by: Mm,
    /// How much the other places differ among themselves, mm.
    pub others_spread: Mm,
    /// The deepest pack that is left if it is brought down, mm.
    pub worst_after: Mm,
}

/// The odd one out of `heights` (name, height), if there is one by the rule above.
pub(super) fn find(heights: &[(String, f64)], thinnest: Option<f64>) -> Option<OddOne> {
    if heights.len() <= OTHERS {
        return None;
    }
    let mut down: Vec<&(String, f64)> = heights.iter().collect();
    down.sort_by(|a, b| b.1.total_cmp(&a.1));
    let (highest, next, lowest) = (down.first()?, down.get(1)?, down.last()?);
    let by = highest.1 - next.1;
    let others_spread = next.1 - lowest.1;
    let least = thinnest.unwrap_or(LEAST_STEP) - 1e-6;
    (by > others_spread + 1e-6 && by >= least).then(|| OddOne {
        name: highest.0.clone(),
        by: Mm(by),
        others_spread: Mm(others_spread),
        worst_after: Mm(others_spread),
    })
}
