//! The list of what to tape next, from whatever is wrong.

use super::answer::{Reason, TapeNext};
use super::case::Case;
use super::judge::odds::Weighed;
use super::misreads::finding::{Finding, Suspect};
use super::misreads::search::Found;
use super::network::adjust::{Adjustment, distances, solve};
use super::network::observation::Datum;
use super::suggest::{self, Check};
use crate::geometry::Mm;
use crate::network::{self, Distance, angle_gradient};

/// Lines offered for one reason.
const OFFERED: usize = 3;

/// A line whose largest hidden slip is within this of the best line's is as good.
const AS_GOOD: f64 = 1.05;

/// Explanations that a line is tried on.
const WEIGHED: usize = 4;

/// Odds shifted by this, as a logarithm, settle a question: more is not better.
const SETTLED: f64 = 12.0;

/// Tests less alike than this are told apart by a slip that is seen at all.
const APART: f64 = 0.99;

/// What to tape next, the most useful first.
pub(super) fn tape_next(case: &Case<'_>, found: &Found, too_close: &[usize]) -> Vec<TapeNext> {
    let settling: Vec<TapeNext> = found.findings.iter().flat_map(|f| settling(case, found, f)).collect();
    let fixing = if found.figure.is_none() { fixing(case, found) } else { Vec::new() };
    let others = !settling.is_empty() || !fixing.is_empty();
    let mut list: Vec<TapeNext> = found.findings.iter().flat_map(|f| again(case, found, f, others)).collect();
    let Some(figure) = &found.figure else {
        list.extend(fixing);
        return list;
    };
    if !found.weak.is_empty() {
        list.extend(stiffening(case, figure));
    }
    list.extend(settling);
    if figure.redundancy.contains(&0.0) {
        list.extend(checking(case, found, figure));
    }
    list.extend(sharpening(case, figure, too_close));
    let mut seen: Vec<String> = Vec::new();
    list.retain(|next| {
        let new = !seen.contains(&next.name);
        seen.push(next.name.clone());
        new
    });
    list
}

/// Readings to tape again: those named or tied; but where another line tells more, none that was read alike already.
fn again(case: &Case<'_>, found: &Found, finding: &Finding, others: bool) -> Vec<TapeNext> {
    let doubted = match finding.chosen {
        Some(chosen) => &finding.suspects[chosen..=chosen],
        None => &finding.suspects[..],
    };
    let is_worth = |suspect: &&Suspect| !others || !is_repeated(case, found, suspect.index);
    let again = |suspect: &Suspect| TapeNext {
        name: case.taped[suspect.index].name.clone(),
        reason: Reason::Again,
        worst_corner_sd: None,
        unchecked: None,
        hides: None,
    };
    doubted.iter().filter(is_worth).map(again).collect()
}

/// Whether a line was read several times alike: once more would say the same, if the tape was held the same.
fn is_repeated(case: &Case<'_>, found: &Found, index: usize) -> bool {
    let ends = |i: usize| {
        let o = case.observations[i];
        (o.from.min(o.to), o.from.max(o.to))
    };
    let mut others = found.findings.iter().flat_map(|f| &f.suspects).filter(|s| s.index != index);
    case.taped[index].count > 1 || others.any(|other| ends(other.index) == ends(index))
}

fn name(case: &Case<'_>, line: &Distance) -> String {
    case.input.footprint.line_name(line.from, line.to)
}

fn fixing(case: &Case<'_>, found: &Found) -> Vec<TapeNext> {
    let mut taped = distances(&case.pick(&found.kept));
    suggest::fixing(case.plan(), &taped, &case.candidates)
        .into_iter()
        .map(|i| {
            let line = case.candidates[i];
            taped.push(line);
            TapeNext {
                name: name(case, &line),
                reason: Reason::Fixes,
                worst_corner_sd: network::free_covariance(case.plan(), &taped)
                    .map(|c| Mm(network::worst_corner_sd(&c))),
                unchecked: None,
                hides: None,
            }
        })
        .collect()
}

/// The lines that bring the worst corner of a nearly loose figure down most.
fn stiffening(case: &Case<'_>, figure: &Adjustment) -> Vec<TapeNext> {
    let mut list: Vec<(&Distance, f64)> = case
        .candidates
        .iter()
        .map(|line| (line, suggest::worst_with(&figure.points, &figure.covariance, line)))
        .collect();
    list.sort_by(|a, b| a.1.total_cmp(&b.1));
    list.into_iter()
        .take(OFFERED)
        .map(|(line, worst)| TapeNext {
            name: name(case, line),
            reason: Reason::Fixes,
            worst_corner_sd: Some(Mm(worst)),
            unchecked: None,
            hides: None,
        })
        .collect()
}

/// The candidates that tell the `tied` apart and leave the fewest unchecked in the network of `indices`, and of those
/// the ones as good as the best at showing a slip.
fn checks(case: &Case<'_>, indices: &[usize], tied: &[usize]) -> Vec<(Distance, Check)> {
    let observations = case.pick(indices);
    let positions: Vec<usize> = tied.iter().filter_map(|t| indices.iter().position(|i| i == t)).collect();
    let mut list: Vec<(Distance, Check)> = case
        .candidates
        .iter()
        .filter_map(|line| {
            suggest::check_with(case.plan(), &observations, &positions, line).map(|check| (*line, check))
        })
        .filter(|(_, check)| check.alike < APART)
        .collect();
    let Some(fewest) = list.iter().map(|(_, c)| c.unchecked).min() else {
        return list;
    };
    list.retain(|(_, check)| check.unchecked == fewest);
    // Those as good as the best stay, in the order of their names: the joiner picks the easiest to reach.
    let smallest = list.iter().map(|(_, c)| c.hides).fold(f64::INFINITY, f64::min);
    list.retain(|(_, check)| check.hides <= smallest * AS_GOOD);
    list
}

fn offer(
    case: &Case<'_>,
    figure: &Adjustment,
    list: Vec<(Distance, Check)>,
    reason: Reason,
) -> Vec<TapeNext> {
    list.into_iter()
        .take(OFFERED)
        .map(|(line, check)| TapeNext {
            name: name(case, &line),
            reason,
            worst_corner_sd: Some(Mm(suggest::worst_with(&figure.points, &figure.covariance, &line))),
            unchecked: Some(check.unchecked),
            hides: Some(Mm(check.hides)),
        })
        .collect()
}

/// The lines that would settle which of the suspects is wrong, or whether one that was read alike is: those that shift the
/// odds most; where the readings without a suspect make no figure, those that check it.
fn settling(case: &Case<'_>, found: &Found, finding: &Finding) -> Vec<TapeNext> {
    let repeated = || finding.suspects.iter().any(|s| is_repeated(case, found, s.index));
    let Some(figure) = found.figure.as_ref().filter(|_| finding.suspects.len() > 1 || repeated()) else {
        return Vec::new();
    };
    let tied: Vec<usize> = finding.suspects.iter().map(|s| s.index).collect();
    let network: Vec<usize> =
        (0..case.observations.len()).filter(|i| found.kept.contains(i) || tied.contains(i)).collect();
    let list = telling(case, found).map_or_else(
        || checks(case, &network, &tied),
        |lines| {
            let observations = case.pick(&network);
            let check = |line| suggest::check_with(case.plan(), &observations, &[], &line).map(|c| (line, c));
            lines.into_iter().take(OFFERED).filter_map(check).collect()
        },
    );
    offer(case, figure, list, Reason::Settles)
}

/// The lines not taped yet that shift the odds of what may explain the readings as much as any, by what each explanation
/// expects them to read; nothing where fewer than two of them make a figure.
fn telling(case: &Case<'_>, found: &Found) -> Option<Vec<Distance>> {
    let figure = |weighed: &Weighed| {
        let out = weighed.why.wrong();
        let kept: Vec<usize> = (0..case.observations.len()).filter(|i| !out.contains(i)).collect();
        let observations = case.pick(&kept);
        let fixed =
            network::rank(case.plan(), &distances(&observations)) >= network::needed(case.plan().len());
        fixed
            .then(|| solve(case.plan(), &observations, Datum::Free).ok())
            .flatten()
            .map(|f| (weighed.odds, f))
    };
    let figures: Vec<(f64, Adjustment)> = found.odds.all.iter().take(WEIGHED).filter_map(figure).collect();
    let shift = |line: &Distance| {
        let expected = |(odds, figure): &(f64, Adjustment)| {
            let (from, to) = (line.from, line.to);
            let variance = network::distance_variance(&figure.points, &figure.covariance, from, to);
            (*odds, figure.points[from].distance(figure.points[to]), variance + line.sd.powi(2))
        };
        let expected: Vec<(f64, f64, f64)> = figures.iter().map(expected).collect();
        let pairs = expected.iter().enumerate().flat_map(|(i, a)| expected[..i].iter().map(move |b| (a, b)));
        pairs.map(|(a, b)| a.0 * b.0 * ((a.1 - b.1).powi(2) / (a.2 + b.2)).min(SETTLED)).sum::<f64>()
    };
    let shifts: Vec<f64> = case.candidates.iter().map(shift).collect();
    let most = shifts.iter().copied().fold(0.0, f64::max);
    let lines = case.candidates.iter().zip(shifts);
    let lines: Vec<Distance> = lines.filter(|(_, by)| *by * AS_GOOD >= most).map(|(line, _)| *line).collect();
    (figures.len() > 1 && most > 0.0).then_some(lines)
}

fn checking(case: &Case<'_>, found: &Found, figure: &Adjustment) -> Vec<TapeNext> {
    let now = figure.redundancy.iter().filter(|r| **r == 0.0).count();
    let observations = case.pick(&found.kept);
    let spares = case.candidates.iter().filter(|line| {
        let spares = case.input.spares;
        spares.contains(&(line.from, line.to)) || spares.contains(&(line.to, line.from))
    });
    let mut list: Vec<(Distance, Check)> = spares
        .filter_map(|line| Some((*line, suggest::check_with(case.plan(), &observations, &[], line)?)))
        .collect();
    if list.is_empty() {
        list = checks(case, &found.kept, &[]);
    }
    list.retain(|(_, check)| check.unchecked < now);
    offer(case, figure, list, Reason::Checks)
}

/// The lines that sharpen the corner that is hardest to call; taped ones again when nothing else can be taped.
fn sharpening(case: &Case<'_>, figure: &Adjustment, too_close: &[usize]) -> Vec<TapeNext> {
    let variance = |corner: &usize| {
        let gradient = angle_gradient(&figure.points, *corner);
        gradient.dot(&(&figure.covariance * &gradient))
    };
    let Some(corner) =
        too_close.iter().copied().reduce(|a, b| if variance(&b) > variance(&a) { b } else { a })
    else {
        return Vec::new();
    };
    let gradient = angle_gradient(&figure.points, corner);
    let taped = distances(&case.observations);
    let lines = if case.candidates.is_empty() { &taped } else { &case.candidates };
    let mut list: Vec<(&Distance, f64)> = lines
        .iter()
        .map(|line| {
            let after = suggest::variance_with(&figure.points, &figure.covariance, &gradient, line);
            (line, after)
        })
        .collect();
    list.sort_by(|a, b| a.1.total_cmp(&b.1));
    list.into_iter()
        .take(OFFERED)
        .map(|(line, _)| TapeNext {
            name: name(case, line),
            reason: Reason::Sharpens,
            worst_corner_sd: Some(Mm(suggest::worst_with(&figure.points, &figure.covariance, line))),
            unchecked: None,
            hides: None,
        })
        .collect()
}
