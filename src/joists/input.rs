//! What joists are set out from.

use schemars::JsonSchema;
use serde::Serialize;

use crate::packers::{CLOSE_ENOUGH, Packer};
use crate::plan::Spot;
use crate::rules::JoistRule;

/// Which line of a joist its mark gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "JoistMark")]
pub enum Mark {
    /// The edge nearer the end that is set out from: the joist lies beyond the mark.
    #[default]
    Near,
    /// The edge farther from it: the joist lies this side of the mark.
    Far,
    /// The middle.
    Centre,
}

/// What joists bear on where they aren't hung.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BearsOn {
    /// A timber plate or wall head.
    #[default]
    Timber,
    /// Masonry.
    Masonry,
    /// Steel.
    Steel,
}

/// An opening in the roof. Lengths in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct RoofOpening {
    /// What it is called.
    pub name: String,
    /// From the end that is set out from to its nearer edge, along the supports.
    pub along: f64,
    /// From the line of the first support to its nearer edge, along the joists.
    pub out: f64,
    /// How wide it is along the supports.
    pub width: f64,
    /// How long it is along the joists.
    pub length: f64,
}

/// How many rows of noggings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rows {
    /// None.
    #[default]
    None,
    /// So many at equal spacing, whatever the span.
    Count(usize),
    /// By span, as [published](crate::rules::STRUTTING).
    Published,
}

/// A support of the joists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Support {
    /// The first: the one that the other is reached from.
    From,
    /// The second.
    #[default]
    To,
}

/// What is asked of the joists. Lengths in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The sides of the first support.
    pub from: Vec<usize>,
    /// The sides of the second.
    pub to: Vec<usize>,
    /// Whether marks are counted from the second corner of the first support's sides, clockwise, and not the first.
    pub backward: bool,
    /// From one joist to the next.
    pub centres: f64,
    /// How thick a joist is.
    pub thickness: f64,
    /// How thick the new walls are, from the outline inward.
    pub wall: f64,
    /// How far the first and last joists keep clear of the wall beside them.
    pub clear: f64,
    /// The sides where joists hang; on any other they bear.
    pub hung: Vec<usize>,
    /// How far they bear.
    pub bearing: f64,
    /// What they bear on.
    pub bears_on: BearsOn,
    /// What is left between a joist's end and the back of its hanger.
    pub gap: f64,
    /// How thick the bearer is that hangers are fixed to; 0 for hangers on the wall itself.
    pub bearer: f64,
    /// How far a hanger reaches under its joist, if known.
    pub seat: Option<f64>,
    /// Centres of the bolts through the bearer, if they are to be counted.
    pub bolts: Option<f64>,
    /// Which line is marked.
    pub mark: Mark,
    /// Openings in the roof.
    pub openings: Vec<RoofOpening>,
    /// Whether trimmers and trimming joists are in pairs.
    pub double_trimming: bool,
    /// Distances along from the end that is set out from; the joist nearest to each is doubled.
    pub doubled: Vec<f64>,
    /// Rows of noggings.
    pub rows: Rows,
    /// Heights read along the first support, up is +.
    pub heights_from: Vec<(Spot, f64)>,
    /// Heights read along the second, in the same zero.
    pub heights_to: Vec<(Spot, f64)>,
    /// The n of the fall 1:n that is wanted, and the support that it runs down to; nothing for level joists.
    pub fall: Option<(f64, Support)>,
    /// The packers in the van; none to have the gaps alone.
    pub packers: Vec<Packer>,
    /// How near to its gap a stack has to come.
    pub within: f64,
    /// A published rule to hold bearings and centres against.
    pub rule: Option<&'static JoistRule>,
}

impl Question {
    /// Level joists without supports yet, and nothing more asked of them.
    #[must_use]
    pub fn new(centres: f64, thickness: f64, clear: f64) -> Self {
        Self {
            from: vec![],
            to: vec![],
            backward: false,
            centres,
            thickness,
            wall: 0.0,
            clear,
            hung: vec![],
            bearing: 0.0,
            bears_on: BearsOn::default(),
            gap: 0.0,
            bearer: 0.0,
            seat: None,
            bolts: None,
            mark: Mark::default(),
            openings: vec![],
            double_trimming: false,
            doubled: vec![],
            rows: Rows::default(),
            heights_from: vec![],
            heights_to: vec![],
            fall: None,
            packers: vec![],
            within: CLOSE_ENOUGH,
            rule: None,
        }
    }
}
