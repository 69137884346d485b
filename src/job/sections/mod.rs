//! The job file's sections, a file each: as it is written, and its checking.

pub(super) mod along;
mod bookings;
pub(super) mod corners;
pub(super) mod cuts;
pub(super) mod diagonals;
pub(super) mod heights;
pub(super) mod joists;
pub(super) mod lines;
pub(super) mod order;
pub(super) mod packs;
pub(super) mod plates;
pub(super) mod readings;
pub(super) mod sketch;
pub(super) mod stock;
pub(super) mod straight;
pub(super) mod tape;

pub(super) use along::AlongEntries;
pub use along::{PlaceEntry, StretchEntry};
pub use bookings::BookingEntry;
pub use corners::{AngleQuestion, CornersSection};
pub use cuts::CutsSection;
pub use diagonals::DiagonalsSection;
pub use heights::HeightsSection;
pub use joists::{Assumed, JoistsJob, JoistsSection, RoofOpeningEntry};
pub use lines::{LayerEntry, LinesJob, LinesSection};
pub(in crate::job) use order::MOST_PRICES;
pub use order::{Extra, ExtraEntry, OrderJob, OrderSection, Parts, PriceEntry};
pub use packs::PacksSection;
pub use plates::{AnchorsSection, PlatesSection};
pub use readings::{ReadingsQuestion, ReadingsSection, SecondTapeSection};
pub use sketch::{SketchInputs, SketchSection, Subject};
pub use stock::{CountEntry, ForSaleEntry, StockSection};
pub use straight::{ReadingEntry, StraightSection};
pub use tape::TapeSection;
