//! Lists one way round at a time: layer by layer, a corner turned if that is better, then parts of all layers laid together.
//! Nothing is proven by it; it is for the favours and sizes where the programme stays open.

use super::dive::List;
use super::laps::{clear_of, keep_apart, splices};
use super::one_way::one_way;
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::cutting::model::Favour;
use crate::cutting::runs::blocks;
use crate::cutting::runs::instance::Instance;
use crate::cutting::runs::outcome::BarPlan;
use crate::cutting::runs::score::Weights;
use crate::cutting::shuffle::Shuffle;

/// One part in so many of the steps left goes to one layer.
const PART: u64 = 40;
/// How likely a corner is turned for another start.
const TURNED: f64 = 0.3;
/// Up to so many corners every way round is laid.
const MOST_CORNERS: usize = 6;
/// So many of the ways round are looked into with all layers together.
const LAID_TOGETHER: usize = 3;

/// The best list found from these ways round on, and from others that are near the best of them; one at the `bound` is enough.
pub(super) fn turn(
    site: &Site,
    favour: Favour,
    starts: &[Vec<Option<bool>>],
    bound: i64,
    meter: &mut Meter,
) -> Option<List> {
    let weights = Weights::new(favour);
    let mut own = meter.part(meter.left() / 3);
    let mut shuffle = Shuffle::new();
    let mut found: Vec<(i64, Vec<Option<bool>>, List)> = vec![];
    // Few corners have so few ways round that each can be laid.
    let all = (0..1_usize << site.corners.min(MOST_CORNERS)).filter(|_| site.corners <= MOST_CORNERS);
    for code in all {
        let ways: Vec<Option<bool>> =
            (0..site.corners).map(|corner| Some(code & (1 << corner) != 0)).collect();
        let enough = found.last().is_some_and(|(score, ..)| *score <= bound);
        let shapes = site.settled(&ways).filter(|_| !own.is_spent() && !enough);
        if let Some(list) = shapes.and_then(|shapes| by_layers(site, &shapes, weights, &mut own)) {
            found.push((list.score(weights), ways, list));
        }
    }
    found.sort_by_key(|(score, ..)| *score);
    let mut starts = starts.iter().filter(|_| site.corners > MOST_CORNERS).cloned();
    while !own.is_spent() && (found.is_empty() || site.corners > MOST_CORNERS) {
        let start = starts.next().or_else(|| {
            let (_, ways, _) = found.first()?;
            Some(ways.iter().map(|way| way.map(|way| way != (shuffle.next() < TURNED))).collect())
        });
        let Some((ways, list)) = start.and_then(|start| climb(site, weights, start, &mut own)) else { break };
        if found.iter().all(|(_, known, _)| *known != ways) {
            found.push((list.score(weights), ways, list));
            found.sort_by_key(|(score, ..)| *score);
        }
        if site.corners == 0 {
            break;
        }
    }
    meter.spend(own.taken());
    let mut best: Option<List> = None;
    for (score, _, list) in found.into_iter().take(LAID_TOGETHER) {
        if score <= bound || best.as_ref().is_some_and(|best| best.score(weights) <= bound) {
            return best.into_iter().chain([list]).min_by_key(|list| list.score(weights));
        }
        let whole = one_way(site, &list.shapes, favour, Some(&list), meter).and_then(|found| found.list);
        let list = whole.unwrap_or(list);
        let list = together(site, &list, weights, meter).unwrap_or(list);
        best = [best, Some(list)].into_iter().flatten().min_by_key(|list| list.score(weights));
    }
    best
}

/// From a way round, layer by layer, turns one corner at a time for as long as that gains something.
fn climb(
    site: &Site,
    weights: Weights,
    mut ways: Vec<Option<bool>>,
    meter: &mut Meter,
) -> Option<(Vec<Option<bool>>, List)> {
    let mut best = site.settled(&ways).and_then(|shapes| by_layers(site, &shapes, weights, meter));
    let mut since = 0;
    for corner in (0..site.corners).cycle() {
        if since == site.corners || meter.is_spent() {
            break;
        }
        since += 1;
        let mut turned = ways.clone();
        turned[corner] = ways[corner].map(|way| !way);
        let Some(shapes) = site.settled(&turned) else { continue };
        let Some(list) = by_layers(site, &shapes, weights, meter) else { continue };
        if best.as_ref().is_none_or(|best| list.score(weights) < best.score(weights)) {
            (best, ways, since) = (Some(list), turned, 0);
        }
    }
    Some((ways, best?))
}

/// The list with parts of all its layers laid anew together, if it is better for that.
fn together(site: &Site, list: &List, weights: Weights, meter: &mut Meter) -> Option<List> {
    let runs = laid(site, &list.shapes);
    let instance = Instance { weights, ..site.with(&shapes_of(&list.shapes, &runs)) };
    let bars = renamed(&list.bars, |run| runs.iter().position(|&other| other == run).unwrap_or(0));
    let bars = renamed(&blocks::improved(&instance, bars, meter), |place| runs[place]);
    let better = List::new(site, list.shapes.clone(), bars);
    (better.score(weights) < list.score(weights) && keep_apart(site, &better.shapes, &better.bars))
        .then_some(better)
}

/// Each layer by itself; where splices come too near those of the other, one of them is laid again clear of them.
fn by_layers(site: &Site, shapes: &[usize], weights: Weights, meter: &mut Meter) -> Option<List> {
    let (over, under): (Vec<usize>, Vec<usize>) =
        laid(site, shapes).into_iter().partition(|run| site.pairs.iter().any(|pair| pair.1 == *run));
    let base = Instance { weights, ..site.with(&[]) };
    let mut lay = |runs: &[usize], others: &[BarPlan], taken: &[BarPlan]| {
        let spans = runs.iter().map(|&run| {
            let others = site
                .partners(run)
                .flat_map(|other| splices(others, other).map(move |at| at + site.origin[shapes[other]]));
            clear_of(site, shapes[run], &others.collect::<Vec<_>>())
                .unwrap_or_else(|| site.instance.spans[shapes[run]].clone())
        });
        let mut instance = Instance { spans: spans.collect(), ..base.clone() };
        for plan in taken {
            let kind = &mut instance.kinds[plan.kind];
            kind.count = kind.count.map(|count| count.saturating_sub(1));
        }
        if runs.is_empty() {
            return Some(vec![]);
        }
        let mut own = meter.part(meter.left() / PART);
        let found = blocks::run(&instance, &mut own);
        meter.spend(own.taken().max(1));
        Some(renamed(&found?.bars, |place| runs[place]))
    };
    let whole = |under: &[BarPlan], over: &[BarPlan]| {
        let bars = [under, over].concat();
        keep_apart(site, shapes, &bars).then(|| List::new(site, shapes.to_vec(), bars))
    };
    let first = lay(&under, &[], &[])?;
    let second = lay(&over, &[], &first)?;
    if let Some(list) = whole(&first, &second) {
        return Some(list);
    }
    let lists = [
        lay(&over, &first, &first).and_then(|second| whole(&first, &second)),
        lay(&under, &second, &second).and_then(|first| whole(&first, &second)),
    ];
    lists.into_iter().flatten().min_by_key(|list| list.score(weights))
}

/// The runs that have something to lay.
fn laid(site: &Site, shapes: &[usize]) -> Vec<usize> {
    (0..shapes.len()).filter(|&run| site.instance.spans[shapes[run]].length > 0).collect()
}

fn shapes_of(shapes: &[usize], runs: &[usize]) -> Vec<usize> {
    runs.iter().map(|&run| shapes[run]).collect()
}

/// The bars with each run called otherwise.
fn renamed(bars: &[BarPlan], name: impl Fn(usize) -> usize) -> Vec<BarPlan> {
    let mut bars = bars.to_vec();
    for piece in bars.iter_mut().flat_map(|plan| &mut plan.pieces) {
        piece.run = name(piece.run);
    }
    bars
}
