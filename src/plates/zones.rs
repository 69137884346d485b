//! Where along a run a splice may lie.

use crate::exact::Tenths;

/// Where a splice may lie: from one place to another along a run, both included.
pub type Zone = (Tenths, Tenths);

/// Positions along a run that are closed to splices, mm from its start: between the two, not at them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Closed {
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Closed {
    /// Closed from `clear` mm before `from` to `clear` mm after `to`.
    pub(super) fn around(from: f64, to: f64, clear: f64) -> Self {
        Self { from: from - clear, to: to + clear }
    }
}

/// The closed intervals that are left of `first..=last`, both ends included, when what is closed is taken out. A place
/// where two closed stretches meet is open.
pub(super) fn allowed(first: f64, last: f64, closed: &[Closed]) -> Vec<Zone> {
    let mut closed: Vec<(Tenths, Tenths)> = closed
        .iter()
        .map(|part| (Tenths::at_most(part.from), Tenths::at_least(part.to)))
        .filter(|(from, to)| from < to)
        .collect();
    closed.sort_unstable();
    let (mut at, last) = (Tenths::at_least(first), Tenths::at_most(last));
    let mut open = vec![];
    for (from, to) in closed {
        if from >= at && at <= last {
            open.push((at, from.min(last)));
        }
        at = at.max(to);
    }
    if at <= last {
        open.push((at, last));
    }
    open
}
