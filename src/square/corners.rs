//! The triangles to lay out at every corner, and a corner as found.

use schemars::JsonSchema;
use serde::Serialize;

use super::angle::{AngleError, AngleFound, angle_found};
use super::triples::{CornerCheck, Multiple, corner_checks, multiples};
use crate::geometry::Mm;
use crate::length::Units;
use crate::plan::Footprint;
use crate::tape::Tape;

/// Rows in the table of multiples.
const ROWS: usize = 12;

/// What the corners are asked.
#[derive(Debug, Clone, Copy)]
pub struct CornersQuestion<'a> {
    /// The outline, if there is one.
    pub footprint: Option<&'a Footprint>,
    /// The tape in use.
    pub tape: Tape,
    /// The units whose neat steps the multiples are in.
    pub units: Units,
    /// Three tapes at a corner as found: along one side, along the other, between the two ends, mm.
    pub tapes: Option<[f64; 3]>,
    /// The index of the corner they were taken at.
    pub corner: Option<usize>,
    /// The most it may be out of square at the end of the longer side, mm.
    pub limit: Option<f64>,
}

/// The corners' answer.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Corners {
    /// The best triangle at each corner.
    pub corners: Vec<CornerCheck>,
    /// 3-4-5 and its multiples, as far as the outline and the tape go.
    pub multiples: Vec<Multiple>,
    /// The corner as found, if three tapes were given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found: Option<CornerFound>,
}

impl Corners {
    /// Whether the corner as found is within its limit; good too where none was found or no limit given.
    #[must_use]
    pub fn good(&self) -> bool {
        self.found.as_ref().and_then(|found| found.within).unwrap_or(true)
    }
}

/// A corner as found from three tapes, judged against a limit if there is one.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct CornerFound {
    /// The corner's letter, if one was named.
    pub name: Option<String>,
    /// The corner at the other end of its longer side, where the angle is told, if a corner was named.
    pub end: Option<String>,
    /// The angle and how far out of square.
    #[serde(flatten)]
    pub angle: AngleFound,
    /// The limit, mm.
    pub limit: Option<Mm>,
    /// Whether it is within the limit, if there is one.
    pub within: Option<bool>,
}

/// The triangles at every corner, and the corner as found.
pub fn corners(question: &CornersQuestion<'_>) -> Result<Corners, AngleError> {
    question.tape.check().map_err(AngleError::Tape)?;
    let found = question.tapes.map(|tapes| corner_found(question, tapes)).transpose()?;
    let checks = question
        .footprint
        .map_or_else(Vec::new, |footprint| corner_checks(footprint, question.tape.length, question.units));
    let longest = match (question.footprint, question.tapes) {
        (Some(footprint), _) => footprint.extent().0.hypot(footprint.extent().1),
        (None, Some(tapes)) => tapes[2].max(tapes[0]).max(tapes[1]),
        (None, None) => question.tape.length.unwrap_or(10_000.0),
    };
    let longest = question.tape.length.map_or(longest, |tape| tape.min(longest));
    Ok(Corners { corners: checks, multiples: multiples(longest, ROWS, question.units), found })
}

/// The length of a corner's longer side, mm, and the corner at its other end.
#[must_use]
pub fn longer_side(footprint: &Footprint, corner: usize) -> (f64, usize) {
    let (arrives, leaves) = footprint.sides_at(corner);
    let (arrives, leaves) = (&footprint.sides()[arrives], &footprint.sides()[leaves]);
    if arrives.length > leaves.length { (arrives.length, arrives.from) } else { (leaves.length, leaves.to) }
}

fn corner_found(question: &CornersQuestion<'_>, [a, b, c]: [f64; 3]) -> Result<CornerFound, AngleError> {
    let at = question.footprint.zip(question.corner).filter(|(footprint, corner)| *corner < footprint.len());
    let longer = at.map(|(footprint, corner)| longer_side(footprint, corner));
    let angle = angle_found(a, b, c, longer.map(|(length, _)| length), &question.tape)?;
    let name = |footprint: &Footprint, corner: usize| footprint.corners()[corner].name.to_string();
    Ok(CornerFound {
        name: at.map(|(footprint, corner)| name(footprint, corner)),
        end: at.zip(longer).map(|((footprint, _), (_, end))| name(footprint, end)),
        limit: question.limit.map(Mm),
        within: question.limit.map(|limit| angle.out_of_square.0.abs() <= limit),
        angle,
    })
}
