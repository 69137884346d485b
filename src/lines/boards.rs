//! The ends of the lines: where each stands, and the marks on it.

use schemars::JsonSchema;
use serde::Serialize;

use super::faces::{Face, Faces};
use super::ground::Ground;
use super::runs::{Reach, Run, Why};
use crate::geometry::{Mm, Point};
use crate::plan::Heading;

/// Board left beyond its last nail, mm. Common practice, no source.
const BEYOND_LAST_NAIL: f64 = 150.0;
/// The shortest board that two pegs carry, mm. Common practice, no source.
const SHORTEST: f64 = 600.0;

/// What a string ends on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BoardKind {
    /// A profile board on two pegs.
    Profile,
    /// Nails in the house wall.
    HouseWall,
}

/// The mark of one face on a board.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Nail {
    /// The face.
    pub face: String,
    /// How far it stands from the outline's own nail, mm: outward positive.
    pub offset: Mm,
    /// How far it stands from the outermost nail of this line, mm.
    pub from_outermost: Mm,
    /// Where the nail is, mm across the page.
    pub x: Mm,
    /// Where the nail is, mm down the page.
    pub y: Mm,
    /// For a nail in the house wall: the plan shows no house where it stands, past the end of the wall's side.
    pub past_wall: bool,
}

/// One end of a line: which board, where it stands, and its marks.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Board {
    /// The label on the sketch: P1 for a profile, N1 for nails in the house.
    pub label: String,
    /// The corner it stands beyond.
    pub at: String,
    /// What it is.
    pub kind: BoardKind,
    /// How far beyond the corner it stands along the line, mm; 0 for nails at the corner itself.
    pub setback: Mm,
    /// Why it does not stand at the setback asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<Why>,
    /// Which way is outward on the page, facing the plan: `right`, `down`, `left`, `up`.
    pub outward: &'static str,
    /// The marks, outermost first.
    pub marks: Vec<Nail>,
}

impl Reach {
    /// How far boards reach to both sides of the outline's line, for the faces they carry.
    pub(super) fn new(faces: &Faces, setback: f64) -> Self {
        Self {
            setback,
            outer: (faces.outermost() + BEYOND_LAST_NAIL).max(SHORTEST / 2.0),
            inner: (faces.innermost() + BEYOND_LAST_NAIL).max(SHORTEST / 2.0),
            dig: faces.outermost(),
        }
    }
}

/// The board of one side at one end of its run. The setback is told from the side's own corner on that end of the run.
pub(super) fn board(ground: &Ground<'_>, run: &Run, end: usize, faces: &Faces, label: &str) -> Board {
    let (footprint, put) = (ground.footprint, &run.ends[end]);
    let mut marks = marks(run.end_at(footprint, end), run.heading, &faces.faces);
    for nail in marks.iter_mut().filter(|_| put.house) {
        nail.past_wall = !ground.site.touches_house(Point::new(nail.x.0, nail.y.0));
    }
    Board {
        label: label.to_owned(),
        at: footprint.corners()[put.corner].name.to_string(),
        kind: if put.house { BoardKind::HouseWall } else { BoardKind::Profile },
        setback: Mm(put.beyond),
        why: put.why.clone(),
        outward: match run.heading.left() {
            Heading::Right => "right",
            Heading::Down => "down",
            Heading::Left => "left",
            Heading::Up => "up",
        },
        marks,
    }
}

pub(super) fn marks(at: Point, heading: Heading, faces: &[Face]) -> Vec<Nail> {
    let (ox, oy) = heading.outward();
    faces
        .iter()
        .map(|face| Nail {
            face: face.face.clone(),
            offset: face.offset,
            from_outermost: face.from_outermost,
            x: Mm(at.x + ox * face.offset.0),
            y: Mm(at.y + oy * face.offset.0),
            past_wall: false,
        })
        .collect()
}
