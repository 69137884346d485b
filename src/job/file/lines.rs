//! For setting out lines, and for the straightness of one.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::{LengthEntry, QuantityEntry};

/// For lines and profiles.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LinesSection {
    /// How far profiles stand beyond the corners; 1 m unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setback: Option<LengthEntry>,
    /// The wall's layers, outside first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub layers: Option<Vec<LayerEntry>>,
    /// The face that the plan's outline is, such as plate or "plate inner"; the outer face of the layer called plate
    /// unless given, or of the whole wall where none is called so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outline: Option<String>,
    /// The footing's width.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub footing: Option<LengthEntry>,
    /// How far the footing stands outside the wall's outermost face; centred under the wall unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub footing_projection: Option<LengthEntry>,
    /// How far the offset outline is held off: outward, or inward with a minus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offset: Option<LengthEntry>,
    /// The sides to give running marks for, the corner they are measured from first; none named: every side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<Vec<String>>,
    /// The string's weight, g/m.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub string: Option<QuantityEntry>,
    /// How hard it is pulled, N.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pull: Option<QuantityEntry>,
}

/// A layer of the wall.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LayerEntry {
    /// Its name: skin, cavity, plate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Its thickness.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<LengthEntry>,
}

/// For offset-block readings along a side.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct StraightSection {
    /// The side, the corner that the stations are measured from first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// The thickness of the blocks that hold the string off the plate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block: Option<LengthEntry>,
    /// Which face of the plate the string is on: outside or inside; outside unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub string: Option<String>,
    /// The readings, in any order.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub readings: Option<Vec<ReadingEntry>>,
    /// The most that any station may be out of line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<LengthEntry>,
}

/// A reading from the string to the plate.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ReadingEntry {
    /// How far along the side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<LengthEntry>,
    /// From the string to the plate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reading: Option<LengthEntry>,
}
