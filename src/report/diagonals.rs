//! The page of check sizes: what to tape first, then every size, then the rectangles behind them.

use super::cautions::BURIED_SERVICES;
use super::{plan, sketch};
use crate::answer::Answered;
use crate::geometry::Mm;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::network::{DETECTABLE, SURELY_DETECTABLE};
use crate::page::{Block, Detail, Page, Remarks, Rows, SCREEN, Steps, Table, Verdict, each};
use crate::plan::Lies;
use crate::square::{CalledLimit, Diagonals, InPulls, RectanglePart};
use crate::words::{and_list, capital};
use crate::working;

impl Answered for Diagonals {
    fn good(&self) -> bool {
        self.limit.is_none_or(|limit| limit.called)
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let verdict = match self.limit {
            Some(limit) if !limit.called => Verdict { good: false, words: called(limit, job.units) },
            _ => Verdict { good: self.proof.fixed, words: what_to_tape(self, job) },
        };
        let mut remarks = Remarks { verdict: Some(verdict), ..Remarks::default() };
        if let Some(limit) = self.limit.filter(|limit| limit.called) {
            remarks.note(called(limit, job.units));
        }
        notes(&mut remarks, self, job, detail);
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    /// Fills the page; the rectangles are on a full page alone.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        if detail == Detail::Short {
            drawn_with_sizes(page, self, job);
            return;
        }
        plan::echo(page, job, detail);
        proof(page, self, job);
        page.heading("Check diagonals");
        page.paragraph(match job.units {
            Units::Mm | Units::M => {
                "1 shows: 1 mm on the diagonal is so many mm at the far end of its longer leg"
            }
            Units::FeetInches => {
                "1 shows: 1/16\" on the diagonal is so many 1/16\" at the far end of its longer leg"
            }
        });
        page.table(table(self, job.units));
        straight(page, self, job.units);
        if detail == Detail::Full {
            rectangles(page, self, job.units);
        }
    }

    fn rows(&self, _: Units) -> Rows {
        each(&self.diagonals)
            .column("line", |d| &d.name)
            .column("from", |d| &d.from)
            .column("to", |d| &d.to)
            .column("across_mm", |d| d.across)
            .column("down_mm", |d| d.down)
            .column("length_mm", |d| d.length)
            .column("tape_mm", |d| d.tape)
            .column("lies", |d| d.lies)
            .column("proof", |d| d.proof)
            .column("spare", |d| d.spare)
            .column("mm_at_end_per_mm", |d| d.mm_at_end_per_mm)
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(footprint) = &job.footprint else { return vec![] };
        working::diagonals::steps(self, footprint, job.units)
    }
}

/// The plan drawn, and what the tape shows along each line, by where they lie.
fn drawn_with_sizes(page: &mut Page, answer: &Diagonals, job: &Job) {
    let Some(footprint) = &job.footprint else { return };
    let units = job.units;
    let slanting = answer.diagonals.iter().map(|d| (&d.name, d.length.0, lies(d.lies, d.in_reach)));
    let straight = answer.straight_checks.iter().map(|d| (&d.name, d.length.0, lies(d.lies, d.in_reach)));
    let lines: Vec<_> = slanting.chain(straight).collect();
    let mut facts = Page::new();
    past_tape(&mut facts, answer, job);
    for where_to in ["inside", "outside", "past tape", "blocked"] {
        let there = lines.iter().filter(|(.., lies)| *lies == where_to);
        let sizes: Vec<String> =
            there.map(|(name, length, _)| format!("{name} {}", units.figure(*length))).collect();
        if !sizes.is_empty() {
            facts.fact(capital(where_to), sizes.join(", "));
        }
    }
    let taken: usize = facts
        .blocks
        .iter()
        .map(|block| match block {
            Block::Fact(name, what) => (name.len() + what.len() + 2).div_ceil(page.columns),
            _ => 1,
        })
        .sum();
    let rows = SCREEN.saturating_sub(AROUND + taken);
    page.lines(sketch::with_proof(footprint, &answer.proof.names, units, page.columns, rows));
    page.lines(vec![String::new()]);
    page.blocks.extend(facts.blocks);
}

/// Lines round a short page's drawing and facts: those of the verdict and the caution, and the blank ones.
const AROUND: usize = 6;

/// Whether the lines can tell what is asked of them.
fn called(limit: CalledLimit, units: Units) -> String {
    let small = |mm: Mm| units.small(mm.0);
    if limit.called {
        format!("these can tell a limit of {}: from {} up", small(limit.limit), small(limit.least))
    } else {
        format!(
            "No lines here can tell a limit of {}: the least is {}, taping all",
            small(limit.limit),
            small(limit.least_of_all)
        )
    }
}

/// What to tape, in one line: the sides, the proof set with its sizes, and what shows a misread.
fn what_to_tape(answer: &Diagonals, job: &Job) -> String {
    let sides = match sides_in_reach(answer, job) {
        all if all == ALL_SIDES => all.to_lowercase(),
        some => some.replacen('S', "s", 1),
    };
    let proof = sizes(answer, &answer.proof.names, job.units).join(", ");
    let first: Vec<String> = [sides, proof].into_iter().filter(|part| !part.is_empty()).collect();
    let taped = format!("tape {}", first.join(", then "));
    let words = if first.is_empty() {
        "there is no line that this tape reaches".to_owned()
    } else if answer.proof.fixed {
        let spares = sizes(answer, &answer.spares.names, job.units);
        match spares.len() {
            0 => taped,
            1 => format!("{taped}; {} shows a misread", spares[0]),
            _ => format!("{taped}; {} show a misread", and_list(&spares)),
        }
    } else {
        format!("{taped}: that does not fix the shape yet")
    };
    capital(&words)
}

/// The lines of these names with what the tape shows along each.
fn sizes(answer: &Diagonals, names: &[String], units: Units) -> Vec<String> {
    let size = |name: &String| {
        let diagonal = answer.diagonals.iter().find(|d| d.name == *name).map(|d| d.length.0);
        let straight = || answer.straight_checks.iter().find(|d| d.name == *name).map(|d| d.length.0);
        format!("{name} {}", units.figure(diagonal.or_else(straight).unwrap_or_default()))
    };
    names.iter().map(size).collect()
}

fn proof(page: &mut Page, answer: &Diagonals, job: &Job) {
    let units = job.units;
    let sizes = |names: &[String]| sizes(answer, names, units).join(", ");
    page.heading("Tape these");
    let sides = sides_in_reach(answer, job);
    match (sides.is_empty(), answer.proof.names.is_empty()) {
        (true, true) => {}
        (false, true) => {
            page.paragraph(sides);
        }
        (true, false) => {
            page.fact("The proof set", sizes(&answer.proof.names));
        }
        (false, false) => {
            page.fact(format!("{sides}, then the proof set"), sizes(&answer.proof.names));
        }
    }
    past_tape(page, answer, job);
    if let Some(sd) = answer.proof.worst_corner_sd {
        let tape = &job.tape;
        page.paragraph(format!(
            "  With the sides these fix the shape; the worst corner is good to ±{} (one standard deviation, class {} tape, read to ±{}).{}",
            spread(sd.0, units),
            tape.class,
            units.small(tape.reading),
            if answer.proof.proven { "" } else { SEARCHED }
        ));
    }
    if !answer.spares.names.is_empty() {
        page.fact("Then, to show up a misread", sizes(&answer.spares.names));
        let spares = match answer.spares.hides {
            Some(hides) => {
                let surely = hides.0 * SURELY_DETECTABLE / DETECTABLE;
                format!(
                    "  With these a misread of {} shows four times in five, one of {} practically always.",
                    units.small(hides.0),
                    units.small(surely)
                )
            }
            None => "  Even with these, some reading is not checked by the rest.".to_owned(),
        };
        page.paragraph(spares);
    }
}

/// What is said of a proof set that was searched for.
const SEARCHED: &str = " The set was searched for without trying every one.";

const ALL_SIDES: &str = "All the sides";

/// The sides to tape, in words; nothing where the tape reaches along none.
fn sides_in_reach(answer: &Diagonals, job: &Job) -> String {
    let Some(footprint) = job.footprint.as_ref().filter(|_| !answer.sides_past_tape.is_empty()) else {
        return ALL_SIDES.to_owned();
    };
    let names: Vec<String> = (0..footprint.len())
        .map(|i| footprint.side_name(i))
        .filter(|name| !answer.sides_past_tape.contains(name))
        .collect();
    match names.len() {
        0 => String::new(),
        1 => format!("Side {}", names[0]),
        _ => format!("Sides {}", and_list(&names)),
    }
}

/// How the sides that the tape doesn't reach along can be taped.
fn past_tape(page: &mut Page, answer: &Diagonals, job: &Job) {
    let figure = |mm: Mm| job.units.figure(mm.0);
    let (beyond, in_parts): (Vec<&InPulls>, Vec<&InPulls>) =
        answer.in_pulls.iter().partition(|side| side.pulls.is_empty());
    let past = format!("Longer than the tape's {}", tape_length(job));
    if !in_parts.is_empty() {
        let each: Vec<String> = in_parts
            .iter()
            .map(|side| {
                let pulls: Vec<String> = side.pulls.iter().map(|pull| figure(*pull)).collect();
                format!("{} {} as {}", side.name, figure(side.length), pulls.join(" + "))
            })
            .collect();
        page.fact(&past, each.join(", "));
        page.paragraph("  Pull a string along the whole side and tape from mark to mark on it.");
    }
    if !beyond.is_empty() {
        let names: Vec<&str> = beyond.iter().map(|side| side.name.as_str()).collect();
        page.fact(&past, format!("{}: get a longer one", and_list(&names)));
    }
}

fn tape_length(job: &Job) -> String {
    job.tape.length.map_or_else(String::new, |mm| job.units.with_unit(mm))
}

fn table(answer: &Diagonals, units: Units) -> Table {
    Table::of(&answer.diagonals)
        .words("Line", |d| &d.name)
        .numbers(units.head("Across"), |d| units.figure(d.across.0))
        .numbers(units.head("Down"), |d| units.figure(d.down.0))
        .when(units != Units::FeetInches, |table| {
            table.numbers(units.head("Exact"), |d| units.exact(d.length.0))
        })
        .numbers(units.head("Tape"), |d| units.figure(d.length.0))
        .words("Lies", |d| lies(d.lies, d.in_reach))
        .words("Use", |d| usage(d.proof, d.spare))
        .numbers("1 shows", |d| decimal(d.mm_at_end_per_mm.0, 2))
        .into()
}

/// A standard deviation, which is compared with others of its kind: to 0.01 mm.
fn spread(mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => format!("{} mm", decimal(mm, 2)),
        Units::FeetInches => units.small(mm),
    }
}

const fn lies(lies: Lies, in_reach: bool) -> &'static str {
    match (lies, in_reach) {
        (Lies::Blocked, _) => "blocked",
        (_, false) => "past tape",
        (lies, true) => lies.name(),
    }
}

const fn usage(proof: bool, spare: bool) -> &'static str {
    match (proof, spare) {
        (true, _) => "proof",
        (_, true) => "spare",
        _ => "",
    }
}

fn straight(page: &mut Page, answer: &Diagonals, units: Units) {
    if answer.straight_checks.is_empty() {
        return;
    }
    let list: Vec<String> = answer
        .straight_checks
        .iter()
        .map(|check| {
            let mut words = vec![lies(check.lies, check.in_reach)];
            words.extend(Some(usage(check.proof, check.spare)).filter(|usage| !usage.is_empty()));
            format!("{} {} ({})", check.name, units.figure(check.length.0), words.join(", "))
        })
        .collect();
    page.heading("Straight checks, corners on one line");
    page.paragraph(list.join(", "));
}

fn rectangles(page: &mut Page, answer: &Diagonals, units: Units) {
    page.heading("Rectangles, two right triangles each");
    let corners =
        |part: &RectanglePart| -> Vec<String> { part.corners.iter().map(|v| v.words(units)).collect() };
    page.table(
        Table::of(answer.rectangles.iter().enumerate())
            .numbers("No", |(i, _)| (i + 1).to_string())
            .numbers(units.head("Across"), |(_, part)| units.figure(part.across.0))
            .numbers(units.head("Down"), |(_, part)| units.figure(part.down.0))
            .numbers(units.head("Diagonal"), |(_, part)| units.figure(part.diagonal.0))
            .words("Corners", |(_, part)| corners(part).join(", ")),
    );
}

fn notes(remarks: &mut Remarks, answer: &Diagonals, job: &Job, detail: Detail) {
    if !answer.proof.fixed {
        remarks.note(format!(
            "the lines that can be taped don't fix the shape: {}",
            match job.tape.length {
                Some(_) => format!("a tape longer than {} would", tape_length(job)),
                None => "the house is in the way of the others; use 3-4-5 at the corners (pegline corners)"
                    .to_owned(),
            }
        ));
    }
    if detail == Detail::Short {
        return;
    }
    let slanting = answer.diagonals.iter().map(|d| (&d.name, d.lies));
    let straight = answer.straight_checks.iter().map(|d| (&d.name, d.lies));
    let blocked: Vec<String> = slanting
        .chain(straight)
        .filter(|(_, lies)| *lies == Lies::Blocked)
        .map(|(name, _)| name.clone())
        .collect();
    if !blocked.is_empty() {
        remarks.note(format!("blocked by the house: {}", and_list(&blocked)));
    }
    let past: Vec<String> = answer
        .diagonals
        .iter()
        .filter(|d| !d.in_reach && d.lies != Lies::Blocked)
        .map(|d| d.name.clone())
        .collect();
    if !past.is_empty() {
        remarks.note(format!(
            "longer than the tape's {}: {}; along a string from corner to corner, with marks on it, one can be taped in parts",
            tape_length(job),
            and_list(&past)
        ));
    }
}
