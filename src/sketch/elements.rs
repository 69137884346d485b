//! What a drawing is made of: lines, marks and texts, mm on paper.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::lettering::Lettering;
use super::shape::{Frame, Segment};
use crate::geometry::{Mm, Point};

/// What a line or a mark shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "DrawnPart")]
pub enum Part {
    /// The outline.
    Outline,
    /// Hatching behind a house side.
    House,
    /// A diagonal of the proof set.
    Proof,
    /// A spare diagonal.
    Spare,
    /// An extension line, from the outline out to a dimension line.
    Extension,
    /// A dimension line.
    Dimension,
    /// The stroke at the end of a dimension line.
    Tick,
    /// From a text to what it belongs to.
    Leader,
    /// An opening.
    Opening,
    /// An anchor.
    Anchor,
    /// A profile board.
    Board,
    /// A nail on one.
    Nail,
    /// A string line.
    String,
    /// The north arrow.
    North,
    /// A sample in the key.
    Key,
    /// The scale bar.
    Bar,
    /// A piece of plate.
    Plate,
    /// Where two pieces of plate meet.
    Splice,
    /// A joist.
    Joist,
    /// The sheet's border and title block.
    Border,
}

/// How a line is drawn: the widths and patterns of ISO 128-2 in its line group 0.5 (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "DrawnPen")]
pub enum Pen {
    /// Continuous wide: what is built.
    Wide,
    /// Continuous, between the two: strokes that must be seen at a glance.
    Medium,
    /// Continuous narrow: dimensions, leaders, hatching.
    Narrow,
    /// Dashed narrow.
    Dashed,
    /// Long-dashed dotted narrow.
    Chain,
    /// Long-dashed double-dotted narrow: strings.
    DoubleChain,
    /// White, to break a wide line.
    Gap,
}

impl Pen {
    /// Width of the line, mm.
    #[must_use]
    pub const fn width(self) -> f64 {
        match self {
            Self::Wide => 0.5,
            Self::Medium => 0.35,
            Self::Narrow | Self::Dashed | Self::Chain | Self::DoubleChain => 0.25,
            Self::Gap => 0.8,
        }
    }

    /// Lengths of its dashes and gaps in turn, mm: a dash of 12 and a long dash of 24 line widths, a gap of 3, a dot of half
    /// a width. Dots are drawn a whole width long, or a printer loses them.
    #[must_use]
    pub const fn pattern(self) -> &'static [f64] {
        match self {
            Self::Wide | Self::Medium | Self::Narrow | Self::Gap => &[],
            Self::Dashed => &[3.0, 0.75],
            Self::Chain => &[6.0, 0.75, 0.25, 0.75],
            Self::DoubleChain => &[6.0, 0.75, 0.25, 0.75, 0.25, 0.75],
        }
    }
}

/// A line through points.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "DrawnLine")]
pub struct Line {
    /// What it shows.
    pub part: Part,
    /// What that is called: `AD` for a diagonal; empty where it has no name.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// How it is drawn.
    pub pen: Pen,
    /// Where it goes.
    #[serde(serialize_with = "places")]
    #[schemars(with = "Vec<[Mm; 2]>")]
    pub points: Vec<Point>,
    /// Whether it returns to its first point.
    pub closed: bool,
    /// Whether what it encloses is black.
    pub filled: bool,
}

impl Line {
    /// Its straight parts, in order.
    pub(super) fn segments(&self) -> impl Iterator<Item = Segment> {
        let ends = self.points.first().zip(self.points.last());
        let back = ends.filter(|_| self.closed).map(|(first, last)| Segment::new(*last, *first));
        let forth = self.points.iter().zip(self.points.iter().skip(1)).map(|(a, b)| Segment::new(*a, *b));
        forth.chain(back)
    }

    /// An open line.
    pub(super) fn new(part: Part, pen: Pen, points: Vec<Point>) -> Self {
        Self { part, name: String::new(), pen, points, closed: false, filled: false }
    }

    pub(super) fn named(mut self, name: impl Into<String>) -> Self {
        self.name = name.into();
        self
    }

    pub(super) fn closed(mut self) -> Self {
        self.closed = true;
        self
    }
}

/// A circle: an anchor or a nail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// What it shows.
    pub part: Part,
    /// Its middle.
    pub middle: Point,
    /// Its radius, mm.
    pub radius: f64,
    /// Whether it is black.
    pub filled: bool,
}

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "DrawnWording")]
pub enum Wording {
    /// A corner's letter.
    Corner,
    /// A side's length.
    Side,
    /// The whole width or depth.
    Overall,
    /// A diagonal's name and length.
    Diagonal,
    /// Beside an opening.
    Opening,
    /// Beside a profile board.
    Board,
    /// The N of the north arrow.
    North,
    /// In the key.
    Key,
    /// In the title block.
    Title,
    /// The scale, in the title block.
    Scale,
    /// A piece of plate: its name and the length to cut.
    Piece,
    /// A running mark.
    Mark,
    /// How thick the pack is.
    Pack,
}

/// A text in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it is.
    pub wording: Wording,
    /// What it belongs to: `A`, `AB`; empty in the title block and the key.
    pub name: String,
    /// What it says.
    pub text: String,
    /// How high its letters are.
    pub lettering: Lettering,
    /// The box it fills.
    pub frame: Frame,
    /// Whether lines behind it are broken for it.
    pub breaks_lines: bool,
    /// Whether it is one of several that start at one upright line.
    pub from_left: bool,
}

impl Label {
    /// A text in the middle of its box.
    pub(super) fn new(
        wording: Wording,
        text: impl Into<String>,
        lettering: Lettering,
        middle: Point,
    ) -> Self {
        let text = text.into();
        let frame = Frame::level(middle, lettering.width(&text), lettering.height());
        Self { wording, name: String::new(), text, lettering, frame, breaks_lines: false, from_left: false }
    }

    /// A text that starts at `start`, the left end of its base line.
    pub(super) fn from_left(
        wording: Wording,
        text: impl Into<String>,
        lettering: Lettering,
        start: Point,
    ) -> Self {
        let mut label = Self::new(wording, text, lettering, start);
        label.frame = label.frame.shifted(label.frame.width / 2.0, -lettering.base_below_middle());
        label.from_left = true;
        label
    }
}

fn places<S: Serializer>(points: &[Point], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(points.iter().map(|p| [Mm(p.x), Mm(p.y)]))
}
