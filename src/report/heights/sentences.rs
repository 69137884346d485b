//! The heights in plain sentences.

use crate::heights::{HeightVerdict, Heights};
use crate::length::Units;
use crate::words::and_list;

/// Differences under this, mm, are rounding.
const NOTHING: f64 = 1e-6;

/// What the joiner is told first, one plain sentence each.
pub(super) fn sentences(answer: &Heights, units: Units) -> Vec<String> {
    let ceiling = units.fine(answer.ceiling_height.0);
    let panels = panels(answer, units);
    let compared = answer.needed.as_ref().and_then(|n| Some((n, n.misses?.0)));
    let mut said = match (answer.verdict, compared) {
        (HeightVerdict::AsNeeded, _) => {
            let head = units.fine(answer.wall_head.0);
            vec![format!("{panels}, for a ceiling of {ceiling}; the wall head at {head}")]
        }
        (_, None) => vec![format!("{panels}; the ceiling comes to {ceiling}")],
        (_, Some((needed, misses))) => {
            let (wanted, by) = (units.fine(needed.ceiling_height.0), units.fine(misses.abs()));
            let against = match misses {
                m if m < -NOTHING => format!("{by} short of {wanted}"),
                m if m > NOTHING => format!("{by} over {wanted}"),
                _ => format!("{wanted}, as wanted"),
            };
            let needs = format!(
                "a ceiling of {wanted} needs {} and the wall head at {}",
                high(answer, &units.fine(needed.panel_height.0)),
                units.fine(needed.wall_head.0)
            );
            vec![format!("{panels}; the ceiling is {against}"), needs]
        }
    };
    if answer.verdict == HeightVerdict::DropsDisagree {
        said.insert(0, read_again(answer, units));
    }
    said
}

/// How high the panels are, or what they and what has not been named come to.
fn panels(answer: &Heights, units: Units) -> String {
    let panels = high(answer, &units.fine(answer.panel_height.0));
    if answer.stack.names_the_kit() {
        panels
    } else {
        format!("{panels}, and plate and binder still to come off")
    }
}

/// Panels of `height`, or the room for them where neither plate nor binder is named.
fn high(answer: &Heights, height: &str) -> String {
    if answer.stack.names_the_kit() {
        format!("panels {height} high")
    } else {
        format!("{height} for the panels")
    }
}

/// Which drops to read again.
fn read_again(answer: &Heights, units: Units) -> String {
    let drops = answer.drops.iter().enumerate().filter(|(_, drop)| drop.read_again);
    let names: Vec<String> = drops
        .map(|(i, drop)| match &drop.place {
            Some(place) => format!("{} at {place}", units.fine(drop.drop.0)),
            None if answer.drops.len() > 2 => format!("{} (drop {})", units.fine(drop.drop.0), i + 1),
            None => units.fine(drop.drop.0),
        })
        .collect();
    let spread = units.fine(answer.spread.map_or(0.0, |s| s.0));
    let drops = if names.len() == 1 { "drop" } else { "drops" };
    format!(
        "read the {drops} {} again: the drops differ by {spread}, which level and tape don't",
        and_list(&names)
    )
}
