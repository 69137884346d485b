//! Random simple rectilinear outlines: a patch of cells grown on a grid of random cell sizes, and its boundary walked.
//!
//! Nothing here uses the library's own tracing, so that it can stand as a witness to it.

use std::collections::BTreeMap;
use std::fmt::Write;

use pegline::geometry::Point;
use pegline::plan::Footprint;
use proptest::prelude::{Strategy, any};

/// A small deterministic generator (Steele, Lea and Flood 2014, `SplitMix64`).
pub(crate) struct Random(u64);

impl Random {
    /// The generator of `seed`.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A whole number under `end`.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % end as u64).unwrap()
    }

    /// One of `choices`.
    pub(crate) fn pick<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len())]
    }
}

/// Random outlines without end, the same for the same seed: 4 to 26 corners, clockwise, starting anywhere.
///
/// A third have whole millimetres, a third eighths (exact in binary, so that lines through corners are exact), a third
/// few different sizes (so that corners often line up).
pub(crate) fn outlines(seed: u64) -> impl Iterator<Item = Vec<Point>> {
    let mut random = Random::new(seed);
    std::iter::from_fn(move || Some(grow(&mut random))).flatten()
}

/// Random outlines with so many corners.
pub(crate) fn outlines_of(corners: usize, seed: u64) -> impl Iterator<Item = Vec<Point>> {
    outlines(seed).filter(move |outline| outline.len() == corners)
}

/// Any outline, for proptest.
pub(crate) fn any_outline() -> impl Strategy<Value = Vec<Point>> {
    any::<u64>().prop_map(|seed| outlines(seed).next().unwrap())
}

/// The checked footprint of an outline.
pub(crate) fn footprint(outline: &[Point]) -> Footprint {
    Footprint::from_points(outline).unwrap()
}

/// The walk round a footprint from A with all its sides, in millimetres.
pub(crate) fn walk_text(footprint: &Footprint) -> String {
    walk_of(footprint, footprint.len())
}

/// The first `count` sides of the walk round a footprint from A, in millimetres.
pub(crate) fn walk_of(footprint: &Footprint, count: usize) -> String {
    let sides = &footprint.sides()[..count];
    let mut text = sides[0].length.to_string();
    for pair in sides.windows(2) {
        let turn = if pair[1].heading == pair[0].heading.right() { 'R' } else { 'L' };
        write!(text, " {turn} {}", pair[1].length).unwrap();
    }
    text
}

/// One try: `None` where the patch has a hole, a pinch or too many corners.
fn grow(random: &mut Random) -> Option<Vec<Point>> {
    // Half of them from bigger and emptier grids, or outlines of many corners would be rare.
    let (columns, rows, wanted) = if random.below(2) == 0 {
        let (columns, rows) = (1 + random.below(5), 1 + random.below(5));
        (columns, rows, 1 + random.below(columns * rows))
    } else {
        let (columns, rows) = (4 + random.below(4), 4 + random.below(4));
        (columns, rows, 6 + random.below(columns * rows / 2))
    };
    let mut cells = vec![false; columns * rows];
    cells[random.below(columns * rows)] = true;
    let mut count = 1;
    while count < wanted {
        let (c, r) = (random.below(columns), random.below(rows));
        let beside = |cells: &[bool], c: usize, r: usize| {
            (c > 0 && cells[r * columns + c - 1])
                || (c + 1 < columns && cells[r * columns + c + 1])
                || (r > 0 && cells[(r - 1) * columns + c])
                || (r + 1 < rows && cells[(r + 1) * columns + c])
        };
        if !cells[r * columns + c] && beside(&cells, c, r) {
            cells[r * columns + c] = true;
            count += 1;
        }
    }
    let grain = random.below(3);
    let mut size = || match grain {
        0 => (1 + random.below(6000)) as f64,
        1 => (1 + random.below(48_000)) as f64 / 8.0,
        _ => random.pick(&[600.0, 900.0, 1200.0, 1800.0]),
    };
    let mut cuts = |n: usize| {
        let mut at = vec![0.0];
        for i in 0..n {
            at.push(at[i] + size());
        }
        at
    };
    let (xs, ys) = (cuts(columns), cuts(rows));
    let nodes = boundary(&cells, columns, rows)?;
    let turning: Vec<Point> = (0..nodes.len())
        .filter(|i| {
            let (before, here, after) =
                (nodes[(i + nodes.len() - 1) % nodes.len()], nodes[*i], nodes[(i + 1) % nodes.len()]);
            let straight =
                (before.0 == here.0 && here.0 == after.0) || (before.1 == here.1 && here.1 == after.1);
            !straight
        })
        .map(|i| Point::new(xs[nodes[i].0], ys[nodes[i].1]))
        .collect();
    let start = random.below(turning.len());
    let outline: Vec<Point> = turning[start..].iter().chain(&turning[..start]).copied().collect();
    (outline.len() <= 26).then_some(outline)
}

/// The crossings of the grid round the patch, clockwise with y down.
fn boundary(cells: &[bool], columns: usize, rows: usize) -> Option<Vec<(usize, usize)>> {
    let filled = |c: Option<usize>, r: Option<usize>| match (c, r) {
        (Some(c), Some(r)) => c < columns && r < rows && cells[r * columns + c],
        _ => false,
    };
    let mut onward: BTreeMap<(usize, usize), (usize, usize)> = BTreeMap::new();
    for r in 0..rows {
        for c in (0..columns).filter(|c| cells[r * columns + c]) {
            let edges = [
                (filled(Some(c), r.checked_sub(1)), (c, r), (c + 1, r)),
                (filled(Some(c + 1), Some(r)), (c + 1, r), (c + 1, r + 1)),
                (filled(Some(c), Some(r + 1)), (c + 1, r + 1), (c, r + 1)),
                (filled(c.checked_sub(1), Some(r)), (c, r + 1), (c, r)),
            ];
            for (_, from, to) in edges.into_iter().filter(|(covered, _, _)| !covered) {
                if onward.insert(from, to).is_some() {
                    return None;
                }
            }
        }
    }
    let start = *onward.keys().next()?;
    let mut path = vec![start];
    let mut here = onward[&start];
    while here != start {
        path.push(here);
        here = onward[&here];
    }
    (path.len() == onward.len()).then_some(path)
}
