//! Least ceiling heights.

use super::figure::{FOOT, Figure, Seen, Source};

/// The least ceiling height of a habitable room in the US residential code: 7 ft (printed there as 2134 mm).
pub const LEAST_CEILING: Figure = Figure {
    value: 7.0 * FOOT,
    says: "a habitable room's ceiling is at least 7 ft (2134 mm) high",
    source: Source { publication: "US International Residential Code R305.1", seen: Seen::Memory },
};

/// The ceiling height that a house extension in feet and inches usually aims at.
pub const COMMON_CEILING_IN_FEET: Figure = Figure {
    value: 8.0 * FOOT,
    says: "8 ft is the usual ceiling height",
    source: Source { publication: "common practice", seen: Seen::Practice },
};

/// The ceiling height that a house extension in the UK usually aims at.
pub const COMMON_CEILING: Figure = Figure {
    value: 2400.0,
    says: "2.4 m is the usual ceiling height",
    source: Source { publication: "common practice", seen: Seen::Practice },
};
