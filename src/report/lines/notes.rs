//! What is to be said at the end of the page of lines.

use crate::job::Job;
use crate::length::Units;
use crate::lines::{BoardKind, Lines, sag_limit};
use crate::page::{Detail, Remarks};
use crate::plan::Turn;
use crate::report::cautions::BURIED_SERVICES;
use crate::report::figures;
use crate::words::and_list;

/// What is taken for granted, and the cautions.
pub(super) fn notes(remarks: &mut Remarks, answer: &Lines, job: &Job) {
    let units = job.units;
    if job.lines.setback_assumed {
        remarks.note(format!(
            "a setback of {} is assumed; --setback says otherwise",
            units.with_unit(answer.setback.0)
        ));
    }
    if answer.wall.width.0 > 0.0 && job.lines.wall.outline.is_none() {
        remarks.note(format!(
            "the plan is taken to be the {} face; --outline names another",
            answer.wall.outline
        ));
    }
    against_house(remarks, job);
    remarks.caution(BURIED_SERVICES);
    if answer.profiles.iter().any(|profile| profile.kind == BoardKind::HouseWall) {
        remarks.caution("check the house wall for cables and pipes before driving nails into it");
    }
    if answer.wall.overhangs_footing {
        remarks.caution("the footing leaves part of the wall with nothing under it: ask the designer");
    } else if answer.wall.faces.iter().any(|face| face.face.starts_with("footing")) {
        remarks.caution(
            "the footing's width and place are the designer's and the local code's: follow the drawing",
        );
    }
}

/// What belongs to the checks between the strings, and to the strings themselves.
pub(super) fn small_print(remarks: &mut Remarks, answer: &Lines, job: &Job) {
    let mut crossings = answer.checks.rectangles.iter().flat_map(|part| &part.crossings);
    if let Some((one, other)) = crossings.find_map(|name| name.split_once('×')) {
        remarks.note(format!(
            "{one}×{other}: where the lines along {one} and {other} cross, or where one meets the house wall"
        ));
    }
    past_tape(remarks, answer, job);
}

/// What the tape doesn't reach between the strings in one pull.
fn past_tape(remarks: &mut Remarks, answer: &Lines, job: &Job) {
    let between = answer.checks.parallel.iter().filter(|between| !job.tape.reaches(between.distance.0));
    let across = answer.checks.rectangles.iter().filter(|part| !job.tape.reaches(part.diagonal.0));
    let past: Vec<String> = between
        .map(|between| format!("{} to {}", between.lines[0], between.lines[1]))
        .chain(across.flat_map(|part| {
            let [a, b, c, d] = &part.crossings;
            [format!("{a} to {c}"), format!("{b} to {d}")]
        }))
        .collect();
    if let Some(reach) = job.tape.length.filter(|_| !past.is_empty()) {
        remarks.note(format!(
            "longer than the tape's {}: {}; tape each in two, to a mark on a string between",
            job.units.with_unit(reach),
            and_list(&past)
        ));
    }
}

/// In an inward corner the house behind one side stands along the other too: that side can hardly be a new wall.
fn against_house(remarks: &mut Remarks, job: &Job) {
    let Some(footprint) = &job.footprint else { return };
    for (i, corner) in footprint.corners().iter().enumerate() {
        let (arrives, leaves) = footprint.sides_at(i);
        let (house, new) = match (footprint.sides()[arrives].house, footprint.sides()[leaves].house) {
            (true, false) => (arrives, leaves),
            (false, true) => (leaves, arrives),
            _ => continue,
        };
        if corner.turn == Turn::Inward {
            remarks.note(format!(
                "the house behind {} stands against {} too, in the corner at {}: is {} an existing wall as well?",
                footprint.side_name(house),
                footprint.side_name(new),
                corner.name,
                footprint.side_name(new)
            ));
        }
    }
}

/// How much the longest string hangs; on a short page only where that is too much for a level.
pub(super) fn sag(remarks: &mut Remarks, answer: &Lines, units: Units, detail: Detail) {
    let Some(longest) =
        answer.lines.iter().reduce(|worst, next| if next.sag.0 > worst.sag.0 { next } else { worst })
    else {
        return;
    };
    let hangs = longest.sag.0 > sag_limit(units);
    if detail == Detail::Short && !hangs {
        return;
    }
    let string = &answer.string;
    let says = |assumed: bool| if assumed { " (assumed)" } else { "" };
    let held = format!(
        "{}{} pulled to {}{}",
        figures::weight(units, string.grams_per_metre.0),
        says(string.weight_assumed),
        figures::pull(units, string.pull.0),
        says(string.pull_assumed)
    );
    let sag = units.small(longest.sag.0);
    remarks.note(if detail == Detail::Short {
        format!("the string along {} hangs {sag} in the middle: don't take levels from it", longest.side)
    } else if hangs {
        format!(
            "a string of {held} hangs {sag} in the middle of {}: don't take levels from it; to hang no more than {} it takes {}, or a prop half way",
            longest.side,
            units.small(sag_limit(units)),
            figures::pull(units, longest.pull_for_level.0.ceil())
        )
    } else {
        format!("a string of {held} hangs {sag} in the middle of {}, the longest", longest.side)
    });
}
