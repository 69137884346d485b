//! The least that the runs come to one by one, over every way round the corners: exact, from corner to corner.

use super::site::Site;

/// Above any sum.
const NEVER: i64 = i64::MAX / 8;

/// The least sum over the runs of what `each` shape comes to, the best way round the corners that are not settled. `None`
/// where some run has no shape that goes with them.
pub(super) fn least_of_all(
    site: &Site,
    ways: &[Option<bool>],
    each: impl Fn(usize) -> i64 + Copy,
) -> Option<i64> {
    let corners = site.corners;
    // Round the outline a run meets the corner before it and the one after, so the runs hang on pairs of neighbours.
    let mut hanging: Vec<Vec<usize>> = vec![vec![]; corners];
    let (mut free, mut closing) = (0, vec![]);
    for run in 0..site.runs() {
        match site.corners_of(run).as_slice() {
            [] => free += least(site, run, ways, &[], each),
            &[corner] => hanging[corner].push(run),
            &[a, b] if a + 1 == b => hanging[b].push(run),
            _ => closing.push(run),
        }
    }
    let sum = |runs: &[usize], settled: &[(usize, bool)]| {
        runs.iter().fold(0, |sum, &run| (sum + least(site, run, ways, settled, each)).min(NEVER))
    };
    let mut best = if corners == 0 { 0 } else { NEVER };
    for start in [false, true].into_iter().filter(|_| corners > 0) {
        let first = |way: bool| if way == start { sum(&hanging[0], &[(0, way)]) } else { NEVER };
        let mut at = [first(false), first(true)];
        for (corner, hanging) in hanging.iter().enumerate().skip(1) {
            at = [false, true].map(|way| {
                let from = |before: bool| {
                    at[usize::from(before)] + sum(hanging, &[(corner - 1, before), (corner, way)])
                };
                from(false).min(from(true)).min(NEVER)
            });
        }
        for way in [false, true] {
            let settled = [(corners - 1, way), (0, start)];
            best = best.min(at[usize::from(way)] + sum(&closing, &settled));
        }
    }
    let all = best + free;
    (all < NEVER).then_some(all)
}

/// The least of a run with these corners settled besides.
fn least(
    site: &Site,
    run: usize,
    ways: &[Option<bool>],
    settled: &[(usize, bool)],
    each: impl Fn(usize) -> i64,
) -> i64 {
    let agrees = |ask: &(usize, bool)| settled.iter().all(|other| other.0 != ask.0 || other.1 == ask.1);
    site.shapes[run]
        .clone()
        .filter(|&shape| site.goes_with(shape, ways) && site.asks[shape].iter().all(agrees))
        .map(each)
        .min()
        .unwrap_or(NEVER)
}
