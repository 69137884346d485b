//! The job file as written. Every field is optional here; what a command needs is checked when it is asked.

use schemars::{JsonSchema, schema_for};
use serde::{Deserialize, Serialize};

use super::LengthEntry;
use super::entries::short_list;
use super::sections::{
    AlongEntries, BookingEntry, CornersSection, CutsSection, DiagonalsSection, HeightsSection, JoistsSection,
    LinesSection, OrderSection, PacksSection, Parts, PlaceEntry, PlatesSection, ReadingsSection,
    SketchInputs, SketchSection, StockSection, StraightSection, StretchEntry, TapeSection,
};

/// The number of the job file's schema, and of the JSON answers'. Keys never change meaning inside one number.
pub const SCHEMA: u32 = 1;

/// A pegline job file.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "pegline job", extend("$id" = "pegline-job-1"))]
pub struct JobFile {
    /// The schema number the file is written to: 1.
    pub schema: Option<u32>,
    /// What the job is called.
    pub name: Option<String>,
    /// The units of bare numbers here and of the figures that come back: mm, m or ft-in.
    pub units: Option<String>,
    /// The plan as an expression: "7800x6000-3000x2400". Instead of `walk`.
    pub plan: Option<String>,
    /// The plan as a walk round it from A: "7800 R 3600 R 3000 L 2400 R 4800 R 6000". Instead of `plan`.
    pub walk: Option<String>,
    /// The sides that are existing walls, such as AB.
    pub house: Option<Vec<String>>,
    /// How far the existing house goes back from those walls; without end unless given.
    pub house_depth: Option<LengthEntry>,
    /// The tape in use.
    pub tape: Option<TapeSection>,
    /// Door and window openings.
    #[serde(default, deserialize_with = "short_list")]
    pub openings: Option<Vec<StretchEntry>>,
    /// Partitions: where they meet the walls, and the length of their plates.
    #[serde(default, deserialize_with = "short_list")]
    pub partitions: Option<Vec<StretchEntry>>,
    /// Joints between wall panels.
    #[serde(default, deserialize_with = "short_list")]
    pub joints: Option<Vec<PlaceEntry>>,
    /// Studs at these centres.
    pub studs: Option<LengthEntry>,
    /// For check diagonals.
    pub diagonals: Option<DiagonalsSection>,
    /// For a corner as found.
    pub corners: Option<CornersSection>,
    /// The timber for plates and other lists: what can be bought and what is there.
    pub stock: Option<StockSection>,
    /// For plates.
    pub plates: Option<PlatesSection>,
    /// For the cut of a list of pieces.
    pub cuts: Option<CutsSection>,
    /// For packing the plate level.
    pub packs: Option<PacksSection>,
    /// For the wall head, panel and ceiling heights.
    pub heights: Option<HeightsSection>,
    /// For joists between two supports.
    pub joists: Option<JoistsSection>,
    /// For lines and profiles.
    pub lines: Option<LinesSection>,
    /// For offset-block readings along a side.
    pub straight: Option<StraightSection>,
    /// For taped readings.
    pub readings: Option<ReadingsSection>,
    /// What was read on site, under names: the last booking of a kind counts, before the section of its own.
    pub bookings: Option<Vec<BookingEntry>>,
    /// For the drawing.
    pub sketch: Option<SketchSection>,
    /// For the order: prices, waste, tax, items of your own.
    pub order: Option<OrderSection>,
}

impl JobFile {
    /// What stands along the sides.
    pub(super) fn along(&self) -> AlongEntries<'_> {
        AlongEntries {
            openings: self.openings.as_deref().unwrap_or_default(),
            partitions: self.partitions.as_deref().unwrap_or_default(),
            joints: self.joints.as_deref().unwrap_or_default(),
            studs: self.studs.as_ref(),
        }
    }

    /// What a drawing shows if nothing is said of it: what there are inputs for.
    pub(super) fn drawn_unasked(&self) -> SketchInputs {
        let anchors = self.plates.as_ref().is_some_and(|plates| plates.anchors.is_some());
        SketchInputs {
            anchors: anchors && self.stock.is_some(),
            profiles: self.lines.is_some(),
            ..SketchInputs::default()
        }
    }

    /// The parts that something can be ordered for.
    pub(super) fn parts(&self) -> Parts {
        Parts {
            plates: self.plates.is_some(),
            cuts: self.cuts.as_ref().is_some_and(|cuts| cuts.pieces.is_some()),
            packs: self.packs.as_ref().is_some_and(|packs| packs.staff.is_some() || packs.heights.is_some()),
            joists: self.joists.as_ref().is_some_and(|joists| joists.from.is_some() && joists.to.is_some()),
            lines: self.lines.is_some(),
        }
    }
}

/// The job file's JSON Schema (draft 2020-12).
#[must_use]
pub fn schema() -> schemars::Schema {
    schema_for!(JobFile)
}
