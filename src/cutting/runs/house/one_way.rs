//! One way round the corners, by the engine for that.

use super::dive::List;
use super::laps::{clear_of, keep_apart, splices};
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::cutting::model::Favour;
use crate::cutting::runs::blocks;
use crate::cutting::runs::instance::Instance;
use crate::cutting::runs::intervals::Intervals;
use crate::cutting::runs::outcome::BarPlan;
use crate::cutting::runs::score::Weights;

/// One part in so many of the steps left goes to one way.
const PART: u64 = 4;

/// What the engine for one way says of it.
#[derive(Debug, Clone)]
pub(super) struct OneWay {
    /// The best list found whose splices keep apart.
    pub(super) list: Option<List>,
    /// No list scores less.
    pub(super) bound: i64,
}

/// Lays these shapes best by the favour. Where runs lie one over another they are first laid as if that did not matter, which
/// bounds every list; if their splices come too near, those of one are pinned and the other is kept clear of them. `known` is
/// a list of these shapes whose lower runs may be pinned too.
pub(super) fn one_way(
    site: &Site,
    shapes: &[usize],
    favour: Favour,
    known: Option<&List>,
    meter: &mut Meter,
) -> Option<OneWay> {
    let laid: Vec<usize> =
        (0..shapes.len()).filter(|&run| site.instance.spans[shapes[run]].length > 0).collect();
    let mut instance = site.with(&laid.iter().map(|&run| shapes[run]).collect::<Vec<_>>());
    instance.weights = Weights::new(favour);
    let (bars, bound) = lay(&instance, &laid, meter)?;
    if keep_apart(site, shapes, &bars) {
        return Some(OneWay { list: Some(List::new(site, shapes.to_vec(), bars)), bound });
    }
    let upper = |run: &usize| site.pairs.iter().any(|pair| pair.1 == *run);
    let mut list = known.cloned();
    let pins = [(&bars, false), (&bars, true)].into_iter().chain(known.map(|list| (&list.bars, false)));
    for (bars, pinned_upper) in pins {
        let mut instance = instance.clone();
        for (place, run) in laid.iter().enumerate() {
            let span = if upper(run) == pinned_upper {
                let at = splices(bars, *run).map(|at| (at, at)).collect();
                Some(instance.spans[place].with(&Intervals::new(at)))
            } else {
                let others = site
                    .partners(*run)
                    .flat_map(|other| splices(bars, other).map(move |at| at + site.origin[shapes[other]]));
                clear_of(site, shapes[*run], &others.collect::<Vec<_>>())
            };
            if let Some(span) = span {
                instance.spans[place] = span;
            }
        }
        let Some((bars, _)) = lay(&instance, &laid, meter) else { continue };
        if keep_apart(site, shapes, &bars) {
            let other = List::new(site, shapes.to_vec(), bars);
            let better =
                list.as_ref().is_none_or(|list| other.score(instance.weights) < list.score(instance.weights));
            list = if better { Some(other) } else { list };
        }
    }
    Some(OneWay { list, bound })
}

/// The bars, their pieces by place among all runs, and the bound.
fn lay(instance: &Instance, laid: &[usize], meter: &mut Meter) -> Option<(Vec<BarPlan>, i64)> {
    let mut own = meter.part(meter.left() / PART);
    let found = blocks::run(instance, &mut own);
    meter.spend(own.taken());
    let found = found?;
    let mut bars = found.bars;
    for piece in bars.iter_mut().flat_map(|plan| &mut plan.pieces) {
        piece.run = laid[piece.run];
    }
    Some((bars, found.bound))
}
