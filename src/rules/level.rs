//! Level: how far two points of a bed, a sill or a floor may differ in height, by the distance between them.

use super::figure::{FOOT, INCH, Seen, Source};
use super::law::Law;
use super::preset::Preset;

/// Limits on the level of what is built.
pub const LEVEL: &[Preset] = &[
    Preset {
        key: "kent",
        says: "level within 1/4 in per 10 ft, 1/2 in overall",
        source: Source {
            publication: "Kent, Handbook of Construction Tolerances, quoted in a trade journal",
            seen: Seen::Secondary,
        },
        law: Law::RateUpTo { limit: INCH / 4.0, per: 10.0 * FOOT, most: INCH / 2.0 },
        published: &[(10.0 * FOOT, INCH / 4.0), (20.0 * FOOT, INCH / 2.0)],
    },
    Preset {
        key: "us-remodelling",
        says: "level within 1/2 in within 20 ft",
        source: Source {
            publication: "US residential remodelling performance standard",
            seen: Seen::Secondary,
        },
        law: Law::Within { limit: INCH / 2.0, to: 20.0 * FOOT },
        published: &[(20.0 * FOOT, INCH / 2.0)],
    },
];

/// Limits on the level of a masonry bed joint: what the plate is laid on.
pub const BED_JOINTS: &[Preset] = &[
    Preset {
        key: "nhbc",
        says: "bed joint within 8 mm per 5 m of wall, 12 mm over 5 m",
        source: Source { publication: "NHBC Standards, level of bed joints", seen: Seen::Official },
        law: Law::ProRataThenFixed { limit: 8.0, to: 5000.0, over: 12.0 },
        published: &[(5000.0, 8.0), (5000.001, 12.0)],
    },
    Preset {
        key: "labc",
        says: "bed joint within 10 mm to 5 m of wall, 15 mm over 5 m",
        source: Source {
            publication: "LABC Warranty technical manual, level of bed joints",
            seen: Seen::Official,
        },
        law: Law::ProRataThenFixed { limit: 10.0, to: 5000.0, over: 15.0 },
        published: &[(5000.0, 10.0), (5000.001, 15.0)],
    },
    Preset {
        key: "tms-602",
        says: "bed joint within 1/4 in per 10 ft, 1/2 in in all",
        source: Source { publication: "TMS 602, bed joints", seen: Seen::Secondary },
        law: Law::RateUpTo { limit: INCH / 4.0, per: 10.0 * FOOT, most: INCH / 2.0 },
        published: &[(10.0 * FOOT, INCH / 4.0), (20.0 * FOOT, INCH / 2.0)],
    },
];
