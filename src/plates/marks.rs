//! What is marked on the pieces once they are cut: their names, and their anchors.

use std::collections::BTreeMap;

use super::anchors::{Anchor, AnchorRule, AnchorTrouble, place};
use super::answer::Run;
use super::lines::{Layer, Line};
use super::options::Options;
use crate::cutting::Layout;
use crate::geometry::Mm;

/// More studs than any run can have.
const MOST_MARKS: u32 = 20_000;

/// What is written on each piece of each run: the side's letters, with a number where it has several pieces, in small letters
/// for the head binder.
pub(super) fn piece_names(lines: &[Line], layout: &Layout) -> Vec<Vec<String>> {
    let mut pieces: BTreeMap<(bool, usize), usize> = BTreeMap::new();
    let key = |line: &Line| (line.layer == Layer::Binder, line.on);
    for (line, run) in lines.iter().zip(&layout.runs) {
        *pieces.entry(key(line)).or_default() += run.pieces.len();
    }
    let mut next: BTreeMap<(bool, usize), usize> = BTreeMap::new();
    lines
        .iter()
        .zip(&layout.runs)
        .map(|(line, run)| {
            let name = match line.layer {
                Layer::Plate => line.name.to_uppercase(),
                Layer::Binder => line.name.to_lowercase(),
            };
            let number = next.entry(key(line)).or_default();
            let several = pieces.get(&key(line)).is_some_and(|count| *count > 1);
            run.pieces
                .iter()
                .map(|_| {
                    *number += 1;
                    if several { format!("{name}.{number}") } else { name.clone() }
                })
                .collect()
        })
        .collect()
}

/// The anchors of every piece of the wall plate, and the pieces that the rule can't be kept on.
pub(super) fn anchors_on(
    options: &Options,
    rule: &AnchorRule,
    lines: &[Line],
    runs: &[Run],
) -> (Vec<Anchor>, Vec<AnchorTrouble>) {
    let (mut anchors, mut troubles) = (vec![], vec![]);
    for (line, run) in lines.iter().zip(runs) {
        if line.layer == Layer::Binder {
            continue;
        }
        for piece in &run.pieces {
            let start = piece.from.to_mm().0;
            for (from, to) in left_of(start, piece.to.to_mm().0, &line.kept) {
                let studs = studs_between(options, line, from, to);
                let clear = options.studs.map_or(0.0, |studs| studs.clear);
                let placed = place(to - from, rule, &studs, clear, options.step);
                troubles.extend(placed.trouble.map(|problem| AnchorTrouble {
                    piece: piece.name.clone(),
                    from: Mm(from),
                    to: Mm(to),
                    problem,
                }));
                anchors.extend(placed.at.iter().map(|&steps| {
                    let at = from + steps as f64 * options.step;
                    Anchor {
                        side: run.side.clone(),
                        piece: piece.name.clone(),
                        at: Mm(at),
                        on_piece: Mm(at - start),
                    }
                }));
            }
        }
    }
    (anchors, troubles)
}

/// What is left of a piece when the openings in it are cut out.
fn left_of(from: f64, to: f64, openings: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut left = vec![];
    let mut at = from;
    for &(opens, closes) in openings {
        if closes <= at || opens >= to {
            continue;
        }
        if opens > at {
            left.push((at, opens));
        }
        at = at.max(closes);
    }
    if at < to {
        left.push((at, to));
    }
    left
}

/// The middles of the studs on part of a run and just past it, mm from where that part starts.
fn studs_between(options: &Options, line: &Line, from: f64, to: f64) -> Vec<f64> {
    let Some(studs) = options.studs else {
        return vec![];
    };
    let (origin, backwards) = line.set_out;
    let sign = if backwards { -1.0 } else { 1.0 };
    let (near, far) = if backwards { (origin - to, origin - from) } else { (from - origin, to - origin) };
    let first = ((near - studs.clear) / studs.centres).ceil().max(0.0);
    (0..MOST_MARKS)
        .map(|count| (first + f64::from(count)) * studs.centres)
        .take_while(|along| *along <= far + studs.clear)
        .map(|along| origin + sign * along - from)
        .collect()
}
