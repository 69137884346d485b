//! The answers.

use serde::Serialize;

use super::model::Stock;
use crate::exact::{Pence, Tenths, int};

/// A piece of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Piece {
    /// Where it starts, from the run's start.
    pub from: Tenths,
    /// Where it ends. With overlapping splices this is past the next piece's start.
    pub to: Tenths,
    /// Length to cut.
    pub length: Tenths,
    /// The bar it is cut from, counting from 0.
    pub bar: usize,
}

/// A run and its pieces in order from its start.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RunCut {
    /// The run's name.
    pub name: String,
    /// Its length.
    pub length: Tenths,
    /// Its pieces.
    pub pieces: Vec<Piece>,
}

/// A piece as it lies on a bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Cut {
    /// The run (or the piece as given), counting from 0.
    pub run: usize,
    /// Which piece of that run, counting from 0.
    pub piece: usize,
    /// Length to cut.
    pub length: Tenths,
}

/// One bar and what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Bar {
    /// The stock length in the problem's list, counting from 0.
    pub stock: usize,
    /// Its length as bought.
    pub length: Tenths,
    /// Its pieces in cutting order.
    pub pieces: Vec<Cut>,
    /// What is left in the hand after the last cut: the bar less the trim, less each piece and the kerf after it.
    pub offcut: Tenths,
}

/// What is left in the hand of a bar that gives `length` after trimming when these pieces are cut from it: each takes a kerf
/// with it, and the last one none if nothing is left.
pub(super) fn offcut(length: i64, pieces: &[Cut], kerf: i64) -> Tenths {
    let cut: i64 = pieces.iter().map(|piece| piece.length.0 + kerf).sum();
    Tenths((length - cut).max(0))
}

/// How many of one stock length are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Taken {
    /// The stock length in the problem's list, counting from 0.
    pub stock: usize,
    /// Its length.
    pub length: Tenths,
    /// How many.
    pub count: usize,
    /// Price of one.
    pub rate: Pence,
    /// Price of all.
    pub amount: Pence,
    /// Whether there are only so many of it.
    pub counted: bool,
}

/// How many of each stock length the bars take.
pub(super) fn taken(stock: &[Stock], bars: &[Bar]) -> Vec<Taken> {
    stock
        .iter()
        .enumerate()
        .map(|(place, item)| {
            let count = bars.iter().filter(|bar| bar.stock == place).count();
            Taken {
                stock: place,
                length: item.length,
                count,
                rate: item.price,
                amount: Pence(item.price.0 * int(count)),
                counted: item.count.is_some(),
            }
        })
        .filter(|line| line.count > 0)
        .collect()
}

/// A value that no layout can beat, in the favour's own terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "of")]
pub enum Bound {
    /// No layout has fewer splices, and none with so many costs less.
    FewestSplices {
        /// Least number of splices.
        splices: i64,
        /// Least cost with that number.
        cost: Pence,
    },
    /// No layout costs less, and none that costs so much has fewer splices.
    Cost {
        /// Least cost.
        cost: Pence,
        /// Least number of splices at that cost.
        splices: i64,
    },
    /// No layout has less of cost and splices together.
    CostPlusPerSplice {
        /// Least of cost plus so much a splice.
        total: Pence,
    },
}

/// How far the answer may be from the best, in the measure that is not settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "in")]
pub enum Gap {
    /// So many splices more than the bound.
    Splices {
        /// The difference.
        more: i64,
    },
    /// So much money more than the bound.
    Money {
        /// The difference.
        more: Pence,
    },
}

/// Runs laid from stock.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Layout {
    /// The runs in the order given.
    pub runs: Vec<RunCut>,
    /// The bars, longest first.
    pub bars: Vec<Bar>,
    /// How many of each stock length, in the problem's order; only those used.
    pub taken: Vec<Taken>,
    /// Total length of the bars taken, the van's included.
    pub bought: Tenths,
    /// Total length of the pieces.
    pub used: Tenths,
    /// The difference: offcuts, kerfs and trim.
    pub waste: Tenths,
    /// Number of splices.
    pub splices: usize,
    /// What the bars cost.
    pub cost: Pence,
    /// What no layout can beat.
    pub bound: Bound,
    /// Whether the layout reaches the bound.
    pub proven: bool,
    /// What is not settled; `None` when proven.
    pub gap: Option<Gap>,
    /// Steps of search taken: the same for the same input, unless the clock had to stop it.
    pub steps: u64,
}

/// The runs of a house laid from stock, each in one of its shapes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HousePlan {
    /// The shape of each run, as its place among those given.
    pub shapes: Vec<usize>,
    /// The runs that have something to lay, in the order given; its bound holds over every way round the corners.
    pub layout: Layout,
    /// No bars with timber enough cost less, whatever is spliced.
    pub least: Pence,
    /// The least cost with so many splices at most, from the fewest on, as far as was looked.
    pub choices: Vec<Choice>,
}

/// The least cost with at most so many splices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// Most splices.
    pub splices: usize,
    /// The cost of the cheapest list found.
    pub cost: Pence,
    /// No list with so many splices costs less.
    pub bound: Pence,
}
