//! The tape in use, and the hand that reads it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::tape::Tape;

/// The tape in use and the hand that reads it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[cfg_attr(feature = "cli", command(next_help_heading = "Tape"))]
#[serde(deny_unknown_fields)]
pub struct TapeSection {
    /// The tape's accuracy class: I, II, III or US [default: II].
    #[cfg_attr(feature = "cli", arg(id = "tape.class", long = "tape-class", value_name = "CLASS"))]
    pub class: Option<String>,
    /// The longest distance the tape reaches in one pull [default: no limit].
    #[cfg_attr(feature = "cli", arg(id = "tape.length", long = "tape-length", value_name = "LENGTH"))]
    pub length: Option<LengthEntry>,
    /// Standard deviation of reading the blade [default: 1mm, or 1/16in in feet and inches].
    #[cfg_attr(feature = "cli", arg(id = "tape.reading", long = "tape-reading", value_name = "LENGTH"))]
    pub reading: Option<LengthEntry>,
    /// Standard deviation of holding the two ends on their marks; 2.8mm or 1/8in for readings of masonry [default: 0].
    #[cfg_attr(feature = "cli", arg(id = "tape.ends", long = "tape-ends", value_name = "LENGTH"))]
    pub ends: Option<LengthEntry>,
    /// The hook is the zero: add the law's allowance for it.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "tape.from_hook", num_args = 0, default_missing_value = "true")
    )]
    pub from_hook: Option<bool>,
}

/// The tape; the usual one where none is given.
pub(in crate::job) fn tape(section: Option<&TapeSection>, at: Cursor<'_>) -> Tape {
    let usual = Tape::default();
    let mut tape = Tape { reading: at.units.usual(usual.reading, 1.0 / 16.0), ..usual };
    let Some(section) = section else { return tape };
    if let Some(class) = &section.class {
        tape.class = at.field("class").take(class.parse()).unwrap_or_default();
    }
    tape.length = at.field("length").positive(section.length.as_ref());
    if let Some(reading) = at.field("reading").not_negative(section.reading.as_ref()) {
        tape.reading = reading;
    }
    if let Some(ends) = at.field("ends").not_negative(section.ends.as_ref()) {
        tape.ends = ends;
    }
    tape.from_hook = section.from_hook.unwrap_or(false);
    tape
}
