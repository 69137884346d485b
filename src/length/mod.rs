//! Lengths as people write them and as a tape shows them. Inside the program a length is millimetres in an `f64`.
//!
//! | Written | Read as |
//! | --- | --- |
//! | `6435`, `6435mm`, `6435 mm` | 6435 mm (a bare number is in the units in force, mm unless said) |
//! | `643.5cm` | centimetres |
//! | `6.435m`, `6,43m` | metres; a decimal comma is taken where it can't be a thousands mark |
//! | `27ft6-1/2in`, `27'6-1/2"`, `27ft 6 1/2in`, `27'-6"` | feet, inches and a fraction |
//! | `27'6`, `27ft 6 1/2`, `27'6½"`, `27 ft. 6 in.` | the inches' mark may be left out behind feet |
//! | `27ft`, `27.5ft`, `6-1/2in`, `1/2in`, `6.5in` | either part alone |
//! | `1/2`, `6-1/2`, `6½` | a fraction without a unit is of inches |
//!
//! ```
//! use pegline::length::{Length, Units};
//!
//! for (text, mm) in [
//!     ("6435", 6435.0),
//!     ("643.5cm", 6435.0),
//!     ("6.435m", 6435.0),
//!     ("6,43m", 6430.0),
//!     ("27ft6-1/2in", 8394.7),
//!     ("27'6-1/2\"", 8394.7),
//!     ("27'-6\"", 8382.0),
//!     ("27'6 1/2", 8394.7),
//!     ("27 ft. 6½ in.", 8394.7),
//!     ("27 1/2'", 8382.0),
//!     ("1/2in", 12.7),
//!     ("6-1/2", 165.1),
//! ] {
//!     let length: Length = Length::parse(text, Units::Mm)?;
//!     assert!((length.mm - mm).abs() < 1e-9, "{text}");
//! }
//! assert_eq!(Units::FeetInches.with_unit(8394.7), "27' 6-1/2\"");
//! assert_eq!(Units::FeetInches.typed(6116.6375), "20ft0-13/16in");
//! # Ok::<(), pegline::length::LengthError>(())
//! ```

mod amount;
mod error;
mod in_units;
mod meant;
mod print;
mod read;
mod scan;
mod units;

pub use amount::AmountError;
pub(crate) use amount::{at_most, not_negative, positive, usable};
pub use error::LengthError;
pub use in_units::InUnits;
pub use print::{decimal, trimmed};
pub(crate) use print::{printed, whole};
pub(crate) use scan::{dashed_inches, scan};
pub use units::{LONGEST, Length, MM_PER_FOOT, MM_PER_INCH, Units, UnknownUnits};
