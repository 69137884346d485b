//! A drawing as lines and texts on a sheet: mm on paper from its top left corner, y down. The printers know this and no more.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use super::lettering::Lettering;
use super::scale::Scale;
use super::shape::{Extent, Frame, Segment};
use super::sheet::Sheet;
use crate::geometry::{Mm, Point, Ratio};

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
            Self::Narrow | Self::Dashed | Self::Chain => 0.25,
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
        let back = ends
            .filter(|_| self.closed)
            .map(|(first, last)| Segment::new(*last, *first));
        let forth = self.points.array_windows().map(|[a, b]| Segment::new(*a, *b));
        forth.chain(back)
    }

    /// An open line.
    pub(super) fn new(part: Part, pen: Pen, points: Vec<Point>) -> Self {
        Self {
            part,
            name: String::new(),
            pen,
            points,
            closed: false,
            filled: false,
        }
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
}

impl Wording {
    /// The word in JSON and CSV.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Corner => "corner",
            Self::Side => "side",
            Self::Overall => "overall",
            Self::Diagonal => "diagonal",
            Self::Opening => "opening",
            Self::Board => "board",
            Self::North => "north",
            Self::Key => "key",
            Self::Title => "title",
        }
    }
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
        Self {
            wording,
            name: String::new(),
            text,
            lettering,
            frame,
            breaks_lines: false,
            from_left: false,
        }
    }

    /// A text that starts at `start`, the left end of its base line.
    pub(super) fn from_left(
        wording: Wording,
        text: impl Into<String>,
        lettering: Lettering,
        start: Point,
    ) -> Self {
        let mut label = Self::new(wording, text, lettering, start);
        label.frame = label
            .frame
            .shifted(label.frame.width / 2.0, -lettering.base_below_middle());
        label.from_left = true;
        label
    }
}

/// A drawing on its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// The sheet.
    pub sheet: Sheet,
    /// The scale.
    pub scale: Scale,
    /// Where the plan's (0, 0) lies on the sheet.
    pub origin: Point,
    /// What it is called, for those who can't see it.
    pub title: String,
    /// Its lines, the first drawn first.
    pub lines: Vec<Line>,
    /// Its circles, drawn over the lines.
    pub marks: Vec<Mark>,
    /// Its texts, drawn last.
    pub labels: Vec<Label>,
}

/// Lines, circles and texts not yet on a sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Figure {
    pub(super) lines: Vec<Line>,
    pub(super) marks: Vec<Mark>,
    pub(super) labels: Vec<Label>,
}

impl Figure {
    /// Everything that is drawn lies in this box.
    pub(super) fn extent(&self) -> Extent {
        let mut extent = Extent::NOTHING;
        for line in &self.lines {
            line.points.iter().for_each(|p| extent.include(*p));
        }
        for mark in &self.marks {
            for d in [-mark.radius, mark.radius] {
                extent.include(Point::new(mark.middle.x + d, mark.middle.y + d));
            }
        }
        for label in &self.labels {
            label.frame.corners().into_iter().for_each(|p| extent.include(p));
        }
        extent
    }

    pub(super) fn shift(&mut self, dx: f64, dy: f64) {
        let moved = |p: &mut Point| *p = Point::new(p.x + dx, p.y + dy);
        self.lines
            .iter_mut()
            .for_each(|line| line.points.iter_mut().for_each(moved));
        self.marks.iter_mut().for_each(|mark| moved(&mut mark.middle));
        self.labels
            .iter_mut()
            .for_each(|label| label.frame = label.frame.shifted(dx, dy));
    }
}

fn places<S: Serializer>(points: &[Point], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(points.iter().map(|p| [Mm(p.x), Mm(p.y)]))
}

/// The sheet of paper.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "DrawnSheet")]
struct SheetFacts {
    /// Its size: A4.
    size: &'static str,
    /// Which way it is held.
    orientation: &'static str,
    /// Its width, mm.
    width: Mm,
    /// Its height, mm.
    height: Mm,
}

/// A text in its place.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "DrawnLabel")]
struct LabelFacts<'a> {
    /// What it is.
    wording: Wording,
    /// What it belongs to: `A`, `AB`.
    #[serde(skip_serializing_if = "str::is_empty")]
    name: &'a str,
    /// What it says.
    text: &'a str,
    /// The middle of its box, mm from the sheet's left.
    x: Mm,
    /// The middle of its box, mm from the sheet's top.
    y: Mm,
    /// The width of its box, mm.
    width: Mm,
    /// The height of its box, mm.
    height: Mm,
    /// How far it is turned, degrees clockwise.
    turn_deg: Ratio,
}

/// A plan drawn to scale on a sheet, mm on paper.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Drawn")]
struct Facts<'a> {
    /// The scale: `1:50`.
    scale: String,
    /// The 50 of it.
    ratio: u32,
    /// The sheet.
    sheet: SheetFacts,
    /// Where the plan's (0, 0) lies, mm from the sheet's left and top.
    origin: [Mm; 2],
    /// Its lines, the first drawn first.
    lines: &'a [Line],
    /// Its texts.
    labels: Vec<LabelFacts<'a>>,
}

impl JsonSchema for Scene {
    fn schema_name() -> Cow<'static, str> {
        Facts::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Facts::json_schema(generator)
    }
}

impl Serialize for Scene {
    /// Scale, sheet, lines and labels (the middle, size and turn of each one's box), mm on paper.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (width, height) = self.sheet.size();
        Facts {
            scale: self.scale.to_string(),
            ratio: self.scale.ratio(),
            sheet: SheetFacts {
                size: "A4",
                orientation: self.sheet.name(),
                width: Mm(width),
                height: Mm(height),
            },
            origin: [Mm(self.origin.x), Mm(self.origin.y)],
            lines: &self.lines,
            labels: self
                .labels
                .iter()
                .map(|label| LabelFacts {
                    wording: label.wording,
                    name: &label.name,
                    text: &label.text,
                    x: Mm(label.frame.middle.x),
                    y: Mm(label.frame.middle.y),
                    width: Mm(label.frame.width),
                    height: Mm(label.frame.height),
                    turn_deg: Ratio(label.frame.turn),
                })
                .collect(),
        }
        .serialize(serializer)
    }
}
