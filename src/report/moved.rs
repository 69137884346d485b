//! What has moved between two bookings of taped lines.

use crate::answer::Moved;
use crate::length::Units;
use crate::page::{Detail, Page, Rows, Table, each};
use crate::words::count;

/// Puts above the body what each line that was taped both times was and is; on a short page those that have changed.
pub fn moved(page: &mut Page, moved: &Moved, units: Units, detail: Detail) {
    let (changed, as_before): (Vec<_>, Vec<_>) =
        moved.lines.iter().partition(|line| detail != Detail::Short || units.on_tape(line.change.0) != 0.0);
    let mut own = Page::new();
    own.heading(format!("Moved since {}", moved.since));
    let alike = match (moved.lines.len(), changed.len(), as_before.len()) {
        (0, ..) => Some("no line was taped both times".to_owned()),
        (_, 0, alike) => Some(format!("nothing: {} as before", count(alike, "line"))),
        (.., 0) => None,
        (.., alike) => Some(format!("{} as before", count(alike, "other line"))),
    };
    own.table(
        Table::of(changed)
            .words("Line", |line| &line.line)
            .numbers(units.head("Then"), |line| units.figure(line.then.0))
            .numbers(units.head("Now"), |line| units.figure(line.now.0))
            .numbers("Change", |line| units.difference(line.change.0).unwrap_or_else(|| "–".to_owned())),
    );
    if let Some(alike) = alike {
        own.paragraph(alike);
    }
    own.lines(vec![String::new()]);
    page.blocks.splice(0..0, own.blocks);
}

/// The same for a spreadsheet, lengths in mm.
#[must_use]
pub fn moved_rows(moved: &Moved) -> Rows {
    each(&moved.lines)
        .column("line", |line| &line.line)
        .column("then_mm", |line| line.then)
        .column("now_mm", |line| line.now)
        .column("change_mm", |line| line.change)
        .into()
}
