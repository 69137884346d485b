//! What is practised, and how hard.

use std::str::FromStr;

use super::error::PracticeError;

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
    pub const ALL: [Self; 6] =
        [Self::Diagonals, Self::Corners, Self::Plates, Self::Packs, Self::Heights, Self::Misread];

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
