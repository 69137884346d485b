//! The page of joists: marks and lengths, what goes under each, what to cut.

mod sentences;
mod under;

use super::cautions::PACKING_AND_BEARINGS;
use super::cuts::bars_to_cut;
use super::plan;
use crate::answer::{Answered, RoofJoists};
use crate::job::{Job, JoistsJob};
use crate::joists::{Held, Joist, Joists, Mark};
use crate::length::Units;
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::rules::CLEAR_OF_WALL;
use crate::words::{and_list, capital};
use crate::working;

/// Said with every answer: nothing here sizes a joist.
const ENGINEER: &str = "sizes, spans, trimming, hangers and fixings of joists are the engineer's: nothing here sizes a joist; don't cut the \
existing roof, or bear on or hang from an existing lintel, steel or wall, without the engineer's word";

impl Answered for RoofJoists {
    fn good(&self) -> bool {
        self.set_out.verdict.good()
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let mut remarks = Remarks::default();
        let words = sentences::sentences(&self.set_out, job.units).into_iter().next().unwrap_or_default();
        remarks.verdict = Some(Verdict { good: self.good(), words: capital(&words) });
        if let Some(asked) = &job.joists {
            notes(&mut remarks, &self.set_out, asked, job.units);
        }
        remarks.caution(ENGINEER);
        if detail != Detail::Short || self.set_out.levels.is_some() {
            remarks.caution(PACKING_AND_BEARINGS);
        }
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let short = detail == Detail::Short;
        let (units, answer) = (job.units, &self.set_out);
        for sentence in sentences::sentences(answer, units).into_iter().skip(1) {
            page.paragraph(capital(&sentence));
        }
        plan::echo(page, job, detail);
        if let Some(asked) = job.joists.as_ref().filter(|_| !short) {
            as_given(page, answer, asked, job);
        }
        page.heading(format!("Marks and lengths, in one pull from {}", answer.set_out_from));
        if short {
            marks_in_lines(page, answer, units);
        } else {
            page.table(marks(answer, units));
        }
        if !answer.trimmers.is_empty() {
            page.heading("Trimmers");
            page.table(trimmers(answer, units));
        }
        for row in &answer.noggings {
            let lengths: Vec<String> = row.lengths.iter().map(|mm| units.figure(mm.0)).collect();
            let lengths = lengths.chunk_by(|a, b| a == b).map(|alike| match alike {
                [one] => one.clone(),
                _ => format!("{} × {}", alike.len(), alike[0]),
            });
            page.fact(
                format!("Noggings to {}", row.to),
                format!(
                    "on a line {} out from {}, one on either side of it in turn: {}",
                    units.with_unit(row.at.0),
                    and_list(&answer.from),
                    lengths.collect::<Vec<_>>().join(", ")
                ),
            );
        }
        under::under(page, self, job, detail);
        if !short {
            page.heading("What to cut");
            page.table(pieces(answer, units));
        }
        let hangers: Vec<String> = answer
            .hangers
            .iter()
            .map(|hangers| format!("{} for {}", hangers.count, units.fine(hangers.width.0)))
            .collect();
        if !hangers.is_empty() {
            page.fact("Hangers", hangers.join(", "));
        }
        for bearer in &answer.bearers {
            let bolts = bearer.bolts.map_or_else(String::new, |bolts| format!(", {bolts} bolts"));
            page.fact(
                format!("Bearer on {}", bearer.side),
                format!("{}{bolts}", units.with_unit(bearer.length.0)),
            );
        }
        if let Some(cut) = &self.cut {
            bars_to_cut(page, cut, units, detail);
        }
    }

    /// The rows for a spreadsheet, lengths in mm: each joist.
    fn rows(&self, units: Units) -> Rows {
        each(&self.set_out.joists)
            .column("joist", |joist| &joist.name)
            .column("role", |joist| joist.role)
            .column("mark_mm", |joist| joist.mark)
            .column("from", |joist| &joist.from.on)
            .column("from_held", |joist| joist.from.held)
            .column("from_up_mm", |joist| joist.from.seat.as_ref().map(|seat| seat.up))
            .column("from_packers_mm", |joist| joist.from.seat.as_ref().map(|seat| &seat.packers))
            .column("to", |joist| &joist.to.on)
            .column("to_held", |joist| joist.to.held)
            .column("to_corner", |joist| joist.to.from_corner)
            .column("to_mark_mm", |joist| joist.to.mark)
            .column("to_up_mm", |joist| joist.to.seat.as_ref().map(|seat| seat.up))
            .column("to_packers_mm", |joist| joist.to.seat.as_ref().map(|seat| &seat.packers))
            .column("length_mm", |joist| joist.length)
            .when(units == Units::FeetInches, |rows| {
                rows.column("length", |joist| units.figure(joist.length.0))
            })
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        job.joists
            .as_ref()
            .map_or_else(Vec::new, |asked| working::joists::steps(&self.set_out, &asked.question, job.units))
    }
}

/// Echoes what was given, and what was taken for it: a slip of the keys shows here.
fn as_given(page: &mut Page, answer: &Joists, asked: &JoistsJob, job: &Job) {
    let (units, question) = (job.units, &asked.question);
    page.fact(
        "Joists",
        format!(
            "{} thick, {} from one to the next, {} clear of the walls beside them; new walls {} thick",
            units.fine(answer.thickness.0),
            units.centres(answer.centres.0),
            units.fine(answer.clear.0),
            units.fine(answer.wall.0)
        ),
    );
    let on = |held: Held| -> Vec<String> {
        let mut sides = vec![];
        for joist in &answer.joists {
            for end in
                [&joist.from, &joist.to].into_iter().filter(|end| end.held == held && end.mark.is_some())
            {
                if !sides.contains(&end.on) {
                    sides.push(end.on.clone());
                }
            }
        }
        sides
    };
    let (hung, bears) = (on(Held::Hung), on(Held::Bears));
    if !hung.is_empty() {
        let bearer = match question.bearer {
            thick if thick > 0.0 => format!(" on a bearer {} thick", units.fine(thick)),
            _ => String::new(),
        };
        let gap = match question.gap {
            gap if gap > 0.0 => format!("{} short of", units.fine(gap)),
            _ => "tight to".to_owned(),
        };
        page.fact("Hung", format!("on {}, in hangers{bearer}, cut {gap} their backs", and_list(&hung)));
    }
    if !bears.is_empty() {
        let what = match answer.bears_on {
            crate::joists::BearsOn::Timber => "timber",
            crate::joists::BearsOn::Masonry => "masonry",
            crate::joists::BearsOn::Steel => "steel",
        };
        page.fact("Bearing", format!("{} on {what} on {}", units.fine(question.bearing), and_list(&bears)));
    }
    let spans: Vec<String> = answer
        .spans
        .iter()
        .map(|span| format!("{} to {} {} ({})", span.from, span.to, units.figure(span.span.0), span.joists))
        .collect();
    page.fact("Clear spans, and how many joists", spans.join(", "));
    page.fact("A mark is", edge(answer.mark));
}

/// What of a joist its mark is.
const fn edge(mark: Mark) -> &'static str {
    match mark {
        Mark::Near => "the near edge: the joist lies beyond it",
        Mark::Far => "the far edge: the joist lies this side of it",
        Mark::Centre => "the middle of the joist",
    }
}

/// Joists beside each other that end on the same wall and are as long, in a line each.
fn marks_in_lines(page: &mut Page, answer: &Joists, units: Units) {
    let alike = |a: &Joist, b: &Joist| {
        a.to.on == b.to.on && a.to.from_corner == b.to.from_corner && a.length == b.length
    };
    for row in answer.joists.chunk_by(alike) {
        let (first, last) = (&row[0], &row[row.len() - 1]);
        let names =
            if row.len() == 1 { first.name.clone() } else { format!("{} to {}", first.name, last.name) };
        let figures = |marks: Vec<f64>| marks.into_iter().map(|mm| units.figure(mm)).collect::<Vec<_>>();
        let here = figures(row.iter().map(|joist| joist.mark.0).collect());
        let there = figures(row.iter().filter_map(|joist| Some(joist.to.mark?.0)).collect());
        let there = match first.to.from_corner {
            Some(corner) if there == here => format!("; the same from {corner}"),
            Some(corner) => format!("; from {corner} {}", there.join(", ")),
            None => String::new(),
        };
        page.fact(
            format!("{names} to {}, {} long", first.to.on, units.with_unit(first.length.0)),
            format!("{}{there}", here.join(", ")),
        );
    }
    page.fact("A mark is", edge(answer.mark));
}

fn marks(answer: &Joists, units: Units) -> Table {
    Table::of(&answer.joists)
        .words("No", |joist| &joist.name)
        .numbers(units.head("Mark"), |joist| units.figure(joist.mark.0))
        .words("To", |joist| &joist.to.on)
        .words("From", |joist| joist.to.from_corner.map_or_else(String::new, String::from))
        .numbers(units.head("Mark there"), |joist| {
            joist.to.mark.map_or_else(String::new, |mark| units.figure(mark.0))
        })
        .numbers(units.head("Length"), |joist| units.figure(joist.length.0))
        .into()
}

fn trimmers(answer: &Joists, units: Units) -> Table {
    Table::of(&answer.trimmers)
        .words("Opening", |trimmer| &trimmer.opening)
        .numbers(units.head("Out"), |trimmer| units.figure(trimmer.at.0))
        .numbers(units.head("Length"), |trimmer| units.figure(trimmer.length.0))
        .numbers("Side by side", |trimmer| trimmer.count.to_string())
        .into()
}

fn pieces(answer: &Joists, units: Units) -> Table {
    Table::of(&answer.pieces)
        .words("What", |piece| piece.what)
        .numbers("How many", |piece| piece.count.to_string())
        .numbers(units.head("Length"), |piece| units.figure(piece.length.0))
        .into()
}

fn notes(remarks: &mut Remarks, answer: &Joists, asked: &JoistsJob, units: Units) {
    if asked.assumed.thickness {
        remarks.note(format!(
            "no thickness of joist was given, so {} is taken: --thickness says otherwise",
            units.fine(answer.thickness.0)
        ));
    }
    if asked.assumed.wall {
        remarks.note(
            "no thickness of wall was given: new walls are taken as thick as the bearing, so that joists end at the outline; \
             --wall-thickness says otherwise",
        );
    }
    if !(CLEAR_OF_WALL.least..=CLEAR_OF_WALL.most).contains(&answer.clear.0) {
        remarks.note(format!(
            "{} ({}; {})",
            CLEAR_OF_WALL.says,
            CLEAR_OF_WALL.source.publication,
            CLEAR_OF_WALL.source.seen.words()
        ));
    }
    if answer.widest.0 > answer.centres.0 + 0.05 {
        remarks.note(format!(
            "two joists beside each other are {} apart, more than the centres asked for",
            units.fine(answer.widest.0)
        ));
    }
    if answer.joists.iter().any(|joist| joist.to.mark.is_some_and(|mark| mark.0 < 0.0)) {
        remarks.note(
            "a mark of less than 0 lies before its corner, over the end of the wall that turns off there",
        );
    }
    if let Some(rule) = answer.rule {
        let (publication, seen) = (rule.source.publication, rule.source.seen.words());
        remarks.note(format!("rule {}: {} ({publication}; {seen})", rule.key, rule.says));
    }
    if let Some(strutting) = answer.strutting {
        let (publication, seen) = (strutting.source.publication, strutting.source.seen.words());
        remarks.note(format!("{} ({publication}; {seen})", strutting.says));
    }
}
