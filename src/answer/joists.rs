//! The joists with what to cut them from, and the ceiling under them.

use schemars::JsonSchema;
use serde::Serialize;

use crate::cuts::Cuts;
use crate::geometry::Mm;
use crate::joists::Joists;

/// The joists of a job.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RoofJoists {
    /// Where they stand, how long they are and what goes under them.
    #[serde(flatten)]
    pub set_out: Joists,
    /// The cut of their timber, if any was given.
    pub cut: Option<Cuts>,
    /// The ceiling under them, if the job has its heights and the supports were read.
    pub ceiling: Option<CeilingUnder>,
}

/// The ceiling under the joists, mm above the floor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct CeilingUnder {
    /// At the line of the first support.
    pub at_from: Mm,
    /// At the end of the longest joists.
    pub at_to: Mm,
}
