//! What a sheet is asked for: topic, level, seed, count and units, and the head line that carries them.

use std::fmt;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::edition::{EDITION, MOST_QUESTIONS};
use super::error::PracticeError;
use super::topic::{Level, Topic};
use crate::length::Units;
use crate::words;

/// What fixes a sheet: the same five give the same questions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Ask {
    /// The topic.
    #[serde(serialize_with = "topic_name")]
    #[schemars(with = "String")]
    pub topic: Topic,
    /// The level.
    #[serde(serialize_with = "level_number")]
    #[schemars(with = "u32")]
    pub level: Level,
    /// The seed.
    pub seed: u32,
    /// How many questions, 1 to [`MOST_QUESTIONS`].
    pub count: u32,
    /// Millimetres, or feet and inches.
    #[serde(serialize_with = "units_name")]
    #[schemars(with = "String")]
    pub units: Units,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes a reference")]
fn topic_name<S: Serializer>(topic: &Topic, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(topic.name())
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes a reference")]
fn level_number<S: Serializer>(level: &Level, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_u32(level.number())
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes a reference")]
fn units_name<S: Serializer>(units: &Units, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(units.name())
}

impl Ask {
    /// Checks the count and the units.
    pub fn check(&self) -> Result<(), PracticeError> {
        if !fits_a_sheet(self.count) {
            return Err(PracticeError::Count(self.count.to_string()));
        }
        if !has_sheets(self.units) {
            return Err(PracticeError::Units(self.units.name().to_owned()));
        }
        Ok(())
    }

    /// Reads a number of questions.
    pub fn read_count(text: &str) -> Result<u32, PracticeError> {
        let count = text.parse().ok().filter(|count| fits_a_sheet(*count));
        count.ok_or_else(|| PracticeError::Count(text.to_owned()))
    }

    /// Reads a seed.
    pub fn read_seed(text: &str) -> Result<u32, PracticeError> {
        text.parse().map_err(|_| PracticeError::Seed(text.to_owned()))
    }

    /// Reads the units of a sheet.
    pub fn read_units(text: &str) -> Result<Units, PracticeError> {
        let units = text.parse().ok().filter(|units| has_sheets(*units));
        units.ok_or_else(|| PracticeError::Units(text.to_owned()))
    }
}

fn fits_a_sheet(count: u32) -> bool {
    (1..=MOST_QUESTIONS).contains(&count)
}

fn has_sheets(units: Units) -> bool {
    units != Units::M
}

/// What the head line starts with.
const HEAD: &str = "Practice:";

impl fmt::Display for Ask {
    /// The head line of a sheet.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{HEAD} {}, level {}, seed {}, {}, {}, edition {EDITION}",
            self.topic.name(),
            self.level.number(),
            self.seed,
            words::count(self.count, "question"),
            self.units.name(),
        )
    }
}

impl Ask {
    /// Whether a line is meant as a head line.
    pub(super) fn is_head(line: &str) -> bool {
        line.trim_start().starts_with(HEAD)
    }

    /// Reads a head line.
    pub(super) fn from_head(line: &str) -> Result<Self, PracticeError> {
        let bad = || PracticeError::Head(line.trim().to_owned());
        let text = line.trim().strip_prefix(HEAD).ok_or_else(bad)?;
        let parts: Vec<&str> = text.split(',').map(str::trim).collect();
        let [topic, level, seed, count, units, edition] = parts[..] else {
            return Err(bad());
        };
        let after = |part: &str, word: &str| part.strip_prefix(word).map(|rest| rest.trim().to_owned());
        let level = after(level, "level").ok_or_else(bad)?;
        let seed = after(seed, "seed").ok_or_else(bad)?;
        let edition = after(edition, "edition").ok_or_else(bad)?;
        let count = count.split_whitespace().next().unwrap_or_default();
        same_edition(&edition)?;
        Ok(Self {
            topic: topic.parse()?,
            level: level.parse()?,
            seed: Self::read_seed(&seed)?,
            count: Self::read_count(count)?,
            units: Self::read_units(units)?,
        })
    }
}

/// Refuses a sheet of another edition.
pub(super) fn same_edition(given: &str) -> Result<(), PracticeError> {
    if given == EDITION.to_string() { Ok(()) } else { Err(PracticeError::Edition(given.to_owned())) }
}
