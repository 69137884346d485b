//! What is to be drawn: plain structs that any caller fills from what it has.

use serde::Serialize;

use super::sheet::Paper;
use crate::geometry::Point;
use crate::length::Units;
use crate::plan::Footprint;

/// A plan and what is to be shown on it. Everything but the outline is optional.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The outline.
    pub footprint: Footprint,
    /// The units of the figures on it.
    pub units: Units,
    /// Lines between corners to be taped.
    pub checks: Vec<CheckLine>,
    /// Openings in the sides.
    pub openings: Vec<Opening>,
    /// Holding-down anchors along the sides.
    pub anchors: Vec<Anchor>,
    /// Profile boards round about.
    pub boards: Vec<ProfileBoard>,
    /// String lines.
    pub strings: Vec<StringLine>,
    /// Where north is, degrees clockwise from up the page.
    pub north: Option<f64>,
    /// How the plate is laid, if that is what is drawn.
    pub plates: Option<PlateLayout>,
    /// How the joists lie, if that is what is drawn.
    pub joists: Option<JoistLayout>,
    /// What stands in the title block.
    pub title: Title,
    /// The paper.
    pub paper: Paper,
}

impl Drawing {
    /// The bare outline, with figures in `units`.
    #[must_use]
    pub fn new(footprint: &Footprint, units: Units) -> Self {
        Self {
            footprint: footprint.clone(),
            units,
            checks: vec![],
            openings: vec![],
            anchors: vec![],
            boards: vec![],
            strings: vec![],
            north: None,
            plates: None,
            joists: None,
            title: Title::default(),
            paper: Paper::default(),
        }
    }

    /// What it is a drawing of.
    pub(super) const fn subject(&self) -> &'static str {
        match (&self.plates, &self.joists) {
            (Some(_), _) => "Plate layout",
            (None, Some(_)) => "Joist layout",
            (None, None) => "Setting-out plan",
        }
    }
}

/// What stands in the title block besides scale, sheet and units.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Title {
    /// The job's name.
    pub job: Option<String>,
    /// The date, as it is to stand there: nothing here asks a clock.
    pub date: Option<String>,
    /// Who drew it.
    pub drawn_by: Option<String>,
    /// The drawing's number.
    pub number: Option<String>,
    /// Its revision.
    pub revision: Option<String>,
}

/// Why a line between two corners is taped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CheckUse {
    /// It is needed to fix the shape.
    Proof,
    /// It shows up a misread.
    Spare,
}

/// A line between two corners to be taped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CheckLine {
    /// Index of one corner.
    pub from: usize,
    /// Index of the other.
    pub to: usize,
    /// Why it is taped.
    pub purpose: CheckUse,
}

/// An opening in a side, such as a door.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Index of the side.
    pub side: usize,
    /// From the side's first corner to the nearer jamb, mm.
    pub from: f64,
    /// From the side's first corner to the farther jamb, mm.
    pub to: f64,
    /// Whether the wall goes on under it.
    pub window: bool,
    /// What is written beside it.
    pub text: String,
}

/// An anchor in the plate on a side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Anchor {
    /// Index of the side.
    pub side: usize,
    /// From the side's first corner, mm.
    pub at: f64,
    /// How far in from the outline, mm.
    pub inward: f64,
}

impl Anchor {
    /// Where it is on plan, if there is such a side.
    #[must_use]
    pub fn place(self, footprint: &Footprint) -> Option<Point> {
        let side = footprint.sides().get(self.side)?;
        let (start, (x, y)) = (footprint.corners().get(side.from)?.at, side.heading.step());
        let (out_x, out_y) = side.heading.outward();
        Some(Point::new(
            start.x + x * self.at - out_x * self.inward,
            start.y + y * self.at - out_y * self.inward,
        ))
    }
}

/// A profile board, on plan; nails in a wall where both ends are one point.
#[derive(Debug, Clone, PartialEq)]
pub struct ProfileBoard {
    /// What is written beside it, such as P1.
    pub label: String,
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Where the nails are.
    pub nails: Vec<Point>,
    /// How far it stands off the outline along its string, mm.
    pub off: Option<f64>,
}

/// A string line, on plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StringLine {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
}

/// How the plate is laid on the outline.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlateLayout {
    /// The plate's width, mm, inward from the outline.
    pub width: f64,
    /// Its pieces.
    pub pieces: Vec<LaidPiece>,
    /// Where two pieces of a run meet.
    pub splices: Vec<Spot>,
    /// The anchors, each with its running mark.
    pub anchors: Vec<Spot>,
    /// The packs under it, each with how thick it is.
    pub packs: Vec<Spot>,
}

/// How the joists lie.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct JoistLayout {
    /// The middle line of each joist and trimmer: its name, and its two ends on plan.
    pub lines: Vec<(String, Point, Point)>,
    /// What the key says of them: their marks.
    pub words: String,
}

/// A piece of plate as it lies.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidPiece {
    /// Index of the side.
    pub side: usize,
    /// From the side's first corner to where it begins, mm; negative where it passes the corner.
    pub from: f64,
    /// From the side's first corner to where it ends, mm.
    pub to: f64,
    /// What is written on it.
    pub name: String,
    /// What is written beside it: its name and the length to cut.
    pub text: String,
}

/// A place on a side, and what is written there.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// Index of the side.
    pub side: usize,
    /// From the side's first corner, mm.
    pub at: f64,
    /// What is written beside it.
    pub text: String,
}
