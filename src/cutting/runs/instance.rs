//! The checked problem, in plain numbers: what the search works on.

use super::intervals::Intervals;
use super::score::Weights;
use crate::cutting::error::Error;
use crate::cutting::kinds::{Kind, check_length, check_price, usable_kinds};
use crate::cutting::model::{Favour, MAX_BARS, MAX_RUNS, Problem, Rules, Run, Stock};
use crate::exact::{Tenths, int};

/// A run, tenths of a millimetre.
#[derive(Debug, Clone)]
pub(super) struct Span {
    pub(super) length: i64,
    /// Allowed splices, measured from the start and from the end.
    pub(super) allowed: [Intervals; 2],
    /// Fewest splices that this run needs even if it had all the longest bars to itself.
    pub(super) least_splices: usize,
    /// Most pieces that the least piece leaves room for.
    pub(super) most_pieces: usize,
}

/// The checked problem.
#[derive(Debug, Clone)]
pub(super) struct Instance {
    pub(super) spans: Vec<Span>,
    /// Lengths to buy, longest first and each cheaper than the one before it, then the counted ones.
    pub(super) kinds: Vec<Kind>,
    /// How many of `kinds` can be bought without limit; they come first.
    pub(super) bought: usize,
    pub(super) kerf: i64,
    pub(super) least_piece: i64,
    pub(super) overlap: i64,
    pub(super) weights: Weights,
}

impl Span {
    /// The run in plain numbers, for the bars and rules of the instance.
    pub(super) fn new(run: &Run, instance: &Instance) -> Result<Self, Error> {
        let length = run.length.0;
        let zones = run.splices.as_ref().map_or_else(
            || vec![(0, length)],
            |zones| {
                zones.iter().map(|&(from, to)| (from.0.clamp(0, length), to.0.clamp(0, length))).collect()
            },
        );
        let least_piece = instance.least_piece;
        let longest = instance.longest();
        let allowed = Intervals::new(zones).clipped(least_piece, length - least_piece);
        let least_splices =
            least_splices(length, &allowed, longest, least_piece, instance.overlap).ok_or_else(|| {
                Error::Unspliceable { run: run.name.clone(), length: run.length, longest: Tenths(longest) }
            })?;
        let pieces = usize::try_from(length / least_piece).unwrap_or(1).max(1);
        Ok(Self {
            length,
            least_splices,
            most_pieces: if allowed.is_empty() { 1 } else { pieces },
            allowed: [allowed.clone(), allowed.mirrored(length)],
        })
    }
}

impl Span {
    /// Where each splice may lie, the first and the last place, if there are as few as this run needs.
    pub(super) fn few_splices(&self, instance: &Instance) -> Vec<(i64, i64)> {
        let (least, longest) = (instance.least_piece, instance.longest());
        // Every piece but the last laps over the next.
        let reached = |allowed: &Intervals, first: i64, others: i64| {
            let mut at = Intervals::single(0);
            (0..self.least_splices)
                .map(|place| {
                    at = at.ahead(least, if place == 0 { first } else { others }).intersection(allowed);
                    at.clone()
                })
                .collect::<Vec<_>>()
        };
        let from_start = reached(&self.allowed[0], longest - instance.overlap, longest - instance.overlap);
        let from_end = reached(&self.allowed[1], longest, longest - instance.overlap);
        let both = from_start.iter().zip(from_end.iter().rev());
        both.filter_map(|(start, end)| {
            let at = start.intersection(&end.mirrored(self.length));
            Some((at.parts().first()?.0, at.last()?))
        })
        .collect()
    }

    /// The same run with splices allowed here alone, of those allowed before.
    pub(super) fn with(&self, allowed: &Intervals) -> Self {
        Self {
            most_pieces: if allowed.is_empty() { 1 } else { self.most_pieces },
            allowed: [allowed.clone(), allowed.mirrored(self.length)],
            ..self.clone()
        }
    }
}

impl Instance {
    pub(super) fn new(problem: &Problem) -> Result<Self, Error> {
        check_runs(problem.runs.len(), &problem.runs)?;
        let mut instance = Self::bars(&problem.stock, problem.rules, problem.favour)?;
        check_bars(problem.runs.iter().map(|run| run.length.0).sum(), &instance)?;
        for run in &problem.runs {
            let span = Span::new(run, &instance)?;
            instance.spans.push(span);
        }
        Ok(instance)
    }

    /// The bars and the rules, with no run yet.
    pub(super) fn bars(stock: &[Stock], rules: Rules, favour: Favour) -> Result<Self, Error> {
        let kinds = usable_kinds(stock, rules, MAX_BARS)?;
        if let Favour::ASplice(worth) = favour {
            check_price("the worth of a splice", worth)?;
        }
        Ok(Self {
            spans: vec![],
            bought: kinds.iter().filter(|kind| kind.count.is_none()).count(),
            kinds,
            kerf: rules.kerf.0,
            // Two splices in one place are none, so even without a rule a piece is at least a tenth long.
            least_piece: rules.least_piece.0.max(1),
            overlap: rules.overlap.0,
            weights: Weights::new(favour),
        })
    }

    /// The most that one bar gives.
    pub(super) fn longest(&self) -> i64 {
        self.kinds.iter().map(|kind| kind.length).max().unwrap_or(0)
    }

    /// Timber that `runs` runs of total length `length` need at least when cut from `bars` bars in one
    /// connected group with `splices` splices: n runs and s splices are n + s pieces, so n + s − bars cuts.
    pub(super) fn need(&self, length: i64, runs: usize, bars: usize, splices: usize) -> i64 {
        let cuts = int((runs + splices).saturating_sub(bars));
        length + cuts * self.kerf + int(splices) * self.overlap
    }
}

/// Whether so many runs can be answered, and each is a length with zones in order.
pub(super) fn check_runs<'a>(count: usize, runs: impl IntoIterator<Item = &'a Run>) -> Result<(), Error> {
    if count == 0 {
        return Err(Error::Nothing("run"));
    }
    if count > MAX_RUNS {
        return Err(Error::TooMany { what: "runs", count, most: MAX_RUNS });
    }
    for run in runs {
        check_length(&format!("run {}", run.name), run.length, Tenths(1))?;
        for &(from, to) in run.splices.iter().flatten() {
            if from > to {
                return Err(Error::Zone { run: run.name.clone(), from, to });
            }
        }
    }
    Ok(())
}

/// Whether a total length takes no more bars than can be answered.
pub(super) fn check_bars(total: i64, instance: &Instance) -> Result<(), Error> {
    let count = usize::try_from(total / instance.longest().max(1)).unwrap_or(usize::MAX);
    if count >= MAX_BARS { Err(Error::TooManyBars { count, most: MAX_BARS }) } else { Ok(()) }
}

/// Fewest splices of one run from bars that give `longest`, exact: each round holds every position that the
/// next splice can take.
fn least_splices(
    length: i64,
    allowed: &Intervals,
    longest: i64,
    least_piece: i64,
    overlap: i64,
) -> Option<usize> {
    let mut reached = Intervals::single(0);
    for splices in 0..MAX_BARS {
        if length - reached.last()? <= longest {
            return Some(splices);
        }
        reached = reached.ahead(least_piece, longest - overlap).intersection(allowed);
    }
    None
}
