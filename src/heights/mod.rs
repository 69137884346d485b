//! Heights: from the existing wall head down to the panel, and through the room to the ceiling.
//!
//! The joiner lays a spirit level on the existing wall head so that it reaches out over the new plate line, holds it
//! level, and tapes from its **top** edge straight down: to the masonry at a place, or to the packed line that the plate
//! lies on. That line is the **datum**. The wall head is at the level's underside, so the level's own depth comes off,
//! and so does the pack at the place where the tape went down to the masonry:
//!
//! ```text
//! wall head = drop − the level's own depth − the pack at the place
//! ```
//!
//! Of several drops the highest is kept, but none that stands apart from the others by more than a level and a tape can
//! explain: that one is to be read again.
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
//! ```
//! use pegline::heights::{Layer, Taped, WallHead, heights};
//!
//! let layers = [("plate", 38.0), ("rail", 38.0), ("rail", 38.0), ("binder", 38.0), ("floor", 75.0), ("lining", 28.0)];
//! let layers = layers.map(|(name, mm)| Layer::new(name, mm)).into_iter().collect::<Result<_, _>>()?;
//! let found = heights(&WallHead {
//!     drops: [2398.0, 2396.0, 2397.0].map(|drop| Taped { drop, ..Taped::default() }).to_vec(),
//!     level_depth: Some(50.0),
//!     layers,
//!     ceiling: Some(2400.0),
//!     ..WallHead::default()
//! })?;
//! assert_eq!((found.wall_head.0, found.spread.map(|mm| mm.0)), (2348.0, Some(2.0)));
//! assert_eq!((found.panel_height.0, found.stud_length.map(|mm| mm.0)), (2272.0, Some(2196.0)));
//! assert_eq!(found.ceiling_height.0, 2245.0);
//! let needed = found.needed.expect("a ceiling was wanted");
//! assert_eq!((needed.wall_head.0, needed.panel_height.0), (2503.0, 2427.0));
//! assert_eq!(needed.misses.map(|mm| mm.0), Some(-155.0));
//! # Ok::<(), pegline::heights::HeightsError>(())
//! ```
//!
//! Nothing is assumed: a layer that isn't named has no thickness, and without rails there is no stud length.

mod drops;
mod error;
mod layer;
mod stack;
mod supports;
mod wall_head;

pub use drops::{DROPS_AGREE, FromDrop, Taped};
pub use error::HeightsError;
pub use layer::{Layer, Role};
pub use stack::{HeightStack, Part, Span};
pub use supports::{End, Joists, Supports};
pub use wall_head::{HeightVerdict, Heights, LeastCeiling, Needed, WallHead, heights};
