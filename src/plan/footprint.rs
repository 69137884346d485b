//! The checked outline that every capability works on.

use crate::geometry::Point;

/// Which way the outline turns at a corner, walking clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    /// A right turn: the corner points out of the footprint.
    Outward,
    /// A left turn: the corner points into the footprint, as at a cut-out.
    Inward,
}

/// The direction a side runs, walking clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heading {
    /// To the right: the footprint lies below the side.
    Right,
    /// Down the page: the footprint lies to the left.
    Down,
    /// To the left: the footprint lies above.
    Left,
    /// Up the page: the footprint lies to the right.
    Up,
}

impl Heading {
    /// The heading after turning right.
    #[must_use]
    pub const fn right(self) -> Self {
        match self {
            Self::Right => Self::Down,
            Self::Down => Self::Left,
            Self::Left => Self::Up,
            Self::Up => Self::Right,
        }
    }

    /// The heading after turning left.
    #[must_use]
    pub const fn left(self) -> Self {
        self.right().right().right()
    }

    /// One step along, as (x, y).
    #[must_use]
    pub const fn step(self) -> (f64, f64) {
        match self {
            Self::Right => (1.0, 0.0),
            Self::Down => (0.0, 1.0),
            Self::Left => (-1.0, 0.0),
            Self::Up => (0.0, -1.0),
        }
    }

    /// Whether the side runs across the page.
    #[must_use]
    pub const fn is_across(self) -> bool {
        matches!(self, Self::Right | Self::Left)
    }

    /// From the footprint outward, square to a side with this heading, as (x, y).
    #[must_use]
    pub const fn outward(self) -> (f64, f64) {
        self.left().step()
    }

    /// The heading from `a` to `b`, which lie on one line across or down the page.
    pub(crate) fn between(a: Point, b: Point) -> Self {
        if (b.x - a.x).abs() > (b.y - a.y).abs() {
            if b.x > a.x { Self::Right } else { Self::Left }
        } else if b.y > a.y {
            Self::Down
        } else {
            Self::Up
        }
    }
}

/// A corner of the outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Its letter.
    pub name: char,
    /// Where it is.
    pub at: Point,
    /// Whether it points out of or into the footprint.
    pub turn: Turn,
}

/// A side of the outline, from one corner to the next clockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    /// Index of the corner it starts from.
    pub from: usize,
    /// Index of the corner it ends at.
    pub to: usize,
    /// Its length, mm.
    pub length: f64,
    /// The direction it runs.
    pub heading: Heading,
    /// Whether it is an existing wall, with no new plate on it.
    pub house: bool,
}

/// A simple rectilinear outline of 4 to 26 corners, lettered clockwise from A.
///
/// Side `i` runs from corner `i` to corner `i + 1`; the last one returns to A.
#[derive(Debug, Clone, PartialEq)]
pub struct Footprint {
    pub(super) corners: Vec<Corner>,
    pub(super) sides: Vec<Side>,
    pub(super) house_depth: Option<f64>,
    pub(super) anticlockwise: bool,
}

/// The letter of corner `index`: A for 0, Z for 25.
#[must_use]
pub fn corner_name(index: usize) -> char {
    u8::try_from(index)
        .ok()
        .and_then(|i| b'A'.checked_add(i))
        .filter(u8::is_ascii_uppercase)
        .map_or('?', char::from)
}

impl Footprint {
    /// The corners in order.
    #[must_use]
    pub fn corners(&self) -> &[Corner] {
        &self.corners
    }

    /// The sides in order.
    #[must_use]
    pub fn sides(&self) -> &[Side] {
        &self.sides
    }

    /// The number of corners, and of sides.
    #[must_use]
    pub fn len(&self) -> usize {
        self.corners.len()
    }

    /// Never true: an outline has at least four corners.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.corners.is_empty()
    }

    /// Where the corners are, in order.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        self.corners.iter().map(|corner| corner.at).collect()
    }

    /// The two letters of side `index`: `AB` for 0; `??` for one that is not there.
    #[must_use]
    pub fn side_name(&self, index: usize) -> String {
        let ends = self.sides.get(index).map_or([usize::MAX; 2], |side| [side.from, side.to]);
        ends.map(corner_name).iter().collect()
    }

    /// The two letters of the line between two corners: a side's own name (`FA`), otherwise alphabetical (`AD`); `??`
    /// where there is no such corner.
    #[must_use]
    pub fn line_name(&self, i: usize, j: usize) -> String {
        let (low, high) = (i.min(j), i.max(j));
        if high >= self.len() {
            "??".to_owned()
        } else if low == 0 && high == self.len() - 1 {
            format!("{}{}", corner_name(high), corner_name(low))
        } else {
            format!("{}{}", corner_name(low), corner_name(high))
        }
    }

    /// Whether the line between two corners is a side.
    #[must_use]
    pub fn is_side(&self, i: usize, j: usize) -> bool {
        let (low, high) = (i.min(j), i.max(j));
        high - low == 1 || (low == 0 && high == self.len() - 1)
    }

    /// The index of the corner lettered `name`, in either case.
    #[must_use]
    pub fn corner_index(&self, name: char) -> Option<usize> {
        self.corners.iter().position(|corner| corner.name == name.to_ascii_uppercase())
    }

    /// The indices of the two sides that meet at corner `index`: the one that arrives, the one that leaves.
    #[must_use]
    pub fn sides_at(&self, index: usize) -> (usize, usize) {
        ((index + self.len() - 1) % self.len(), index)
    }

    /// Area, mm², by the shoelace rule.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.sides
            .iter()
            .map(|side| (self.corners[side.from].at, self.corners[side.to].at))
            .map(|(a, b)| a.x * b.y - b.x * a.y)
            .sum::<f64>()
            / 2.0
    }

    /// The length round the outline, mm.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.sides.iter().map(|side| side.length).sum()
    }

    /// Width and depth of the bounding box, mm.
    #[must_use]
    pub fn extent(&self) -> (f64, f64) {
        self.corners
            .iter()
            .fold((0.0, 0.0), |(w, d), corner| (f64::max(w, corner.at.x), f64::max(d, corner.at.y)))
    }

    /// The sides in the order in which they were walked, by index, if that was anticlockwise: the last one first.
    #[must_use]
    pub fn walked_anticlockwise(&self) -> Option<impl Iterator<Item = usize>> {
        self.anticlockwise.then(|| (0..self.len()).rev())
    }

    /// How far the existing house goes back from its walls, mm; without end unless it was given.
    #[must_use]
    pub fn house_depth(&self) -> Option<f64> {
        self.house_depth
    }

    /// The same outline against a house that goes back `depth` mm from its walls.
    #[must_use]
    pub fn with_house_depth(mut self, depth: f64) -> Self {
        self.house_depth = Some(depth);
        self
    }

    /// Marks the sides given by index as existing walls, and no others; an index that is not there marks none.
    #[must_use]
    pub fn with_house(mut self, sides: &[usize]) -> Self {
        for (index, side) in self.sides.iter_mut().enumerate() {
            side.house = sides.contains(&index);
        }
        self
    }
}
