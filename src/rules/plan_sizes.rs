//! Sizes on plan: how far a length or width may be from the drawing.

use super::figure::{FOOT, INCH, Seen, Source};
use super::law::{Band, Law};
use super::preset::Preset;

const fn up_to(metres: f64, limit: f64) -> Band {
    Band { to: metres * 1000.0, inclusive: true, limit }
}

/// Limits on a dimension on plan.
pub const PLAN_SIZES: &[Preset] = &[
    Preset {
        key: "din-18202",
        says: "within 10 mm to 1 m, 12 to 3 m, 16 to 6 m, 20 to 15 m, 24 to 30 m, 30 over",
        source: Source { publication: "DIN 18202, Table 1, dimensions on plan", seen: Seen::Secondary },
        law: Law::Bands(&[
            up_to(1.0, 10.0),
            up_to(3.0, 12.0),
            up_to(6.0, 16.0),
            up_to(15.0, 20.0),
            up_to(30.0, 24.0),
            up_to(f64::INFINITY, 30.0),
        ]),
        published: &[
            (1000.0, 10.0),
            (3000.0, 12.0),
            (6000.0, 16.0),
            (15_000.0, 20.0),
            (30_000.0, 24.0),
            (30_000.001, 30.0),
        ],
    },
    Preset {
        key: "kent",
        says: "under 10 ft within 1/8 in, from 10 to 100 ft within 1/4 in",
        source: Source {
            publication: "Kent, Handbook of Construction Tolerances, quoted in a trade journal",
            seen: Seen::Secondary,
        },
        law: Law::Bands(&[
            Band { to: 10.0 * FOOT, inclusive: false, limit: INCH / 8.0 },
            Band { to: 100.0 * FOOT, inclusive: true, limit: INCH / 4.0 },
        ]),
        published: &[(9.999 * FOOT, INCH / 8.0), (10.0 * FOOT, INCH / 4.0), (100.0 * FOOT, INCH / 4.0)],
    },
    Preset {
        key: "iso-4463-primary",
        says: "primary system: within 0.75 times the root of the length in metres, in mm, never under 4 mm",
        source: Source { publication: "ISO 4463-1", seen: Seen::Memory },
        law: Law::RootOfMetres { factor: 0.75, least: 4.0 },
        published: &[(100_000.0, 7.5), (1000.0, 4.0)],
    },
    Preset {
        key: "iso-4463-secondary",
        says: "secondary system: within 1.5 times the root of the length in metres, in mm, never under 8 mm",
        source: Source { publication: "ISO 4463-1", seen: Seen::Memory },
        law: Law::RootOfMetres { factor: 1.5, least: 8.0 },
        published: &[(100_000.0, 15.0), (1000.0, 8.0)],
    },
];
