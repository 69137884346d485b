//! From text to a job file or a price list and back, and where in the text a field stands.

mod bulk;
mod cells;
mod locate;
mod objects;
mod overlay;
mod prices;
mod read;
mod rewrite;
mod shape;

pub use locate::{Place, locate};
pub use prices::{PRICE_COLUMNS, PriceFile, read_prices};
pub use read::{JobFileError, LARGEST_FILE, read, without_mark};
pub use rewrite::rewritten;
