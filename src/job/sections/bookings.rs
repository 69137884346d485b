//! Named bookings of what was read on site: of the brickwork, of the plate, of the plate once it was moved.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HeightsSection, PacksSection, ReadingsSection, StraightSection};

/// What was read on site at one time, under a name.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BookingEntry {
    /// What it is called: brick, plate, plate 2, level, CD.
    pub name: String,
    /// Taped lines. What is not said here, such as the limit, is as in the job's own section.
    pub readings: Option<ReadingsSection>,
    /// Levels round the plate.
    pub packs: Option<PacksSection>,
    /// Offset-block readings along a side.
    pub straight: Option<StraightSection>,
    /// The wall head.
    pub heights: Option<HeightsSection>,
    /// Readings that were struck out, as they were booked: CD=3101.
    pub struck: Option<Vec<String>>,
}

impl BookingEntry {
    /// Whether it goes by this name.
    #[must_use]
    pub fn is_called(&self, name: &str) -> bool {
        self.name.trim().eq_ignore_ascii_case(name.trim())
    }
}
