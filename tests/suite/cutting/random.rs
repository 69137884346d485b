//! Random L and T footprints, invented: every layout can be cut, and its bound is no idle number.

use pegline::cutting::{Bound, Effort, Favour, Problem, Rules, Run, Stock, plan_runs};
use pegline::exact::{Pence, Tenths};
use proptest::prelude::*;

use super::checker;

/// Splices clear of the ends by `end`, of panel joints every 1200 mm by 50 mm, and of a door.
pub(super) fn zones(length: i64, end: i64, door: Option<i64>) -> Vec<(Tenths, Tenths)> {
    let mut edges: Vec<(i64, i64)> = (1..=length / 1200).map(|k| (k * 1200 - 50, k * 1200 + 50)).collect();
    if let Some(at) = door {
        edges.push((at.min(length), (at + 900).min(length)));
    }
    edges.sort_unstable();
    let mut zones = Vec::new();
    let mut from = end;
    for (a, b) in edges {
        if a >= from && a <= length - end {
            zones.push((Tenths::from_mm(from), Tenths::from_mm(a)));
        }
        from = from.max(b);
    }
    if from <= length - end {
        zones.push((Tenths::from_mm(from), Tenths::from_mm(length - end)));
    }
    zones
}

/// Plate runs of an L (two cuts) or a T (three), 140 mm wide plates, plus partitions.
fn runs() -> impl Strategy<Value = Vec<Run>> {
    let sides = prop_oneof![
        (40..120_i64, 45..90_i64, 10..30_i64, 10..30_i64).prop_map(|(w, d, x, y)| vec![
            w * 100,
            d * 100 - 140,
            (w - x) * 100,
            y * 100 - 140,
            x * 100 + 140,
            (d - y) * 100 - 140
        ]),
        (60..120_i64, 25..50_i64, 15..45_i64, 10..30_i64).prop_map(|(w, d, leg, out)| vec![
            w * 100,
            d * 100 - 140,
            (w - leg) * 50,
            out * 100 - 140,
            leg * 100,
            out * 100 - 140,
            (w - leg) * 50,
            d * 100 - 140
        ]),
    ];
    let partitions = prop::collection::vec(1500..5200_i64, 0..4);
    let odd = prop::collection::vec(0..50_i64, 12);
    let doors = prop::collection::vec(prop::option::weighted(0.4, 600..6000_i64), 12);
    (sides, partitions, odd, doors).prop_map(|(mut lengths, partitions, odd, doors)| {
        lengths.extend(partitions);
        lengths
            .iter()
            .zip(odd)
            .zip(doors)
            .enumerate()
            .map(|(place, ((length, odd), door))| {
                let length = length + 5 * (odd % 7);
                Run {
                    name: format!("R{place}"),
                    length: Tenths::from_mm(length),
                    splices: Some(zones(length, 600, door)),
                }
            })
            .collect()
    })
}

/// Merchants' lengths at one price a metre or dearer by length, and sometimes a van.
fn stock() -> impl Strategy<Value = Vec<Stock>> {
    let van = prop::collection::vec((1200..6000_i64, 1..4_usize), 0..3);
    (any::<bool>(), van, 3..7_usize).prop_map(|(graded, van, kinds)| {
        let mut stock: Vec<Stock> = [6000, 5400, 4800, 4200, 3600, 3000, 2400]
            .iter()
            .take(kinds)
            .map(|&length| Stock {
                length: Tenths::from_mm(length),
                price: Pence(if graded { length * (70 + length / 100) / 500 } else { length * 24 / 100 }),
                count: None,
            })
            .collect();
        stock.extend(van.iter().map(|&(length, count)| Stock {
            length: Tenths::from_mm(length),
            price: Pence(0),
            count: Some(count),
        }));
        stock
    })
}

fn problems() -> impl Strategy<Value = Problem> {
    let favour = prop_oneof![
        Just(Favour::Splices),
        Just(Favour::Cost),
        (0..2000_i64).prop_map(|worth| Favour::ASplice(Pence(worth))),
    ];
    let overlap = prop_oneof![3 => Just(0_i64), 1 => Just(140)];
    let trim = prop_oneof![3 => Just(0_i64), 1 => Just(20)];
    (runs(), stock(), favour, overlap, trim).prop_map(|(runs, stock, favour, overlap, trim)| Problem {
        runs,
        stock,
        rules: Rules {
            kerf: Tenths::from_mm(3),
            trim: Tenths::from_mm(trim),
            least_piece: Tenths::from_mm(600),
            overlap: Tenths::from_mm(overlap),
        },
        favour,
        effort: Effort { steps: 1_000_000, ..Effort::default() },
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn every_layout_of_a_random_footprint_can_be_cut(problem in problems()) {
        let layout = plan_runs(&problem).unwrap();
        checker::check(&problem, &layout);
        let timber: i64 = problem.runs.iter().map(|run| run.length.0).sum();
        prop_assert!(layout.used.0 >= timber);
        match layout.bound {
            Bound::FewestSplices { splices, .. } => prop_assert!(splices <= i64::try_from(layout.splices).unwrap()),
            Bound::Cost { cost, .. } => prop_assert!(cost <= layout.cost),
            Bound::CostPlusPerSplice { total } => prop_assert!(total.0 >= 0),
        }
    }
}
