//! From a problem to its layout.

use super::blocks;
use super::instance::Instance;
use super::outcome::{BarPlan, Stretch};
use super::score;
use super::search::Found;
use crate::cutting::effort::Meter;
use crate::cutting::error::Error;
use crate::cutting::layout::{Bar, Bound, Cut, Gap, Layout, Piece, RunCut, taken};
use crate::cutting::model::{Favour, Problem};
use crate::cutting::rest::gather;
use crate::exact::{Pence, Tenths, int};

/// Lays the runs from the stock, splices and bars chosen together, best by the problem's favour.
///
/// The answer carries a bound that holds for every layout; when the two meet it is proven best.
pub fn plan_runs(problem: &Problem) -> Result<Layout, Error> {
    let instance = Instance::new(problem)?;
    let mut meter = Meter::new(problem.effort);
    let found = blocks::run(&instance, &mut meter).ok_or(Error::StockRunsOut)?;
    Ok(layout(problem, &instance, &found, meter.taken()))
}

/// The answer from the bars found.
pub(super) fn layout(problem: &Problem, instance: &Instance, found: &Found, steps: u64) -> Layout {
    let mut plans = found.bars.clone();
    plans.sort_by_key(|plan| {
        let kind = instance.kinds[plan.kind];
        let first = plan.pieces.iter().map(|piece| (piece.run, piece.from)).min();
        (-kind.length, kind.stock, first)
    });
    let mut runs = run_cuts(problem, instance, &plans);
    let mut bars: Vec<Bar> = plans.iter().map(|plan| bar(problem, instance, plan, &runs)).collect();
    let has = |bar: &Bar, run: usize| bar.pieces.iter().any(|cut| cut.run == run);
    gather(&mut bars, (instance.kerf, problem.rules.trim.0), has);
    for (place, bar) in bars.iter().enumerate() {
        for cut in &bar.pieces {
            runs[cut.run].pieces[cut.piece].bar = place;
        }
    }
    let taken = taken(&problem.stock, &bars);
    let cost = Pence(taken.iter().map(|line| line.amount.0).sum());
    let bought = Tenths(bars.iter().map(|bar| bar.length.0).sum());
    let used = Tenths(runs.iter().flat_map(|run| &run.pieces).map(|piece| piece.length.0).sum());
    let splices = runs.iter().map(|run| run.pieces.len() - 1).sum();
    let value = cost.0 * instance.weights.penny + int(splices) * instance.weights.splice;
    let bound = found.bound.min(value);
    Layout {
        runs,
        bars,
        taken,
        bought,
        used,
        waste: Tenths(bought.0 - used.0),
        splices,
        cost,
        bound: as_bound(problem.favour, bound),
        proven: bound >= value,
        gap: as_gap(problem.favour, value, bound),
        steps,
    }
}

fn run_cuts(problem: &Problem, instance: &Instance, plans: &[BarPlan]) -> Vec<RunCut> {
    let mut stretches: Vec<(Stretch, usize)> = plans
        .iter()
        .enumerate()
        .flat_map(|(bar, plan)| plan.pieces.iter().map(move |&piece| (piece, bar)))
        .collect();
    stretches.sort_by_key(|(piece, _)| (piece.run, piece.from));
    problem
        .runs
        .iter()
        .enumerate()
        .map(|(place, run)| RunCut {
            name: run.name.clone(),
            length: run.length,
            pieces: stretches
                .iter()
                .filter(|(piece, _)| piece.run == place)
                .map(|&(piece, bar)| {
                    let last = piece.to == run.length.0;
                    let to = if last { piece.to } else { piece.to + instance.overlap };
                    Piece { from: Tenths(piece.from), to: Tenths(to), length: Tenths(to - piece.from), bar }
                })
                .collect(),
        })
        .collect()
}

fn bar(problem: &Problem, instance: &Instance, plan: &BarPlan, runs: &[RunCut]) -> Bar {
    let kind = instance.kinds[plan.kind];
    let pieces: Vec<Cut> = plan
        .pieces
        .iter()
        .map(|stretch| {
            let pieces = &runs[stretch.run].pieces;
            let piece = pieces.iter().position(|piece| piece.from.0 == stretch.from).unwrap_or(0);
            Cut { run: stretch.run, piece, length: pieces[piece].length }
        })
        .collect();
    Bar { stock: kind.stock, length: problem.stock[kind.stock].length, offcut: Tenths(0), pieces }
}

fn as_bound(favour: Favour, score: i64) -> Bound {
    let (first, second) = score::measures(favour, score);
    match favour {
        Favour::Splices => Bound::FewestSplices { splices: first, cost: Pence(second) },
        Favour::Cost => Bound::Cost { cost: Pence(first), splices: second },
        Favour::ASplice(_) => Bound::CostPlusPerSplice { total: Pence(first) },
    }
}

fn as_gap(favour: Favour, value: i64, bound: i64) -> Option<Gap> {
    let (first, second) = score::measures(favour, value);
    let (first_bound, second_bound) = score::measures(favour, bound);
    let splices = |more| Gap::Splices { more };
    let money = |more| Gap::Money { more: Pence(more) };
    let by_first = first != first_bound;
    let more = if by_first { first - first_bound } else { second - second_bound };
    (value > bound).then(|| match (favour, by_first) {
        (Favour::Splices, true) => splices(more),
        (Favour::Splices, false) | (_, true) => money(more),
        (_, false) => splices(more),
    })
}
