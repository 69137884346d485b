//! Published limits: one table a subject, every value with its source, how it was seen, and how it scales.
//!
//! A preset never overrides the user's own limit. Figures that could not be confirmed anywhere (the largest plate
//! overhang, the pack height that needs structural grout, fixing centres of a sole plate, a diagonal tolerance for
//! a wall plate on masonry) are deliberately absent: they are the user's to set.
//!
//! # Where the figures come from
//!
//! All of them, those of other modules included:
//!
//! | Figure | Source |
//! | --- | --- |
//! | Tape classes I, II, III: ±(a + b·L) mm | Directive 2014/32/EU, Annex X (UK: Measuring Instruments Regulations 2016, Schedule 1I) |
//! | US tapes, steps in fractions of an inch | NIST Handbook 44 |
//! | How many distances fix a shape: 2n − 3 | Laman (1970) |
//! | Smallest slip that shows: 4.13 σ/√r; a suspect past 3.29 | Baarda (1968), α₀ = 0.001, power 0.80; from memory |
//! | Steel tape and warmth: 11.6 × 10⁻⁶ a °C from 20 °C; sag w²L³/(24P²) | textbook surveying; tested on a published example and a NIST calibration (1991) |
//! | Sag of a line: wL²/(8T) | statics of the parabola; tested on a published wire example and the catenary |
//! | Board lengths, pegs a board, setback; string of 1 g/m at 50 N | common practice, no source; the string is assumed |
//! | Line types and widths of the drawing, dimension lines outside the figure, blank edges of the sheet | ISO 128, ISO 129 and ISO 5457, from memory |
//! | Fewest rectangles in an outline | Lipski and others (1979), Ohtsuki (1982), Ferrari and others (1984); from memory |
//! | Anchors, `us`: 6 ft apart, 12 in and 7 bolt diameters from an end, two a piece | US International Residential Code R403.1.6; secondary page |
//! | Anchors, `nz`: 900 mm apart, 150 mm from an end | New Zealand published plate fasteners; secondary page |
//! | End joints of two top plates 24 in (610 mm) apart; `--lap` is 600 mm, or 24 in in feet and inches, unless given | US International Residential Code R602.3.2; secondary page |
//! | Straps of a top plate at most 2 m apart: `nhbc` | NHBC Standards 7.2.6; secondary page |
//! | Damp-proof course lapped 100 mm | NHBC Standards 5.1.19 and 6.3.13; secondary page |
//! | Treated sill, sill seal, a nut and a washer on each bolt: with anchors `us` | common practice in the US, no source |
//! | Least piece 600 mm, 150 mm from a post, 50 mm from a panel joint and from a stud's middle, 3 mm saw cut | common practice, no source; each has its option |
//! | The numbers that practice sheets are drawn from | SplitMix64: Steele, Lea and Flood (2014) |
//! | 3-4-5 and its kin | Euclid's rule for whole-number right triangles |
//! | Sizes on plan and at corners: `din-18202`; `kent` | DIN 18202, Table 1; Kent, Handbook of Construction Tolerances (both secondary pages) |
//! | Sizes on plan: `iso-4463-primary`, `iso-4463-secondary` | ISO 4463-1, from memory |
//! | Diagonals and corners: `kent`, `us-remodelling` | Kent, Handbook of Construction Tolerances; US residential remodelling performance standard (both secondary pages) |
//! | Level of bed joints: `nhbc`, `labc`, `tms-602` | NHBC Standards and LABC Warranty technical manual (official pages); TMS 602 (secondary page) |
//! | Level of the whole: `kent`, `us-remodelling` | Kent, Handbook of Construction Tolerances; US residential remodelling performance standard (both secondary pages) |
//! | Solid packing for gaps under 5 mm; in feet and inches shims and grout | UK guidance on sole plates (secondary page); common practice in the US, no source |
//! | Ceiling: 2134 mm least; 2.4 m usual, or 8 ft in feet and inches | US IRC R305.1, from memory; common practice, no source |
//! | Joists: bearings on timber and masonry and in hangers, centres `nhbc`; strutting by span `nhbc` | NHBC Standards 6.4.10, 6.4.13 and 6.4.15; official page |
//! | Joists: bearings `irc` | US International Residential Code R502.6; secondary page |
//! | Joists: bearings `ontario` | Ontario Building Code 9.20 and 9.23; secondary page |
//! | First and last joist 25 to 75 mm clear of the wall; 50 mm unless given | NHBC craft guide (2002), in a copy; secondary page |
//! | Flat-roof fall: 1:40 to finish at 1:80; 1/4 in for every 12 in `irc` | BS 6229; US IRC R905.9.1; both from memory |
//!
//! ```
//! use pegline::rules::{PLAN_SIZES, Seen, find};
//!
//! let preset = find(PLAN_SIZES, "a size on plan", "din-18202")?;
//! assert_eq!(preset.source.seen, Seen::Secondary);
//! assert!(preset.limit(6000.0) < preset.limit(20_000.0));
//! # Ok::<(), pegline::rules::UnknownPreset>(())
//! ```

mod anchors;
mod ceiling;
mod diagonals;
mod figure;
mod joists;
mod keys;
mod laps;
mod law;
mod level;
mod packing;
mod plan_sizes;
mod preset;
pub mod right_angle;
mod roof;
mod straps;

pub use anchors::{ANCHOR_SETS, AnchorSet, US_BOLT, US_EMBEDMENT, UnknownAnchorSet, anchor_set};
pub use ceiling::{COMMON_CEILING, COMMON_CEILING_IN_FEET, LEAST_CEILING};
pub use diagonals::DIAGONALS;
pub use figure::{Figure, Seen, Source};
pub use joists::{
    CLEAR_OF_WALL, ClearOfWall, JOIST_RULES, JoistRule, STRUTTING, Strutting, UnknownJoistRule, joist_rule,
};
pub(crate) use keys::listed;
pub use laps::{DPC_LAP, SPLICE_LAP};
pub use law::{Band, Law};
pub use level::{BED_JOINTS, LEVEL};
pub use packing::{GapFilling, SHIMS_AND_GROUT, SOLID_PACKING};
pub use plan_sizes::PLAN_SIZES;
pub use preset::{Preset, TableOf, UnknownPreset, find, find_in};
pub use roof::{DESIGN_FALL, FINISHED_FALL, Fall, ROOF_FALLS, US_FALL};
pub use straps::STRAP_SPACING;
