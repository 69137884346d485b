//! The job file as written. Every field is optional here; what a command needs is checked when it is asked.

use schemars::{JsonSchema, schema_for};
use serde::{Deserialize, Serialize};

use super::LengthEntry;
use super::sections::{
    CornersSection, CutsSection, DiagonalsSection, HeightsSection, LinesSection, OrderSection, PacksSection,
    PlaceEntry, PlatesSection, ReadingsSection, SketchSection, StockSection, StraightSection, StretchEntry,
    TapeSection,
};

/// A pegline job file.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
#[schemars(title = "pegline job", extend("$id" = "pegline-job-1"))]
pub struct JobFile {
    /// The schema number the file is written to: 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub schema: Option<u32>,
    /// What the job is called.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The units of bare numbers here and of the figures that come back: mm, m or ft-in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub units: Option<String>,
    /// The plan as an expression: "7800x6000-3000x2400". Instead of `walk`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<String>,
    /// The plan as a walk round it from A: "7800 R 3600 R 3000 L 2400 R 4800 R 6000". Instead of `plan`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub walk: Option<String>,
    /// The sides that are existing walls, such as AB.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub house: Option<Vec<String>>,
    /// The tape in use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tape: Option<TapeSection>,
    /// Door and window openings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub openings: Option<Vec<StretchEntry>>,
    /// Partitions: where they meet the walls, and the length of their plates.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub partitions: Option<Vec<StretchEntry>>,
    /// Joints between wall panels.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub joints: Option<Vec<PlaceEntry>>,
    /// Studs at these centres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub studs: Option<LengthEntry>,
    /// For check diagonals.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub diagonals: Option<DiagonalsSection>,
    /// For a corner as found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corners: Option<CornersSection>,
    /// The timber for plates and other lists: what can be bought and what is there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stock: Option<StockSection>,
    /// For plates.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plates: Option<PlatesSection>,
    /// For the cut of a list of pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cuts: Option<CutsSection>,
    /// For packing the plate level.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub packs: Option<PacksSection>,
    /// For the wall head, panel and ceiling heights.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heights: Option<HeightsSection>,
    /// For lines and profiles.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lines: Option<LinesSection>,
    /// For offset-block readings along a side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub straight: Option<StraightSection>,
    /// For taped readings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub readings: Option<ReadingsSection>,
    /// For the drawing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sketch: Option<SketchSection>,
    /// For the order: prices, waste, tax, items of your own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub order: Option<OrderSection>,
}

/// The job file's JSON Schema (draft 2020-12).
#[must_use]
pub fn schema() -> schemars::Schema {
    schema_for!(JobFile)
}
