//! Where a reading was taken: at a corner, or so far along a side.

use std::cmp::Ordering;

use super::error::PlanError;
use super::footprint::Footprint;
use crate::geometry::Point;
use crate::length::{Length, LengthError, Units, trimmed};
use crate::words::quoted;

/// How near, mm, a distance along a side must be to its end to count as the corner.
const AT_THE_CORNER: f64 = 0.5;

/// A text that is no place on the plan, or a place with no plate.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SpotError {
    /// The text has not the form of a place.
    #[error(
        "`{text}` is not a place: write a corner such as A, or a side and the distance along it: AB@2400"
    )]
    NotAPlace {
        /// The text as given.
        text: String,
    },
    /// A corner that the plan does not have.
    #[error("there is no corner `{name}`: the corners are A to {last}")]
    NoCorner {
        /// The name as given.
        name: String,
        /// The last corner's letter.
        last: char,
    },
    /// A side that the plan does not have.
    #[error(transparent)]
    Side(#[from] PlanError),
    /// A distance along a side that is no length.
    #[error("{text}: {problem}")]
    Distance {
        /// The text as given.
        text: String,
        /// What is wrong with the distance.
        problem: LengthError,
    },
    /// A distance that runs off the side.
    #[error("`{text}` is off the side: {side} runs from 0 to {length}")]
    OffSide {
        /// The text as given.
        text: String,
        /// The side's name.
        side: String,
        /// The side's length with its unit.
        length: String,
    },
    /// A place on existing walls alone.
    #[error("{name} is on the house, where there is no plate to pack: leave it out")]
    OnHouse {
        /// The place.
        name: String,
    },
    /// A place that was found on another plan.
    #[error("a place lies off the plan: find it on the plan that is packed")]
    OffPlan,
}

/// A place on the outline: a corner, or a point along a side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Index of the side; a corner is the start of the side that follows it.
    side: usize,
    /// Distance from that side's first corner, mm; 0 at the corner itself.
    along: f64,
}

impl Spot {
    /// The corner of index `corner`.
    #[must_use]
    pub const fn corner(corner: usize) -> Self {
        Self { side: corner, along: 0.0 }
    }

    /// The place `along` mm from the first corner of the side of index `side`; within half a millimetre of an end it is
    /// the corner.
    pub fn along(footprint: &Footprint, side: usize, along: f64) -> Result<Self, SpotError> {
        let found = footprint.sides().get(side).ok_or(SpotError::OffPlan)?;
        if !(along >= 0.0 && along <= found.length + AT_THE_CORNER) {
            return Err(SpotError::OffPlan);
        }
        Ok(if along < AT_THE_CORNER {
            Self::corner(side)
        } else if along > found.length - AT_THE_CORNER {
            Self::corner(found.to)
        } else {
            Self { side, along }
        })
    }

    /// Reads a corner's letter, or a side and the distance along it from the first of its two letters as written:
    /// `BA@600` is 600 from B. A bare distance is in `bare`.
    pub fn parse(text: &str, footprint: &Footprint, bare: Units) -> Result<Self, SpotError> {
        let text = text.trim();
        let place = match text.split_once('@') {
            None => Self::parse_corner(text, footprint)?,
            Some((side, distance)) => {
                let index = footprint.parse_side(side)?;
                let found = footprint.sides()[index];
                let first = side.trim().chars().next().and_then(|c| footprint.corner_index(c));
                let distance = Length::parse(distance, bare)
                    .map_err(|problem| SpotError::Distance { text: quoted(text), problem })?;
                let along = if first == Some(found.to) { found.length - distance.mm } else { distance.mm };
                Self::along(footprint, index, along).map_err(|_| SpotError::OffSide {
                    text: quoted(text),
                    side: footprint.side_name(index),
                    length: distance.written_in.unwrap_or(bare).with_unit(found.length),
                })?
            }
        };
        place.on_outline(footprint)
    }

    fn parse_corner(text: &str, footprint: &Footprint) -> Result<Self, SpotError> {
        let mut letters = text.chars();
        match (letters.next(), letters.next()) {
            (Some(letter), None) => {
                footprint.corner_index(letter).map(Self::corner).ok_or_else(|| SpotError::NoCorner {
                    name: quoted(text),
                    last: footprint.corners()[footprint.len() - 1].name,
                })
            }
            _ => Err(SpotError::NotAPlace { text: quoted(text) }),
        }
    }

    /// The place itself, if it is on this outline.
    pub fn on_outline(self, footprint: &Footprint) -> Result<Self, SpotError> {
        let side = footprint.sides().get(self.side).ok_or(SpotError::OffPlan)?;
        if !(self.along >= 0.0 && self.along < side.length) {
            return Err(SpotError::OffPlan);
        }
        Ok(self)
    }

    /// The place itself, if it is on this outline and a plate lies there.
    pub fn on_plate(self, footprint: &Footprint) -> Result<Self, SpotError> {
        let side = footprint.sides()[self.on_outline(footprint)?.side];
        let arriving = footprint.sides()[footprint.sides_at(self.side).0];
        if side.house && (self.along > 0.0 || arriving.house) {
            return Err(SpotError::OnHouse { name: self.name(footprint, Units::Mm) });
        }
        Ok(self)
    }

    /// Index of the side that the place is on; a corner is the start of the side that follows it.
    #[must_use]
    pub const fn side(self) -> usize {
        self.side
    }

    /// Distance from the side's first corner, mm; 0 at the corner itself.
    #[must_use]
    pub const fn distance(self) -> f64 {
        self.along
    }

    /// Whether both are the same place, to half a millimetre.
    pub(crate) fn is(self, other: Self) -> bool {
        self.side == other.side && (self.along - other.along).abs() < AT_THE_CORNER
    }

    /// Order round the outline.
    pub(crate) fn order(self, other: Self) -> Ordering {
        self.side.cmp(&other.side).then(self.along.total_cmp(&other.along))
    }

    /// A corner's letter, or `AB@1800`, written as it can be read back in `units`.
    ///
    /// A place that lies off `footprint` is `?`.
    #[must_use]
    pub fn name(self, footprint: &Footprint, units: Units) -> String {
        let Some(corner) = footprint.corners().get(self.side) else {
            return "?".to_owned();
        };
        if self.along > 0.0 {
            let distance = match units {
                Units::Mm => trimmed(self.along, 1),
                Units::M => trimmed(self.along / 1000.0, 4),
                Units::FeetInches => units.typed(self.along),
            };
            format!("{}@{distance}", footprint.side_name(self.side))
        } else {
            corner.name.to_string()
        }
    }

    /// Distance round the outline from A, mm.
    pub(crate) fn round(self, footprint: &Footprint) -> f64 {
        let before = footprint.sides().iter().take(self.side);
        before.map(|side| side.length).sum::<f64>() + self.along
    }

    /// The place's point on the plan.
    pub(crate) fn point(self, footprint: &Footprint) -> Point {
        let (x, y) = footprint.sides()[self.side].heading.step();
        let from = footprint.corners()[self.side].at;
        Point::new(from.x + x * self.along, from.y + y * self.along)
    }
}
