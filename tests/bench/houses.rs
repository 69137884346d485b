//! Plates of invented houses: how many are proven, how far off the others can be at most, and how long they take.

use std::time::Instant;

use pegline::exact::{Pence, Tenths};
use pegline::length::Units;
use pegline::plan::parse_expression;
use pegline::plates::{Gap, Options, Partition, Plates, plates};
use pegline::stock::{ForSale, Timber};

use crate::from;

/// Lengths for sale, mm, and their prices, pence: dearer by the metre where they are long, alike, cheapest in the middle.
const STOCKS: [&[(i64, i64)]; 4] = [
    &[(3600, 1080), (4800, 1560), (6000, 2160)],
    &[(2400, 576), (3000, 720), (3600, 864), (4200, 1008), (4800, 1152), (5400, 1296), (6000, 1440)],
    &[(3000, 865), (4050, 1260), (6000, 2106)],
    &[(4800, 1560), (6000, 2160)],
];

/// What came of both kinds of houses.
pub(crate) fn houses() -> String {
    let small = told("300 rectangles, L's, T's, U's and stepped plans, 4 to 12 runs", (1..=300).map(small));
    let big = told("40 T's with a head binder and 4 to 8 partitions, 24 to 32 runs", (1..=40).map(big));
    format!("{small}\n{big}")
}

fn told(what: &str, jobs: impl Iterator<Item = (String, Options)>) -> String {
    let (mut times, mut proven, mut gap) = (vec![], 0, 0.0_f64);
    for (plan, options) in jobs {
        let (footprint, _) = parse_expression(&plan, Units::Mm).unwrap();
        let started = Instant::now();
        // Some of the invented ones are too narrow somewhere for their plates.
        let Ok(answer) = plates(&footprint, &options) else { continue };
        times.push(started.elapsed().as_secs_f64() * 1000.0);
        proven += usize::from(answer.proven);
        gap = gap.max(share(&answer));
    }
    times.sort_by(f64::total_cmp);
    let (all, median, worst) = (times.len(), times[times.len() / 2], times[times.len() - 1]);
    format!(
        "{what}: {proven} of {all} proven, the others within {gap:.2} %; {median:.1} ms, {worst:.0} at worst"
    )
}

/// What the best list may cost less at most, in percent.
fn share(answer: &Plates) -> f64 {
    match &answer.gap {
        None => 0.0,
        Some(Gap::Cost(less)) => 100.0 * less.amount() as f64 / answer.cost.amount() as f64,
        Some(Gap::Splices(_)) => 100.0,
    }
}

fn draw(seed: u64) -> u64 {
    let mut draw = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    (0..5).for_each(|_| {
        from(&mut draw, 0, 9);
    });
    draw
}

fn small(seed: u64) -> (String, Options) {
    let mut draw = draw(seed);
    let kind = from(&mut draw, 0, 5);
    (plan(&mut draw, kind), options(&mut draw))
}

fn big(seed: u64) -> (String, Options) {
    let mut draw = draw(seed);
    from(&mut draw, 0, 4);
    let plan = plan(&mut draw, 2);
    let mut options = options(&mut draw);
    options.binder = true;
    options.seconds = 2.0;
    options.partitions = (0..from(&mut draw, 4, 8))
        .map(|place| Partition { name: format!("P{place}"), length: 100.0 * from(&mut draw, 15, 52) as f64 })
        .collect();
    (plan, options)
}

fn plan(draw: &mut u64, kind: i64) -> String {
    let (width, depth) = (100 * from(draw, 60, 120), 100 * from(draw, 25, 60));
    let mut part = |least: i64, most: i64| 100 * from(draw, least.unsigned_abs(), most.unsigned_abs());
    let (half, third, down) = (width / 200, width / 300, depth / 200);
    match kind {
        0 => format!("{width}x{depth}"),
        1 => format!("{width}x{}-{}x{}", depth + 2000, part(12, half), part(10, down)),
        2 => format!("{width}x{depth}+{}x{}", part(20, half), part(10, 30)),
        3 => {
            let (left, right) = (part(15, third), part(15, third));
            let at = width - right;
            format!("{width}x{depth}+{left}x{}@0+{right}x{}@{at}", part(10, 30), part(10, 30))
        }
        _ => {
            let stepped = ["tl", "br", "tr", "bl"].into_iter().take(if kind == 4 { 2 } else { 4 });
            let cut = stepped.map(|corner| format!("-{}x{}@{corner}", part(12, third), part(10, down)));
            format!("{width}x{}{}", depth + 3000, cut.collect::<String>())
        }
    }
}

fn options(draw: &mut u64) -> Options {
    let stock = STOCKS[usize::try_from(from(draw, 0, 3)).unwrap()];
    let for_sale = stock.iter().map(|&(mm, pence)| ForSale {
        length: Tenths::from_mm(mm),
        price: Some(Pence(pence)),
        count: None,
    });
    let mut options = Options::new(140.0, Timber { for_sale: for_sale.collect(), ..Timber::default() });
    options.splices.panels = Some(1200.0);
    options
}
