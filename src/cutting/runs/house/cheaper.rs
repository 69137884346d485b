//! Cost first: the least that the timber can cost, with any number of splices, then the fewest splices for that. Nothing is
//! proven by it.

use super::column::Goal;
use super::point::{Ground, best};
use super::walk::Walk;
use crate::cutting::effort::Meter;
use crate::cutting::model::MAX_BARS;

/// Most splices of a group where any number may be had in all.
const GROUP: usize = 4;
/// Costs that are tried one after the other.
const MOST_TRIED: usize = 4;
/// What a splice counts where it is all that counts: fine enough for the prices in the programme.
const A_SPLICE: i64 = 1 << 10;

/// Looks for cheaper lists with any number of splices, then for as cheap ones with fewer.
pub(super) fn cheaper(ground: &Ground<'_>, walk: &mut Walk, meter: &mut Meter) {
    let any = Goal { penny: 1, splice: 0, splices: MAX_BARS, cost: None, group: GROUP };
    let dearest = ground.site.instance.kinds.iter().map(|kind| kind.price).max().unwrap_or(0);
    for splice in [dearest / 20, dearest / 200] {
        look(ground, Goal { splice, ..any }, 6, walk, meter);
    }
    let at_most = |cost: i64| Goal { penny: 0, splice: A_SPLICE, cost: Some(cost), ..any };
    // Down to the least that the timber can cost, or half-way there, and so on.
    let mut low = ground.material();
    for _ in 0..MOST_TRIED {
        let Some(price) = walk.best.as_ref().map(|best| best.price) else { return };
        let cost = ground.attainable.from(low, 0);
        if cost >= price {
            break;
        }
        look(ground, at_most(cost), 4, walk, meter);
        if walk.best.as_ref().is_some_and(|best| best.price == price) {
            low = i64::midpoint(cost, price) + 1;
        }
    }
    if let Some(price) = walk.best.as_ref().map(|best| best.price) {
        look(ground, at_most(price), 1, walk, meter);
    }
}

/// Goes for one goal with a part of the steps left.
fn look(ground: &Ground<'_>, goal: Goal, part: u64, walk: &mut Walk, meter: &mut Meter) {
    let mut own = meter.part(meter.left() / part);
    let point = best(ground, goal, walk.best.clone(), &mut walk.pool, &mut own);
    meter.spend(own.taken());
    walk.offer(ground.site.instance.weights, point.list);
}
