//! One look at a network: the reading that is most suspect, those that can't be told from it, and what settles it.

use crate::geometry::Point;
use crate::network;

use super::cause::{self, Clue};
use super::finding::{Finding, SettledBy, Suspect};
use crate::readings::network::adjust::{self, Adjustment, NotAdjusted};
use crate::readings::network::chi_square::{self, ALPHA_READING, CRITICAL};
use crate::readings::network::observation::{Datum, Observation};

/// Two tests this fully correlated are one test.
const TIED: f64 = 1.0 - 1e-8;

/// An estimated slip past this, mm, bends the figure enough that rivals are adjusted exactly before one is named.
const BENDS: f64 = 50.0;

/// Readings compared exactly in that case.
const RIVALS: usize = 8;

/// A network to be tested: where it starts, what was read, and what holds it.
#[derive(Debug, Clone, Copy)]
pub struct Network<'a> {
    /// The plan's corners.
    pub start: &'a [Point],
    /// The distances.
    pub observations: &'a [Observation],
    /// A clue for each of them.
    pub clues: &'a [Clue],
    /// What holds the figure.
    pub datum: Datum<'a>,
    /// Observations that the plan speaks against, used only to settle a tie.
    pub against_plan: &'a [usize],
}

impl Network<'_> {
    pub(super) fn pick(&self, kept: &[usize]) -> Vec<Observation> {
        kept.iter().map(|i| self.observations[*i]).collect()
    }

    /// Adjusts those kept from a figure that is nearly theirs.
    fn solve_from(&self, points: &[Point], kept: &[usize]) -> Result<Adjustment, NotAdjusted> {
        adjust::solve(points, &self.pick(kept), self.datum)
    }

    pub(super) fn solve(&self, kept: &[usize]) -> Result<Adjustment, NotAdjusted> {
        adjust::solve(self.start, &self.pick(kept), self.datum)
    }
}

/// The worst reading among those kept, if it is a suspect; or the finding about `forced` whatever its residual.
pub(super) fn examine(
    network: &Network<'_>,
    kept: &[usize],
    adjustment: &Adjustment,
    forced: Option<usize>,
) -> Option<Finding> {
    let worst = match forced {
        Some(index) => kept.iter().position(|i| *i == index)?,
        None => most_suspect(network, kept, adjustment)?,
    };
    let w = adjustment.w[worst]?;
    let tied = |j: &usize| *j == worst || adjustment.correlation(worst, *j).abs() > TIED;
    let mut suspects: Vec<Suspect> =
        (0..kept.len()).filter(tied).map(|j| suspect(network, kept, adjustment, j)).collect();
    let f = adjustment.degrees_of_freedom.saturating_sub(1);
    let mut rivals: Vec<usize> = (0..kept.len())
        .filter(|j| !tied(j))
        .filter(|j| {
            adjustment.w[*j].is_some_and(|w| w.abs() > CRITICAL && passes(adjustment.squares - w * w, f))
        })
        .collect();
    if suspects.iter().all(|s| s.cause.is_none()) && !rivals.is_empty() {
        // A slip of no usual size that others explain as well is no better than they are.
        suspects.extend(rivals.drain(..).map(|j| suspect(network, kept, adjustment, j)));
        suspects.sort_by_key(|s| s.index);
    }
    let (chosen, settled_by) = settle(&suspects, network.against_plan);
    Some(Finding { w, suspects, chosen, settled_by, rivals: rivals.into_iter().map(|j| kept[j]).collect() })
}

/// Position, among those kept, of the reading with the largest |w| above [`CRITICAL`].
fn most_suspect(network: &Network<'_>, kept: &[usize], adjustment: &Adjustment) -> Option<usize> {
    let mut order: Vec<(usize, f64)> = adjustment
        .w
        .iter()
        .enumerate()
        .filter_map(|(i, w)| w.map(|w| (i, w.abs())))
        .filter(|(_, w)| *w > CRITICAL)
        .collect();
    // The sort is stable: of equals, the first read.
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let (worst, largest) = *order.first()?;
    let slip = |i: usize| -adjustment.residuals[i] / adjustment.redundancy[i];
    if order.iter().take(RIVALS).all(|(i, _)| slip(*i).abs() < BENDS) {
        return Some(worst);
    }
    let mut best = (worst, left(network, kept, &adjustment.points, worst));
    for (i, w) in order.iter().take(RIVALS).skip(1) {
        if *w < 0.5 * largest || adjustment.correlation(best.0, *i).abs() > TIED {
            continue;
        }
        let squares = left(network, kept, &adjustment.points, *i);
        if squares < best.1 * (1.0 - 1e-6) {
            best = (*i, squares);
        }
    }
    Some(best.0)
}

/// What is left of the sum of squares without the reading at `position`.
fn left(network: &Network<'_>, kept: &[usize], from: &[Point], position: usize) -> f64 {
    network.solve_from(from, &without(kept, position)).map_or(f64::INFINITY, |a| a.squares)
}

fn without(kept: &[usize], position: usize) -> Vec<usize> {
    let mut rest = kept.to_vec();
    rest.remove(position);
    rest
}

/// The reading at `position` judged by an adjustment without it.
fn suspect(network: &Network<'_>, kept: &[usize], adjustment: &Adjustment, position: usize) -> Suspect {
    let index = kept[position];
    let o = network.observations[index];
    let f = adjustment.degrees_of_freedom.saturating_sub(1);
    let (slip, slip_sd, passes) = match network.solve_from(&adjustment.points, &without(kept, position)) {
        Ok(rest) => (
            o.value - rest.points[o.from].distance(rest.points[o.to]),
            (o.sd.powi(2) + network::distance_variance(&rest.points, &rest.covariance, o.from, o.to)).sqrt(),
            passes(rest.squares, f),
        ),
        // Off the linear estimate, when leaving it out does not settle.
        Err(_) => (
            -adjustment.residuals[position] / adjustment.redundancy[position],
            o.sd / adjustment.redundancy[position].sqrt(),
            false,
        ),
    };
    let clue = network.clues[index];
    Suspect {
        index,
        slip,
        slip_sd,
        w: adjustment.w[position],
        redundancy: adjustment.redundancy[position],
        cause: cause::likely(slip, CRITICAL * slip_sd, clue),
        passes,
    }
}

/// Whether a sum of squares passes the global test at the reading's level; with none to spare nothing speaks against it.
pub(super) fn passes(squares: f64, f: usize) -> bool {
    f == 0 || 1.0 - chi_square::lower_tail(f, squares) >= ALPHA_READING
}

fn settle(suspects: &[Suspect], against_plan: &[usize]) -> (Option<usize>, SettledBy) {
    if suspects.len() == 1 {
        return (Some(0), SettledBy::Residuals);
    }
    let only = |test: &dyn Fn(&Suspect) -> bool| {
        let mut found = (0..suspects.len()).filter(|i| test(&suspects[*i]));
        found.next().filter(|_| found.next().is_none())
    };
    let usual = only(&|s| s.cause.is_some() && s.passes);
    let against = |s: &Suspect| against_plan.contains(&s.index);
    let plan = only(&against);
    // A slip of a usual size may be chance: not where the plan speaks against others of the tied and not against it.
    let usual = usual.filter(|i| against(&suspects[*i]) || !suspects.iter().any(against));
    match (usual, plan) {
        (Some(a), None) => (Some(a), SettledBy::UsualSlip),
        (Some(a), Some(b)) if a == b => (Some(a), SettledBy::UsualSlip),
        (_, Some(b)) => (Some(b), SettledBy::Plan),
        (None, None) => (None, SettledBy::Nothing),
    }
}
