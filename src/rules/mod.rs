//! Published limits: one table a subject, every value with its source, how it was seen, and how it scales.
//!
//! A preset never overrides the user's own limit. Figures that could not be confirmed anywhere (the largest plate
//! overhang, the pack height that needs structural grout, fixing centres of a sole plate, a diagonal tolerance for
//! a wall plate on masonry) are deliberately absent: they are the user's to set.
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
pub use ceiling::{COMMON_CEILING, LEAST_CEILING};
pub use diagonals::DIAGONALS;
pub use figure::{Figure, Seen, Source};
pub use joists::{
    CLEAR_OF_WALL, ClearOfWall, JOIST_RULES, JoistRule, STRUTTING, Strutting, UnknownJoistRule, joist_rule,
};
pub use laps::{DPC_LAP, SPLICE_LAP};
pub use law::{Band, Law};
pub use level::{BED_JOINTS, LEVEL};
pub use packing::SOLID_PACKING;
pub use plan_sizes::PLAN_SIZES;
pub use preset::{Preset, TableOf, UnknownPreset, find, find_in};
pub use roof::{DESIGN_FALL, FINISHED_FALL, Fall, ROOF_FALLS};
pub use straps::STRAP_SPACING;
