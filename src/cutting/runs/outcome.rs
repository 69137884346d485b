//! What a search for a layout gives back.

/// A stretch of a run between two splices or ends, measured from the run's start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stretch {
    pub(super) run: usize,
    pub(super) from: i64,
    pub(super) to: i64,
}

/// One bar's kind and what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct BarPlan {
    pub(super) kind: usize,
    pub(super) pieces: Vec<Stretch>,
}

/// How a search ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Outcome {
    /// A layout.
    Laid(Vec<BarPlan>),
    /// Looked at everything: there is none of this form.
    Impossible,
    /// Stopped before the end.
    GaveUp,
}
