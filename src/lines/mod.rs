//! From numbers to string on the ground: profiles and nails, offset outlines, running marks, straightness.
//!
//! ```
//! use pegline::lines::{Reading, StraightQuestion, StringSide, straight};
//!
//! let readings = [(0.0, 20.0), (1200.0, 22.0), (2400.0, 20.0)];
//! let answer = straight(&StraightQuestion {
//!     side: None,
//!     block: 20.0,
//!     string: StringSide::Outside,
//!     readings: readings.map(|(at, reading)| Reading { at, reading }).to_vec(),
//!     limit: None,
//!     inward: None,
//! })?;
//! // The middle station stands 2 mm in from the string.
//! assert_eq!(answer.map(|answer| answer.stations[1].out.0), Some(2.0));
//! # Ok::<(), pegline::length::AmountError>(())
//! ```

mod answer;
mod boards;
mod checks;
mod clearing;
mod error;
mod faces;
mod fit;
mod ground;
mod limit;
mod marks;
mod offset;
mod profiles;
mod runs;
mod straight;

pub use answer::{
    Lines, LinesQuestion, StringLine, StringTotal, WallLine, least_setback, lines, sag_limit, usual_setback,
};
pub use boards::{Board, BoardKind, Nail};
pub use checks::{Between, CheckRectangle, Checks};
pub use error::LinesError;
pub use faces::{Face, Faces, Layer, Wall, WallError};
pub use fit::{Fit, least_squares, narrowest};
pub use limit::{OffsetLimit, Stop, offset_limit};
pub use marks::{Item, ItemKind, MarkAt, MarksQuestion, SideMarks, Thing};
pub use offset::{Offset, OffsetCorner, OffsetDiagonal, OffsetError, OffsetSide, offset_outline};
pub use profiles::{Profile, SharedNail, Size};
pub use runs::Why;
pub use straight::{
    MOST_BLOCK_READINGS, Reading, Stands, Station, Straight, StraightLine, StraightQuestion, StraightVerdict,
    StringSide, straight,
};
