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
            .numbers("Change", |line| change(line.change.0, units)),
    );
    own.lines(vec![String::new()]);
    page.blocks.splice(0..0, own.blocks);
}

fn change(mm: f64, units: Units) -> String {
    if units.on_tape(mm) == 0.0 {
        return "–".to_owned();
    }
    format!("{}{}", if mm < 0.0 { "−" } else { "+" }, units.short(mm.abs()))
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
