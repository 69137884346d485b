//! From what was typed to a checked outline.
//!
//! A plan is seen from above, mm, x to the right, y **down** the page, the origin at the top left of the bounding box.
//! Corner A is the left end of the topmost side; where several sides lie equally high, of the leftmost of them.
//! Letters run clockwise.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::plan::{PlanError, parse_expression, parse_walk};
//!
//! let (drawn, _) = parse_expression("7800x6000-3000x2400", Units::Mm)?;
//! let (walked, _) = parse_walk("7800 R 3600 R 3000 L 2400", Units::Mm)?;
//! assert_eq!(drawn, walked);
//! assert_eq!((drawn.len(), drawn.perimeter()), (6, 27_600.0));
//! # Ok::<(), PlanError>(())
//! ```

mod error;
mod expression;
mod footprint;
mod grid;
mod house;
mod limits;
mod misclosure;
mod outline;
mod sight;
mod site;
mod spot;
mod walk;

pub use error::PlanError;
pub use expression::parse_expression;
pub use footprint::{Corner, Footprint, Heading, Side, Turn, corner_name};
pub use grid::Grid;
pub use house::parse_sides;
pub use limits::{FEWEST_CORNERS, LONGEST_TEXT, MOST_CORNERS, SAME_PLACE};
pub use misclosure::{Axis, Misclosure, Repair};
pub use sight::Lies;
pub use site::{Place, Site};
pub use spot::{Spot, SpotError};
pub use walk::parse_walk;
