//! Which of the two runs at a corner goes through, and which butts against it.

use schemars::JsonSchema;
use serde::Serialize;

use crate::plan::Footprint;

/// How the handing of the corners is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "HandingCorners")]
pub enum Corners {
    /// The runs across the page go through at both ends, the others butt at both ends.
    Alternate,
    /// Each run goes through at its first end and butts at its last.
    Follow,
    /// Whichever handing serves the cut best.
    #[default]
    Best,
}

impl Corners {
    /// Every choice, in the order the help lists them.
    pub const ALL: [Self; 3] = [Self::Alternate, Self::Follow, Self::Best];

    /// The word on the command line and in a job file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Alternate => "alternate",
            Self::Follow => "follow",
            Self::Best => "best",
        }
    }
}

/// No such way round the corners.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no way round the corners called `{0}`: write alternate, follow or best")]
pub struct UnknownCorners(pub String);

impl std::str::FromStr for Corners {
    type Err = UnknownCorners;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|corners| corners.name().eq_ignore_ascii_case(text.trim()))
            .ok_or_else(|| UnknownCorners(text.to_owned()))
    }
}

/// For each corner, whether the run that leaves it (clockwise) goes through; if not, the one that arrives does. Where a
/// house side meets the corner it says nothing.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Handing(Vec<bool>);

impl Handing {
    /// The handing that has, at each corner of the outline, the leaving run go through or not.
    #[must_use]
    pub const fn new(leaving_through: Vec<bool>) -> Self {
        Self(leaving_through)
    }

    /// Each run through at its first end.
    #[must_use]
    pub fn follow(footprint: &Footprint) -> Self {
        Self(vec![true; footprint.len()])
    }

    /// The runs across the page through at both ends.
    #[must_use]
    pub fn alternate(footprint: &Footprint) -> Self {
        Self(footprint.sides().iter().map(|side| side.heading.is_across()).collect())
    }

    /// The other run through at every corner, as for the layer above.
    #[must_use]
    pub fn opposite(&self) -> Self {
        Self(self.0.iter().map(|through| !through).collect())
    }

    /// Turned round at one corner.
    #[must_use]
    pub fn flipped(&self, corner: usize) -> Self {
        let mut flipped = self.clone();
        if let Some(through) = flipped.0.get_mut(corner) {
            *through = !*through;
        }
        flipped
    }

    /// Whether the run that leaves `corner` goes through.
    #[must_use]
    pub fn leaving_through(&self, corner: usize) -> bool {
        self.0.get(corner).copied().unwrap_or(true)
    }
}

/// The corners where two plates meet: where there is a handing to choose.
#[must_use]
pub fn plate_corners(footprint: &Footprint) -> Vec<usize> {
    (0..footprint.len())
        .filter(|&corner| {
            let (arrives, leaves) = footprint.sides_at(corner);
            !footprint.sides()[arrives].house && !footprint.sides()[leaves].house
        })
        .collect()
}
