//! Packing a plate level: readings round the plate line into gaps, and gaps into packers.
//!
//! *pack = datum − height*, where the datum is the highest place unless another is named, so that nothing has to be cut;
//! then stacks from what is in the van: first as many places made up as can be, then as near as can be, then as little over
//! the gap as can be, then the fewest pieces.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::packers::{CLOSE_ENOUGH, Packer};
//! use pegline::packing::{Datum, Packing, Readings, SetUp, packs};
//! use pegline::plan::{Spot, parse_expression};
//! use pegline::rules::SOLID_PACKING;
//!
//! let (footprint, _) = parse_expression("4000x3000", Units::Mm)?;
//! // Staff readings: the bigger, the lower. C reads least, so C is the datum, and A is 1412 − 1405 = 7 under it.
//! let read = [("A", 1412.0), ("B", 1409.0), ("C", 1405.0), ("D", 1411.0)];
//! let mut readings = vec![];
//! for (place, mm) in read {
//!     readings.push((Spot::parse(place, &footprint, Units::Mm)?, mm));
//! }
//! let answer = packs(&footprint, &Packing {
//!     set_ups: vec![SetUp { kind: Readings::Staff, readings }],
//!     datum: Datum::Highest,
//!     packers: [1.0, 2.0, 3.0, 5.0].map(|thickness| Packer { thickness, count: None }).to_vec(),
//!     studs: None,
//!     limit: None,
//!     tolerance: CLOSE_ENOUGH,
//!     solid: None,
//!     filling: SOLID_PACKING,
//!     units: Units::Mm,
//! })?;
//! assert_eq!((answer.datum.name.as_str(), answer.stations[0].pack.0), ("C", 7.0));
//! let stack: Vec<f64> = answer.stations[0].packers.iter().map(|mm| mm.0).collect();
//! assert_eq!(stack, [5.0, 2.0]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bed;
mod error;
mod odd_one;
mod packed;
mod packs;
mod read_again;
mod set_ups;
mod studs;

pub use bed::{Against, Bed, BedCheck, Limit};
pub use error::PackingError;
pub use odd_one::OddOne;
pub use packed::{DatumRule, DatumUsed, Flag, PackVerdict, Packs, Station};
pub use packs::{Datum, Packing, packs};
pub use read_again::ReadAgain;
pub use set_ups::{Closing, Closure, Correction, Readings, SetUp, Sight};
pub use studs::Unread;
