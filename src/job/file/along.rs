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
