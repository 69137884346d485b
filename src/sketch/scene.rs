//! A drawing as lines and texts on a sheet: mm on paper from its top left corner, y down. The printers know this and no more.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::scale::Scale;
use super::shape::Extent;
use super::sheet::Sheet;
use crate::geometry::{Mm, Point, Ratio};

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

    /// Draws a line of the border.
    pub(super) fn rule(&mut self, pen: Pen, from: (f64, f64), to: (f64, f64)) {
        let ends = vec![Point::new(from.0, from.1), Point::new(to.0, to.1)];
        self.lines.push(Line::new(Part::Border, pen, ends));
    }

    pub(super) fn shift(&mut self, dx: f64, dy: f64) {
        let moved = |p: &mut Point| *p = Point::new(p.x + dx, p.y + dy);
        self.lines.iter_mut().for_each(|line| line.points.iter_mut().for_each(moved));
        self.marks.iter_mut().for_each(|mark| moved(&mut mark.middle));
        self.labels.iter_mut().for_each(|label| label.frame = label.frame.shifted(dx, dy));
    }
}

/// The sheet of paper.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "DrawnSheet")]
struct SheetFacts {
    /// Its size: A4 or Letter.
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
                size: self.sheet.paper.name(),
                orientation: self.sheet.orientation(),
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
