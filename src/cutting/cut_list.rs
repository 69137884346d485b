//! A list of pieces cut from any stock: a short one as runs that are not spliced, a longer one by the linear programme.

use serde::Serialize;

use super::effort::Meter;
use super::error::Error;
use super::kinds::{self, Kind};
use super::layout::{Bar, Bound, Cut, Taken, taken};
use super::model::{Effort, Favour, MAX_STOCK, Problem, Rules, Run, Stock};
use super::pieces::{Cheapest, Cutting, Demand, Item, search};
use super::rest::gather;
use super::runs::{plan_runs, table_work};
use super::spare::{part, spare};
use crate::exact::{Pence, Tenths};

/// Most different lengths in one list.
pub const MAX_LENGTHS: usize = 200;
/// Most pieces in one list, all lengths together.
pub const MAX_PIECES: usize = 5000;
/// Lists of at most so many pieces are searched through; longer ones go by the linear programme.
const FEW_PIECES: usize = 14;
/// The same for the work that the counted bars make of it.
const FEW_WORK: usize = 10_000_000;

/// Pieces of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wanted {
    /// Length of a piece.
    pub length: Tenths,
    /// How many.
    pub count: usize,
}

/// A list of pieces to be cut whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceList {
    /// The pieces; the same length may come more than once.
    pub pieces: Vec<Wanted>,
    /// The stock lengths, in any order.
    pub stock: Vec<Stock>,
    /// Kerf and trim; the rest does not matter here.
    pub rules: Rules,
    /// How long to look.
    pub effort: Effort,
}

/// The bars to take and what to cut from each, as cheap as can be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutList {
    /// The bars, longest first. `run` in a cut is the place in the list of pieces, `piece` counts within it.
    pub bars: Vec<Bar>,
    /// How many of each stock length, in the list's order; only those used.
    pub taken: Vec<Taken>,
    /// Total length of the bars.
    pub bought: Tenths,
    /// Total length of the pieces.
    pub used: Tenths,
    /// The difference: offcuts, kerfs and trim.
    pub waste: Tenths,
    /// What the bars cost.
    pub cost: Pence,
    /// No cutting costs less.
    pub bound: Pence,
    /// Whether the cost is the bound.
    pub proven: bool,
    /// What the best cutting may save at most; `None` when proven.
    pub gap: Option<Pence>,
    /// Steps of search taken.
    pub steps: u64,
}

/// Cuts fixed pieces from the cheapest bars.
///
/// The bound holds for every cutting; when the cost meets it, the list is proven best. Of what is free it takes as little as
/// it can.
pub fn cut_pieces(list: &PieceList) -> Result<CutList, Error> {
    let first = cut_once(list)?;
    let CutList { cost, bound, proven, gap, steps, .. } = first;
    let again = |stock| {
        let list = PieceList { stock, effort: part(list.effort), ..list.clone() };
        cut_once(&list).ok().filter(|cut| cut.cost <= cost)
    };
    let cut = spare(&list.stock, first, |cut| &cut.taken, again);
    Ok(CutList { bound, proven, gap, steps, ..cut })
}

fn cut_once(list: &PieceList) -> Result<CutList, Error> {
    let kinds = check(list)?;
    let mut meter = Meter::new(list.effort);
    let lengths = lengths(list);
    let demand = demand(list, &kinds, &lengths);
    let counts = kinds.iter().filter_map(|kind| kind.count);
    let (cheapest, steps) =
        if demand.pieces() <= FEW_PIECES && table_work(demand.pieces(), counts) <= FEW_WORK {
            few(list, &kinds, &lengths)?
        } else {
            let cheapest = search(&demand, &mut meter);
            (cheapest, meter.taken())
        };
    let cutting = cheapest.cutting.ok_or(Error::StockRunsOut)?;
    Ok(cut_list(list, &kinds, &lengths, &cutting, cheapest.bound, steps))
}

fn check(list: &PieceList) -> Result<Vec<Kind>, Error> {
    let count = list.pieces.iter().fold(0_usize, |sum, wanted| sum.saturating_add(wanted.count));
    if count == 0 {
        return Err(Error::Nothing("piece"));
    }
    for (what, count, most) in [
        ("pieces", count, MAX_PIECES),
        ("lengths of pieces", list.pieces.len(), MAX_LENGTHS),
        ("stock lengths", list.stock.len(), MAX_STOCK),
    ] {
        if count > most {
            return Err(Error::TooMany { what, count, most });
        }
    }
    let rules = Rules { least_piece: Tenths(0), overlap: Tenths(0), ..list.rules };
    let kinds = kinds::usable_kinds(&list.stock, rules, count)?;
    let longest = kinds.iter().map(|kind| kind.length).max().unwrap_or(0);
    for (place, wanted) in list.pieces.iter().enumerate() {
        kinds::check_length(&format!("piece {}", place + 1), wanted.length, Tenths(1))?;
        if wanted.length.0 > longest {
            return Err(Error::PieceTooLong { length: wanted.length, longest: Tenths(longest) });
        }
    }
    Ok(kinds)
}

/// The different lengths, longest first.
fn lengths(list: &PieceList) -> Vec<i64> {
    let mut lengths: Vec<i64> =
        list.pieces.iter().filter(|wanted| wanted.count > 0).map(|wanted| wanted.length.0).collect();
    lengths.sort_unstable();
    lengths.dedup();
    lengths.reverse();
    lengths
}

fn demand(list: &PieceList, kinds: &[Kind], lengths: &[i64]) -> Demand {
    let kerf = list.rules.kerf.0;
    let items: Vec<Item> = lengths
        .iter()
        .map(|&length| Item {
            weight: length + kerf,
            most: list
                .pieces
                .iter()
                .filter(|wanted| wanted.length.0 == length)
                .map(|wanted| wanted.count)
                .sum(),
        })
        .collect();
    let pieces: usize = items.iter().map(|item| item.most).sum();
    Demand {
        items,
        rooms: kinds.iter().map(|kind| kind.length + kerf).collect(),
        prices: kinds.iter().map(|kind| kind.price).collect(),
        fewest: vec![0; kinds.len()],
        most: kinds.iter().map(|kind| kind.count.unwrap_or(pieces).min(pieces)).collect(),
    }
}

/// A short list: the same as runs that may not be spliced. Also the steps it took.
fn few(list: &PieceList, kinds: &[Kind], lengths: &[i64]) -> Result<(Cheapest, u64), Error> {
    let runs = list
        .pieces
        .iter()
        .flat_map(|wanted| std::iter::repeat_n(wanted.length, wanted.count))
        .map(|length| Run { name: String::new(), length, splices: Some(Vec::new()) })
        .collect();
    let problem = Problem {
        runs,
        stock: list.stock.clone(),
        rules: list.rules,
        favour: Favour::Cost,
        effort: list.effort,
    };
    let layout = plan_runs(&problem)?;
    let cutting: Cutting = layout
        .bars
        .iter()
        .map(|bar| {
            let kind = kinds.iter().position(|kind| kind.stock == bar.stock).unwrap_or(0);
            let pattern = lengths
                .iter()
                .map(|&length| bar.pieces.iter().filter(|cut| cut.length.0 == length).count())
                .collect();
            (kind, pattern)
        })
        .collect();
    let bound = match layout.bound {
        Bound::Cost { cost, .. } => cost.0,
        _ => 0,
    };
    let cheapest = Cheapest { cutting: Some(cutting), bound };
    Ok((cheapest, layout.steps))
}

fn cut_list(
    list: &PieceList,
    kinds: &[Kind],
    lengths: &[i64],
    cutting: &[(usize, Vec<usize>)],
    bound: i64,
    steps: u64,
) -> CutList {
    let mut cutting = cutting.to_vec();
    cutting.sort_by(|a, b| {
        let key = |kind: usize| (-kinds[kind].length, kinds[kind].stock);
        key(a.0).cmp(&key(b.0)).then_with(|| b.1.cmp(&a.1))
    });
    // Pieces are handed out in the order of the list; bars alike come together.
    let mut next = vec![0; list.pieces.len()];
    let mut bars = Vec::new();
    for (kind, pattern) in cutting {
        let mut pieces = Vec::new();
        for (&length, &count) in lengths.iter().zip(&pattern) {
            for _ in 0..count {
                let place = (0..list.pieces.len()).find(|&place| {
                    list.pieces[place].length.0 == length && next[place] < list.pieces[place].count
                });
                if let Some(place) = place {
                    pieces.push(Cut { run: place, piece: next[place], length: Tenths(length) });
                    next[place] += 1;
                }
            }
        }
        if pieces.is_empty() {
            continue;
        }
        bars.push(Bar {
            stock: kinds[kind].stock,
            length: list.stock[kinds[kind].stock].length,
            offcut: Tenths(0),
            pieces,
        });
    }
    gather(&mut bars, (list.rules.kerf.0, list.rules.trim.0), |_, _| false);
    let taken = taken(&list.stock, &bars);
    let cost = Pence(taken.iter().map(|line| line.amount.0).sum());
    let bought = Tenths(bars.iter().map(|bar| bar.length.0).sum());
    let used = Tenths(bars.iter().flat_map(|bar| &bar.pieces).map(|cut| cut.length.0).sum());
    let bound = Pence(bound.min(cost.0));
    CutList {
        bars,
        taken,
        bought,
        used,
        waste: Tenths(bought.0 - used.0),
        cost,
        bound,
        proven: bound == cost,
        gap: (bound < cost).then_some(Pence(cost.0 - bound.0)),
        steps,
    }
}
