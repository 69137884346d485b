//! The small print: what the figures mean, and what they can't show.

use super::slips::few;
use crate::length::{Units, decimal};
use crate::page::Remarks;
use crate::readings::Readings;
use crate::words::and_list;

/// Adds the notes.
pub(super) fn notes(remarks: &mut Remarks, answer: &Readings, units: Units) {
    let fitted = answer.readings.iter().any(|line| line.residual.is_some());
    if fitted {
        unchecked(remarks, answer);
        remarks.note(
            "off: the fitted length less the one used; checked: how far the others check it, 0 to 100 %; out of step: off \
             over its own sd, odd past 3.29; hides: the smallest slip that shows four times in five",
        );
    }
    if !answer.moves.is_empty() {
        remarks.note("±: 95 times in 100, from the tape's class and its reading alone");
        if answer.limit.is_none() {
            remarks.note(
                "no limit is given: a corner counts as out only past what so many corners together would show by chance \
                 once in 20",
            );
        }
    }
    if let Some(sd) = answer.worst_corner_sd {
        remarks.note(format!("the worst corner is good to ±{} (one standard deviation)", units.small(sd.0)));
    }
    if let Some(test) = &answer.global_test {
        let words = if test.passed { "under" } else { "over" };
        let meaning = if test.passed {
            "the readings agree as well as the tape allows"
        } else {
            "the readings agree less well than the tape allows"
        };
        remarks.note(format!(
            "chi-square {} with {} to spare, {words} {} ({} %): {meaning}",
            decimal(test.statistic.0, 2),
            answer.degrees_of_freedom,
            decimal(test.critical.0, 2),
            decimal(100.0 * test.alpha.0, 0),
        ));
    }
    remarks.note(format!(
        "the plan, taken as built within {}, serves to find misreads only, never to place a corner",
        units.small(answer.against_plan.built_within.0)
    ));
    remarks.note(
        "what no reading here can show: a scale error common to all (the tape's class, its warmth), which leaves the \
         corners square but the sizes wrong; a constant error at the hook",
    );
}

/// Lines that were taped and yet can't have been, at least not in one pull.
pub(super) fn not_taped_so(remarks: &mut Remarks, answer: &Readings) {
    if !answer.through_house.is_empty() {
        let lines = and_list(&few(&answer.through_house, 6));
        let verb = if answer.through_house.len() == 1 { "runs" } else { "run" };
        remarks
            .note(format!("{lines} {verb} through the house, where no tape goes: was another line meant?"));
    }
    if !answer.in_pulls.is_empty() {
        let lines = and_list(&few(&answer.in_pulls, 6));
        let verb = if answer.in_pulls.len() == 1 { "is" } else { "are" };
        remarks.note(format!(
            "{lines} {verb} longer than the tape: taken as taped in equal pulls along a string"
        ));
    }
}

/// Readings that nothing checks, and those that only a misread one did.
fn unchecked(remarks: &mut Remarks, answer: &Readings) {
    if answer.degrees_of_freedom == 0 && answer.misreads.is_empty() {
        remarks.note("no reading is to spare, so none is checked: a slip in any of them can't be seen");
        return;
    }
    if !answer.unchecked.is_empty() {
        remarks.note(format!(
            "nothing checks {}: a slip there can't be seen",
            and_list(&few(&answer.unchecked, 12))
        ));
    }
    if !answer.no_longer_checked.is_empty() {
        remarks.note(format!(
            "with the misread left out nothing checks {} either",
            and_list(&few(&answer.no_longer_checked, 12))
        ));
    }
}
