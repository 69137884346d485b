//! The tape in use, and the hand that reads it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::faults::Faults;
use crate::length::Units;
use crate::tape::Tape;

/// The tape in use and the hand that reads it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TapeSection {
    /// The accuracy class on its blade: I, II, III, or US.
    pub class: Option<String>,
    /// The longest distance it reaches in one pull.
    pub length: Option<LengthEntry>,
    /// Standard deviation of reading the blade; 1 mm unless given.
    pub reading: Option<LengthEntry>,
    /// Standard deviation of holding the two ends on their marks; 0 unless given.
    pub ends: Option<LengthEntry>,
    /// Whether the hook is the zero, which adds the law's allowance for it.
    pub from_hook: Option<bool>,
}

/// The tape; the usual one where none is given.
pub(in crate::job) fn tape(section: Option<&TapeSection>, bare: Units, faults: &mut Faults) -> Tape {
    let mut tape = Tape::default();
    let Some(section) = section else { return tape };
    if let Some(class) = &section.class {
        tape.class = faults.take("tape.class", class.parse()).unwrap_or_default();
    }
    tape.length = faults.positive("tape.length", section.length.as_ref(), bare);
    if let Some(reading) = faults.not_negative("tape.reading", section.reading.as_ref(), bare) {
        tape.reading = reading;
    }
    if let Some(ends) = faults.not_negative("tape.ends", section.ends.as_ref(), bare) {
        tape.ends = ends;
    }
    tape.from_hook = section.from_hook.unwrap_or(false);
    tape
}
