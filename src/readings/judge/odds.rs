//! The explanations weighed against each other: nothing wrong; one reading, or several; one length on all of them.

use super::evidence::{Fitted, Lines, Model};
use super::prior::{self, BUILT, ENDS, EVERY_READING, REPEATED, SLIP};
use crate::readings::case::Case;
use crate::readings::network::chi_square::critical;

/// An explanation is named at this.
pub(in crate::readings) const SURE: f64 = 0.95;
/// Explanations gone on from at each number of wrong readings, up to three of them; then the best alone.
const GONE_ON: usize = 8;
/// Wrong readings looked for at most.
const MOST_WRONG: usize = 40;
/// How poorly the rest may fit before more is looked for.
const POOR: f64 = 0.01;

/// What explains the readings.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) enum Why {
    /// Nothing is wrong with them.
    Nothing,
    /// These, by observation, in order.
    Wrong(Vec<usize>),
    /// So much on every reading, mm.
    EveryReading(f64),
}

/// An explanation and how likely it is.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) struct Weighed {
    pub(in crate::readings) why: Why,
    /// 0 to 1; all together make 1.
    pub(in crate::readings) odds: f64,
    /// How far off each wrong reading is by the others, mm, with its standard deviation.
    pub(in crate::readings) off: Vec<(f64, f64)>,
}

/// The explanations, the likeliest first.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::readings) struct Odds {
    pub(in crate::readings) all: Vec<Weighed>,
    /// Whether the best of them leaves readings that agree: else so many are wrong that none is named.
    pub(in crate::readings) explained: bool,
}

impl Odds {
    /// The best explanation, where it can be named.
    pub(in crate::readings) fn named(&self) -> Option<&Weighed> {
        self.all.first().filter(|best| best.odds >= SURE && self.explained)
    }

    /// How likely it is that nothing is wrong.
    pub(in crate::readings) fn nothing(&self) -> f64 {
        self.all.iter().find(|w| w.why == Why::Nothing).map_or(0.0, |w| w.odds)
    }

    /// The explanations that make up all but a twentieth.
    pub(in crate::readings) fn likely(&self) -> &[Weighed] {
        let mut sum = 0.0;
        let mut count = 0;
        for weighed in &self.all {
            count += 1;
            sum += weighed.odds;
            if sum >= SURE {
                break;
            }
        }
        &self.all[..count]
    }
}

/// These readings wrong, and the logarithm of what that weighs.
struct Candidate {
    wrong: Vec<usize>,
    weight: f64,
}

struct Search<'a> {
    case: &'a Case<'a>,
    lines: Lines,
    models: Vec<Model>,
    found: Vec<Candidate>,
}

/// Weighs what may explain the readings of a job.
pub(in crate::readings) fn weigh(case: &Case<'_>) -> Odds {
    let mut models = Vec::new();
    for (built, often) in BUILT {
        for (ends, too) in ENDS {
            let built = built * case.input.built_within;
            models.push(Model { built, ends, prior: (often * too).ln() });
        }
    }
    let lines = Lines::new(case.plan(), &case.observations);
    let mut search = Search { case, lines, models, found: Vec::new() };
    let nothing = search.nothing();
    search.wrong(nothing);
    search.fewer();
    let mut all: Vec<(Why, f64)> = vec![(Why::Nothing, nothing)];
    all.extend(search.every_reading());
    all.extend(search.found.iter().map(|c| (Why::Wrong(c.wrong.clone()), c.weight)));
    let total = log_sum(all.iter().map(|(_, weight)| *weight));
    let mut weighed: Vec<Weighed> = all
        .into_iter()
        .filter(|(_, weight)| weight.is_finite())
        .map(|(why, weight)| Weighed { odds: (weight - total).exp(), off: Vec::new(), why })
        .collect();
    weighed.sort_by(|a, b| b.odds.total_cmp(&a.odds));
    weighed.retain(|w| w.odds > 1e-4 || w.why == Why::Nothing);
    for w in &mut weighed {
        if let Why::Wrong(wrong) = &w.why {
            w.off = search.off(wrong);
        }
    }
    let explained = match weighed.first().map(|best| &best.why) {
        Some(Why::Wrong(wrong)) => !search.is_poor(wrong),
        _ => true,
    };
    Odds { all: weighed, explained }
}

impl Search<'_> {
    fn fits(&self, out: &[usize], less: f64) -> Vec<Fitted> {
        self.models.iter().filter_map(|model| Fitted::new(&self.lines, out, less, *model)).collect()
    }

    fn nothing(&self) -> f64 {
        let fits = self.fits(&[], 0.0);
        log_sum(fits.iter().map(Fitted::weight)) + (1.0 - SLIP).ln()
    }

    /// The logarithm of how often this reading is wrong.
    fn chance(&self, index: usize) -> f64 {
        let count = self.lines.over.len() as f64;
        let repeated = if self.case.taped[index].count > 1 { REPEATED } else { 1.0 };
        (SLIP / count * repeated).ln()
    }

    fn every_reading(&self) -> Vec<(Why, f64)> {
        let Some(clue) = self.case.clues.first() else { return Vec::new() };
        let lengths = prior::on_every_reading(*clue);
        let share = (EVERY_READING / lengths.len() as f64).ln();
        let why = |length: f64| {
            let fits = self.fits(&[], length);
            (Why::EveryReading(length), log_sum(fits.iter().map(Fitted::weight)) + share)
        };
        if self.lines.over.len() < 3 { Vec::new() } else { lengths.into_iter().map(why).collect() }
    }

    /// Looks for wrong readings, going on from the likeliest while what is left fits poorly.
    fn wrong(&mut self, nothing: f64) {
        let mut best = nothing;
        let mut level: Vec<Vec<usize>> = vec![Vec::new()];
        for size in 1..=MOST_WRONG.min(self.lines.over.len()) {
            let mut next: Vec<Candidate> = Vec::new();
            for from in &level {
                for candidate in self.one_more(from) {
                    if next.iter().all(|known| known.wrong != candidate.wrong) {
                        next.push(candidate);
                    }
                }
            }
            next.sort_by(|a, b| b.weight.total_cmp(&a.weight));
            let Some(first) = next.first() else { break };
            let better = first.weight > best;
            best = best.max(first.weight);
            let keep = if size < 3 { GONE_ON } else { 1 };
            let poor = self.is_poor(&first.wrong);
            level = next.iter().take(keep).map(|c| c.wrong.clone()).collect();
            self.found.extend(next);
            if !poor || (size >= 3 && !better) {
                break;
            }
        }
    }

    /// Takes back, one at a time, what was gone on from and is no longer needed.
    fn fewer(&mut self) {
        while let Some(best) =
            self.found.iter().max_by(|a, b| a.weight.total_cmp(&b.weight)).filter(|c| c.wrong.len() > 1)
        {
            let (from, weight) = (best.wrong.clone(), best.weight);
            let mut better = false;
            for gone in 0..from.len() {
                let mut wrong = from.clone();
                wrong.remove(gone);
                if self.found.iter().all(|known| known.wrong != wrong) {
                    let fits = self.fits(&wrong, 0.0);
                    let each = fits
                        .iter()
                        .map(|f| f.weight() + wrong.iter().map(|k| self.slip(f, *k, false)).sum::<f64>());
                    let candidate = Candidate { weight: log_sum(each), wrong };
                    better |= candidate.weight > weight;
                    self.found.push(candidate);
                }
            }
            if !better {
                break;
            }
        }
    }

    /// Every way to have one more wrong reading than `from`.
    fn one_more(&self, from: &[usize]) -> Vec<Candidate> {
        let fits = self.fits(from, 0.0);
        let gone: Vec<f64> = fits
            .iter()
            .map(|f| f.weight() + from.iter().map(|k| self.slip(f, *k, false)).sum::<f64>())
            .collect();
        let left = (0..self.lines.over.len()).filter(|i| !from.contains(i));
        left.map(|index| {
            let each = fits.iter().zip(&gone).map(|(f, gone)| {
                let (t, sd) = f.off(&self.lines, index, true);
                gone - prior::log_normal(t, sd) + self.slip(f, index, true)
            });
            let mut wrong = from.to_vec();
            wrong.push(index);
            wrong.sort_unstable();
            Candidate { wrong, weight: log_sum(each) }
        })
        .collect()
    }

    /// What it weighs that this reading slipped, by the others.
    fn slip(&self, fitted: &Fitted, index: usize, kept: bool) -> f64 {
        let (t, sd) = fitted.off(&self.lines, index, kept);
        self.chance(index) + prior::slip(t, sd, self.case.clues[index])
    }

    /// The model that explains best with these left out.
    fn best(&self, out: &[usize]) -> Option<Fitted> {
        self.fits(out, 0.0).into_iter().max_by(|a, b| a.weight().total_cmp(&b.weight()))
    }

    fn is_poor(&self, out: &[usize]) -> bool {
        let left = self.lines.over.len() - out.len();
        // As taped and built as said: a rougher model would swallow what is to be found.
        let as_said = Fitted::new(&self.lines, out, 0.0, self.models[0]);
        left > 0 && as_said.is_none_or(|fitted| fitted.squares > critical(left, POOR))
    }

    fn off(&self, wrong: &[usize]) -> Vec<(f64, f64)> {
        let Some(fitted) = self.best(wrong) else { return Vec::new() };
        wrong.iter().map(|index| fitted.off(&self.lines, *index, false)).collect()
    }
}

/// The logarithm of the sum of what these are the logarithms of.
fn log_sum(logs: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = logs.clone().fold(f64::NEG_INFINITY, f64::max);
    if most.is_finite() { most + logs.map(|log| (log - most).exp()).sum::<f64>().ln() } else { most }
}
