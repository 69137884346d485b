//! The joint search: partitions by bound, layouts by chain, until value and bound meet.

use super::chain;
use super::instance::Instance;
use super::outcome::{BarPlan, Outcome};
use super::partition::Partition;
use super::presplit;
use super::score::NEVER;
use super::shelves::{Shelves, Standing};
use super::tree;
use crate::cutting::effort::Meter;
use crate::cutting::model::{Effort, MAX_BARS};
use crate::exact::int;

/// Steps for one chain before it is put off.
const CHAIN_STEPS: u64 = 200_000;
/// Steps for one thorough test.
const THOROUGH_STEPS: u64 = 2_000_000;

/// Steps to look on for a better layout when a proof is no longer to be had.
const STUCK_STEPS: u64 = 3_000_000;

/// What a thorough test found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tested {
    Laid,
    Impossible,
    Stuck,
}

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
    /// By the best candidate that is not yet tested every way: what might still be better.
    untested: Partition,
    /// When the first candidate got stuck, in steps.
    stuck_at: Option<u64>,
}

impl<'a> Search<'a> {
    pub(super) fn new(instance: &'a Instance, meter: &mut Meter) -> Self {
        let shelves = Shelves::new(instance);
        let hopeful = Partition::new(instance.spans.len(), &shelves.van, shelves.bounds(meter), meter);
        Self { instance, shelves, untested: hopeful.clone(), stuck_at: None, hopeful }
    }

    /// Looks for the best layout. `None` when nothing at all could be laid.
    pub(super) fn run(mut self, meter: &mut Meter) -> Option<Found> {
        loop {
            self.lay_hopeful(meter);
            if meter.is_spent() || !self.test_thoroughly(meter) {
                break;
            }
        }
        let bound = self.bound(meter);
        let bars = self.hopeful_layout().or_else(|| self.best_laid(meter))?;
        Some(Found { bars, bound })
    }

    /// The best partition by hopeful candidates, if all of it is laid.
    fn hopeful_layout(&mut self) -> Option<Vec<BarPlan>> {
        let mut bars = Vec::new();
        for (mask, take) in self.hopeful.groups(&self.shelves.van) {
            let shelf = self.shelves.shelf(mask, take);
            match shelf.list.get(shelf.hopeful) {
                Some((_, Standing::Laid(plan))) => bars.extend(plan.iter().cloned()),
                _ => return None,
            }
        }
        (!bars.is_empty()).then_some(bars)
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
                let score = self.shelves.hopeful(mask, take, meter);
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
        self.shelves.hopeful(mask, take, meter);
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

    /// Tests candidates thoroughly while some partition of untested ones might be better than the best layout.
    /// True when a better layout of some group came up, so that the layouts must be looked at again.
    fn test_thoroughly(&mut self, meter: &mut Meter) -> bool {
        for (mask, take) in self.shelves.seen() {
            let score = self.shelves.untested(mask, take, meter);
            self.untested.set(&self.shelves.van, mask, take, score, meter);
        }
        while self.untested.best() < self.hopeful.best() && !meter.is_spent() {
            let mut tested = false;
            for (mask, take) in self.untested.groups(&self.shelves.van) {
                let Some(outcome) = self.test(mask, take, meter) else {
                    continue;
                };
                tested = true;
                if outcome == Tested::Laid {
                    let score = self.shelves.hopeful(mask, take, meter);
                    self.hopeful.set(&self.shelves.van, mask, take, score, meter);
                    return true;
                }
                if outcome == Tested::Stuck && self.stuck_at.is_none() {
                    // From here on no proof is to be had: look on for a better layout, but not for long.
                    self.stuck_at = Some(meter.taken());
                }
                let score = self.shelves.untested(mask, take, meter);
                self.untested.set(&self.shelves.van, mask, take, score, meter);
            }
            let long = self.stuck_at.is_some_and(|at| meter.taken() > at + STUCK_STEPS);
            if !tested || long {
                break;
            }
        }
        false
    }

    /// Tests a group's first candidate that is neither ruled out nor stuck, unless that is laid or there is none.
    fn test(&mut self, mask: usize, take: usize, meter: &mut Meter) -> Option<Tested> {
        let runs = self.runs(mask);
        self.shelves.untested(mask, take, meter);
        let shelf = self.shelves.shelf(mask, take);
        let (candidate, standing) = shelf.list.get_mut(shelf.untested)?;
        if matches!(standing, Standing::Laid(_)) {
            return None;
        }
        meter.allow(THOROUGH_STEPS);
        let extra = candidate.splices + 1 - candidate.bars;
        let outcome = if extra > 0 {
            presplit::lay(self.instance, &runs, &candidate.counts, extra, meter)
        } else if tree::is_small(&runs, &candidate.counts) {
            tree::lay(self.instance, &runs, &candidate.counts, meter)
        } else {
            Outcome::GaveUp
        };
        meter.allow(u64::MAX);
        Some(match outcome {
            Outcome::Laid(plan) => {
                *standing = Standing::Laid(plan);
                shelf.hopeful = shelf.untested;
                Tested::Laid
            }
            Outcome::Impossible => {
                *standing = Standing::Impossible;
                Tested::Impossible
            }
            Outcome::GaveUp => {
                *standing = Standing::Stuck;
                shelf.stuck = shelf.stuck.or(Some(candidate.score));
                Tested::Stuck
            }
        })
    }

    /// The least that any layout scores, by all that was found out.
    fn bound(&mut self, meter: &mut Meter) -> i64 {
        for (mask, take) in self.shelves.seen() {
            let score = self.shelves.bound(mask, take, meter);
            self.untested.set(&self.shelves.van, mask, take, score, meter);
        }
        self.untested.best()
    }

    /// The best partition into groups that are laid, single runs from their longest bars among them.
    fn best_laid(&mut self, meter: &mut Meter) -> Option<Vec<BarPlan>> {
        let takes = self.shelves.van.len();
        let mut scores = vec![NEVER; (1 << self.instance.spans.len()) * takes];
        let mut plans = self.shelves.laid();
        for run in 0..self.instance.spans.len() {
            if let Some((score, plan)) = self.alone(run) {
                let entry = plans.entry((1 << run, 0)).or_insert_with(|| (score, plan.clone()));
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
        (!bars.is_empty()).then_some(bars)
    }

    /// A run laid from as few of the longest bought bars as it can be.
    fn alone(&self, run: usize) -> Option<(i64, Vec<BarPlan>)> {
        let span = &self.instance.spans[run];
        let kind = (self.instance.bought > 0).then(|| self.instance.kinds[0])?;
        let mut meter = Meter::new(Effort::default());
        for bars in span.least_splices + 1..=span.most_pieces.min(MAX_BARS) {
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
        (0..self.instance.spans.len()).filter(|run| mask & (1 << run) != 0).collect()
    }
}
