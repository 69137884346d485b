//! What to ask for next.

use super::kind::{Entry, Kind};
use crate::answer::{Answer, Question};
use crate::job::{Job, JobFile};
use crate::readings::{Readings, Verdict};
use crate::square::taping_order;

/// How far apart a string is read along a side, mm. Common practice, no source.
const STATIONS: f64 = 1200.0;

/// How many drops are asked for.
const DROPS: usize = 3;

/// What a kind of booking needs to be told before its first reading.
pub(super) fn setting(kind: Kind, file: &JobFile) -> Option<&'static str> {
    match kind {
        Kind::Straight => {
            file.straight.as_ref().is_none_or(|section| section.block.is_none()).then_some("block")
        }
        Kind::Drop => {
            file.heights.as_ref().is_none_or(|section| section.level_depth.is_none()).then_some("level depth")
        }
        Kind::Tape | Kind::Level => None,
    }
}

/// Everything that is asked for where all is well, in order.
pub(super) fn all(kind: Kind, job: &Job, entries: &[Entry], side: Option<&str>) -> Vec<String> {
    let Some(footprint) = &job.footprint else { return drops(kind, entries) };
    match kind {
        Kind::Tape => match job.answer(Question::Diagonals) {
            Ok(Answer::Diagonals(checks)) => {
                let order = taping_order(footprint, &checks);
                order.into_iter().map(|(from, to)| footprint.line_name(from, to)).collect()
            }
            _ => vec![],
        },
        Kind::Level => {
            let names = footprint.corners().iter().map(|corner| corner.name.to_string());
            names.filter(|name| kind.name(name, job, job.units).is_ok()).collect()
        }
        Kind::Straight => {
            let side = side.and_then(|side| footprint.parse_side(side).ok());
            let length = side.map_or(0.0, |side| footprint.sides()[side].length);
            let bays = (length / STATIONS).ceil().max(1.0);
            let mut at = 0.0;
            let mut stations = vec![];
            while at < bays {
                stations.push(job.units.figure(STATIONS * at));
                at += 1.0;
            }
            stations.push(job.units.figure(length));
            stations
        }
        Kind::Drop => drops(kind, entries),
    }
}

fn drops(kind: Kind, entries: &[Entry]) -> Vec<String> {
    let left = if kind == Kind::Drop { DROPS.saturating_sub(entries.len()) } else { 0 };
    (0..left).map(|number| Kind::numbered(entries.len() + number)).collect()
}

/// How many sides and how many lines of the proof set are taped.
pub(super) fn sides_and_proof(job: &Job) -> Option<(usize, usize)> {
    let Ok(Answer::Diagonals(checks)) = job.answer(Question::Diagonals) else { return None };
    Some((job.footprint.as_ref()?.len() - checks.sides_past_tape.len(), checks.proof.names.len()))
}

/// What the tapes come to so far.
pub(super) fn taped(job: &Job) -> Option<Box<Readings>> {
    match job.answer(Question::Readings) {
        Ok(Answer::Readings(answer)) => Some(answer),
        _ => None,
    }
}

/// Whether the verdict on taped lines can be called: they fix the corners, check each other, and leave nothing in doubt.
pub(super) fn called(answer: &Readings) -> bool {
    !matches!(answer.verdict, Verdict::NotFixed | Verdict::Misread)
        && answer.degrees_of_freedom > 0
        && answer.unchecked.is_empty()
        && answer.too_close.is_empty()
        && answer.tape_next.is_empty()
}
