//! The packing as it is answered, place by place.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;

use super::bed::Bed;
use super::odd_one::OddOne;
use super::read_again::ReadAgain;
use super::set_ups::{Closure, Sight};
use super::studs::Unread;
use crate::geometry::Mm;
use crate::packers::{Fetch, Total};
use crate::rules::Source;

/// What is to be minded at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flag {
    /// Stands above the named datum: it has to come down, or the datum go up.
    AboveDatum,
    /// Deeper than the user's limit.
    OverLimit,
    /// The packers named don't come near enough to the gap.
    NotMadeUp,
    /// Shallow: solid packers, and no grout or mortar.
    SolidOnly,
    /// Deeper than solid packers are known to be allowed to fill: the designer's word is needed.
    AskDesigner,
}

impl Flag {
    /// Whether the place can't be packed as it is; the other flags turn on the depth of a gap alone.
    #[must_use]
    pub const fn bad(self) -> bool {
        matches!(self, Self::AboveDatum | Self::OverLimit | Self::NotMadeUp)
    }

    /// What it is called, as in JSON.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::AboveDatum => "above the datum",
            Self::OverLimit => "over the limit",
            Self::NotMadeUp => "not made up",
            Self::SolidOnly => "solid packers only",
            Self::AskDesigner => "ask the designer",
        }
    }
}

impl Serialize for Flag {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.label())
    }
}

impl JsonSchema for Flag {
    fn schema_name() -> Cow<'static, str> {
        "Flag".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let flags = [Self::AboveDatum, Self::OverLimit, Self::NotMadeUp, Self::SolidOnly, Self::AskDesigner];
        let names = flags.map(Self::label);
        json_schema!({"description": "What is to be said of a place.", "type": "string", "enum": names})
    }
}

/// One place under the plate. Lengths in mm.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "PackedStation")]
pub struct Station {
    /// A corner's letter, or the side and the distance along it in the job's units.
    pub name: String,
    /// The side it is on; a corner begins the side that follows it.
    pub side: String,
    /// Distance from the side's first corner, mm.
    pub along: Mm,
    /// Height: in the readings' own zero if heights were given, else above the datum (negative: below).
    pub height: Mm,
    /// The gap to fill: datum less height; negative above a named datum.
    pub pack: Mm,
    /// The packers, thickest first.
    pub packers: Vec<Mm>,
    /// What they leave of the gap, taken to a tenth of a mm; negative if they are over-thick.
    pub remainder: Mm,
    /// What is to be minded here.
    pub flags: Vec<Flag>,
}

/// How the datum was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum DatumRule {
    /// The highest place.
    Highest,
    /// As named.
    Named,
}

/// The level that the plate is packed to.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct DatumUsed {
    /// The place.
    pub name: String,
    /// Its height, in the same zero as the stations'.
    pub height: Mm,
    /// How it was chosen.
    pub rule: DatumRule,
}

/// What it comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum PackVerdict {
    /// Nothing to pack.
    #[serde(rename = "level")]
    Level,
    /// Pack as listed.
    #[serde(rename = "pack")]
    Pack,
    /// The packers named don't make it up.
    #[serde(rename = "short")]
    Short,
    /// Out of level by more than the limit.
    #[serde(rename = "over the limit")]
    OverLimit,
    /// A reading is too far from the others to be packed from.
    #[serde(rename = "read again")]
    ReadAgain,
    /// Something stands above the named datum.
    #[serde(rename = "above the datum")]
    AboveDatum,
}

impl PackVerdict {
    /// Whether the plate can be packed as listed.
    #[must_use]
    pub const fn good(self) -> bool {
        matches!(self, Self::Level | Self::Pack)
    }
}

/// The packing, place by place.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Packs {
    /// What it comes to.
    pub verdict: PackVerdict,
    /// What the plate is packed level with.
    pub datum: DatumUsed,
    /// The set-ups, in the order given.
    pub set_ups: Vec<Sight>,
    /// The places read, in order round the line.
    pub stations: Vec<Station>,
    /// The places under studs, interpolated.
    pub studs: Vec<Station>,
    /// Stretches with studs that can't be interpolated.
    pub unread: Vec<Unread>,
    /// What to take from the van for all of them, thickest first.
    pub totals: Vec<Total>,
    /// Number of packers in all.
    pub pieces: u64,
    /// Whether no better make-up exists.
    pub proven: bool,
    /// What to fetch so that every place can be made up, if one size alone can do it.
    pub fetch: Option<Fetch>,
    /// The place to read again before anything is packed: until then no packers are chosen.
    pub read_again: Option<ReadAgain>,
    /// The deepest gap, mm.
    pub worst: Mm,
    /// How level the bed is.
    pub bed: Bed,
    /// The high point, if it is the odd one out.
    pub odd_one_out: Option<OddOne>,
    /// How the set-ups close, if anything was read twice.
    pub closure: Option<Closure>,
    /// The gap that the flags about solid packing turn on, mm.
    pub solid_gap: Mm,
    /// Where that figure comes from; none if it is the user's own.
    pub solid_source: Option<Source>,
}
