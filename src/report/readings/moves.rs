//! What to move, in plain words, whole sides first; the plate on the masonry.

use super::slips::within;
use crate::length::Units;
use crate::page::{Page, Table};
use crate::readings::{COVERAGE, Component, FitAnswer, HouseOut, LaidBy, Overhang, Readings};
use crate::words::and_list;

/// The parts that move, what stays, where the house itself is out; then what that comes to.
pub(super) fn moves(page: &mut Page, answer: &Readings, units: Units) {
    let Some(fit) = answer.fit.as_ref().filter(|_| answer.masonry.is_none()) else { return };
    let own =
        || answer.moves.iter().flat_map(|m| own_parts(&m.components).map(move |part| (&m.corner, part)));
    let nothing = answer.side_moves.is_empty() && own().next().is_none();
    if nothing && answer.house.is_empty() {
        return;
    }
    page.heading(if nothing {
        format!("Nothing to move, {}", laid(fit))
    } else {
        format!("Move, {}", laid(fit))
    });
    let give = |sd: f64| format!("(give or take {})", units.short(COVERAGE * sd));
    for side in &answer.side_moves {
        let way = if side.distance.0 > 0.0 { "out" } else { "in" };
        let by = units.short(side.distance.0.abs());
        page.paragraph(format!("  {}  {by} {way}, both ends {}", side.side, give(side.sd.0)));
    }
    for (corner, part) in own() {
        let by = units.short(part.distance.0.abs());
        page.paragraph(format!("  {corner}   {by} {} {}", part.way(), give(part.sd.0)));
    }
    stays(page, answer, units);
    for house in &answer.house {
        page.paragraph(format!("  {}", house_words(house, units)));
    }
    if let Some(after) = &answer.after {
        let but = if answer.house.is_empty() { "" } else { ", the house's own error apart" };
        page.fact(
            "After that",
            format!(
                "square within {}, sides within {}{but}",
                within(after.square.0, units),
                within(after.size.0, units)
            ),
        );
    }
}

/// The parts of a corner's move that it makes by itself.
fn own_parts(components: &[Component; 2]) -> impl Iterator<Item = &Component> {
    components.iter().filter(|part| part.told && part.with_side.is_none())
}

/// The corners that stay, and how near their places all of them are.
fn stays(page: &mut Page, answer: &Readings, units: Units) {
    let stays: Vec<_> = answer.moves.iter().filter(|m| m.components.iter().all(|c| !c.told)).collect();
    let names: Vec<String> = stays
        .iter()
        .map(|m| m.corner.clone())
        .filter(|corner| answer.house.iter().all(|house| house.corner != *corner))
        .collect();
    if names.is_empty() {
        return;
    }
    let off = |name: &String| {
        let own = answer.moves.iter().filter(move |m| m.corner == *name);
        own.flat_map(|m| &m.components).map(|c| c.distance.0.abs()).fold(0.0, f64::max)
    };
    let most = within(names.iter().map(off).fold(0.0, f64::max), units);
    let (verb, all) = if names.len() == 1 { ("stays", "") } else { ("stay", "all ") };
    page.paragraph(format!("  {} {verb}: {all}within {most}", and_list(&names)));
}

/// A corner where the house is out: `D stays: the house wall DA stands 24 mm into the plan there; cut CD to 5976`.
fn house_words(house: &HouseOut, units: Units) -> String {
    let HouseOut { corner, side, into, run, cut, .. } = house;
    let stands = if into.0 > 0.0 { "into" } else { "back from" };
    format!(
        "{corner} stays: the house wall {side} stands {} {stands} the plan there; make {run} {}",
        units.short(into.0.abs()),
        units.figure(units.on_tape(cut.0))
    )
}

fn laid(fit: &FitAnswer) -> String {
    match &fit.side {
        Some(side) if fit.kind == LaidBy::Fewest => format!("house side {side} held"),
        Some(side) => format!("{side} held"),
        None if fit.kind == LaidBy::Free => "laid free (least squares)".to_owned(),
        None if fit.kind == LaidBy::Fewest => "the rest held".to_owned(),
        None => "laid least-worst".to_owned(),
    }
}

/// Each side of the masonry against the plan, and the plate's overhang or setback at both its ends.
pub(super) fn overhangs(page: &mut Page, answer: &Readings, units: Units) {
    let Some(masonry) = &answer.masonry else { return };
    let limit = masonry.limit.map_or_else(String::new, |limit| format!(", limit {}", units.small(limit.0)));
    let held = match answer.fit.as_ref().and_then(|fit| fit.side.as_ref()) {
        Some(side) => format!(", held on {side}"),
        None => String::new(),
    };
    page.heading(format!("The plate on the masonry{held}: + overhangs, − stands back{limit}"));
    let small = |name: &str| units.small_head(name);
    let end = |side: &Overhang, at: usize| side.side.chars().nth(at).map_or_else(String::new, String::from);
    let table = Table::of(answer.overhangs.iter().zip(&answer.sides))
        .words("Side", |(side, _)| &side.side)
        .numbers(small("Long"), |(_, length)| units.small_signed(length.difference.0))
        .numbers(small("±"), |(_, length)| units.small_figure(COVERAGE * length.sd.0))
        .words("At", |(side, _)| end(side, 0))
        .numbers(small("Plate"), |(side, _)| units.small_signed(side.start.0))
        .words("At", |(side, _)| end(side, 1))
        .numbers(small("Plate"), |(side, _)| units.small_signed(side.end.0))
        .numbers(small("±"), |(side, _)| units.small_figure(COVERAGE * side.sd[0].0.max(side.sd[1].0)))
        .words("Says", |(side, _)| match side.over {
            Some(_) if side.too_close == Some(true) => "too close",
            Some(true) => "over the limit",
            Some(false) => "within",
            None => "",
        });
    page.table(table);
}
