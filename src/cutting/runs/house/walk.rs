//! From the fewest splices on, the least cost with each number of them.

use super::column::Goal;
use super::dive::List;
use super::master::Pool;
use super::point::{Ground, Point, best};
use crate::cutting::effort::Meter;
use crate::cutting::layout::Choice;
use crate::cutting::runs::score::Weights;
use crate::exact::int;

/// Most splices over the fewest that are looked into.
const MOST_EXTRA: usize = 6;
/// Most splices that are looked into at all: groups of so many bars take long.
const MOST_SPLICES: usize = 8;

/// The points looked into, and the best list met on the way.
pub(super) struct Walk {
    pub(super) points: Vec<(usize, Point)>,
    pub(super) best: Option<List>,
    /// No list scores less by the favour.
    pub(super) bound: i64,
    pub(super) pool: Pool,
}

impl Walk {
    /// Whether no list can be better.
    pub(super) fn is_proven(&self, weights: Weights) -> bool {
        self.best.as_ref().is_some_and(|best| best.score(weights) <= self.bound)
    }

    /// Keeps the list if it is better.
    pub(super) fn offer(&mut self, weights: Weights, list: Option<List>) {
        self.best = self.best.take().into_iter().chain(list).min_by_key(|list| list.score(weights));
    }
}

/// From the fewest splices on, or from one more than are `known`, as long as more of them may serve the favour.
pub(super) fn walk(ground: &Ground<'_>, first: Option<List>, known: &[Choice], meter: &mut Meter) -> Walk {
    let weights = ground.site.instance.weights;
    let score = |price: i64, splices: usize| price * weights.penny + int(splices) * weights.splice;
    let material = ground.material();
    let mut walk =
        Walk { points: vec![], best: first, bound: score(material, ground.fewest), pool: Pool::default() };
    let most = (ground.fewest + MOST_EXTRA).min(MOST_SPLICES.max(ground.fewest));
    let mut least =
        known.iter().map(|choice| score(choice.bound.0, choice.splices)).min().unwrap_or(i64::MAX);
    let from = known.last().map_or(ground.fewest, |choice| choice.splices + 1);
    for splices in from..=most {
        // With so few splices there may be no list at all: what is left is kept for more.
        let mut own = meter.part(meter.left() / 2);
        let point = best(ground, Goal::cost(splices), walk.best.clone(), &mut walk.pool, &mut own);
        meter.spend(own.taken());
        walk.offer(weights, point.list.clone());
        least = least.min(score(point.bound, splices));
        walk.points.push((splices, point));
        let beyond = score(material, splices + 1);
        walk.bound = least.min(beyond);
        let enough = walk.best.as_ref().is_some_and(|best| best.score(weights) <= beyond);
        if enough || meter.is_spent() {
            break;
        }
    }
    walk
}
