//! Tiny problems, every one of them solved by trying everything.
//!
//! A different route from the engine's: all sets of splices of all runs, and for each the cheapest packing of the
//! pieces by a table over sets of pieces.

use std::collections::HashMap;

use pegline::cutting::{Bound, Effort, Favour, Problem, Rules, Run, Stock, plan_runs};
use pegline::exact::{Pence, Tenths};
use proptest::prelude::*;

use super::checker;

/// Every way to cut a run, as lists of piece lengths.
fn ways(run: &Run, rules: Rules) -> Vec<Vec<i64>> {
    let length = run.length.0;
    let spots: Vec<i64> = (1..length)
        .filter(|at| {
            run.splices.as_ref().is_none_or(|zones| zones.iter().any(|(a, b)| a.0 <= *at && *at <= b.0))
        })
        .collect();
    let mut ways = Vec::new();
    for chosen in 0_u32..1 << spots.len() {
        let mut cuts = vec![0];
        cuts.extend(spots.iter().enumerate().filter(|(k, _)| chosen & (1 << k) != 0).map(|(_, at)| *at));
        cuts.push(length);
        let faces: Vec<i64> = cuts.windows(2).map(|pair| pair[1] - pair[0]).collect();
        if faces.len() == 1 || faces.iter().all(|face| *face >= rules.least_piece.0) {
            let last = faces.len() - 1;
            ways.push(
                faces
                    .iter()
                    .enumerate()
                    .map(|(k, face)| face + if k < last { rules.overlap.0 } else { 0 })
                    .collect(),
            );
        }
    }
    ways
}

/// Least cost of bars for fixed pieces; `None` when they do not fit.
pub(super) fn pack(pieces: &[i64], stock: &[Stock], rules: Rules) -> Option<i64> {
    let size = 1_usize << pieces.len();
    let mut need = vec![0_i64; size];
    for mask in 1..size {
        let first = mask.trailing_zeros() as usize;
        let rest = mask & (mask - 1);
        let kerf = if rest == 0 { 0 } else { rules.kerf.0 };
        need[mask] = need[rest] + pieces[first] + kerf;
    }
    let fits = |mask: usize, item: &Stock| need[mask] <= item.length.0 - rules.trim.0;
    let mut least: Vec<Option<i64>> = vec![None; size];
    least[0] = Some(0);
    // The counted bars one by one, then bought bars as often as wanted.
    for item in stock {
        for _ in 0..item.count.unwrap_or(0) {
            let before = least.clone();
            for mask in 0..size {
                let mut part = mask;
                while part != 0 {
                    if let (true, Some(cost)) = (fits(part, item), before[mask & !part]) {
                        let cost = cost + item.price.0;
                        least[mask] = Some(least[mask].map_or(cost, |known| known.min(cost)));
                    }
                    part = (part - 1) & mask;
                }
            }
        }
    }
    let bar: Vec<Option<i64>> = (0..size)
        .map(|mask| {
            stock
                .iter()
                .filter(|item| item.count.is_none() && fits(mask, item))
                .map(|item| item.price.0)
                .min()
        })
        .collect();
    for mask in 1..size {
        let mut part = mask;
        while part != 0 {
            if let (Some(price), Some(cost)) = (bar[part], least[mask & !part]) {
                least[mask] = Some(least[mask].map_or(cost + price, |known| known.min(cost + price)));
            }
            part = (part - 1) & mask;
        }
    }
    least[size - 1]
}

/// The best (first, second) measure over everything.
fn best(problem: &Problem) -> Option<(i64, i64)> {
    let choices: Vec<Vec<Vec<i64>>> = problem.runs.iter().map(|run| ways(run, problem.rules)).collect();
    let mut lists: Vec<Vec<i64>> = vec![Vec::new()];
    for ways in &choices {
        lists = lists
            .iter()
            .flat_map(|list| ways.iter().map(move |way| [list.as_slice(), way.as_slice()].concat()))
            .collect();
    }
    let mut known: HashMap<Vec<i64>, Option<i64>> = HashMap::new();
    lists
        .into_iter()
        .filter_map(|mut pieces| {
            pieces.sort_unstable();
            let splices = i64::try_from(pieces.len() - problem.runs.len()).unwrap();
            let cost =
                *known.entry(pieces).or_insert_with_key(|pieces| pack(pieces, &problem.stock, problem.rules));
            cost.map(|cost| match problem.favour {
                Favour::Splices => (splices, cost),
                Favour::Cost => (cost, splices),
                Favour::ASplice(worth) => (cost + worth.0 * splices, splices),
            })
        })
        .min()
}

/// Up to three runs with up to eight places for splices in all, in units of a tenth of a millimetre.
fn tiny() -> impl Strategy<Value = Problem> {
    let run = (3..16_i64, prop::collection::vec((1..15_i64, 0..2_i64), 0..3));
    let runs = prop::collection::vec(run, 1..4);
    let stock = prop::collection::vec((4..13_i64, 1..20_i64, prop::option::weighted(0.3, 1..3_usize)), 1..4);
    let rules = (0..2_i64, 0..2_i64, 1..4_i64, prop_oneof![3 => Just(0_i64), 1 => Just(1)]);
    let favour = prop_oneof![
        Just(Favour::Splices),
        Just(Favour::Cost),
        (0..9_i64).prop_map(|worth| Favour::ASplice(Pence(worth))),
    ];
    (runs, stock, rules, favour).prop_map(|(runs, stock, (kerf, trim, least, overlap), favour)| {
        let mut room = 8_i64;
        Problem {
            runs: runs
                .into_iter()
                .enumerate()
                .map(|(place, (length, zones))| Run {
                    name: format!("R{place}"),
                    length: Tenths(length),
                    splices: Some(
                        zones
                            .into_iter()
                            .filter(|(_, more)| {
                                room -= more + 1;
                                room >= 0
                            })
                            .map(|(from, more)| (Tenths(from), Tenths(from + more)))
                            .collect(),
                    ),
                })
                .collect(),
            stock: stock
                .into_iter()
                .map(|(length, price, count)| Stock { length: Tenths(length), price: Pence(price), count })
                .collect(),
            rules: Rules {
                kerf: Tenths(kerf),
                trim: Tenths(trim),
                least_piece: Tenths(least),
                overlap: Tenths(overlap),
            },
            favour,
            effort: Effort::default(),
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn tiny_problems_have_the_optimum_of_trying_everything(problem in tiny()) {
        match (plan_runs(&problem), best(&problem)) {
            (Err(_), None) => {}
            (Ok(layout), Some(best)) => {
                checker::check(&problem, &layout);
                let splices = i64::try_from(layout.splices).unwrap();
                let (value, bound) = match (problem.favour, layout.bound) {
                    (_, Bound::FewestSplices { splices: least, cost }) => {
                        ((splices, layout.cost.0), (least, cost.0))
                    }
                    (_, Bound::Cost { cost, splices: least }) => ((layout.cost.0, splices), (cost.0, least)),
                    (Favour::ASplice(worth), Bound::CostPlusPerSplice { total }) => {
                        ((layout.cost.0 + worth.0 * splices, splices), (total.0, 0))
                    }
                    (_, Bound::CostPlusPerSplice { .. }) => unreachable!(),
                };
                prop_assert!(best <= value, "better than trying everything: {value:?} {best:?}");
                prop_assert!(bound <= best, "bound {bound:?} above {best:?}");
                if layout.proven {
                    prop_assert_eq!(value, best);
                }
            }
            // With counted bars alone a layout with several splices over the fewest may be missed.
            (Err(_), Some(_)) if problem.stock.iter().all(|item| item.count.is_some()) => {}
            (answer, best) => prop_assert!(false, "{answer:?} against {best:?}"),
        }
    }
}
