//! The small print: what the figures mean, and what they can't show.

use super::few;
use crate::length::{Units, decimal};
use crate::page::Page;
use crate::readings::Readings;
use crate::words::and_list;

/// Adds the notes.
pub(super) fn notes(page: &mut Page, answer: &Readings, units: Units) {
    let fitted = answer.readings.iter().any(|line| line.residual.is_some());
    if fitted {
        unchecked(page, answer);
        page.note(
            "residual: the fitted length less the one used; r: how far the others check it, 0 to 1; w: residual over its \
             own sd, a suspect past 3.29; hides: the smallest slip that shows four times in five",
        );
    }
    if !answer.moves.is_empty() {
        page.note("±: 95 times in 100, from the tape's class and its reading alone");
        if answer.limit.is_none() {
            page.note(
                "no limit is given: a corner counts as out only past what so many corners together would show by chance \
                 once in 20",
            );
        }
    }
    if let Some(sd) = answer.worst_corner_sd {
        page.note(format!("the worst corner is good to ±{} (one standard deviation)", units.small(sd.0)));
    }
    if let Some(test) = &answer.global_test {
        let words = if test.passed { "under" } else { "over" };
        let meaning = if test.passed {
            "the readings agree as well as the tape allows"
        } else {
            "the readings agree less well than the tape allows"
        };
        page.note(format!(
            "chi-square {} with {} to spare, {words} {} ({} %): {meaning}",
            decimal(test.statistic.0, 2),
            answer.degrees_of_freedom,
            decimal(test.critical.0, 2),
            decimal(100.0 * test.alpha.0, 0),
        ));
    }
    page.note(format!(
        "the plan, taken as built within {}, serves to find misreads only, never to place a corner",
        units.small(answer.against_plan.built_within.0)
    ));
    page.note(
        "what no reading here can show: a scale error common to all (the tape's class, its warmth), which leaves the \
         corners square but the sizes wrong; a constant error at the hook",
    );
}

/// Readings that nothing checks, and those that only a misread one did.
fn unchecked(page: &mut Page, answer: &Readings) {
    if answer.degrees_of_freedom == 0 && answer.misreads.is_empty() {
        page.note("no reading is to spare, so none is checked: a slip in any of them can't be seen");
        return;
    }
    if !answer.unchecked.is_empty() {
        page.note(format!(
            "nothing checks {}: a slip there can't be seen",
            and_list(&few(&answer.unchecked, 12))
        ));
    }
    if !answer.no_longer_checked.is_empty() {
        page.note(format!(
            "with the misread left out nothing checks {} either",
            and_list(&few(&answer.no_longer_checked, 12))
        ));
    }
}
