//! Falls of a flat roof.

use schemars::JsonSchema;
use serde::Serialize;

use super::figure::{Seen, Source};

/// A fall of one in so many.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Fall {
    /// The word that names it.
    pub key: &'static str,
    /// The n of "1:n".
    pub one_in: f64,
    /// What the publication says of it, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Fall {
    /// How far it drops, mm, over a run of `run` mm.
    #[must_use]
    pub fn over(&self, run: f64) -> f64 {
        run / self.one_in
    }
}

const BS_6229: Source = Source { publication: "BS 6229, flat roofs", seen: Seen::Memory };

/// The fall to draw and build to, so that the finished one is never less than [`FINISHED_FALL`].
pub const DESIGN_FALL: Fall = Fall {
    key: "design",
    one_in: 40.0,
    says: "design to 1:40 so that it finishes at no less than 1:80",
    source: BS_6229,
};

/// The least fall once everything has settled.
pub const FINISHED_FALL: Fall =
    Fall { key: "finished", one_in: 80.0, says: "no less than 1:80 when finished", source: BS_6229 };

/// The least fall of a built-up roof in the US residential code: 1/4 in for every 12 in.
pub const US_FALL: Fall = Fall {
    key: "irc",
    one_in: 48.0,
    says: "a built-up roof falls at least 1/4 in for every 12 in",
    source: Source { publication: "US International Residential Code R905.9.1", seen: Seen::Memory },
};

/// The published falls, steepest first.
pub const ROOF_FALLS: &[Fall] = &[DESIGN_FALL, US_FALL, FINISHED_FALL];
