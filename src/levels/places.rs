//! Where a reading was taken: at a corner, or so far along a side.

use std::fmt;

use super::error::{LevelsError, at_most, length};
use crate::geometry::Point;

/// How near, mm, a distance along a side must be to its end to count as the corner.
const AT_THE_CORNER: f64 = 0.5;

/// A corner of the plate line.
#[derive(Debug, Clone, PartialEq)]
pub struct Corner {
    /// Its letter.
    pub name: String,
    /// Where it is on the plan.
    pub at: Point,
}

/// A side of the plate line: the i-th runs from the i-th corner to the next.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// Its two letters.
    pub name: String,
    /// Its length, mm.
    pub length: f64,
    /// Whether it is an existing wall, with no plate to pack.
    pub house: bool,
}

/// The plate line that is packed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlateLine {
    /// The corners in order round the plan.
    pub corners: Vec<Corner>,
    /// The sides, one after each corner.
    pub sides: Vec<Side>,
}

/// A place named by the user.
#[derive(Debug, Clone, PartialEq)]
pub enum Place {
    /// At the corner of this name.
    Corner(String),
    /// Along a side.
    Along {
        /// The side's name; its letters may come the other way round, and the distance then runs from that end.
        side: String,
        /// Distance from the first of the two letters, mm.
        distance: f64,
    },
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Corner(name) => f.write_str(name),
            Self::Along { side, distance } => write!(f, "{side}@{distance}"),
        }
    }
}

/// A place found on the plate line. Ordered as one walks round it from the first corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// Index of the side; a corner is the start of the side that follows it.
    pub(super) side: usize,
    /// Distance from that side's first corner, mm; 0 at the corner itself.
    pub(super) along: f64,
}

impl Spot {
    /// Whether both are the same place, to half a millimetre.
    pub(super) fn is(self, other: Self) -> bool {
        self.side == other.side && (self.along - other.along).abs() < AT_THE_CORNER
    }

    /// Order round the plate line.
    pub(super) fn order(self, other: Self) -> std::cmp::Ordering {
        self.side
            .cmp(&other.side)
            .then(self.along.total_cmp(&other.along))
    }
}

impl PlateLine {
    /// Refuses a line whose sides don't follow its corners, or whose figures are not lengths.
    pub(super) fn check(&self) -> Result<(), LevelsError> {
        at_most("corners", self.corners.len(), 1000)?;
        if self.corners.len() < 3 || self.corners.len() != self.sides.len() {
            return Err(LevelsError::Plan {
                corners: self.corners.len(),
                sides: self.sides.len(),
            });
        }
        for corner in &self.corners {
            length(format!("corner {}", corner.name), corner.at.x)?;
            length(format!("corner {}", corner.name), corner.at.y)?;
        }
        for side in &self.sides {
            super::error::positive(format!("side {}", side.name), side.length)?;
        }
        Ok(())
    }

    /// The spot at `along` mm on the side of index `side`, an end of the side being its corner.
    pub(super) fn spot(&self, side: usize, along: f64) -> Spot {
        if along < AT_THE_CORNER {
            Spot { side, along: 0.0 }
        } else if along > self.sides[side].length - AT_THE_CORNER {
            Spot {
                side: (side + 1) % self.sides.len(),
                along: 0.0,
            }
        } else {
            Spot { side, along }
        }
    }

    /// Finds `place`. Names are compared whatever the case of their letters.
    pub(super) fn find(&self, place: &Place) -> Result<Spot, LevelsError> {
        match place {
            Place::Corner(name) => self
                .corners
                .iter()
                .position(|c| same(&c.name, name))
                .map(|side| Spot { side, along: 0.0 })
                .ok_or_else(|| LevelsError::NoCorner {
                    given: name.clone(),
                    known: list(self.corners.iter().map(|c| c.name.as_str())),
                }),
            Place::Along { side, distance } => {
                let (index, reversed) = self.find_side(side)?;
                let whole = self.sides[index].length;
                length(format!("reading on {side}"), *distance)?;
                if *distance < 0.0 || *distance > whole + AT_THE_CORNER {
                    return Err(LevelsError::OffSide {
                        side: side.clone(),
                        distance: *distance,
                        length: whole,
                    });
                }
                let along = if reversed { whole - distance } else { *distance };
                Ok(self.spot(index, along))
            }
        }
    }

    /// Index of the side called `given`, and whether it was called from its other end.
    fn find_side(&self, given: &str) -> Result<(usize, bool), LevelsError> {
        let backwards: String = given.trim().chars().rev().collect();
        let by = |name: &str| self.sides.iter().position(|s| same(&s.name, name));
        by(given)
            .map(|i| (i, false))
            .or_else(|| by(&backwards).map(|i| (i, true)))
            .ok_or_else(|| LevelsError::NoSide {
                given: given.to_owned(),
                known: list(self.sides.iter().map(|s| s.name.as_str())),
            })
    }

    /// The name of a spot: a corner's letter, or `AB@1800`.
    pub(super) fn name(&self, spot: Spot) -> String {
        if spot.along > 0.0 {
            format!("{}@{}", self.sides[spot.side].name, trimmed(spot.along))
        } else {
            self.corners[spot.side].name.clone()
        }
    }

    /// Distance round the line from its first corner to the spot, mm.
    pub(super) fn round(&self, spot: Spot) -> f64 {
        self.sides.iter().take(spot.side).map(|s| s.length).sum::<f64>() + spot.along
    }

    /// Sum of the sides, mm.
    pub(super) fn perimeter(&self) -> f64 {
        self.sides.iter().map(|s| s.length).sum()
    }

    /// The spot's point on the plan.
    pub(super) fn point(&self, spot: Spot) -> Point {
        let a = self.corners[spot.side].at;
        let b = self.corners[(spot.side + 1) % self.corners.len()].at;
        let t = spot.along / self.sides[spot.side].length;
        Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)
    }
}

/// A length to a tenth of a millimetre, without a trailing nought.
fn trimmed(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

fn same(a: &str, b: &str) -> bool {
    a.trim().eq_ignore_ascii_case(b.trim())
}

fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.collect::<Vec<_>>().join(", ")
}
