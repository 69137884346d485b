//! Diagonals: the hypotenuse of a right triangle, and the angle at the corner that goes with it.

use super::figure::{FOOT, INCH, Seen, Source};
use super::law::Law;
use super::preset::Preset;

/// Limits on a taped diagonal.
pub const DIAGONALS: &[Preset] = &[
    Preset {
        key: "kent",
        says: "hypotenuse of a right triangle within 3/4 in per 100 ft, pro rata",
        source: Source {
            publication: "Kent, Handbook of Construction Tolerances, quoted in a trade journal",
            seen: Seen::Secondary,
        },
        law: Law::ProRata { limit: 0.75 * INCH, per: 100.0 * FOOT },
        published: &[(100.0 * FOOT, 0.75 * INCH)],
    },
    Preset {
        key: "us-remodelling",
        says: "a 12 ft by 16 ft triangle measures 20 ft within 1/2 in",
        source: Source {
            publication: "US residential remodelling performance standard",
            seen: Seen::Secondary,
        },
        law: Law::SameAngle { legs: (12.0 * FOOT, 16.0 * FOOT), limit: 0.5 * INCH },
        published: &[(20.0 * FOOT, 0.5 * INCH)],
    },
];
