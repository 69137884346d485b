//! The list of what to tape next, from whatever is wrong.

use super::answer::{Reason, TapeNext};
use super::case::Case;
use super::misreads::search::Found;
use super::network::adjust::{Adjustment, distances};
use super::suggest::{self, Check};
use crate::geometry::Mm;
use crate::network::{self, Distance, angle_gradient};

/// Lines offered for one reason.
const OFFERED: usize = 3;

/// A line whose largest hidden slip is within this of the best line's is as good.
const AS_GOOD: f64 = 1.05;

/// Tests less alike than this are told apart by a slip that is seen at all.
const APART: f64 = 0.99;

/// What to tape next, the most useful first.
pub(super) fn tape_next(case: &Case<'_>, found: &Found, too_close: &[usize]) -> Vec<TapeNext> {
    let mut list = Vec::new();
    for index in again(found) {
        list.push(TapeNext {
            name: case.taped[index].name.clone(),
            reason: Reason::Again,
            worst_corner_sd: None,
            unchecked: None,
            hides: None,
        });
    }
    let Some(figure) = &found.figure else {
        list.extend(fixing(case, found));
        return list;
    };
    if !found.weak.is_empty() {
        list.extend(stiffening(case, figure));
    }
    for finding in found.findings.iter().filter(|f| f.suspects.len() > 1) {
        let tied: Vec<usize> = finding.suspects.iter().map(|s| s.index).collect();
        list.extend(settling(case, found, figure, &tied));
    }
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

/// Readings to tape again: those named or tied.
fn again(found: &Found) -> Vec<usize> {
    found
        .findings
        .iter()
        .flat_map(|f| match f.chosen {
            Some(chosen) => vec![f.suspects[chosen].index],
            None => f.suspects.iter().map(|s| s.index).collect(),
        })
        .collect()
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

fn settling(case: &Case<'_>, found: &Found, figure: &Adjustment, tied: &[usize]) -> Vec<TapeNext> {
    let network: Vec<usize> =
        (0..case.observations.len()).filter(|i| found.kept.contains(i) || tied.contains(i)).collect();
    offer(case, figure, checks(case, &network, tied), Reason::Settles)
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
