//! The heights in plain sentences.

use super::heights::{HeightVerdict, Heights, NOTHING, Needed};

impl Heights {
    /// What the joiner is told first, one plain sentence each. `length` writes a length in the user's units.
    #[must_use]
    pub fn says(&self, length: &dyn Fn(f64) -> String) -> Vec<String> {
        let (panel, head, ceiling) =
            (length(self.panel_height.0), length(self.wall_head.0), length(self.ceiling_height.0));
        let as_found = format!("panels {panel} high meet the wall head at {head}");
        let compared = self.needed.as_ref().and_then(|n| Some((n, n.misses?.0)));
        let mut says = match (self.verdict, compared) {
            (HeightVerdict::AsNeeded, _) => {
                vec![format!("a ceiling of {ceiling} needs panels {panel} high and the wall head at {head}")]
            }
            (_, None) => vec![format!("{as_found}; the ceiling comes to {ceiling}")],
            (_, Some((needed, misses))) => {
                let wanted = length(needed.ceiling_height.0);
                let by = length(misses.abs());
                let against = match misses {
                    m if m < -NOTHING => format!("{by} under the {wanted} wanted"),
                    m if m > NOTHING => format!("{by} over the {wanted} wanted"),
                    _ => "just what is wanted".to_owned(),
                };
                vec![
                    format!("the ceiling comes to {ceiling}, {against}"),
                    format!("{as_found}; {}", needs(needed, length)),
                ]
            }
        };
        if self.verdict == HeightVerdict::DropsDisagree {
            let spread = length(self.spread.map_or(0.0, |s| s.0));
            says.insert(
                0,
                format!(
                    "the drops differ by {spread}, over their limit: check the level and read them again"
                ),
            );
        }
        says
    }
}

fn needs(needed: &Needed, length: &dyn Fn(f64) -> String) -> String {
    format!(
        "a ceiling of {} needs panels {} high and the wall head at {}",
        length(needed.ceiling_height.0),
        length(needed.panel_height.0),
        length(needed.wall_head.0)
    )
}
