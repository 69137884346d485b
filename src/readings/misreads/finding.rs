//! What snooping finds: suspects, ties, and what settled them.

use super::cause::Cause;
use crate::readings::network::adjust::Adjustment;

/// A reading that may be the wrong one.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// Which observation.
    pub index: usize,
    /// Its estimated slip, mm: observed − what the others make it.
    pub slip: f64,
    /// Standard deviation of that estimate, mm.
    pub slip_sd: f64,
    /// Its standardised residual when it was found.
    pub w: Option<f64>,
    /// Its redundancy number then.
    pub redundancy: f64,
    /// The usual slip it looks like.
    pub cause: Option<Cause>,
    /// Whether the rest passes the global test without it.
    pub passes: bool,
}

/// What chose among the suspects.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SettledBy {
    /// The residuals alone.
    Residuals,
    /// Only one of the tied has a usual slip and leaves the rest good.
    UsualSlip,
    /// Only one of the tied disagrees with the plan.
    Plan,
    /// Nothing: the tie stands.
    Nothing,
}

/// One misread: the suspects, more than one where they are tied.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The largest standardised residual when it was found.
    pub w: f64,
    /// The suspects, in the order of the observations: those fully correlated, and, where their slip is of no usual
    /// size, any others that explain the misfit as well.
    pub suspects: Vec<Suspect>,
    /// The one named, an index into `suspects`.
    pub chosen: Option<usize>,
    /// What named it.
    pub settled_by: SettledBy,
    /// Other readings that, left out instead, would also make the rest pass: named by less than certainty.
    pub rivals: Vec<usize>,
}

impl Finding {
    /// The observation left out on this finding: the one named, or the first of those tied.
    #[must_use]
    pub fn left_out(&self) -> usize {
        self.suspects[self.chosen.unwrap_or(0)].index
    }
}

/// The outcome of snooping to the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Snooping {
    /// All readings adjusted together.
    pub first: Adjustment,
    /// The misreads, in the order found.
    pub findings: Vec<Finding>,
    /// The observations kept.
    pub kept: Vec<usize>,
    /// The adjustment of those kept.
    pub last: Adjustment,
    /// Other pairs of readings that explain two misreads as well as the two named.
    pub other_pairs: Vec<(usize, usize)>,
}
