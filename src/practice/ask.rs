//! What a sheet is asked for: topic, level, seed, count and units, and the head line that carries them.

use std::fmt;
use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::error::PracticeError;
use crate::length::Units;

/// The edition of the generator. It goes up whenever the same seed would give another sheet, so that a printed sheet is
/// never marked against other questions.
pub const EDITION: u32 = 1;
/// The most questions on a sheet.
pub const MOST_QUESTIONS: u32 = 50;

/// What is practised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Check diagonals by Pythagoras.
    Diagonals,
    /// 3-4-5 at a corner, and an angle from three tapes.
    Corners,
    /// The lengths of plate runs round the corners.
    Plates,
    /// Packing up to the highest point.
    Packs,
    /// From the wall head to panel, stud and ceiling.
    Heights,
    /// Which reading of a set is wrong, and by how much.
    Misread,
}

impl Topic {
    /// Every topic.
    pub const ALL: [Self; 6] = [
        Self::Diagonals,
        Self::Corners,
        Self::Plates,
        Self::Packs,
        Self::Heights,
        Self::Misread,
    ];

    /// The name on the command line and on the sheet.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Diagonals => "diagonals",
            Self::Corners => "corners",
            Self::Plates => "plates",
            Self::Packs => "packs",
            Self::Heights => "heights",
            Self::Misread => "misread",
        }
    }

    /// What holds for every question of the topic.
    #[must_use]
    pub const fn rule(self) -> &'static str {
        match self {
            Self::Diagonals | Self::Corners => "All corners are square unless a question says otherwise.",
            Self::Plates => {
                "The plate's outer face lies on the outline. At a corner the run that goes through fills the \
                 corner; the other butts against it."
            }
            Self::Packs => "The highest point is the datum: the plate touches it without packing.",
            Self::Heights => {
                "Drops are taped from the top of the level, held on the existing wall head, down to the datum. The \
                 plate and the floor finish both start at the datum; the binder's top and the lining's top are both \
                 at the wall head's height. Of several drops, the highest wall head counts."
            }
            Self::Misread => {
                "All corners are square. One reading in each set is wrong; the others are right to the nearest mark."
            }
        }
    }
}

impl FromStr for Topic {
    type Err = PracticeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|topic| topic.name().eq_ignore_ascii_case(text.trim()))
            .ok_or_else(|| PracticeError::Topic(text.trim().to_owned()))
    }
}

/// How hard the questions are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Level {
    /// Neat triples and round sizes.
    #[default]
    One,
    /// Any size that a tape shows.
    Two,
    /// L and T with a side left out to be worked out, and the longer sums.
    Three,
}

impl Level {
    /// Every level.
    pub const ALL: [Self; 3] = [Self::One, Self::Two, Self::Three];

    /// 1, 2 or 3.
    #[must_use]
    pub const fn number(self) -> u32 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}

impl FromStr for Level {
    type Err = PracticeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|level| level.number().to_string() == text.trim())
            .ok_or_else(|| PracticeError::Level(text.trim().to_owned()))
    }
}

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
        if !(1..=MOST_QUESTIONS).contains(&self.count) {
            return Err(PracticeError::Count(self.count.to_string()));
        }
        if self.units == Units::M {
            return Err(PracticeError::Units(self.units.name().to_owned()));
        }
        Ok(())
    }
}

/// What the head line starts with.
const HEAD: &str = "Practice:";

impl fmt::Display for Ask {
    /// The head line of a sheet.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{HEAD} {}, level {}, seed {}, {} question{}, {}, edition {EDITION}",
            self.topic.name(),
            self.level.number(),
            self.seed,
            self.count,
            if self.count == 1 { "" } else { "s" },
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
        let ask = Self {
            topic: topic.parse()?,
            level: level.parse()?,
            seed: seed.parse().map_err(|_| PracticeError::Seed(seed))?,
            count: count
                .parse()
                .map_err(|_| PracticeError::Count(count.to_owned()))?,
            units: units
                .parse()
                .map_err(|_| PracticeError::Units(units.to_owned()))?,
        };
        ask.check()?;
        Ok(ask)
    }
}

/// Refuses a sheet of another edition.
pub(super) fn same_edition(given: &str) -> Result<(), PracticeError> {
    if given == EDITION.to_string() {
        Ok(())
    } else {
        Err(PracticeError::Edition(given.to_owned()))
    }
}
