//! How much work is left. Steps decide; the clock is the last stop, so that a slow machine still answers.

use std::time::Instant;

use super::model::Effort;
use super::watch::{Standing, pass_on};

/// Steps taken since the start, against a limit that can be narrowed for one part of the work.
#[derive(Debug)]
pub(super) struct Meter {
    taken: u64,
    limit: u64,
    started: Instant,
    effort: Effort,
    next_look: u64,
    late: bool,
    standing: Option<Standing>,
}

/// The clock is looked at once in this many steps.
const LOOK_EVERY: u64 = 1 << 13;

impl Meter {
    pub(super) fn new(effort: Effort) -> Self {
        Self {
            taken: 0,
            limit: effort.steps,
            started: Instant::now(),
            effort,
            next_look: 0,
            late: false,
            standing: None,
        }
    }

    /// Counts `steps`; false when the work must stop.
    pub(super) fn spend(&mut self, steps: u64) -> bool {
        self.taken = self.taken.saturating_add(steps);
        if self.taken >= self.next_look {
            self.next_look = self.taken + LOOK_EVERY;
            self.late = self.late || self.started.elapsed() >= self.effort.time;
            pass_on(self.standing.as_ref());
        }
        !self.late && self.taken < self.limit
    }

    /// Nothing is left for the part of the work under way.
    pub(super) fn is_stopped(&self) -> bool {
        self.late || self.taken >= self.limit
    }

    /// Nothing is left for the whole of the work.
    pub(super) fn is_spent(&self) -> bool {
        self.late || self.taken >= self.effort.steps
    }

    /// Steps left for the whole of the work.
    pub(super) fn left(&self) -> u64 {
        self.effort.steps.saturating_sub(self.taken)
    }

    /// Allows the next part of the work at most `steps`, and never more than is left in all.
    pub(super) fn allow(&mut self, steps: u64) {
        self.limit = self.taken.saturating_add(steps).min(self.effort.steps);
    }

    /// A meter of its own for a part of the work: at most so many steps, and no more than is left.
    pub(super) fn part(&self, steps: u64) -> Self {
        let effort = Effort {
            steps: steps.min(self.left()),
            time: self.effort.time.saturating_sub(self.started.elapsed()),
        };
        Self { standing: self.standing, ..Self::new(effort) }
    }

    /// Notes how the search stands.
    pub(super) fn stands(&mut self, standing: Standing) {
        self.standing = Some(standing);
    }

    pub(super) fn taken(&self) -> u64 {
        self.taken
    }
}
