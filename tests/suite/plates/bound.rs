//! What every list must come to at least, over all ways round the corners, worked out apart from the engine.
//!
//! A way round falls into groups of runs that share bars. A group of R runs on B bars takes B − 1 splices or what its runs
//! need one by one, a piece for each run and each splice, and a saw cut less than pieces on every bar; the cheapest B bars
//! that give so much, and the least sum over all partitions of the runs, undercut every list.

use pegline::exact::{Pence, Tenths};
use pegline::length::Units;
use pegline::plan::{Footprint, parse_expression};
use pegline::plates::{Handing, Layer, Options, Partition, plate_corners, plates, runs, splice_zones};
use pegline::stock::{ForSale, Timber};

const STOCK: [(i64, i64); 3] = [(36_000, 1080), (48_000, 1560), (60_000, 2160)];
const LONGEST: i64 = 60_000;
const KERF: i64 = 30;
const LEAST_PIECE: i64 = 6000;
/// More bars than any group of these runs needs.
const MOST_BARS: i64 = 7;

/// Splices first, then pence.
type Measures = (i64, i64);

/// Fewest splices of one run from the longest bars: every place that the next splice can reach, in tenths.
fn alone(length: i64, zones: &[(Tenths, Tenths)]) -> i64 {
    let (mut reached, mut splices) = (vec![(0, 0)], 0);
    while reached.iter().all(|&(_, to)| length - to > LONGEST) {
        splices += 1;
        let next = reached.iter().flat_map(|&(from, to)| {
            let span = (from + LEAST_PIECE, (to + LONGEST).min(length - LEAST_PIECE));
            zones.iter().map(move |zone| (span.0.max(zone.0.0), span.1.min(zone.1.0)))
        });
        reached = next.filter(|(from, to)| from <= to).collect();
        assert!(!reached.is_empty(), "a run of {length} can't be made up");
    }
    splices
}

/// The cheapest so many bars that give a length; `None` where they can't.
fn bars(count: i64, need: i64) -> Option<i64> {
    let mut best = None;
    for short in 0..=count {
        for middle in 0..=count - short {
            let long = count - short - middle;
            let gives = short * STOCK[0].0 + middle * STOCK[1].0 + long * STOCK[2].0;
            let price = short * STOCK[0].1 + middle * STOCK[1].1 + long * STOCK[2].1;
            if gives >= need && best.is_none_or(|best| price < best) {
                best = Some(price);
            }
        }
    }
    best
}

/// What the runs of one way round come to at least.
fn of_one_way(runs: &[(i64, i64)]) -> Measures {
    const NEVER: Measures = (1000, 0);
    let size = 1_usize << runs.len();
    let group = |mask: usize| {
        let here = runs.iter().enumerate().filter(|(run, _)| mask & (1 << run) != 0);
        let (count, length, own) =
            here.fold((0, 0, 0), |(count, length, own), (_, run)| (count + 1, length + run.0, own + run.1));
        let with = |bars_taken: i64| {
            let splices = own.max(bars_taken - 1);
            let cuts = (count + splices - bars_taken).max(0);
            Some((splices, bars(bars_taken, length + cuts * KERF)?))
        };
        (1..=MOST_BARS).filter_map(with).min().unwrap_or(NEVER)
    };
    let groups: Vec<Measures> = (0..size).map(group).collect();
    let mut best = vec![(0, 0); size];
    for mask in 1..size {
        // The group with the first run in it, and the best of what is left.
        let rest = mask & (mask - 1);
        let mut left = rest;
        best[mask] = NEVER;
        loop {
            let (group, others) = (groups[mask & !left], best[left]);
            best[mask] = best[mask].min((group.0 + others.0, group.1 + others.1));
            if left == 0 {
                break;
            }
            left = (left - 1) & rest;
        }
    }
    best[size - 1]
}

/// What the plate comes to at least, over all ways round the corners.
fn of_all_ways(footprint: &Footprint, options: &Options) -> (usize, Measures) {
    let free = plate_corners(footprint);
    let ways = (0..1_usize << free.len()).map(|code| {
        let turned = free.iter().enumerate().filter(|(bit, _)| code & (1 << bit) != 0);
        let handing =
            turned.fold(Handing::alternate(footprint), |handing, (_, &corner)| handing.flipped(corner));
        let sides = runs(footprint, options.width, &handing).unwrap();
        let inside = options.partitions.iter().map(|partition| partition.length);
        let lengths = sides.iter().map(|side| side.length).chain(inside);
        let zones = splice_zones(footprint, options, &handing, Layer::Plate).unwrap();
        let runs: Vec<(i64, i64)> = lengths
            .zip(&zones)
            .map(|(length, (_, zones))| {
                let length = Tenths::nearest(length).0;
                (length, alone(length, zones))
            })
            .collect();
        assert_eq!(runs.len(), zones.len());
        (runs.len(), of_one_way(&runs))
    });
    ways.min_by_key(|(_, measures)| *measures).unwrap()
}

/// Invented outlines, the sides at the house, and partitions.
const PLANS: [(&str, &[usize], &[i32]); 7] = [
    ("6100x3300", &[], &[]),
    ("8800x5700-2900x1900", &[], &[]),
    ("10000x2600+3800x1800", &[], &[]),
    ("9100x5200+2600x1700@3100", &[0], &[2900, 3400]),
    ("9400x7100-3900x3200", &[0], &[1900, 2600, 3100, 3700]),
    ("7300x4900-2100x1300", &[], &[1700, 2200, 2800, 3300, 4100, 5200]),
    ("9900x6400-1800x1500@tl-2300x1700@br", &[0], &[2400, 3600, 4300, 1600]),
];

#[test]
fn no_list_of_up_to_twelve_runs_is_below_the_bound_and_most_proofs_meet_it() {
    let (mut met, mut most_runs) = (0, 0);
    for (plan, house, inside) in PLANS {
        let footprint = parse_expression(plan, Units::Mm).unwrap().0.with_house(house);
        let for_sale = STOCK.map(|(length, price)| ForSale {
            length: Tenths(length),
            price: Some(Pence(price)),
            count: None,
        });
        let mut options = Options::new(140.0, Timber { for_sale: for_sale.to_vec(), ..Timber::default() });
        options.partitions = inside
            .iter()
            .enumerate()
            .map(|(place, &length)| Partition { name: format!("P{place}"), length: f64::from(length) })
            .collect();
        let answer = plates(&footprint, &options).unwrap();
        let ours = (i64::try_from(answer.splices).unwrap(), answer.cost.amount());
        let (runs, bound) = of_all_ways(&footprint, &options);
        assert!(bound <= ours, "{plan}: {ours:?} is below {bound:?}, which no list can be");
        assert!(answer.proven, "{plan}: not proven");
        met += usize::from(bound == ours);
        most_runs = most_runs.max(runs);
    }
    assert_eq!(most_runs, 12);
    assert!(met >= 6, "only {met} of {} proofs are met", PLANS.len());
}
