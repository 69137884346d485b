//! A misread as it is found: who is suspect, how sure that is, and what settled it.

use schemars::JsonSchema;
use serde::Serialize;

use super::cause::Cause;

/// A reading that may be the wrong one.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) struct Suspect {
    /// Which observation.
    pub(in crate::readings) index: usize,
    /// Its estimated slip, mm: observed − what the others make it.
    pub(in crate::readings) slip: f64,
    /// Standard deviation of that estimate, mm.
    pub(in crate::readings) slip_sd: f64,
    /// Its standardised residual when it was found.
    pub(in crate::readings) w: Option<f64>,
    /// Its redundancy number then.
    pub(in crate::readings) redundancy: f64,
    /// The usual slip it looks like.
    pub(in crate::readings) cause: Option<Cause>,
}

/// What chose among the suspects.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SettledBy {
    /// The odds, by the other readings.
    Residuals,
    /// The plan alone: no other reading checks it.
    Plan,
    /// Nothing: the tie stands.
    Nothing,
}

/// One misread: the suspects, more than one where they are tied.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) struct Finding {
    /// The largest standardised residual when it was found.
    pub(in crate::readings) w: f64,
    /// The suspects, the likeliest first.
    pub(in crate::readings) suspects: Vec<Suspect>,
    /// The one named, an index into `suspects`.
    pub(in crate::readings) chosen: Option<usize>,
    /// What named it.
    pub(in crate::readings) settled_by: SettledBy,
}

impl Finding {
    /// The observation left out on this finding: the one named, or the first of those tied.
    pub(in crate::readings) fn left_out(&self) -> usize {
        self.suspects[self.chosen.unwrap_or(0)].index
    }
}
