//! The search for wrong readings: every one alone, then two and three together from the likeliest, then one more at a time
//! while what is left agrees poorly.

use super::evidence::{Ground, Model, Seen, View, log_normal};
use super::lines::Taping;
use super::prior::{self, AS_SAID, BUILT, ENDS, PART, PARTS, Slips, any_size};
use crate::readings::case::Case;
use crate::readings::network::chi_square::lower_tail;

/// Explanations gone on from at one and at two wrong readings; beyond, the best alone.
const GONE_ON: usize = 8;
/// From so many on the best alone is gone on from.
const ALONE: usize = 3;
/// Wrong readings looked for at most.
const MOST_WRONG: usize = 40;
/// Ways of building and taping kept in view when many readings are out.
const IN_VIEW: usize = 3;
/// How poorly the rest may fit before more is looked for.
const POOR: f64 = 0.01;
/// What is so much less likely, as a logarithm, adds nothing.
pub(super) const NOTHING: f64 = 14.0;

/// These readings wrong, and the logarithm of what that weighs.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    pub(super) wrong: Vec<usize>,
    pub(super) weight: f64,
}

/// Readings to be weighed, with all that they may be.
pub(super) struct Search<'a> {
    pub(super) lines: &'a Taping,
    grounds: Vec<Ground<'a>>,
    slips: Vec<Slips>,
    /// The logarithm of how often each is wrong.
    chances: Vec<f64>,
    /// The readings of one line, where there are several.
    repeats: Vec<Vec<usize>>,
    size: f64,
}

impl<'s> Search<'s> {
    pub(super) fn new(case: &Case<'_>, lines: &'s Taping) -> Self {
        let size = case.input.built_within;
        let models = BUILT.iter().flat_map(|(built, often)| {
            ENDS.iter().enumerate().map(move |(rough, (ends, too))| Model {
                built: built * size,
                rough,
                ends: *ends,
                prior: (often * too).ln(),
            })
        });
        let grounds = models.filter_map(|model| Ground::new(lines, model)).collect();
        let count = lines.over.len() as f64;
        let chance = |times: usize| (prior::SLIP / count).ln() + (times as f64 - 1.0) * prior::REPEATED.ln();
        Self {
            grounds,
            slips: case.clues.iter().map(|clue| Slips::new(*clue)).collect(),
            chances: case.taped.iter().map(|taped| chance(taped.count)).collect(),
            repeats: repeats(lines),
            lines,
            size,
        }
    }

    pub(super) fn see(&self, over: &[f64]) -> Vec<Seen> {
        self.grounds.iter().map(|ground| ground.see(over)).collect()
    }

    /// Every way of building and taping: nothing out of its place first, then each part.
    pub(super) fn views<'a>(&'a self, seen: &'a [Seen]) -> Vec<View<'a>> {
        let whole: Vec<View<'a>> =
            self.grounds.iter().zip(seen).map(|(ground, seen)| View::new(ground, seen)).collect();
        let parts = self.lines.parts.len();
        let mut views = whole.clone();
        for view in &mut views {
            view.weight += (1.0 - PART).ln();
        }
        for view in whole {
            for part in 0..parts {
                for (size, often) in PARTS {
                    let prior = (PART * often / parts as f64).ln();
                    views.push(view.with_part(part, size * self.size, prior));
                }
            }
        }
        views
    }

    /// How many of the views have no part out of its place.
    pub(super) fn whole(&self) -> usize {
        self.grounds.len()
    }

    /// Each reading wrong alone.
    pub(super) fn singles(&self, views: &[View<'_>]) -> Vec<Candidate> {
        let mut sums = vec![LogSum::default(); self.slips.len()];
        for view in views {
            for (index, sum) in sums.iter_mut().enumerate() {
                self.add(sum, view.weight, index, view.off(index));
            }
        }
        let one = |(index, sum): (usize, &LogSum)| Candidate { wrong: vec![index], weight: sum.value() };
        sums.iter().enumerate().map(one).collect()
    }

    /// Every reading of a line off by the same: the tape was held alike each time, or to the wrong mark.
    fn alike(&self, views: &[View<'_>]) -> Vec<Candidate> {
        let one = |wrong: &Vec<usize>| {
            let mut sum = LogSum::default();
            for view in views {
                self.add(&mut sum, view.weight, wrong[0], view.off_alike(wrong));
            }
            Candidate { wrong: wrong.clone(), weight: sum.value() + prior::REPEATED.ln() }
        };
        self.repeats.iter().map(one).collect()
    }

    /// The logarithm of how often a reading is off by `t` mm by a slip of no usual size, 1/mm.
    pub(super) fn of_no_usual_size(&self, index: usize, t: f64) -> f64 {
        self.chances[index] + any_size(t).ln()
    }

    /// Adds what it weighs that this reading slipped too, off by `t` mm with a variance, unless that is as good as nothing.
    fn add(&self, sum: &mut LogSum, weight: f64, index: usize, (t, variance): (f64, f64)) {
        let slips = &self.slips[index];
        let weight = weight + self.chances[index];
        // No more than this, by ln x ≤ x − 1: most are passed over without a logarithm.
        let most = weight + 0.5 * t * t / variance + slips.densest(variance.sqrt()) - 1.0;
        if most > sum.most - NOTHING {
            sum.add(weight - log_normal(t, variance) + slips.density(t, variance).ln());
        }
    }

    /// What it weighs by one view that these are wrong, each by what those left make of it.
    pub(super) fn weight(&self, view: &View<'_>, out: &[usize]) -> f64 {
        if out.is_empty() {
            return view.weight;
        }
        let Some(without) = view.without(out) else { return f64::NEG_INFINITY };
        let slips = out.iter().zip(&without.off);
        without.weight
            + slips
                .map(|(i, (t, variance))| self.chances[*i] + self.slips[*i].density(*t, *variance).ln())
                .sum::<f64>()
    }

    fn candidate(&self, views: &[View<'_>], wrong: Vec<usize>) -> Candidate {
        Candidate { weight: log_sum(views.iter().map(|view| self.weight(view, &wrong))), wrong }
    }

    /// Looks for wrong readings, going on from the likeliest while what is left fits poorly, or from many that are `known`
    /// already; and the views that count.
    pub(super) fn wrong<'a>(
        &self,
        views: &[View<'a>],
        nothing: f64,
        known: &[usize],
    ) -> (Vec<Candidate>, Vec<View<'a>>) {
        let mut found = self.singles(views);
        found.extend(self.alike(views));
        let mut level = found.clone();
        let mut best = nothing;
        let views = self.in_view(views, &mut level);
        if known.len() >= ALONE {
            level = vec![self.candidate(&views, known.to_vec())];
            found.extend(level.iter().cloned());
        }
        let first = level.first().map_or(1, |first| first.wrong.len());
        for size in first..=MOST_WRONG.min(self.slips.len()) {
            let Some(first) = level.first() else { break };
            let better = first.weight > best;
            best = best.max(first.weight);
            if !self.is_poor(&views, &first.wrong) || (size >= ALONE && !better) {
                break;
            }
            level.truncate(if size < ALONE { GONE_ON } else { 1 });
            level = self.next_level(&views, &level);
            found.extend(level.iter().cloned());
        }
        self.fewer(&views, &mut found);
        (merged(found), views)
    }

    /// The likeliest with one more wrong reading than one of these.
    fn next_level(&self, views: &[View<'_>], level: &[Candidate]) -> Vec<Candidate> {
        let mut all: Vec<Candidate> =
            level.iter().flat_map(|from| self.one_more(views, &from.wrong)).collect();
        sort(&mut all);
        // Far on, each candidate is dear, and the next is most often plain.
        let most = if level.len() > 1 { GONE_ON } else { 1 };
        let mut next: Vec<Candidate> = Vec::new();
        for Candidate { wrong, .. } in all {
            if next.iter().all(|known| known.wrong != wrong) {
                next.push(self.candidate(views, wrong));
            }
            if next.len() == most {
                break;
            }
        }
        sort(&mut next);
        next
    }

    /// The views to go on with: all with no part out of its place, and the likeliest of the others for nothing wrong and for
    /// each of the readings that will be gone on from. Puts the candidates in order.
    fn in_view<'a>(&self, views: &[View<'a>], singles: &mut Vec<Candidate>) -> Vec<View<'a>> {
        sort(singles);
        singles.truncate(GONE_ON);
        let (whole, parts) = views.split_at(self.whole());
        let mut kept = whole.to_vec();
        let mut chosen: Vec<usize> = Vec::new();
        let likeliest = |weight: &dyn Fn(&View<'_>) -> f64| {
            (0..parts.len()).max_by(|a, b| weight(&parts[*a]).total_cmp(&weight(&parts[*b])))
        };
        chosen.extend(likeliest(&|view| view.weight));
        for single in singles.iter() {
            let index = single.wrong[0];
            chosen.extend(likeliest(&|view| {
                let (t, variance) = view.off(index);
                view.weight - log_normal(t, variance)
            }));
        }
        chosen.sort_unstable();
        chosen.dedup();
        kept.extend(chosen.into_iter().map(|i| parts[i]));
        kept
    }

    /// Every way to have one more wrong reading than `from`, roughly: what is out already is not judged anew.
    fn one_more(&self, views: &[View<'_>], from: &[usize]) -> Vec<Candidate> {
        let mut weights: Vec<(f64, &View<'_>)> =
            views.iter().map(|view| (self.weight(view, from), view)).collect();
        weights.sort_by(|a, b| b.0.total_cmp(&a.0));
        if from.len() >= ALONE {
            weights.truncate(IN_VIEW);
        }
        let mut sums = vec![LogSum::default(); self.slips.len()];
        for (weight, view) in weights {
            let Some(without) = view.without(from) else { continue };
            for (index, sum) in sums.iter_mut().enumerate() {
                if !from.contains(&index) {
                    self.add(sum, weight, index, view.one_more(from, &without, index));
                }
            }
        }
        let left = sums.iter().enumerate().filter(|(index, _)| !from.contains(index));
        left.map(|(index, sum)| {
            let mut wrong = from.to_vec();
            wrong.push(index);
            wrong.sort_unstable();
            Candidate { wrong, weight: sum.value() }
        })
        .collect()
    }

    /// Takes back, one at a time, what was gone on from and is no longer needed.
    fn fewer(&self, views: &[View<'_>], found: &mut Vec<Candidate>) {
        while let Some(best) =
            found.iter().max_by(|a, b| a.weight.total_cmp(&b.weight)).filter(|c| c.wrong.len() > 1)
        {
            let (from, weight) = (best.wrong.clone(), best.weight);
            let mut better = false;
            for gone in 0..from.len() {
                let mut wrong = from.clone();
                wrong.remove(gone);
                if found.iter().all(|known| known.wrong != wrong) {
                    let candidate = self.candidate(views, wrong);
                    better |= candidate.weight > weight;
                    found.push(candidate);
                }
            }
            if !better {
                break;
            }
        }
    }

    /// Whether those left agree poorly, taped as said and built as said: a rougher view would swallow what is to be found.
    fn is_poor(&self, views: &[View<'_>], out: &[usize]) -> bool {
        let as_said = |view: &&View<'_>| {
            let model = view.ground.model;
            model.rough == AS_SAID && (model.built - self.size).abs() < 1e-9 * self.size
        };
        let Some(view) = views.iter().find(as_said) else { return false };
        !agree(view, out, POOR)
    }
}

/// Whether those left agree by this view, but for a chance of `level`.
pub(super) fn agree(view: &View<'_>, out: &[usize], level: f64) -> bool {
    let left = view.count() - out.len();
    let squares = view.without(out).map_or(f64::INFINITY, |without| view.squares(&without));
    left == 0 || 1.0 - lower_tail(left, squares) >= level
}

/// The readings of each line that has several.
fn repeats(lines: &Taping) -> Vec<Vec<usize>> {
    let ends = |i: usize| {
        let [a, _, b, _] = lines.rows[i].0;
        (a.min(b), a.max(b))
    };
    let count = lines.rows.len();
    let of = |i: usize| (i..count).filter(|j| ends(*j) == ends(i)).collect::<Vec<_>>();
    let first = |i: &usize| (0..*i).all(|j| ends(j) != ends(*i));
    (0..count).filter(first).map(of).filter(|alike| alike.len() > 1).collect()
}

/// Each set of readings once: that they are off alike, or each by itself, is one thing to say.
fn merged(mut found: Vec<Candidate>) -> Vec<Candidate> {
    found.sort_by(|a, b| a.wrong.cmp(&b.wrong));
    found.dedup_by(|again, first| {
        let same = again.wrong == first.wrong;
        if same {
            first.weight = log_sum([first.weight, again.weight].into_iter());
        }
        same
    });
    found
}

fn sort(candidates: &mut [Candidate]) {
    candidates.sort_by(|a, b| b.weight.total_cmp(&a.weight));
}

/// A sum of what these are the logarithms of.
#[derive(Debug, Clone, Copy)]
struct LogSum {
    most: f64,
    sum: f64,
}

impl Default for LogSum {
    fn default() -> Self {
        Self { most: f64::NEG_INFINITY, sum: 0.0 }
    }
}

impl LogSum {
    fn add(&mut self, log: f64) {
        if log > self.most {
            self.sum = self.sum * (self.most - log).exp() + 1.0;
            self.most = log;
        } else if log > f64::NEG_INFINITY {
            self.sum += (log - self.most).exp();
        }
    }

    fn value(self) -> f64 {
        self.most + self.sum.ln()
    }
}

/// The logarithm of the sum of what these are the logarithms of.
pub(super) fn log_sum(logs: impl Iterator<Item = f64>) -> f64 {
    let mut sum = LogSum::default();
    logs.for_each(|log| sum.add(log));
    sum.value()
}
