//! From a house to its list: the points between few splices and little money, as far as the favour asks for them.

use super::attain::Attainable;
use super::by_hand::by_hand;
use super::cheaper::cheaper;
use super::column::Goal;
use super::dive::List;
use super::fewest::{fewest_splices, least_of_all, own_splices};
use super::node::Node;
use super::one_way::one_way;
use super::point::{Ground, MOST_RUNS};
use super::site::Site;
use super::turn::turn;
use super::walk::{Walk, walk};
use crate::cutting::effort::Meter;
use crate::cutting::error::Error;
use crate::cutting::layout::{Choice, HousePlan, Layout};
use crate::cutting::model::{Favour, House, Problem, Run};
use crate::cutting::runs::answer::layout;
use crate::cutting::runs::search::Found;
use crate::cutting::spare::{part, spare};
use crate::exact::{Pence, int};

/// Up to so many runs the engine for one way lays a list first.
const FEW_RUNS: usize = 14;

/// Lays the runs of a house from the stock, best by the favour over every way round the corners, with as few free bars as that
/// takes.
pub fn plan_house(house: &House) -> Result<HousePlan, Error> {
    let first = plan_once(house, None)?;
    let known = first.layout.clone();
    let choices = first.choices.clone();
    let again = |stock| {
        let house = House { stock, effort: part(house.effort), ..house.clone() };
        let plan = plan_once(&house, None).ok()?;
        (plan.layout.cost <= known.cost && plan.layout.splices <= known.splices).then_some(plan)
    };
    let plan = spare(&house.stock, first, |plan| &plan.layout.taken, again);
    // What is known of every list comes from the whole stock.
    let Layout { bound, proven, gap, steps, .. } = known;
    Ok(HousePlan { layout: Layout { bound, proven, gap, steps, ..plan.layout }, choices, ..plan })
}

/// The same with the cost first, for what more splices save than the first of those that are `known`: where a list costs as
/// little as the timber can, no other way round is looked into for fewer splices.
pub fn cheapest(house: &House, known: &[Choice]) -> Result<HousePlan, Error> {
    plan_once(&House { favour: Favour::Cost, ..house.clone() }, Some(known))
}

fn plan_once(house: &House, known: Option<&[Choice]>) -> Result<HousePlan, Error> {
    let site = Site::new(house)?;
    let mut meter = Meter::new(house.effort);
    let none = vec![None; site.corners];
    let whole = |splices: Option<i64>| usize::try_from(splices.unwrap_or(0)).unwrap_or(0);
    let own = least_of_all(&site, &none, own_splices(&site)).ok_or(Error::StockRunsOut)?;
    let (own, fewest) = (whole(Some(own)), whole(fewest_splices(&site, &none)));
    // With many runs the programme soon has a better list than the engine for one way.
    let few = site.runs() <= FEW_RUNS;
    let first = if few { first_list(&site, house.favour, &mut meter) } else { None };
    let all = Node::all(&site, Goal::cost(fewest), false);
    let attainable = Attainable::new(&site.instance, &all, highest(&site, first.as_ref()));
    let ground = Ground { site: &site, attainable: &attainable, own, fewest };
    let weights = site.instance.weights;
    let mainly = house.favour == Favour::Splices || known.is_some();
    let walked = if mainly { meter.left() / 4 * 3 } else { meter.left() / 3 };
    let mut own = meter.part(walked);
    let mut walk = walk(&ground, first, known.unwrap_or_default(), &mut own);
    meter.spend(own.taken());
    keep_floor(&site, &mut walk);
    if house.favour == Favour::Cost && !walk.is_proven(weights) {
        walk.offer(weights, alternating(&site, house.favour, &mut meter));
        let mut own = meter.part(meter.left() / 2);
        cheaper(&ground, &mut walk, &mut own);
        meter.spend(own.taken());
    }
    let least = ground.material();
    if known.is_none() || walk.best.as_ref().is_none_or(|best| best.price > least) {
        turn_corners(&site, house.favour, &mut walk, &mut meter);
    }
    let list = walk.best.as_ref().ok_or(Error::StockRunsOut)?;
    Ok(HousePlan { least: Pence(least), ..plan(house, &site, list, &walk, meter.taken()) })
}

/// Where the programme stays open, looks on one way round at a time.
fn turn_corners(site: &Site, favour: Favour, walk: &mut Walk, meter: &mut Meter) {
    let weights = site.instance.weights;
    let Some(best) = walk.best.as_ref().filter(|_| !walk.is_proven(weights)) else { return };
    let mut ways = vec![None; site.corners];
    for &(corner, way) in best.shapes.iter().flat_map(|&shape| &site.asks[shape]) {
        ways[corner] = Some(way);
    }
    let list = turn(site, favour, &[ways, fewest_way(site)], walk.bound, meter);
    walk.best = [walk.best.take(), list].into_iter().flatten().min_by_key(|list| list.score(weights));
}

/// What is made without a search is always in hand, whatever the steps were spent on.
fn keep_floor(site: &Site, walk: &mut Walk) {
    let weights = site.instance.weights;
    if walk.is_proven(weights) {
        return;
    }
    let same = [false, true].map(|way| vec![Some(way); site.corners]);
    let ways = same.into_iter().chain([fewest_way(site)]);
    let by_hand = ways.filter_map(|ways| site.settled(&ways)).flat_map(|shapes| by_hand(site, &shapes));
    walk.best = walk.best.take().into_iter().chain(by_hand).min_by_key(|list| list.score(weights));
}

/// A list to begin with: the way round that has the fewest splices, by the engine for one way.
fn first_list(site: &Site, favour: Favour, meter: &mut Meter) -> Option<List> {
    one_way(site, &site.settled(&fewest_way(site))?, favour, None, meter)?.list
}

/// The list with every other run through at both ends, by the engine for one way.
fn alternating(site: &Site, favour: Favour, meter: &mut Meter) -> Option<List> {
    if site.runs() > MOST_RUNS {
        return None;
    }
    let ways: Vec<Option<bool>> = (0..site.corners).map(|corner| Some(corner % 2 == 0)).collect();
    one_way(site, &site.settled(&ways)?, favour, None, meter)?.list
}

/// A way round the corners with which the runs need the fewest splices.
fn fewest_way(site: &Site) -> Vec<Option<bool>> {
    let mut ways = vec![None; site.corners];
    for corner in 0..site.corners {
        let with = |way: bool| {
            let mut ways = ways.clone();
            ways[corner] = Some(way);
            fewest_splices(site, &ways).unwrap_or(i64::MAX)
        };
        ways[corner] = Some(with(true) < with(false));
    }
    ways
}

/// A cost that some list is sure to have or stay below.
fn highest(site: &Site, first: Option<&List>) -> i64 {
    let dearest = site.instance.kinds.iter().map(|kind| kind.price).max().unwrap_or(0);
    first.map_or_else(|| dearest * int(site.runs()), |list| list.price) + dearest
}

fn plan(house: &House, site: &Site, list: &List, walk: &Walk, steps: u64) -> HousePlan {
    let laid: Vec<usize> =
        (0..site.runs()).filter(|&run| site.instance.spans[list.shapes[run]].length > 0).collect();
    let within = |run: usize| list.shapes[run] - site.shapes[run].start;
    let runs: Vec<Run> = laid.iter().map(|&run| house.runs[run][within(run)].run.clone()).collect();
    let instance = site.with(&laid.iter().map(|&run| list.shapes[run]).collect::<Vec<_>>());
    let mut bars = list.bars.clone();
    for piece in bars.iter_mut().flat_map(|plan| &mut plan.pieces) {
        piece.run = laid.iter().position(|&run| run == piece.run).unwrap_or(0);
    }
    let problem = Problem {
        runs,
        stock: house.stock.clone(),
        rules: house.rules,
        favour: house.favour,
        effort: house.effort,
    };
    let found = Found { bars, bound: walk.bound };
    HousePlan {
        shapes: (0..site.runs()).map(within).collect(),
        layout: layout(&problem, &instance, &found, steps),
        least: Pence(0),
        choices: walk
            .points
            .iter()
            .filter_map(|(splices, point)| {
                let list = point.list.as_ref()?;
                Some(Choice { splices: *splices, cost: Pence(list.price), bound: Pence(point.bound) })
            })
            .collect(),
    }
}
