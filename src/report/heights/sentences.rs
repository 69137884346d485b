//! The heights in plain sentences.

use crate::heights::{HeightVerdict, Heights, Needed};
use crate::length::Units;

/// Differences under this, mm, are rounding.
const NOTHING: f64 = 1e-6;

/// What the joiner is told first, one plain sentence each.
pub(super) fn sentences(answer: &Heights, units: Units) -> Vec<String> {
    let (panel, head, ceiling) = (
        units.fine(answer.panel_height.0),
        units.fine(answer.wall_head.0),
        units.fine(answer.ceiling_height.0),
    );
    let as_found = format!("panels {panel} high meet the wall head at {head}");
    let compared = answer.needed.as_ref().and_then(|n| Some((n, n.misses?.0)));
    let mut said = match (answer.verdict, compared) {
        (HeightVerdict::AsNeeded, _) => {
            vec![format!("a ceiling of {ceiling} needs panels {panel} high and the wall head at {head}")]
        }
        (_, None) => vec![format!("{as_found}; the ceiling comes to {ceiling}")],
        (_, Some((needed, misses))) => {
            let wanted = units.fine(needed.ceiling_height.0);
            let by = units.fine(misses.abs());
            let against = match misses {
                m if m < -NOTHING => format!("{by} under the {wanted} wanted"),
                m if m > NOTHING => format!("{by} over the {wanted} wanted"),
                _ => "just what is wanted".to_owned(),
            };
            vec![
                format!("the ceiling comes to {ceiling}, {against}"),
                format!("{as_found}; {}", needs(needed, units)),
            ]
        }
    };
    if answer.verdict == HeightVerdict::DropsDisagree {
        let spread = units.fine(answer.spread.map_or(0.0, |s| s.0));
        said.insert(
            0,
            format!("the drops differ by {spread}, over their limit: check the level and read them again"),
        );
    }
    said
}

fn needs(needed: &Needed, units: Units) -> String {
    format!(
        "a ceiling of {} needs panels {} high and the wall head at {}",
        units.fine(needed.ceiling_height.0),
        units.fine(needed.panel_height.0),
        units.fine(needed.wall_head.0)
    )
}
