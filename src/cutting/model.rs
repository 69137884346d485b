//! What is to be cut, from what, and by which rules.

use std::time::Duration;

use schemars::JsonSchema;
use serde::Serialize;

use crate::exact::{Pence, Tenths};

/// Most runs in one problem.
pub const MAX_RUNS: usize = 60;
/// Most stock lengths, those in the van included.
pub const MAX_STOCK: usize = 64;
/// Most bars in one answer.
pub const MAX_BARS: usize = 200;
/// Longest length accepted anywhere: 1 km.
pub const MAX_LENGTH: Tenths = Tenths::from_mm(1_000_000);

/// One straight length of plate that may be made up of several pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// What the run is called in the answer.
    pub name: String,
    /// Its length.
    pub length: Tenths,
    /// Where a splice may lie: closed intervals measured from the run's start. `None` allows it anywhere.
    /// The least piece at both ends is kept whatever this says.
    pub splices: Option<Vec<(Tenths, Tenths)>>,
}

/// One stock length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stock {
    /// Length of a bar as bought.
    pub length: Tenths,
    /// Price of a bar; 0 for what is already in the van.
    pub price: Pence,
    /// How many there are, in the van or at the merchant's; `None` when more can always be bought.
    pub count: Option<usize>,
}

/// What the saw, the ends and the joint take, and the least piece worth fixing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Rules {
    /// What one cut removes: n pieces take n − 1 cuts between them, and one more if anything is left.
    pub kerf: Tenths,
    /// What is trimmed off each bar before anything is cut from it, both ends together.
    pub trim: Tenths,
    /// The least piece of a spliced run. A run shorter than this stays whole.
    pub least_piece: Tenths,
    /// How far the two pieces of a splice overlap (a scarf or half-lap); 0 for a butt joint. The allowed
    /// positions are then where the overlap begins, and it reaches this much further along the run.
    pub overlap: Tenths,
}

/// What makes one list better than another, as it is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Favour {
    /// As few splices as can be; among those, the cheapest.
    #[default]
    Splices,
    /// As cheap as can be; among those, the fewest splices.
    Cost,
    /// A splice counts as so much money.
    ASplice(Pence),
}

/// How many times as long as its steps are meant to take a search may run before the clock stops it.
pub const GUARD: f64 = 20.0;

/// How long to look. Work is counted in steps, so that the same input always gives the same answer; the clock
/// is only the last stop, [`GUARD`] times further off than the steps are meant to reach.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Steps of search, each a fraction of a microsecond: whatever takes longer counts as many.
    pub steps: u64,
    /// The last stop.
    pub time: Duration,
}

impl Default for Effort {
    /// Enough for house-size plates many times over; about a second on a small laptop.
    fn default() -> Self {
        Self { steps: 10_000_000, time: Duration::from_secs(2).mul_f64(GUARD) }
    }
}

/// A set of runs to be laid from stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The runs.
    pub runs: Vec<Run>,
    /// The stock lengths, in any order.
    pub stock: Vec<Stock>,
    /// Kerf, trim, least piece, overlap.
    pub rules: Rules,
    /// What to favour.
    pub favour: Favour,
    /// How long to look.
    pub effort: Effort,
}

/// One of the shapes that a run may have, by how its ends meet the others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shape {
    /// The run in this shape; of no length where this way round nothing is left to lay.
    pub run: Run,
    /// The corners that the shape depends on, and which way round each is for it.
    pub asks: Vec<(usize, bool)>,
    /// Where its start lies on the line that it shares with runs over or under it.
    pub origin: Tenths,
}

/// A set of runs whose corners may go either way round: each run has one of its shapes, and all that meet at a corner agree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct House {
    /// The shapes of each run. A run meets no corners but two that follow each other, or the last and the first.
    pub runs: Vec<Vec<Shape>>,
    /// How many corners may go either way round.
    pub corners: usize,
    /// Runs that lie one over another.
    pub over: Vec<(usize, usize)>,
    /// The least distance between a splice of one of those and a splice of the other.
    pub lap: Tenths,
    /// The stock lengths, in any order.
    pub stock: Vec<Stock>,
    /// Kerf, trim, least piece, overlap.
    pub rules: Rules,
    /// What to favour.
    pub favour: Favour,
    /// How long to look.
    pub effort: Effort,
}
