//! Straps that hold the top plate down.

use super::figure::{Figure, Seen, Source};

/// The most between two straps on a roof's wall plate.
pub const STRAP_SPACING: Figure = Figure {
    value: 2000.0,
    says: "straps of 30 × 2.5 mm hold a roof's wall plate down at most 2 m apart",
    source: Source { publication: "NHBC Standards 7.2.6", seen: Seen::Secondary },
};
