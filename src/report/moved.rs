//! What has moved between two bookings of taped lines.

use crate::answer::Moved;
use crate::length::Units;
use crate::page::{Page, Rows, Table, each};

/// Puts above the body what each line that was taped both times was and is.
pub fn moved(page: &mut Page, moved: &Moved, units: Units) {
    let mut own = Page::new();
    own.heading(format!("Moved since {}", moved.since));
    if moved.lines.is_empty() {
        own.paragraph("no line was taped both times");
    }
    own.table(
        Table::of(&moved.lines)
            .words("Line", |line| &line.line)
            .numbers(units.head("Then"), |line| units.figure(line.then.0))
            .numbers(units.head("Now"), |line| units.figure(line.now.0))
            .numbers("Change", |line| units.difference(line.change.0).unwrap_or_else(|| "–".to_owned())),
    );
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
