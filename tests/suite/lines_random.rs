//! Random rectilinear outlines for the line tests, and a tracer of marked cells that knows nothing of footprints.

use pegline::geometry::Point;
use pegline::plan::Footprint;
use proptest::collection::vec;
use proptest::prelude::*;

/// Cells along each edge of the grid that outlines are grown on.
const CELLS: usize = 5;

/// The outline round the marked cells between the cuts `xs` and `ys`, clockwise, straight-through points left out.
///
/// `None` unless it is one ring that touches itself nowhere.
pub(crate) fn trace(xs: &[f64], ys: &[f64], marked: impl Fn(usize, usize) -> bool) -> Option<Vec<Point>> {
    let (columns, rows) = (xs.len() - 1, ys.len() - 1);
    let on = |column: isize, row: isize| {
        let inside = |v: isize, n: usize| usize::try_from(v).ok().filter(|v| *v < n);
        matches!((inside(column, columns), inside(row, rows)), (Some(c), Some(r)) if marked(c, r))
    };
    // Where the outline goes from each grid point, the marked cells to its right.
    let mut next = std::collections::BTreeMap::new();
    let mut edges = 0;
    for row in 0..=rows {
        for column in 0..=columns {
            let (c, r) = (isize::try_from(column).ok()?, isize::try_from(row).ok()?);
            let corners = [on(c - 1, r - 1), on(c, r - 1), on(c, r), on(c - 1, r)];
            // Right, down, left, up: each edge has a marked cell on one side only.
            let leaves = [
                (corners[2] && !corners[1], (column + 1, row)),
                (corners[3] && !corners[2], (column, row + 1)),
                (corners[0] && !corners[3], (column.wrapping_sub(1), row)),
                (corners[1] && !corners[0], (column, row.wrapping_sub(1))),
            ];
            for (_, to) in leaves.into_iter().filter(|(leaves, _)| *leaves) {
                edges += 1;
                if next.insert((column, row), to).is_some() {
                    return None;
                }
            }
        }
    }
    let start = *next.keys().next()?;
    let mut ring = vec![start];
    let mut at = next[&start];
    while at != start {
        ring.push(at);
        at = next[&at];
    }
    if ring.len() != edges {
        return None;
    }
    let n = ring.len();
    let turns = (0..n).filter(|i| {
        let (a, b, c) = (ring[(i + n - 1) % n], ring[*i], ring[(i + 1) % n]);
        !((a.0 == b.0 && b.0 == c.0) || (a.1 == b.1 && b.1 == c.1))
    });
    Some(turns.map(|i| Point::new(xs[ring[i].0], ys[ring[i].1])).collect())
}

fn cuts(gaps: &[u32]) -> Vec<f64> {
    let mut at = 0.0;
    std::iter::once(0.0)
        .chain(gaps.iter().map(|gap| {
            at += f64::from(*gap);
            at
        }))
        .collect()
}

/// Outlines of 4 to 26 corners, in whole millimetres, each part 200 to 4000 mm wide, no house side.
pub(crate) fn outlines() -> impl Strategy<Value = Footprint> {
    let gaps = || vec(200_u32..4000, CELLS);
    (gaps(), gaps(), vec(any::<u16>(), 0..14)).prop_map(|(across, down, picks)| {
        let (xs, ys) = (cuts(&across), cuts(&down));
        let mut marked = [[false; CELLS]; CELLS];
        marked[CELLS / 2][CELLS / 2] = true;
        let mut points = trace(&xs, &ys, |c, r| marked[r][c]).unwrap();
        for pick in picks {
            let (c, r) = (usize::from(pick) % CELLS, usize::from(pick) / CELLS % CELLS);
            let before = marked;
            marked[r][c] = true;
            match trace(&xs, &ys, |c, r| marked[r][c]) {
                Some(grown) if grown.len() <= 26 => points = grown,
                _ => marked = before,
            }
        }
        Footprint::from_points(&points).unwrap()
    })
}

/// The same, with some sides marked as the house.
pub(crate) fn outlines_with_house() -> impl Strategy<Value = Footprint> {
    (outlines(), any::<u32>(), 0_u32..4).prop_map(|(footprint, bits, how_many)| {
        let n = footprint.len();
        let house: Vec<usize> =
            (0..how_many).map(|i| (bits.rotate_left(8 * i) & 0xff) as usize % n).collect();
        footprint.with_house(&house)
    })
}

/// The sides' lengths from the corners, sorted.
pub(crate) fn sorted_sides(points: &[Point]) -> Vec<f64> {
    let n = points.len();
    let mut sides: Vec<f64> = (0..n).map(|i| points[i].distance(points[(i + 1) % n])).collect();
    sides.sort_by(f64::total_cmp);
    sides
}
