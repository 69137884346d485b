//! Whether a group of runs can be laid from a given set of bars at all with the fewest splices: every tree.
//!
//! With one splice fewer than bars, runs and bars joined by pieces form a tree. Seen from one bar as the root,
//! each other bar hangs on the run that it shares with the bar above. Three tables, each worked out once:
//! the splice positions at which the first part of a run can end when given runs and bars hang on it, the least
//! that a run still asks of the bar above, and the least that a set of runs asks of one bar. Only the least
//! matters, because more room on a bar never hurts.

mod build;
mod tables;
mod ways;

use crate::cutting::effort::Meter;
use crate::cutting::runs::instance::Instance;
use crate::cutting::runs::outcome::{BarPlan, Outcome};
use tables::{Hang, Spent, Trees};

/// Largest table worth making, in (runs, bars) states.
const MOST_STATES: usize = 1 << 20;

/// Whether the tables for this group and these bars are small enough to be made.
pub(super) fn is_small(group: &[usize], counts: &[usize]) -> bool {
    counts.iter().fold(1_usize << group.len(), |states, count| states.saturating_mul(count + 1))
        <= MOST_STATES
}

/// Looks through every tree that lays exactly the runs `group` from exactly these bars.
pub(super) fn lay(instance: &Instance, group: &[usize], counts: &[usize], meter: &mut Meter) -> Outcome {
    let mut trees = Trees::new(instance, group, counts, meter);
    let Some(root) = counts.iter().position(|&count| count > 0) else {
        return Outcome::Impossible;
    };
    let all = Hang { runs: (1 << group.len()) - 1, bars: trees.all_bars - trees.scales[root] };
    let room = instance.kinds[root].length + instance.kerf;
    match trees.content(all) {
        Err(Spent) => Outcome::GaveUp,
        Ok(least) if least > room => Outcome::Impossible,
        Ok(_) => {
            let mut plans = vec![BarPlan { kind: root, pieces: Vec::new() }];
            match trees.build_content(all, 0, &mut plans) {
                Ok(()) => Outcome::Laid(plans),
                Err(Spent) => Outcome::GaveUp,
            }
        }
    }
}
