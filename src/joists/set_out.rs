//! Joists set out: marks, lengths, trimmers, noggings, hangers and what goes under.

use super::answer::{Joist, JoistVerdict, Joists, Pieces, Trimmer};
use super::bays;
use super::error::JoistsError;
use super::input::{Question, Rows};
use super::layout::{self, HAIR};
use super::levels::{self, Readings};
use super::rows;
use super::setting::Setting;
use crate::geometry::Mm;
use crate::length::{Units, at_most, not_negative, positive, usable};
use crate::plan::Footprint;
use crate::rules::STRUTTING;

/// The most openings, and the most rows of noggings.
const MOST_OPENINGS: usize = 50;
const MOST_ROWS: usize = 20;

/// Sets out the joists between two supports of `footprint`.
pub fn joists(footprint: &Footprint, question: &Question, units: Units) -> Result<Joists, JoistsError> {
    check(question)?;
    let turned = bays::turn(footprint, question)?;
    let bays = bays::bays(footprint, turned, question)?;
    let stands = layout::layout(question, &bays)?;
    let setting = Setting { footprint, question, turned, bays: &bays, stands: &stands };
    let (mut joists, trimmers) = (setting.joists()?, setting.trimmers()?);
    let readings = Readings::new(footprint, turned, question, units)?;
    let levels = if readings.none() {
        None
    } else {
        let found: Vec<_> = joists.iter().map(|joist| setting.heights(joist, &readings)).collect();
        levels::level(question, &mut joists, &found, units)?
    };
    let noggings = rows::rows(question, footprint, &bays, &stands);
    let checks = setting.checks();
    let short = joists.iter().flat_map(|joist| [&joist.from, &joist.to]);
    let short = short.filter_map(|end| end.seat.as_ref()).any(|seat| !seat.made_up);
    let names = |sides: &[usize]| sides.iter().map(|side| footprint.side_name(*side)).collect();
    Ok(Joists {
        verdict: if checks.iter().any(|check| !check.kept) {
            JoistVerdict::AgainstRule
        } else if short {
            JoistVerdict::Short
        } else {
            JoistVerdict::SetOut
        },
        from: names(&question.from),
        to: names(&question.to),
        set_out_from: setting.start(),
        mark: question.mark,
        centres: Mm(question.centres),
        widest: layout::widest(&stands),
        thickness: Mm(question.thickness),
        wall: Mm(question.wall),
        clear: Mm(question.clear),
        bears_on: question.bears_on,
        spans: setting.spans(),
        pieces: pieces(&joists, &trimmers, noggings.iter().flat_map(|row| &row.lengths)),
        hangers: setting.hangers(&trimmers),
        bearers: setting.bearers(),
        joists,
        trimmers,
        noggings,
        strutting: (question.rows == Rows::Published).then_some(STRUTTING),
        levels,
        down_to: question.fall.map(|(_, support)| support),
        rule: question.rule,
        checks,
    })
}

/// Whether the figures can be used at all.
fn check(question: &Question) -> Result<(), JoistsError> {
    let Question { centres, thickness, wall, bearing, .. } = *question;
    positive("centres", centres)?;
    positive("joist thickness", thickness)?;
    for (what, value) in [
        ("wall thickness", wall),
        ("clear distance from the wall", question.clear),
        ("bearing", bearing),
        ("hanger gap", question.gap),
        ("bearer", question.bearer),
        ("hanger seat", question.seat.unwrap_or(0.0)),
        ("how near a stack has to come", question.within),
    ] {
        not_negative(what, value)?;
    }
    if let Some(every) = question.bolts {
        positive("bolt centres", every)?;
    }
    if centres <= thickness {
        return Err(JoistsError::Centres { centres, thickness });
    }
    if bearing > wall + HAIR {
        return Err(JoistsError::Bearing { bearing, wall });
    }
    if let Some((n, _)) = question.fall.filter(|(n, _)| !(1.0..=10_000.0).contains(n)) {
        return Err(JoistsError::Fall(n));
    }
    if let Rows::Count(rows) = question.rows {
        at_most("rows of noggings", rows, MOST_ROWS)?;
    }
    at_most("openings", question.openings.len(), MOST_OPENINGS)?;
    for opening in &question.openings {
        for (what, value) in [("along", opening.along), ("out", opening.out)] {
            usable(format!("{}, {what}", opening.name), value)?;
        }
        for (what, value) in [("width", opening.width), ("length", opening.length)] {
            positive(format!("{}, {what}", opening.name), value)?;
        }
    }
    for at in &question.doubled {
        usable("doubled joist", *at)?;
    }
    Ok(())
}

/// What to cut, alike together, the longest first.
fn pieces<'a>(joists: &[Joist], trimmers: &[Trimmer], noggings: impl Iterator<Item = &'a Mm>) -> Vec<Pieces> {
    let all = joists.iter().map(|joist| ("joist", joist.length, 1));
    let all = all.chain(trimmers.iter().map(|trimmer| ("trimmer", trimmer.length, trimmer.count)));
    let all = all.chain(noggings.map(|length| ("nogging", *length, 1)));
    let mut pieces: Vec<Pieces> = vec![];
    for (what, length, count) in all {
        match pieces.iter_mut().find(|p| p.what == what && (p.length.0 - length.0).abs() < 0.05) {
            Some(alike) => alike.count += count,
            None => pieces.push(Pieces { what, length, count }),
        }
    }
    pieces.sort_by(|a, b| b.length.0.total_cmp(&a.length.0));
    pieces
}
