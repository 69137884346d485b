//! Outlines to draw: the usual shapes, and grown ones of every number of corners with long and very short sides.

use std::collections::{BTreeMap, BTreeSet};

use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::{Footprint, parse_expression, parse_walk};
use pegline::sketch::{CheckLine, CheckUse, Drawing};
use pegline::square::{Options, diagonals};

/// The usual shapes, invented sizes.
pub(crate) fn usual() -> Vec<(Footprint, Units)> {
    let plans = [
        "6000x4000",
        "12000x900",
        "900x12000",
        "7800x6000-3000x2400",
        "7800x6000-3000x2400@tl",
        "7800x6000-3000x2400@tr",
        "7800x6000-3000x2400@bl",
        "9000x3000+3600x2400",
        "9000x3000+3600x2400@0",
        "9000x3000+2400x2100@0+2400x2100@6600",
        "9000x6000-2000x1500@bl-2000x1500@br",
        "9000x6000-2000x1500@tl-2000x1500@tr-800x500@bl-700x400@br",
        "27ft6in x 18ft3in - 9ft x 6ft",
        "31ft7-1/16in x 20ft + 12ft5-3/16in x 8ft",
        "7.8m x 6.05m - 3m x 2.4m",
    ];
    let walks = ["9000 R 2000 R 6000 L 2500 L 6000 R 2500 R 9000 R 7000"];
    let plans = plans.into_iter().map(|plan| parse_expression(plan, Units::Mm));
    let walks = walks.into_iter().map(|walk| parse_walk(walk, Units::Mm));
    plans.chain(walks).map(Result::unwrap).collect()
}

/// Numbers in a fixed order from a seed (a linear congruential generator; constants from Knuth's MMIX).
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from((self.0 >> 33) % u64::try_from(n).unwrap()).unwrap()
    }
}

/// An outline of exactly `corners` corners, grown cell by cell on a small grid whose gaps are drawn from `gaps`.
pub(crate) fn grown(seed: u64, corners: usize, gaps: &[f64]) -> Footprint {
    const ACROSS: usize = 8;
    const DOWN: usize = 7;
    let mut numbers = Numbers(seed.wrapping_mul(2).wrapping_add(1));
    loop {
        let mut cells = BTreeSet::from([(numbers.below(ACROSS), numbers.below(DOWN))]);
        for _ in 0..200 {
            if let Some(outline) = outline(&cells)
                && outline.len() == corners
            {
                let mut gap = || gaps[numbers.below(gaps.len())];
                let cuts = |n: usize, gap: &mut dyn FnMut() -> f64| -> Vec<f64> {
                    let mut at = 0.0;
                    (0..=n)
                        .map(|_| {
                            let here = at;
                            at += gap();
                            here
                        })
                        .collect()
                };
                let (xs, ys) = (cuts(ACROSS, &mut gap), cuts(DOWN, &mut gap));
                let points: Vec<Point> = outline.iter().map(|(x, y)| Point::new(xs[*x], ys[*y])).collect();
                return Footprint::from_points(&points).unwrap();
            }
            let list: Vec<_> = cells.iter().copied().collect();
            let (x, y) = list[numbers.below(list.len())];
            let next = match numbers.below(4) {
                0 => (x + 1, y),
                1 => (x.wrapping_sub(1), y),
                2 => (x, y + 1),
                _ => (x, y.wrapping_sub(1)),
            };
            if next.0 < ACROSS && next.1 < DOWN {
                cells.insert(next);
            }
        }
    }
}

/// The corners round a set of cells clockwise, unless it has a hole or touches itself.
fn outline(cells: &BTreeSet<(usize, usize)>) -> Option<Vec<(usize, usize)>> {
    let has = |x: usize, y: usize| cells.contains(&(x, y));
    let mut next = BTreeMap::new();
    let mut edges = 0;
    for &(x, y) in cells {
        let round = [
            (!has(x, y.wrapping_sub(1)), (x, y), (x + 1, y)),
            (!has(x + 1, y), (x + 1, y), (x + 1, y + 1)),
            (!has(x, y + 1), (x + 1, y + 1), (x, y + 1)),
            (!has(x.wrapping_sub(1), y), (x, y + 1), (x, y)),
        ];
        for (_, from, to) in round.into_iter().filter(|(edge, _, _)| *edge) {
            edges += 1;
            if next.insert(from, to).is_some() {
                return None;
            }
        }
    }
    let start = *next.keys().next()?;
    let mut walk = vec![start];
    while next[walk.last()?] != start {
        walk.push(next[walk.last()?]);
    }
    let n = walk.len();
    (n == edges).then(|| {
        (0..n)
            .filter(|i| {
                let (a, b, c) = (walk[(i + n - 1) % n], walk[*i], walk[(i + 1) % n]);
                !((a.0 == b.0 && b.0 == c.0) || (a.1 == b.1 && b.1 == c.1))
            })
            .map(|i| walk[i])
            .collect()
    })
}

/// Outlines of 4 to 26 corners, `each` of every number, every third with house sides. Gaps run from 1 mm to 6 m.
pub(crate) fn many(each: u64) -> Vec<Footprint> {
    let mut all = vec![];
    for half in 2..=13 {
        for seed in 0..each {
            let gaps: &[f64] = match seed % 4 {
                0 => &[300.0, 600.0, 900.0, 1200.0, 2400.0],
                1 => &[1.0, 20.0, 450.0, 6000.0],
                2 => &[1234.5, 987.6, 3333.3],
                _ => &[100.0],
            };
            let footprint = grown(seed * 97 + half, usize::try_from(2 * half).unwrap(), gaps);
            let house: &[usize] = if seed % 3 == 0 { &[0, 3] } else { &[] };
            all.push(footprint.with_house(house));
        }
    }
    all
}

/// A drawing with the proof set and spares on it.
pub(crate) fn drawing(footprint: &Footprint, units: Units) -> Drawing {
    let answer = diagonals(footprint, &Options::default()).unwrap();
    let mut drawing = Drawing::new(footprint, units);
    for (purpose, names) in [(CheckUse::Proof, &answer.proof.names), (CheckUse::Spare, &answer.spares.names)]
    {
        for name in names {
            let (from, to) = footprint.parse_line(name).unwrap();
            drawing.checks.push(CheckLine { from, to, purpose });
        }
    }
    drawing
}
