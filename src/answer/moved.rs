//! What has moved between two bookings of taped lines.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::readings::Readings;

/// The lines that were taped both times.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Moved {
    /// The booking they are held against.
    pub since: String,
    /// The lines, in the order they were taped last.
    pub lines: Vec<MovedLine>,
}

/// A line that was taped both times.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MovedLine {
    /// Its two corners.
    pub line: String,
    /// Its length then, corrected, mm.
    pub then: Mm,
    /// Its length now, corrected, mm.
    pub now: Mm,
    /// How much longer it is now, mm.
    pub change: Mm,
}

impl Moved {
    /// What has moved from `then`, the booking called `since`, to `now`.
    #[must_use]
    pub fn between(since: &str, then: &Readings, now: &Readings) -> Self {
        let both = now.readings.iter().filter_map(|line| {
            let before = then.readings.iter().find(|before| before.name == line.name)?;
            Some(MovedLine {
                line: line.name.clone(),
                then: before.used,
                now: line.used,
                change: Mm(line.used.0 - before.used.0),
            })
        });
        Self { since: since.to_owned(), lines: both.collect() }
    }
}
