//! Anchors of a plate to what it stands on, and the strips that tie it.

use schemars::JsonSchema;
use serde::Serialize;

use super::figure::{FOOT, INCH, Seen, Source};
use super::keys::listed;

/// A published rule for where anchors go. Lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct AnchorSet {
    /// The word that names it on the command line and in a job file.
    pub key: &'static str,
    /// What the publication says, in our words.
    pub says: &'static str,
    /// The most between two anchors.
    pub spacing: f64,
    /// The most from a piece's end to its nearest anchor.
    pub end: f64,
    /// The least from a piece's end to its nearest anchor.
    pub edge: f64,
    /// The fewest on a piece.
    pub least: usize,
    /// Where it comes from.
    pub source: Source,
    /// What else is usual where the rule is, with no source.
    pub usual: Option<&'static str>,
}

/// The bolt of the US rule, 1/2 in across; the least distance from an end is seven of them.
pub const US_BOLT: f64 = INCH / 2.0;
/// How deep the US rule's bolt goes into the masonry: 7 in (printed there as 178 mm).
pub const US_EMBEDMENT: f64 = 7.0 * INCH;

/// The published sets.
pub const ANCHOR_SETS: &[AnchorSet] = &[
    AnchorSet {
        key: "us",
        says: "bolts of 1/2 in or more, at most 6 ft (1829 mm) apart, one within 12 in (305 mm) of each end of each piece but not \
nearer than 7 bolt diameters, at least two a piece, 7 in (178 mm) into the masonry, in the middle third of the width",
        spacing: 6.0 * FOOT,
        end: FOOT,
        edge: 7.0 * US_BOLT,
        least: 2,
        source: Source { publication: "US International Residential Code R403.1.6", seen: Seen::Secondary },
        usual: Some(
            "a treated sill on masonry or concrete, a sill seal under it as the damp-proof course, a nut and a washer on \
each bolt",
        ),
    },
    AnchorSet {
        key: "nz",
        says: "fasteners within 150 mm of each end of the plate and at most 900 mm apart",
        spacing: 900.0,
        end: 150.0,
        edge: 0.0,
        least: 2,
        source: Source { publication: "New Zealand published plate fasteners", seen: Seen::Secondary },
        usual: None,
    },
];

/// A set that is not in the table.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "no published anchor rule `{given}`: write {known}, or your own (--anchor-spacing and --anchor-end, or `spacing` and `end` in the job file)",
    given = .0,
    known = listed(ANCHOR_SETS.iter().map(|set| set.key))
)]
pub struct UnknownAnchorSet(pub String);

/// The set called `key`, whatever the case of the letters.
pub fn anchor_set(key: &str) -> Result<&'static AnchorSet, UnknownAnchorSet> {
    ANCHOR_SETS
        .iter()
        .find(|set| set.key.eq_ignore_ascii_case(key.trim()))
        .ok_or_else(|| UnknownAnchorSet(key.to_owned()))
}
