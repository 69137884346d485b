//! The packing in plain sentences.

use crate::answer::packs_headline;
use crate::length::Units;
use crate::packing::Packs;

/// What the joiner is told first, one plain sentence each.
pub(super) fn sentences(answer: &Packs, units: Units) -> Vec<String> {
    let mut said = vec![packs_headline(answer, units)];
    if let Some(odd) = &answer.odd_one_out {
        said.push(format!(
            "the high point {} is the odd one out: bring it down or lift everything by {}",
            odd.name,
            units.gap(odd.by.0)
        ));
    }
    if let Some(closure) = answer.closure.as_ref().filter(|c| c.worst.0 > 0.0) {
        said.push(format!(
            "the levels close to {}, shared out {}",
            units.gap(closure.worst.0),
            closure.shared
        ));
    }
    if !answer.unread.is_empty() {
        let stretches: Vec<String> = answer
            .unread
            .iter()
            .map(|u| format!("{} from {} to {}", u.side, units.gap(u.from.0), units.gap(u.to.0)))
            .collect();
        said.push(format!("no studs are worked out where only one end is read: {}", stretches.join(", ")));
    }
    if !answer.proven {
        said.push("too many ways to share out the packers to try them all: better may be had".to_owned());
    }
    said
}
