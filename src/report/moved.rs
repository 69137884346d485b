//! What has moved between two bookings of taped lines.

use crate::answer::Answer;
use crate::length::Units;
use crate::page::{Page, Table};

/// Puts above the body what each line that was taped both times was and is.
pub fn moved(page: &mut Page, since: &str, (then, now): (&Answer, &Answer), units: Units) {
    let (Answer::Readings(then), Answer::Readings(now)) = (then, now) else { return };
    let both = now.readings.iter().filter_map(|line| {
        then.readings.iter().find(|before| before.name == line.name).map(|before| (before, line))
    });
    let table: Table = Table::of(both)
        .words("Line", |(_, line)| &line.name)
        .numbers(units.head("Then"), |(before, _)| units.figure(before.used.0))
        .numbers(units.head("Now"), |(_, line)| units.figure(line.used.0))
        .numbers("Change", |(before, line)| {
            let change = line.used.0 - before.used.0;
            let sign = if change < 0.0 { "−" } else { "+" };
            if units.on_tape(change) == 0.0 {
                "–".to_owned()
            } else {
                format!("{sign}{}", units.short(change.abs()))
            }
        })
        .into();
    let mut own = Page::new();
    own.heading(format!("Moved since {since}"));
    if table.rows.is_empty() {
        own.paragraph("no line was taped both times");
    }
    own.table(table);
    own.lines(vec![String::new()]);
    page.blocks.splice(0..0, own.blocks);
}
