//! The least that the runs come to one by one, over every way round the corners: exact, from corner to corner.

use super::site::Site;
use crate::exact::int;

/// Above any sum.
const NEVER: i64 = i64::MAX / 8;

/// Fewest splices of any list that goes with these ways round the corners. Two runs that lie one over the other need one more
/// than they need one by one where their splices can't keep apart.
pub(super) fn fewest_splices(site: &Site, ways: &[Option<bool>]) -> Option<i64> {
    let cramped = |a, b| i64::from(site.cramped.contains(&(a, b)));
    least(site, ways, own_splices(site), Some(&cramped))
}

/// The splices that each shape needs by itself.
pub(super) fn own_splices(site: &Site) -> impl Fn(usize) -> i64 + Copy + '_ {
    |shape| int(site.instance.spans[shape].least_splices)
}

/// The least sum over the runs of what `each` shape comes to, the best way round the corners that are not settled. `None`
/// where some run has no shape that goes with them.
pub(super) fn least_of_all(
    site: &Site,
    ways: &[Option<bool>],
    each: impl Fn(usize) -> i64 + Copy,
) -> Option<i64> {
    least(site, ways, each, None)
}

/// What two shapes that lie one over the other come to besides.
type Besides<'a> = Option<&'a dyn Fn(usize, usize) -> i64>;

fn least(
    site: &Site,
    ways: &[Option<bool>],
    each: impl Fn(usize) -> i64 + Copy,
    besides: Besides<'_>,
) -> Option<i64> {
    let corners = site.corners;
    // Round the outline a run meets the corner before it and the one after, so the runs hang on pairs of neighbours.
    let mut hanging: Vec<Vec<Runs>> = vec![vec![]; corners];
    let (mut free, mut closing) = (0, vec![]);
    for runs in taken_together(site, besides.is_some()) {
        match site.corners_of(runs.0).as_slice() {
            [] => free += least_of(site, runs, ways, &[], each, besides),
            &[corner] => hanging[corner].push(runs),
            &[a, b] if a + 1 == b => hanging[b].push(runs),
            _ => closing.push(runs),
        }
    }
    let sum = |all: &[Runs], settled: &[(usize, bool)]| {
        all.iter().fold(0, |sum, &runs| (sum + least_of(site, runs, ways, settled, each, besides)).min(NEVER))
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

/// A run, and the one that lies over it if they are taken together.
type Runs = (usize, Option<usize>);

/// The runs one by one, or two by two where one lies over the other and neither over or under a third.
fn taken_together(site: &Site, by_two: bool) -> Vec<Runs> {
    let only = |a: usize, b: usize| by_two && site.partners(a).eq([b]) && site.partners(b).eq([a]);
    (0..site.runs())
        .filter_map(|run| match site.partners(run).next() {
            Some(other) if only(run, other) => (run < other).then_some((run, Some(other))),
            _ => Some((run, None)),
        })
        .collect()
}

/// The least of a run, or of two, with these corners settled besides.
fn least_of(
    site: &Site,
    (run, over): Runs,
    ways: &[Option<bool>],
    settled: &[(usize, bool)],
    each: impl Fn(usize) -> i64,
    besides: Besides<'_>,
) -> i64 {
    let agrees = |shape: usize, settled: &[(usize, bool)]| {
        site.asks[shape].iter().all(|ask| settled.iter().all(|other| other.0 != ask.0 || other.1 == ask.1))
    };
    let open = |run: usize| {
        site.shapes[run].clone().filter(|&shape| site.goes_with(shape, ways) && agrees(shape, settled))
    };
    let (Some(over), Some(besides)) = (over, besides) else {
        return open(run).map(each).min().unwrap_or(NEVER);
    };
    let both = |shape: usize| {
        let others = open(over).filter(move |&other| agrees(other, &site.asks[shape]));
        others.map(|other| each(other) + besides(shape, other)).min().map(|least| each(shape) + least)
    };
    open(run).filter_map(both).min().unwrap_or(NEVER)
}
