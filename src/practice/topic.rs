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
    /// Where the nails go on a profile board, and running marks.
    Lines,
    /// How far a plate is off the straight line.
    Straight,
    /// Whether taped lines fix a shape, which way it is out, which line to tape next.
    Readings,
    /// Which support of the joists to pack up.
    Joists,
    /// Questions of every topic.
    Mixed,
}

impl Topic {
    /// Every topic.
    pub const ALL: [Self; 11] = [
        Self::Diagonals,
        Self::Corners,
        Self::Plates,
        Self::Packs,
        Self::Heights,
        Self::Misread,
        Self::Lines,
        Self::Straight,
        Self::Readings,
        Self::Joists,
        Self::Mixed,
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
            Self::Lines => "lines",
            Self::Straight => "straight",
            Self::Readings => "readings",
            Self::Joists => "joists",
            Self::Mixed => "mixed",
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
            Self::Lines => {
                "The cavity lies between the skin's inner face and the plate's outer face. A running reading is \
                 measured from the first mark, not from the one before."
            }
            Self::Straight => "Every reading is taken square from the string to the plate.",
            Self::Readings => {
                "Every line is taped straight from corner to corner. A line counts if it ties corners that could still \
                 move against each other; between corners that are tied already it only checks."
            }
            Self::Joists => "The end that is too low is packed up; the other stays.",
            Self::Mixed => "Each question says what holds for it.",
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
