//! Runs that lie one over another keep their splices apart.

use super::site::Site;
use crate::cutting::runs::instance::Span;
use crate::cutting::runs::intervals::Intervals;
use crate::cutting::runs::outcome::BarPlan;

/// Where these bars splice a run, from its start. `run` is as the pieces have it.
pub(super) fn splices(bars: &[BarPlan], run: usize) -> impl Iterator<Item = i64> + '_ {
    let pieces = bars.iter().flat_map(|plan| &plan.pieces);
    pieces.filter(move |piece| piece.run == run && piece.from > 0).map(|piece| piece.from)
}

/// Whether the splices of a whole list, a shape for each run, keep apart; the pieces' runs are places among the runs.
pub(super) fn keep_apart(site: &Site, shapes: &[usize], bars: &[BarPlan]) -> bool {
    site.pairs.iter().all(|&(a, b)| {
        let along = |run: usize| splices(bars, run).map(move |at| at + site.origin[shapes[run]]);
        along(a).all(|at| along(b).all(|other| (at - other).abs() >= site.lap))
    })
}

/// The span of a shape with these places of its line kept clear of; as it is where they don't touch it.
pub(super) fn clear_of(site: &Site, shape: usize, places: &[i64]) -> Option<Span> {
    let span = &site.instance.spans[shape];
    if places.is_empty() || span.allowed[0].is_empty() {
        return None;
    }
    let mut allowed = span.allowed[0].clone();
    for place in places {
        let at = place - site.origin[shape];
        let open = Intervals::new(vec![(0, at - site.lap), (at + site.lap, span.length)]);
        allowed = allowed.intersection(&open);
    }
    (allowed != span.allowed[0]).then(|| span.with(&allowed))
}
