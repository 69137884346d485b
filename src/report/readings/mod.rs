//! The page of taped readings: the verdict, who misread, what to move; then the corners, the readings, the small print.

mod doubts;
mod judged;
mod misreads;
mod moves;
mod slips;
mod small_print;
mod tables;
mod verdict;

use super::cautions::BURIED_SERVICES;
use super::{figures, plan};
use crate::answer::Answered;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Detail, Page, Remarks, Rows, Steps, each};
use crate::readings::{LimitAnswer, Readings, TapeAnswer};
use crate::working;

/// Said where a plate is laid true on masonry that is not.
const MASONRY: &str =
    "a plate that overhangs its masonry, or stands back on it, needs the designer's word before it is fixed";

impl Answered for Readings {
    fn good(&self) -> bool {
        self.verdict.good()
    }

    /// What is said of the answer as a whole; the small print goes with a full page alone.
    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let mut remarks = Remarks { verdict: Some(verdict::verdict(self, job.units)), ..Remarks::default() };
        small_print::not_taped_so(&mut remarks, self);
        if detail == Detail::Full {
            small_print::notes(&mut remarks, self, job.units);
        }
        if self.masonry.is_some() {
            remarks.caution(MASONRY);
        } else if self.moves.iter().flat_map(|m| &m.components).any(|part| part.told) {
            remarks.caution(BURIED_SERVICES);
        }
        remarks
    }

    /// Fills the page; every reading is on a full page alone.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        misreads::explain(page, self, units);
        misreads::tape_next(page, self, units);
        moves::moves(page, self, units);
        moves::overhangs(page, self, units);
        judged::judged(page, self, units);
        if detail == Detail::Short {
            return;
        }
        tables::corners(page, self, units);
        tables::sides(page, self, units);
        page.heading("As understood");
        plan::echo(page, job, detail);
        for (i, tape) in self.tapes.iter().enumerate() {
            page.fact(if i == 0 { "Tape" } else { "Second tape" }, tape_words(tape, units));
        }
        if let Some(limit) = &self.limit {
            page.fact("Limit", limit_words(limit, units));
        }
        if detail.alone() {
            tables::readings(page, self, units);
            tables::corrections(page, self, units);
        }
    }

    fn rows(&self, _: Units) -> Rows {
        each(&self.readings)
            .column("line", |line| &line.name)
            .column("tape", |line| line.tape)
            .column("count", |line| line.count)
            .column("read_mm", |line| line.read)
            .column("spread_mm", |line| line.spread)
            .column("held_on_mm", |line| line.corrections.held_on)
            .column("temperature_mm", |line| line.corrections.temperature)
            .column("slope_mm", |line| line.corrections.slope)
            .column("sag_mm", |line| line.corrections.sag)
            .column("used_mm", |line| line.used)
            .column("sd_mm", |line| line.sd)
            .column("residual_mm", |line| line.residual)
            .column("redundancy", |line| line.redundancy)
            .column("w", |line| line.w)
            .column("suspect", |line| line.suspect)
            .column("left_out", |line| line.left_out)
            .column("slip_mm", |line| line.slip)
            .column("likely", |line| &line.likely)
            .column("hides_mm", |line| line.hides)
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(footprint) = &job.footprint else { return vec![] };
        working::readings::steps(self, footprint, job)
    }
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
        done.push(format!(
            "corrected for sag{spans}, {} pulled at {}",
            figures::weight(units, sag.mass),
            figures::pull(units, sag.pull)
        ));
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
