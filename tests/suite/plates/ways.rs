//! What is proven over all ways round the corners, against every way laid by itself.

use pegline::cutting::{Effort, Favour, Problem, Run, plan_runs};
use pegline::exact::{Pence, Tenths};
use pegline::length::Units;
use pegline::plan::{Footprint, parse_expression};
use pegline::plates::{
    Handing, Layer, Options, Partition, Plates, plate_corners, plates, runs, splice_zones,
};
use pegline::stock::{ForSale, InVan, Timber};

/// Invented outlines with 4 to 8 corners, free-standing.
const PLANS: [&str; 5] = [
    "6100x3300",
    "8800x5700-2900x1900",
    "10000x2600+3800x1800",
    "7300x4900-2100x1300",
    "9100x5200+2600x1700@3100",
];
/// Lengths for sale, mm, and their prices, pence: dearer by the metre where they are long, the other way round, and alike.
const STOCKS: [[(i64, i64); 3]; 3] = [
    [(3600, 1080), (4800, 1560), (6000, 2160)],
    [(3000, 865), (4050, 1260), (6000, 2106)],
    [(2400, 576), (4200, 1008), (5400, 1296)],
];

fn timber(stock: [(i64, i64); 3]) -> Timber {
    let for_sale = stock.map(|(length, price)| ForSale {
        length: Tenths::from_mm(length),
        price: Some(Pence(price)),
        count: None,
    });
    Timber { for_sale: for_sale.to_vec(), ..Timber::default() }
}

/// Cost and splices, what is favoured first.
fn measures(favour: Favour, cost: i64, splices: usize) -> (i64, i64) {
    let splices = i64::try_from(splices).unwrap();
    if favour == Favour::Cost { (cost, splices) } else { (splices, cost) }
}

/// The best of all ways round, each laid by itself, both layers together, and whether each is proven.
fn every_way(footprint: &Footprint, options: &Options) -> ((i64, i64), bool) {
    let free = plate_corners(footprint);
    let (mut best, mut proven) = ((i64::MAX, i64::MAX), true);
    for code in 0..1_usize << free.len() {
        let turned = free.iter().enumerate().filter(|(bit, _)| code & (1 << bit) != 0);
        let handing =
            turned.fold(Handing::alternate(footprint), |handing, (_, &corner)| handing.flipped(corner));
        let layer = |layer: Layer, handing: &Handing, plate: &Handing| -> Vec<Run> {
            let sides = runs(footprint, options.width, handing).unwrap();
            let zones = splice_zones(footprint, options, plate, layer).unwrap();
            let runs = sides.iter().zip(zones).map(|(side, (name, zones))| Run {
                name,
                length: Tenths::nearest(side.length),
                splices: Some(zones),
            });
            runs.collect()
        };
        let mut all = layer(Layer::Plate, &handing, &handing);
        if options.binder {
            all.extend(layer(Layer::Binder, &handing.opposite(), &handing));
        }
        let problem = Problem {
            runs: all,
            stock: options.timber.stock(),
            rules: options.timber.rules(Tenths::nearest(options.splices.least_piece)),
            favour: options.favour,
            effort: Effort::default(),
        };
        let layout = plan_runs(&problem).unwrap();
        best = best.min(measures(options.favour, layout.cost.0, layout.splices));
        proven &= layout.proven;
    }
    (best, proven)
}

#[test]
fn what_is_proven_over_all_ways_is_the_best_of_every_way_laid_by_itself() {
    let mut compared = 0;
    for (place, plan) in PLANS.iter().enumerate() {
        let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
        for favour in [Favour::Splices, Favour::Cost] {
            let options = Options { favour, ..Options::new(140.0, timber(STOCKS[place % STOCKS.len()])) };
            compared += usize::from(holds_against_every_way(plan, &footprint, &options));
        }
    }
    assert!(compared >= 8, "only {compared} proven both ways");
}

/// Lays the plates, holds them to every way round laid by itself, and says whether both are proven.
fn holds_against_every_way(plan: &str, footprint: &Footprint, options: &Options) -> bool {
    let answer = plates(footprint, options).unwrap();
    let ours = measures(options.favour, answer.cost.amount(), answer.splices);
    let (best, proven) = every_way(footprint, options);
    assert!(ours <= best, "{plan}: another way gives {best:?}, not {ours:?}");
    assert!(!(answer.proven && proven) || ours == best, "{plan}: no way gives {ours:?}, but {best:?}");
    answer.proven && proven
}

/// A plate and a head binder are one list; here their splices need keep no distance, as laid way by way they do not.
#[test]
fn with_a_head_binder_too_the_proof_is_over_every_way() {
    let mut compared = 0;
    for (place, (plan, house)) in
        [("6100x3300", false), ("5400x4700", false), ("8800x5700-2900x1900", true)].into_iter().enumerate()
    {
        let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
        let footprint = if house { footprint.with_house(&[0, 5]) } else { footprint };
        for favour in [Favour::Splices, Favour::Cost] {
            let mut options =
                Options { favour, binder: true, ..Options::new(140.0, timber(STOCKS[place % STOCKS.len()])) };
            options.splices.lap = 0.0;
            compared += usize::from(holds_against_every_way(plan, &footprint, &options));
        }
    }
    assert!(compared >= 4, "only {compared} proven both ways");
}

fn from_the_van(plan: &str, house: bool, van: &[(i64, usize)]) -> Plates {
    let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
    let footprint = if house { footprint.with_house(&[0]) } else { footprint };
    let in_van =
        van.iter().map(|&(length, count)| InVan { length: Tenths::from_mm(length), count }).collect();
    let timber = Timber { in_van, ..Timber::default() };
    plates(&footprint, &Options::new(140.0, timber)).unwrap()
}

/// Seven runs of 19.2 m in all take five bars of 4.8 m at least, and 1840 + 2920 or so share one.
#[test]
fn no_more_bars_are_taken_from_the_van_than_the_list_can_do_with() {
    let answer = from_the_van("8880x3060+3720x2250@1980", true, &[(4800, 9)]);
    assert_eq!((answer.splices, answer.bars.len()), (0, 5));
    // Four runs of about 4.9 m, one to a bar: the shorter bars do.
    let answer = from_the_van("5000x5000", false, &[(6000, 4), (5100, 4)]);
    assert_eq!(answer.bars.iter().map(|bar| bar.stock.0).collect::<Vec<_>>(), [51_000; 4]);
}

/// 32 runs round 256 ways. That bars are whole settles it: parts of bars of both lengths could be had for less.
#[test]
fn a_big_house_with_partitions_under_a_head_binder_is_proven() {
    let (footprint, _) = parse_expression("6200x5800+2400x1400", Units::Mm).unwrap();
    let partitions = [2600.0, 3200.0, 4000.0, 3000.0, 2000.0, 2500.0, 4500.0, 1800.0]
        .into_iter()
        .enumerate()
        .map(|(place, length)| Partition { name: format!("P{place}"), length });
    let mut timber = timber(STOCKS[0]);
    timber.for_sale.remove(0);
    let mut options =
        Options { binder: true, partitions: partitions.collect(), ..Options::new(140.0, timber) };
    options.splices.panels = Some(1200.0);
    options.seconds = 0.5;
    let answer = plates(&footprint, &options).unwrap();
    assert_eq!((answer.cost.amount(), answer.splices, answer.proven), (35_400, 1, true));
}
