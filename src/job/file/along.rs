//! What stands along the sides: openings, partitions, panel joints.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;

/// Something with a width along a side: an opening, or a partition that meets the wall.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct StretchEntry {
    /// The side, the corner it is measured from first: CD from C, DC from D.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// Where it begins, from that corner.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<LengthEntry>,
    /// How wide it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<LengthEntry>,
    /// What it is called.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// For an opening: whether it is a window, under which the plate goes on; a door unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub window: Option<bool>,
    /// For a partition: the length of its plate, to be cut with the others. A partition that is only to be cut needs no
    /// side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<LengthEntry>,
}

impl StretchEntry {
    /// Whether it stands along a side, or is only a length of plate.
    pub(crate) const fn is_along(&self) -> bool {
        self.side.is_some() || self.length.is_none()
    }
}

/// A place on a side, such as a joint between two panels.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlaceEntry {
    /// The side, the corner it is measured from first: CD from C, DC from D.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// Where it is, from that corner.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<LengthEntry>,
}
