//! The list as it is worked through at the saw: in what order to cut, and what rests are worth keeping.

use schemars::JsonSchema;
use serde::Serialize;

use super::bars::{Bar, BarPiece};
use crate::cutting::LEAST_REST;
use crate::exact::Tenths;

/// Pieces of one length, which are cut one after the other with the stop where it is.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Alike {
    /// Length to cut, mm.
    pub length: Tenths,
    /// The pieces, by the bars they come from.
    pub pieces: Vec<PieceOfBar>,
}

/// A piece and the bar it is cut from.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct PieceOfBar {
    /// What is written on it.
    pub name: String,
    /// The number of its bar.
    pub bar: usize,
}

/// What is left of a bar and long enough to keep.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Rest {
    /// Its length, mm.
    pub length: Tenths,
    /// The number of its bar.
    pub bar: usize,
    /// The longest piece of the list that it holds once more, should that one be spoiled.
    pub holds: Option<BarPiece>,
}

/// The order to cut in: the longest first, so that a slip is found out while there is timber to mend it, and like cuts together.
#[must_use]
pub fn cut_order(bars: &[Bar]) -> Vec<Alike> {
    let mut order: Vec<Alike> = vec![];
    for bar in bars {
        for piece in &bar.pieces {
            let here = PieceOfBar { name: piece.name.clone(), bar: bar.number };
            match order.iter_mut().find(|alike| alike.length == piece.length) {
                Some(alike) => alike.pieces.push(here),
                None => order.push(Alike { length: piece.length, pieces: vec![here] }),
            }
        }
    }
    order.sort_by_key(|alike| std::cmp::Reverse(alike.length));
    order
}

/// The rests of [`LEAST_REST`] and more, the longest first.
#[must_use]
pub fn rests(bars: &[Bar]) -> Vec<Rest> {
    let longest = |most: Tenths| {
        let pieces = bars.iter().flat_map(|bar| &bar.pieces);
        pieces
            .filter(|piece| piece.length <= most)
            .max_by_key(|piece| (piece.length, std::cmp::Reverse(&piece.name)))
    };
    let kept = bars.iter().filter(|bar| bar.offcut >= LEAST_REST);
    let mut rests: Vec<Rest> = kept
        .map(|bar| Rest { length: bar.offcut, bar: bar.number, holds: longest(bar.offcut).cloned() })
        .collect();
    rests.sort_by_key(|rest| (std::cmp::Reverse(rest.length), rest.bar));
    rests
}
