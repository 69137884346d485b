//! How many diagonals to tape.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::faults::Faults;

/// The most diagonals that can be asked for beyond the proof set.
const MOST_SPARES: usize = 20;

/// For check diagonals.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DiagonalsSection {
    /// How many diagonals to choose beyond the proof set; 2 unless given.
    pub spares: Option<usize>,
}

/// How many diagonals to choose beyond the proof set.
pub(in crate::job) fn spares(section: Option<&DiagonalsSection>, faults: &mut Faults) -> usize {
    let spares = section.and_then(|section| section.spares).unwrap_or(2);
    if spares > MOST_SPARES {
        faults.add("diagonals.spares", format!("{spares} is too many: write 0 to {MOST_SPARES}"));
    }
    spares
}
