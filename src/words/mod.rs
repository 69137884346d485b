//! The grammar that every message shares: lists, counts, capitals, what was typed quoted back, and what was meant.
//!
//! ```
//! use pegline::words::{and_list, capital, count, nearest};
//!
//! let proven = ["AD", "BE", "DF"];
//! assert_eq!(capital(&format!("{} prove it: {}", count(3, "diagonal"), and_list(&proven))), "3 diagonals prove it: AD, BE and DF");
//! assert_eq!(nearest("packres", &["packers", "plan"]), Some("packers"));
//! ```

mod list;
mod nearest;
mod quoted;

pub use list::{and_list, and_more, capital, count, or_list};
pub use nearest::{is_near, nearest};
pub use quoted::{one_line, quoted, steers};
