//! Levels: packing a plate level, and the heights that follow from the existing wall head.
//!
//! # Packing
//!
//! [`packs`] turns readings round the plate line into gaps and gaps into packers: *pack = datum − height*, in the
//! fewest pieces.
//!
//! # The chain of heights
//!
//! The joiner lays a spirit level on the existing wall head so that it reaches out over the new plate line, holds it
//! level, and tapes from its **top** edge straight down to the **datum**: the masonry or packed line that the plate
//! lies on. The wall head is at the level's underside, so the level's own depth comes off:
//!
//! ```text
//! wall head = drop − the level's own depth         (several drops: the highest is kept, the spread reported)
//! ```
//!
//! Two chains run from the datum up to the wall head. Through the wall, where the top of the binder finishes at
//! the wall head:
//!
//! ```text
//! wall head = packing + kit          kit = plate + panel + binder          panel = rails + stud
//! ```
//!
//! and through the room, where the floor finish is laid on the datum (or on a slab that lies below it) and the
//! ceiling lining hangs under the joists, whose underside is the top of the binder:
//!
//! ```text
//! wall head = floor finish + ceiling height + lining − slab
//! ```
//!
//! So packing, plates, rails, binders, floor and room lie *above* the datum, a slab *below* it, and the lining below
//! the wall head. A wanted ceiling runs the second chain upwards to the wall head it needs, then the first downwards
//! to the panel.
//!
//! Worked example: drops 2398, 2396, 2397 from a level 50 deep give wall heads 2348, 2346, 2347, so 2348 with a
//! spread of 2. With a 38 plate and a 38 binder the panel is 2348 − 38 − 38 = 2272; with two 38 rails the stud is
//! 2196. A 75 floor and a 28 lining leave a ceiling of 2348 − 75 − 28 = 2245. A 2400 ceiling needs the wall head at
//! 2400 + 75 + 28 = 2503 and a panel of 2503 − 76 = 2427: the wall head is 155 too low.
//!
//! Nothing is assumed: a layer that isn't named has no thickness, and without rails there is no stud length.

mod bed;
mod drawing;
mod error;
mod grain;
mod heights;
mod layer;
mod make_up;
mod odd_one;
mod packed;
mod packers;
mod packs;
mod places;
mod prices;
mod setups;
mod stack;
mod stacks;
mod studs;
mod supports;
mod swaps;
mod told;
mod van;

pub use bed::{Against, Bed, BedCheck, Limit};
pub use drawing::{WIDTH, draw};
pub use error::LevelsError;
pub use heights::{HeightVerdict, Heights, LeastCeiling, Needed, WallHead, heights};
pub use layer::{Layer, Role};
pub use make_up::{MOST_GAP, MakeUp, Packer, Stacked, Total, make_up};
pub use odd_one::OddOne;
pub use packed::{DatumUsed, Flag, PackVerdict, Packs, Station};
pub use packs::{CLOSE_ENOUGH, Datum, Packing, packs};
pub use places::{Place, PlaceError};
pub use setups::{Closing, Closure, Correction, Readings, SetUp, Sight};
pub use stack::{HeightStack, Part, Span};
pub use studs::Unread;
pub use supports::{End, Joists, Supports};

/// The caution that goes with packing and heights, to be printed once, at the end.
pub const CAUTION: &str = "packing and bearings carry load: follow the engineer's or the kit designer's schedule and \
    the local code; published figures are for reference; check the existing wall before bearing on it";
