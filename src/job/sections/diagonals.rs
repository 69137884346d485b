//! How many diagonals to tape, and for what limit.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
#[cfg(feature = "cli")]
use crate::job::typed;

/// The most diagonals that can be asked for beyond the proof set.
const MOST_SPARES: usize = 20;

/// For check diagonals.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct DiagonalsSection {
    /// How many diagonals to choose beyond the proof set, to show up a misread [default: 2].
    #[cfg_attr(feature = "cli", arg(long, id = "diagonals.spares", value_name = "N", value_parser = typed::whole_number))]
    pub spares: Option<usize>,
    /// The most a corner may be out of square: further diagonals are chosen until they can tell.
    #[cfg_attr(feature = "cli", arg(long, id = "diagonals.limit", value_name = "LENGTH"))]
    pub limit: Option<LengthEntry>,
}

/// The limit that the diagonals are to be able to call, mm.
pub(in crate::job) fn limit(section: Option<&DiagonalsSection>, at: Cursor<'_>) -> Option<f64> {
    at.field("limit").not_negative(section?.limit.as_ref())
}

/// How many diagonals to choose beyond the proof set.
pub(in crate::job) fn spares(section: Option<&DiagonalsSection>, at: Cursor<'_>) -> usize {
    let spares = section.and_then(|section| section.spares).unwrap_or(2);
    if spares > MOST_SPARES {
        at.field("spares").fault(format!("{spares} is too many: write 0 to {MOST_SPARES}"));
    }
    spares
}
