//! Levels.
mod bed;
mod book;
mod error;
mod make_up;
mod odd_one;
mod packed;
mod packers;
mod packs;
mod places;
mod prices;
mod setups;
mod stacks;
mod studs;
mod tenths;
mod van;

pub use bed::{Against, Bed, BedCheck, Limit};
pub use book::{Book, BookLine, ReducedLine, Reduction, reduce_book};
pub use error::LevelsError;
pub use make_up::{MOST_GAP, MakeUp, Packer, Stacked, Total, make_up};
pub use odd_one::OddOne;
pub use packed::{DatumUsed, Flag, PackVerdict, Packs, Station};
pub use packs::{CLOSE_ENOUGH, Datum, Packing, packs};
pub use places::{Corner, Place, PlateLine, Side};
pub use setups::{Closing, Closure, Correction, Readings, SetUp};
pub use studs::Unread;
