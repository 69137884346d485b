//! What to move, in plain words, whole sides first; the plate on the masonry.

use crate::length::Units;
use crate::page::{Page, Table};
use crate::readings::{FitAnswer, Move, Readings};
use crate::words::and_list;

/// The moves that are sure; the rest in a line.
pub(super) fn moves(page: &mut Page, answer: &Readings, units: Units) {
    let Some(fit) = &answer.fit else { return };
    let on = laid(fit);
    page.heading(if answer.masonry.is_some() {
        format!("Where the plate's corners go from the masonry's, {on}")
    } else {
        format!("What to move, {on}")
    });
    let mut any = false;
    for side in &answer.side_moves {
        page.paragraph(format!("  {}", side.words));
        any = true;
    }
    let own = |m: &&Move| m.components.iter().any(|c| c.with_side.is_none() && c.sure);
    for corner in answer.moves.iter().filter(own) {
        page.paragraph(format!("  {}", corner.words));
        any = true;
    }
    if !any {
        let most = units.short(fit.worst_move.0);
        page.paragraph(if most == units.short(0.0) {
            "  nothing".to_owned()
        } else {
            format!(
                "  nothing that is sure: no corner is more than {most} off, and the tapes can't tell that"
            )
        });
        return;
    }
    let small: Vec<String> =
        answer.moves.iter().filter(|m| !m.sure && !m.toward.is_empty()).map(|m| m.corner.clone()).collect();
    if !small.is_empty() {
        page.paragraph(format!("  {}: less than the tapes can tell", and_list(&small)));
    }
    let stay: Vec<String> =
        answer.moves.iter().filter(|m| m.toward.is_empty()).map(|m| m.corner.clone()).collect();
    if !stay.is_empty() {
        let verb = if stay.len() == 1 { "stays" } else { "stay" };
        page.paragraph(format!("  {} {verb}", and_list(&stay)));
    }
}

fn laid(fit: &FitAnswer) -> String {
    match &fit.side {
        Some(side) => format!("held on {side}"),
        None if fit.kind == "free" => "laid free (least squares)".to_owned(),
        None => "laid least-worst".to_owned(),
    }
}

/// The plate's overhang or setback at both ends of each side.
pub(super) fn overhangs(page: &mut Page, answer: &Readings, units: Units) {
    let Some(masonry) = &answer.masonry else { return };
    let limit = masonry.limit.map_or_else(String::new, |limit| format!(", limit {}", units.small(limit.0)));
    page.heading(format!("The plate on the masonry: + overhangs, − stands back{limit}"));
    let small = |name: &str| format!("{name} {}", units.small_unit());
    let mut table = Table::new()
        .words("Side")
        .words("At")
        .numbers(small("Plate"))
        .words("At")
        .numbers(small("Plate"))
        .words("Says");
    for side in &answer.overhangs {
        let mut ends = side.side.chars().map(String::from);
        let says = match side.over {
            Some(true) => "over the limit",
            Some(false) => "within",
            None => "",
        };
        table.row([
            side.side.clone(),
            ends.next().unwrap_or_default(),
            signed(units, side.start.0),
            ends.next().unwrap_or_default(),
            signed(units, side.end.0),
            says.to_owned(),
        ]);
    }
    page.table(table);
}

/// A small figure with its sign; nothing before a zero.
pub(super) fn signed(units: Units, mm: f64) -> String {
    let figure = units.small_figure(mm);
    match figure.strip_prefix('-') {
        Some(size) => format!("−{size}"),
        None if figure.chars().any(|c| matches!(c, '1'..='9')) => format!("+{figure}"),
        None => figure,
    }
}
