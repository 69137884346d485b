//! What goes with the plates: anchors, damp-proof course, fixings, and what to know about the list.

use super::timber::{NO_PRICES, all_taken};
use crate::job::Job;
use crate::length::Units;
use crate::page::{Detail, Page, Remarks, Table};
use crate::plates::{Layer, Piece, Plates, Trouble};
use crate::rules::{DPC_LAP, SPLICE_LAP, STRAP_SPACING, Seen};
use crate::words::count;

/// The anchors of each piece.
pub(super) fn anchors(page: &mut Page, answer: &Plates, job: &Job) {
    let units = job.units;
    let Some(rule) = &answer.anchor_rule else { return };
    page.heading(format!("Anchors, {} in all", answer.anchors.len()));
    let of_plate = answer.runs.iter().filter(|run| run.layer == Layer::Plate);
    let at = |piece: &Piece| -> Vec<String> {
        let own = answer.anchors.iter().filter(|anchor| anchor.piece == piece.name);
        own.map(|anchor| units.figure(anchor.at.0)).collect()
    };
    page.table(
        Table::of(of_plate.flat_map(|run| &run.pieces))
            .words("Piece", |piece| &piece.name)
            .numbers("How many", |piece| at(piece).len().to_string())
            .words(units.head("From the run's start"), |piece| at(piece).join(", ")),
    );
    let rule_words = match rule.set {
        Some(set) => format!(
            "{} ({}, {}): {}",
            set.key.to_uppercase(),
            set.source.publication,
            set.source.seen.words(),
            set.says
        ),
        None => "your own".to_owned(),
    };
    let figure = |mm: f64| units.with_unit(mm);
    let doors = job.plates.as_ref().is_some_and(|options| !options.openings.is_empty());
    let across = if doors { ", not counted across a door, where the plate is cut out" } else { "" };
    page.fact(
        "Rule",
        format!(
            "{rule_words}; here {} to {} apart, {} to {} from each end{across}",
            figure(rule.apart),
            figure(rule.spacing),
            figure(rule.edge),
            figure(rule.end)
        ),
    );
}

/// The pieces whose anchors can't keep the rule.
fn anchor_troubles(remarks: &mut Remarks, answer: &Plates, units: Units) {
    let figure = |mm: f64| units.with_unit(mm);
    for trouble in &answer.anchor_troubles {
        let part = format!("{}, from {} to {}", trouble.piece, figure(trouble.from.0), figure(trouble.to.0));
        remarks.note(match trouble.problem {
            Trouble::TooShort => format!("{part}: too short for two anchors by this rule; ask the designer"),
            Trouble::UnderStud => format!(
                "{part}: no places clear of the studs keep the rule; the anchors shown may be under a stud"
            ),
        });
    }
}

/// The damp-proof course and the temporary fixings.
pub(super) fn dpc(page: &mut Page, answer: &Plates, units: Units) {
    let dpc = &answer.dpc;
    page.heading("Under and through the plate");
    let rolls = match (dpc.roll, dpc.rolls) {
        (Some(roll), Some(rolls)) => format!(
            "; {} of {}",
            count(usize::try_from(rolls).unwrap_or(usize::MAX), "roll"),
            units.with_unit(roll.0)
        ),
        _ => String::new(),
    };
    let words = format!(
        "{} wide, {} under the plate and {} at corners of {}, {} in all{rolls}",
        units.with_unit(dpc.width.0),
        units.with_unit(dpc.under.0),
        count(dpc.corner_laps, "lap"),
        units.with_unit(dpc.lap.0),
        units.with_unit(dpc.strip.0)
    );
    page.fact("Damp-proof course", words);
    if let Some(fixings) = answer.fixings {
        page.fact(
            "Temporary fixings",
            format!(
                "{}, one at each end of a piece and at most {} apart (common practice, no source)",
                fixings.count,
                units.with_unit(fixings.every.0)
            ),
        );
    }
}

/// The straps along the top plate.
pub(super) fn straps(page: &mut Page, answer: &Plates, units: Units) {
    let Some(straps) = answer.straps else { return };
    let source = match straps.source {
        Some(source) => format!(" ({}; {}; {})", source.publication, STRAP_SPACING.says, source.seen.words()),
        None => String::new(),
    };
    page.fact(
        "Straps",
        format!(
            "{} along the top plate, one at each end of a run and at most {} apart{source}",
            straps.count,
            units.with_unit(straps.every.0)
        ),
    );
}

/// What to know about the list.
pub(super) fn notes(remarks: &mut Remarks, answer: &Plates, job: &Job, detail: Detail) {
    let whole = detail != Detail::Short;
    anchor_troubles(remarks, answer, job.units);
    if whole {
        remarks.note("each run is measured from its own end at its first letter");
    }
    let binder = answer.runs.iter().any(|run| run.layer == Layer::Binder);
    if binder && whole {
        remarks.note(format!(
            "small letters: the head binder, the other way round at each corner, its splices {}",
            lap(answer, job)
        ));
    }
    if let Some(set) = answer.anchor_rule.as_ref().and_then(|rule| rule.set).filter(|_| whole)
        && let Some(usual) = set.usual
    {
        remarks.note(format!("with the {} anchors: {usual} ({})", set.key, Seen::Practice.words()));
    }
    if whole && (answer.dpc.lap.0 - DPC_LAP.value).abs() < 1e-6 {
        remarks.note(format!(
            "{} ({}; {})",
            DPC_LAP.says,
            DPC_LAP.source.publication,
            DPC_LAP.source.seen.words()
        ));
    }
    if let Some(doors) = at_doors(answer, job).filter(|_| whole) {
        remarks.note(doors);
    }
    if !answer.priced && whole {
        remarks.note(NO_PRICES);
    }
    if let Some(options) = &job.plates {
        all_taken(remarks, &options.timber, &answer.buy, job.units);
    }
}

/// How far the splices of the two layers are kept apart: by the published rule where the job is built by those of its
/// country.
fn lap(answer: &Plates, job: &Job) -> String {
    let lap = job.plates.as_ref().map_or(0.0, |options| options.splices.lap);
    let us = answer.anchor_rule.as_ref().and_then(|rule| rule.set).is_some_and(|set| set.key == "us");
    let kept = format!("{} or more from the plate's", job.units.with_unit(lap));
    let (published, says) = (SPLICE_LAP.source.publication, SPLICE_LAP.says);
    let seen = SPLICE_LAP.source.seen.words();
    if !us && job.units != Units::FeetInches {
        format!("{kept} ({})", Seen::Practice.words())
    } else if lap < SPLICE_LAP.value - 0.05 {
        format!("{kept}, less than published ({published}: {says}; {seen})")
    } else {
        format!("{kept} ({published}: {says}; {seen})")
    }
}

/// How the plate goes past the doors, if there are any.
pub(super) fn at_doors(answer: &Plates, job: &Job) -> Option<&'static str> {
    let options = job.plates.as_ref().filter(|options| !options.openings.is_empty())?;
    let binder = answer.runs.iter().any(|run| run.layer == Layer::Binder);
    Some(match (options.cut_openings, binder) {
        (false, _) => "the plate is laid whole through doors, to be cut out later; no splice lies in one",
        (true, true) => "the plate is left out at doors; no splice of the head binder lies over one",
        (true, false) => "the plate is left out at doors",
    })
}
