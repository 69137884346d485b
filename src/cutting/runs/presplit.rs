//! Layouts with more splices than a tree: runs are split beforehand, and the rest is a tree again.

use super::chain;
use super::instance::{Instance, Span};
use super::outcome::{BarPlan, Outcome, Stretch};
use super::tree;
use crate::cutting::effort::Meter;

/// Looks for a layout of the runs `group` from these bars in which `splits` splices lie at ends of splice zones and
/// the rest is a tree. Not finding one proves nothing, so the outcome is never `Impossible`.
pub(super) fn lay(
    instance: &Instance,
    group: &[usize],
    counts: &[usize],
    splits: usize,
    meter: &mut Meter,
) -> Outcome {
    if splits == 0 {
        return match chain::lay(instance, group, counts, meter) {
            Outcome::Impossible if tree::is_small(group, counts) => tree::lay(instance, group, counts, meter),
            outcome => outcome,
        };
    }
    for (place, &run) in group.iter().enumerate() {
        let zones = instance.spans[run].allowed[0].parts();
        let mut ends: Vec<i64> = zones.iter().flat_map(|&(from, to)| [from, to]).collect();
        ends.dedup();
        for at in ends {
            let parts: usize = group.iter().map(|&run| instance.spans[run].allowed[0].parts().len()).sum();
            if !meter.spend(1 + parts as u64 / 32) {
                return Outcome::GaveUp;
            }
            let split = split(instance, group, place, at);
            let all: Vec<usize> = (0..split.spans.len()).collect();
            match lay(&split, &all, counts, splits - 1, meter) {
                Outcome::Laid(plans) => return Outcome::Laid(joined(plans, group, place, at, instance)),
                Outcome::GaveUp if meter.is_stopped() => return Outcome::GaveUp,
                _ => {}
            }
        }
    }
    Outcome::GaveUp
}

/// The group alone, with the run at `place` in two: up to `at`, and from there on as the last span.
fn split(instance: &Instance, group: &[usize], place: usize, at: i64) -> Instance {
    let mut spans: Vec<Span> = group.iter().map(|&run| instance.spans[run].clone()).collect();
    let whole = spans[place].clone();
    let part = |from: i64, to: i64, overlap: i64| {
        let length = to - from + overlap;
        let least = instance.least_piece;
        let allowed = whole.allowed[0].clipped(from + least, to - least).ahead(-from, -from);
        Span {
            length,
            least_splices: 0,
            most_pieces: whole.most_pieces,
            allowed: [allowed.clone(), allowed.mirrored(length)],
        }
    };
    // The piece before the splice carries the overlap.
    spans[place] = part(0, at, instance.overlap);
    spans.push(part(at, whole.length, 0));
    Instance { spans, ..instance.clone() }
}

/// The bars in terms of the runs as they were.
fn joined(plans: Vec<BarPlan>, group: &[usize], place: usize, at: i64, instance: &Instance) -> Vec<BarPlan> {
    let back = |piece: Stretch| {
        if piece.run == group.len() {
            Stretch { run: group[place], from: piece.from + at, to: piece.to + at }
        } else if piece.run == place && piece.to == at + instance.overlap {
            Stretch { run: group[place], from: piece.from, to: at }
        } else {
            Stretch { run: group[piece.run], ..piece }
        }
    };
    plans
        .into_iter()
        .map(|plan| BarPlan { kind: plan.kind, pieces: plan.pieces.into_iter().map(back).collect() })
        .collect()
}
