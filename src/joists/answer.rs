//! The joists as they are answered. Lengths in mm.

use schemars::JsonSchema;
use serde::Serialize;

use super::input::{BearsOn, Mark, Support};
use crate::geometry::Mm;
use crate::packers::{Fetch, Total};
use crate::rules::{JoistRule, Strutting};

/// What it comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum JoistVerdict {
    /// They can be set out as listed.
    #[serde(rename = "set out")]
    SetOut,
    /// The packers named don't make up every gap.
    #[serde(rename = "short")]
    Short,
    /// A bearing or the centres don't keep to the published rule that was asked for.
    #[serde(rename = "against the rule")]
    AgainstRule,
}

impl JoistVerdict {
    /// Whether the joists can be set out as listed.
    #[must_use]
    pub const fn good(self) -> bool {
        matches!(self, Self::SetOut)
    }
}

/// What a joist is there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "JoistRole")]
pub enum Role {
    /// From one support to the other.
    Joist,
    /// The same, beside an opening.
    Trimming,
    /// The same, the second of a pair.
    Second,
    /// From a support to a trimmer.
    Cut,
}

/// How an end is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "JoistHeld")]
pub enum Held {
    /// In a hanger.
    Hung,
    /// On its bearing.
    Bears,
}

/// What is under an end, where heights were read.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Seat {
    /// The height of the support there, as read, mm.
    pub height: Mm,
    /// What the joist's underside lies above it, mm: the gap to pack, or how far the hanger goes up; negative for a
    /// hanger that goes down.
    pub up: Mm,
    /// The packers, mm, thickest first; none in a hanger.
    pub packers: Vec<Mm>,
    /// What they leave of the gap, mm; negative if they are over-thick.
    pub remainder: Mm,
    /// Whether the packers named come near enough to the gap.
    pub made_up: bool,
}

/// One end of a joist.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "JoistEndHeld")]
pub struct JoistEnd {
    /// The side that it is on, or the opening whose trimmer holds it.
    pub on: String,
    /// How it is held.
    pub held: Held,
    /// The corner that the mark is measured from on this side; none on a trimmer.
    pub from_corner: Option<char>,
    /// The mark from that corner, mm; none on a trimmer.
    pub mark: Option<Mm>,
    /// From the line of the first support, mm.
    pub at: Mm,
    /// The middle of the end, to the right of the outline's left edge, mm.
    pub x: Mm,
    /// The middle of the end, down from the outline's top edge, mm.
    pub y: Mm,
    /// What is under it; nothing where no heights were read on both sides of it.
    pub seat: Option<Seat>,
}

/// One joist.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Joist {
    /// What is written on it: its number from the end that is set out from; a and b for the two halves of a cut one.
    pub name: String,
    /// What it is there for.
    pub role: Role,
    /// The mark in the one pull from the end that is set out from, mm.
    pub mark: Mm,
    /// Its nearer edge in that pull, mm.
    pub near: Mm,
    /// The end on the first support.
    pub from: JoistEnd,
    /// The end on the second.
    pub to: JoistEnd,
    /// Length to cut, mm.
    pub length: Mm,
}

/// A trimmer across an opening's end.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Trimmer {
    /// The opening.
    pub opening: String,
    /// From the line of the first support to its face on the opening's side, mm.
    pub at: Mm,
    /// The ends of that face, each mm right of the outline's left edge and down from its top edge.
    pub ends: [[Mm; 2]; 2],
    /// Length to cut, mm.
    pub length: Mm,
    /// How many side by side.
    pub count: usize,
}

/// A row of noggings in one bay.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct NoggingRow {
    /// The side of the second support that the bay runs to.
    pub to: String,
    /// Its line from the line of the first support, mm.
    pub at: Mm,
    /// The lengths between one joist and the next, mm, in order; each stands the other side of the line than the one
    /// before, so that it can be nailed through the joist.
    pub lengths: Vec<Mm>,
}

/// Joists alike.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "JoistPieces")]
pub struct Pieces {
    /// What they are: joist, trimmer or nogging.
    pub what: &'static str,
    /// Length to cut, mm.
    pub length: Mm,
    /// How many.
    pub count: usize,
}

/// Hangers of one width.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Hangers {
    /// The timber that they hold, mm: one joist, or a pair side by side.
    pub width: Mm,
    /// How many.
    pub count: usize,
}

/// A bearer that hangers are fixed to.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Bearer {
    /// The side that it is fixed to.
    pub side: String,
    /// Its length, mm.
    pub length: Mm,
    /// Its bolts, if they are counted: at most so far apart, one at each end.
    pub bolts: Option<usize>,
}

/// The joists of one clear span.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "JoistSpan")]
pub struct ClearSpan {
    /// The side of the first support.
    pub from: String,
    /// The side of the second.
    pub to: String,
    /// Between the faces of the supports, mm.
    pub span: Mm,
    /// How many joists run it, cut ones too.
    pub joists: usize,
}

/// The heights of the supports, and what they are made up to.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "JoistLevels")]
pub struct Levels {
    /// The joist whose support is the highest: nothing goes under it.
    pub joist: String,
    /// The side that it stands on.
    pub on: String,
    /// The joists' underside at the line of the first support, in the zero of the readings, mm.
    pub underside: Mm,
    /// How far it falls for each metre from the first support to the second; negative if it rises, mm.
    pub fall_per_metre: Mm,
    /// The deepest gap to pack, mm.
    pub worst: Mm,
    /// What to take from the van, thickest first.
    pub totals: Vec<Total>,
    /// Number of packers in all.
    pub pieces: u64,
    /// Whether no better make-up exists.
    pub proven: bool,
    /// What to fetch so that every gap can be made up, if one size alone can do it.
    pub fetch: Option<Fetch>,
    /// Sides on which some joists have no height read on both sides of them.
    pub unread: Vec<String>,
}

/// A figure against the published rule.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "JoistCheck")]
pub struct Check {
    /// What was checked.
    pub what: &'static str,
    /// What it is, mm.
    pub is: Mm,
    /// What the rule says, mm.
    pub limit: Mm,
    /// Whether that is the most it may be, and not the least.
    pub at_most: bool,
    /// Whether it keeps to it.
    pub kept: bool,
}

/// The joists set out.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Joists {
    /// What it comes to.
    pub verdict: JoistVerdict,
    /// The sides of the first support.
    pub from: Vec<String>,
    /// The sides of the second.
    pub to: Vec<String>,
    /// The corner that marks are counted from in one pull.
    pub set_out_from: char,
    /// Which line of a joist is marked.
    pub mark: Mark,
    /// From one joist to the next, mm.
    pub centres: Mm,
    /// The widest that two of them stand apart, centre to centre, mm.
    pub widest: Mm,
    /// How thick a joist is, mm.
    pub thickness: Mm,
    /// How thick the new walls are taken, mm.
    pub wall: Mm,
    /// How far the first and last keep clear of the wall beside them, mm.
    pub clear: Mm,
    /// What joists bear on where they aren't hung.
    pub bears_on: BearsOn,
    /// The joists, in order from the end that is set out from.
    pub joists: Vec<Joist>,
    /// The trimmers.
    pub trimmers: Vec<Trimmer>,
    /// The rows of noggings.
    pub noggings: Vec<NoggingRow>,
    /// The published table that the rows are by, if they are.
    pub strutting: Option<Strutting>,
    /// The clear spans.
    pub spans: Vec<ClearSpan>,
    /// What to cut, the longest first.
    pub pieces: Vec<Pieces>,
    /// The hangers.
    pub hangers: Vec<Hangers>,
    /// The bearers.
    pub bearers: Vec<Bearer>,
    /// The supports' heights, if any were read.
    pub levels: Option<Levels>,
    /// The support that the fall runs down to; none for level joists.
    pub down_to: Option<Support>,
    /// The published rule that was asked for.
    pub rule: Option<&'static JoistRule>,
    /// What it was asked of.
    pub checks: Vec<Check>,
}
