//! The joint search: partitions by bound, layouts by chain, until value and bound meet.

use super::chain::{self, BarPlan, Outcome};
use super::effort::Meter;
use super::instance::Instance;
use super::partition::Partition;
use super::presplit;
use super::score::NEVER;
use super::shelves::{Shelves, Standing};
use super::tree;
use super::units::int;

/// Steps for one chain before it is put off.
const CHAIN_STEPS: u64 = 200_000;
/// Steps for one thorough test.
const THOROUGH_STEPS: u64 = 2_000_000;
/// Largest table of the tree test, in (runs, bars) states.
const TREE_STATES: usize = 1 << 20;

/// The best layout found and the proven bound on any layout's score.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) bars: Vec<BarPlan>,
    pub(super) bound: i64,
}

/// The whole search over at most as many runs as a bit mask table can hold.
pub(super) struct Search<'a> {
    instance: &'a Instance,
    shelves: Shelves<'a>,
    /// By the best candidate that is laid or may still be: where the layout comes from.
    hopeful: Partition,
    /// By the best candidate that is not ruled out: where the bound comes from.
    lower: Partition,
}

impl<'a> Search<'a> {
    pub(super) fn new(instance: &'a Instance, meter: &mut Meter) -> Self {
        let shelves = Shelves::new(instance);
        let hopeful = Partition::new(instance.spans.len(), &shelves.van, shelves.bounds(), meter);
        Self {
            instance,
            shelves,
            lower: hopeful.clone(),
            hopeful,
        }
    }

    /// Looks for the best layout. `None` when nothing at all could be laid.
    pub(super) fn run(mut self, meter: &mut Meter) -> Option<Found> {
        loop {
            self.lay_hopeful(meter);
            if meter.is_spent() || !self.raise_bound(meter) {
                break;
            }
        }
        let bound = self.lower.best();
        let best = self.best_laid(meter)?;
        Some(Found { bound, ..best })
    }

    /// Tries candidates until a best partition by hopeful candidates is laid in every group.
    fn lay_hopeful(&mut self, meter: &mut Meter) {
        loop {
            let parts = self.hopeful.groups(&self.shelves.van);
            let mut all_laid = true;
            for &(mask, take) in &parts {
                if meter.is_spent() {
                    return;
                }
                all_laid &= self.try_hopeful(mask, take, meter);
                let score = self.shelves.hopeful(mask, take);
                self.hopeful.set(&self.shelves.van, mask, take, score, meter);
            }
            if all_laid {
                return;
            }
        }
    }

    /// Tries the best hopeful candidate of a group as a chain; true if it is laid.
    fn try_hopeful(&mut self, mask: usize, take: usize, meter: &mut Meter) -> bool {
        let runs = self.runs(mask);
        self.shelves.hopeful(mask, take);
        let shelf = self.shelves.shelf(mask, take);
        let Some((candidate, standing)) = shelf.list.get_mut(shelf.hopeful) else {
            return false;
        };
        if *standing == Standing::Untried {
            *standing = Standing::Open;
            if candidate.splices + 1 == candidate.bars {
                meter.allow(CHAIN_STEPS);
                *standing = match chain::lay(self.instance, &runs, &candidate.counts, meter) {
                    Outcome::Laid(plan) => Standing::Laid(plan),
                    // With three bars or one run there is no tree but a chain.
                    Outcome::Impossible if candidate.bars <= 3 || runs.len() == 1 => Standing::Impossible,
                    Outcome::Impossible | Outcome::GaveUp => Standing::Open,
                };
                meter.allow(u64::MAX);
            }
        }
        let laid = matches!(standing, Standing::Laid(_));
        if !laid {
            shelf.hopeful += 1;
        }
        laid
    }

    /// Rules candidates out of the best partition by bound until it is laid, meets the best layout, or stays
    /// open. True when a better layout of some group came up, so that the layouts must be looked at again.
    fn raise_bound(&mut self, meter: &mut Meter) -> bool {
        for (mask, take) in self.shelves.seen() {
            let score = self.shelves.standing(mask, take);
            self.lower.set(&self.shelves.van, mask, take, score, meter);
        }
        while self.lower.best() < self.hopeful.best() && !meter.is_spent() {
            let mut moved = false;
            for (mask, take) in self.lower.groups(&self.shelves.van) {
                let before = self.lower.score(mask, take);
                if self.try_thoroughly(mask, take, meter) {
                    let score = self.shelves.hopeful(mask, take);
                    self.hopeful.set(&self.shelves.van, mask, take, score, meter);
                    return true;
                }
                let score = self.shelves.standing(mask, take);
                self.lower.set(&self.shelves.van, mask, take, score, meter);
                moved |= score > before;
            }
            if !moved {
                break;
            }
        }
        false
    }

    /// Tests the first candidate of a group that is not ruled out by every means there is; true if that lays it.
    fn try_thoroughly(&mut self, mask: usize, take: usize, meter: &mut Meter) -> bool {
        let runs = self.runs(mask);
        loop {
            self.shelves.standing(mask, take);
            let shelf = self.shelves.shelf(mask, take);
            let Some((candidate, standing)) = shelf.list.get_mut(shelf.standing) else {
                return false;
            };
            match standing {
                Standing::Laid(_) | Standing::Stuck => return false,
                Standing::Impossible => {
                    shelf.standing += 1;
                    continue;
                }
                Standing::Untried | Standing::Open => {}
            }
            meter.allow(THOROUGH_STEPS);
            let states = candidate
                .counts
                .iter()
                .fold(1_usize << runs.len(), |states, count| {
                    states.saturating_mul(count + 1)
                });
            let outcome = if candidate.splices + 1 == candidate.bars {
                if states > TREE_STATES {
                    Outcome::GaveUp
                } else {
                    tree::lay(self.instance, &runs, &candidate.counts, meter)
                }
            } else if candidate.splices == candidate.bars {
                presplit::lay(self.instance, &runs, &candidate.counts, meter)
            } else {
                Outcome::GaveUp
            };
            meter.allow(u64::MAX);
            match outcome {
                Outcome::Laid(plan) => {
                    *standing = Standing::Laid(plan);
                    shelf.hopeful = shelf.standing;
                    return true;
                }
                Outcome::Impossible => {
                    *standing = Standing::Impossible;
                    shelf.standing += 1;
                    return false;
                }
                Outcome::GaveUp => {
                    *standing = Standing::Stuck;
                    return false;
                }
            }
        }
    }

    /// The best partition into groups that are laid, single runs from their longest bars among them.
    fn best_laid(&mut self, meter: &mut Meter) -> Option<Found> {
        let takes = self.shelves.van.len();
        let mut scores = vec![NEVER; (1 << self.instance.spans.len()) * takes];
        let mut plans = self.shelves.laid();
        for run in 0..self.instance.spans.len() {
            if let Some((score, plan)) = self.alone(run) {
                let entry = plans
                    .entry((1 << run, 0))
                    .or_insert_with(|| (score, plan.clone()));
                if score < entry.0 {
                    *entry = (score, plan);
                }
            }
        }
        for (&(mask, take), &(score, _)) in &plans {
            scores[mask * takes + take] = score;
        }
        let partition = Partition::new(self.instance.spans.len(), &self.shelves.van, scores, meter);
        let mut bars = Vec::new();
        for part in partition.groups(&self.shelves.van) {
            bars.extend(plans.get(&part)?.1.iter().cloned());
        }
        (!bars.is_empty()).then(|| Found { bars, bound: 0 })
    }

    /// A run laid from as few of the longest bought bars as it can be.
    fn alone(&self, run: usize) -> Option<(i64, Vec<BarPlan>)> {
        let span = &self.instance.spans[run];
        let kind = (self.instance.bought > 0).then(|| self.instance.kinds[0])?;
        let mut meter = Meter::new(super::model::Effort::default());
        for bars in span.least_splices + 1..=span.most_pieces.min(super::model::MAX_BARS) {
            let mut counts = vec![0; self.instance.kinds.len()];
            counts[0] = bars;
            if let Outcome::Laid(plan) = chain::lay(self.instance, &[run], &counts, &mut meter) {
                let weights = self.instance.weights;
                let score = int(bars) * kind.price * weights.penny + int(bars - 1) * weights.splice;
                return Some((score, plan));
            }
        }
        None
    }

    fn runs(&self, mask: usize) -> Vec<usize> {
        (0..self.instance.spans.len())
            .filter(|run| mask & (1 << run) != 0)
            .collect()
    }
}
