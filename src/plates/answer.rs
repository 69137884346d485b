//! The answer.

use schemars::JsonSchema;
use serde::Serialize;

use super::anchors::{Anchor, AnchorRule, AnchorTrouble};
use super::choice::{Choice, MoreSplices};
use super::dpc::{Dpc, Fixings, Straps};
use super::handing::Corners;
use super::lines::Layer;
use super::runs::End;
use crate::cutting::Favour;
use crate::exact::Tenths;
use crate::geometry::{Mm, Ratio};
use crate::stock::{Alike, Bar, Buy, Cost, InVanTaken, Rest};

/// The plates round a footprint: runs, pieces, what to cut them from and how good that is.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Plates {
    /// The plate's width, mm.
    pub width: Mm,
    /// The handing of the corners.
    pub corners: HandingTold,
    /// The runs: the plate's round the outline from A and its partitions, then the head binder's.
    pub runs: Vec<Run>,
    /// The lengths taken, longest first, and what is cut from each.
    pub bars: Vec<Bar>,
    /// The order to cut in: the longest first, like cuts together.
    pub cut_order: Vec<Alike>,
    /// The rests of 600 mm and more, the longest first.
    pub rests: Vec<Rest>,
    /// What to buy.
    pub buy: Vec<Buy>,
    /// What to take from the van.
    pub from_van: Vec<InVanTaken>,
    /// Total length of the bars, mm.
    pub bought: Tenths,
    /// Total length of the pieces, mm.
    pub used: Tenths,
    /// The difference in hundredths of what is bought.
    pub waste_percent: Ratio,
    /// Number of splices.
    pub splices: usize,
    /// What the bars cost: money, or metres without prices.
    pub cost: Cost,
    /// Whether the cost is in money.
    pub priced: bool,
    /// What was favoured.
    pub favour: Favour,
    /// No list that is as good in splices costs less: for the fewest splices, the least cost with `bound_splices`; for
    /// the least cost, that; for so much a splice, the least total less this list's splices at that rate.
    pub bound: Cost,
    /// No list that is as good in what was favoured has fewer splices; absent where a splice has its price.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bound_splices: Option<i64>,
    /// Whether the list reaches the bound: none is better, whichever way round the corners go.
    pub proven: bool,
    /// How far the best list may be from this one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<Gap>,
    /// What more splices would save, or fewer would cost.
    #[serde(flatten)]
    #[schemars(with = "Choice")]
    pub more_splices: MoreSplices,
    /// The rule that placed the anchors.
    #[serde(skip)]
    pub anchor_rule: Option<AnchorRule>,
    /// The anchors, piece by piece.
    pub anchors: Vec<Anchor>,
    /// Pieces that the anchor rule can't be kept on.
    pub anchor_troubles: Vec<AnchorTrouble>,
    /// The damp-proof course under the plate.
    pub dpc: Dpc,
    /// The temporary fixings, if they were to be counted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fixings: Option<Fixings>,
    /// The straps on the top plate, if they were to be counted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub straps: Option<Straps>,
}

/// How the handing of the corners was come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct HandingTold {
    /// What was asked for.
    pub asked: Corners,
    /// How many handings the bound holds for.
    pub tried: u64,
    /// How many there are.
    pub of: u64,
}

/// A run and its pieces.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Run {
    /// The side's letters, or the partition's name.
    pub side: String,
    /// Which plate.
    pub layer: Layer,
    /// Its length, mm.
    pub length: Mm,
    /// What it does at the side's first letter.
    pub start: End,
    /// What it does at the side's second letter.
    pub end: End,
    /// Where it starts, mm from the side's first corner; negative where it passes the corner.
    pub from_corner: Mm,
    /// Its pieces in order; their positions are from the run's start.
    pub pieces: Vec<Piece>,
}

/// A piece of a run.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Piece {
    /// What is written on it: the side, with its number where there are several, in small letters for the binder.
    pub name: String,
    /// Where it starts, mm from the run's start.
    pub from: Tenths,
    /// Where it ends, mm from the run's start.
    pub to: Tenths,
    /// Length to cut, mm.
    pub length: Tenths,
    /// The bar it is cut from: its place in `bars`, from 0.
    pub bar: usize,
}

/// How far the best list may be from the one given, in the measure that is not settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Gap {
    /// So many splices.
    Splices(i64),
    /// So much cost; for a splice with a price, so much in all.
    Cost(Cost),
}
