//! The page of taped readings: the verdict, who misread, what to move; then the corners, the readings, the small print.

mod misreads;
mod moves;
mod records;
mod small_print;
mod tables;
mod verdict;

use super::{BURIED_SERVICES, plan};
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Page, Remarks};
use crate::readings::{LimitAnswer, Readings, TapeAnswer};

/// Said where a plate is laid true on masonry that is not.
const MASONRY: &str =
    "a plate that overhangs its masonry, or stands back on it, needs the designer's word before it is fixed";

/// What is said of the answer as a whole; the small print goes with a `whole` page alone.
pub(super) fn remarks(answer: &Readings, job: &Job, whole: bool) -> Remarks {
    let mut remarks = plan::remarks(job);
    remarks.verdict = Some(verdict::verdict(answer, job.units));
    if whole {
        small_print::notes(&mut remarks, answer, job.units);
    }
    if answer.masonry.is_some() {
        remarks.caution(MASONRY);
    } else if answer.moves.iter().any(|m| m.sure) {
        remarks.caution(BURIED_SERVICES);
    }
    remarks
}

/// Fills the page; every reading is on a `whole` one alone.
pub(super) fn body(page: &mut Page, answer: &Readings, job: &Job, whole: bool) {
    let units = job.units;
    misreads::explain(page, answer, units);
    misreads::tape_next(page, answer, units);
    moves::moves(page, answer, units);
    moves::overhangs(page, answer, units);
    tables::corners(page, answer, units);
    tables::sides(page, answer, units);
    page.heading("As understood");
    plan::echo(page, job);
    for (i, tape) in answer.tapes.iter().enumerate() {
        page.fact(if i == 0 { "Tape" } else { "Second tape" }, tape_words(tape, units));
    }
    if let Some(limit) = &answer.limit {
        page.fact("Limit", limit_words(limit, units));
    }
    if whole {
        tables::readings(page, answer, units);
        tables::corrections(page, answer, units);
    }
    page.data(|| records::records(answer));
}

fn tape_words(tape: &TapeAnswer, units: Units) -> String {
    let mut parts = vec![format!("class {}, read to ±{}", tape.class, units.small(tape.reading.0))];
    if tape.ends.0 > 0.0 {
        parts.push(format!("its ends held to ±{}", units.small(tape.ends.0)));
    }
    if tape.from_hook {
        parts.push("from the hook".to_owned());
    }
    let mut done = vec![parts.join(", ")];
    done.push(if tape.held_on.0 > 0.0 {
        format!("{} held on, taken off every reading", units.with_unit(tape.held_on.0))
    } else {
        "nothing held on".to_owned()
    });
    if let Some(temperature) = tape.temperature_c {
        done.push(format!("corrected for {} °C", decimal(temperature.0, 1)));
    }
    if let Some(sag) = tape.sag {
        let spans = if sag.spans == 1 { String::new() } else { format!(" in {} spans", sag.spans) };
        done.push(format!("corrected for sag{spans}, {} g/m pulled at {} N", sag.mass, sag.pull));
    }
    done.join("; ")
}

fn limit_words(limit: &LimitAnswer, units: Units) -> String {
    match (limit.own, limit.preset) {
        (_, Some(preset)) => format!(
            "{}: {} ({}; seen on: {}); {}; {}",
            preset.key,
            preset.says,
            preset.source.publication,
            preset.source.seen.words(),
            preset.law.words(),
            limit.taken_as
        ),
        (Some(own), None) => format!("{} {}", units.small(own.0), limit.taken_as),
        (None, None) => limit.taken_as.to_owned(),
    }
}

/// The first few of a list, and how many more there are.
fn few(items: &[String], most: usize) -> Vec<String> {
    if items.len() <= most + 1 {
        return items.to_vec();
    }
    let mut few = items[..most].to_vec();
    few.push(format!("{} more", items.len() - most));
    few
}

/// A slip in words: `about 100 mm short`.
fn slip_words(slip: f64, units: Units) -> String {
    let way = if slip < 0.0 { "short" } else { "long" };
    format!("about {} {way}", units.short(slip.abs()))
}
