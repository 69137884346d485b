//! The job file: one JSON file that holds a whole job's inputs, and the checked [`Job`] made of it.
//!
//! What is typed on the command line becomes a [`JobFile`] too, laid over the file's, so that there is one way from
//! words to a checked job.

mod check;
mod decimal;
mod entry;
mod fault;
mod faults;
mod file;
mod heights;
mod locate;
mod order;
mod packs;
mod plates;
mod plates_file;
mod prices;
mod quantity;
mod read;
mod readings;
mod shape;
mod sketch;
mod starter;
mod timber;

pub use check::{AngleQuestion, Job, LinesJob};
pub use decimal::DecimalEntry;
pub use entry::LengthEntry;
pub use fault::Fault;
pub use file::{
    CornersSection, DiagonalsSection, JobFile, LayerEntry, LinesSection, PlaceEntry, ReadingEntry,
    StraightSection, StretchEntry, TapeSection, schema,
};
pub use heights::HeightsSection;
pub use locate::{Place, locate};
pub use order::{Extra, ExtraEntry, OrderJob, OrderSection, Parts, PriceEntry};
pub use packs::PacksSection;
pub use plates_file::{AnchorsSection, PlatesSection};
pub use prices::{PRICE_COLUMNS, PriceFile, read_prices};
pub use quantity::QuantityEntry;
pub use read::{JobFileError, LARGEST_FILE, read, without_mark};
pub use readings::{ReadingsQuestion, ReadingsSection, SecondTapeSection};
pub use sketch::{SketchInputs, SketchSection};
pub use starter::{Shape, UnknownShape, starter};
pub use timber::{CountEntry, CutsSection, ForSaleEntry, MoneyEntry, StockSection};

/// The number of the job file's schema, and of the JSON answers'. Keys never change meaning inside one number.
pub const SCHEMA: u32 = 1;
