//! Every check size of an outline.

use schemars::JsonSchema;
use serde::Serialize;

use super::proof::choose_proof;
use super::rectangles::{Rectangle, rectangles};
use crate::geometry::{Mm, Point, Ratio};
use crate::length::Units;
use crate::network::{Distance, needed};
use crate::plan::{Footprint, Grid, Lies, SAME_PLACE, lies};
use crate::tape::Tape;

/// What the check sizes depend on besides the outline.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// The tape: its class gives the standard deviations, its length what can be taped in one pull.
    pub tape: Tape,
    /// The units whose tape step the tape lengths are rounded to.
    pub units: Units,
    /// How many diagonals to choose beyond the proof set.
    pub spares: usize,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            tape: Tape::default(),
            units: Units::default(),
            spares: 2,
        }
    }
}

/// The check sizes of an outline.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Diagonals {
    /// The fewest rectangles that make up the footprint.
    pub rectangles: Vec<RectanglePart>,
    /// Their right triangles, two to a rectangle.
    pub triangles: Vec<Triangle>,
    /// Every corner-to-corner distance that is not a side and slants.
    pub diagonals: Vec<Diagonal>,
    /// Corner-to-corner distances on one line, not sides.
    pub straight_checks: Vec<StraightCheck>,
    /// The fewest diagonals that with the sides fix the shape.
    pub proof: ProofSet,
    /// What to tape besides, to show up a misread.
    pub spares: SpareSet,
    /// Sides that the tape doesn't reach along in one pull, by name.
    pub sides_past_tape: Vec<String>,
}

/// A corner of a rectangle: a corner of the outline, or a point on one of its sides or inside it.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Vertex {
    /// The outline's corner, where it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<String>,
    /// The side it lies on, where it lies on one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<String>,
    /// How far along that side from its first letter, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<Mm>,
    /// Across the page, mm.
    pub x: Mm,
    /// Down the page, mm.
    pub y: Mm,
}

impl Vertex {
    /// How it is called: its letter, or where along which side it lies.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        match (&self.corner, &self.side, self.along) {
            (Some(corner), _, _) => corner.clone(),
            (None, Some(side), Some(along)) => format!("{} along {side}", units.with_unit(along.0)),
            _ => format!(
                "a point {} across, {} down",
                units.with_unit(self.x.0),
                units.with_unit(self.y.0)
            ),
        }
    }
}

/// One of the rectangles that make up the footprint.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct RectanglePart {
    /// Width across the page, mm.
    pub across: Mm,
    /// Depth down the page, mm.
    pub down: Mm,
    /// Its diagonal, mm.
    pub diagonal: Mm,
    /// Its four corners, clockwise from the top left.
    pub corners: Vec<Vertex>,
}

/// A right triangle: legs `a` and `b`, diagonal `c`.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Triangle {
    /// Which rectangle it is half of, counted from 1.
    pub rectangle: usize,
    /// Its leg across, mm.
    pub a: Mm,
    /// Its leg down, mm.
    pub b: Mm,
    /// Its diagonal, mm.
    pub c: Mm,
    /// The rectangle's corner (0 to 3, clockwise from the top left) with the right angle.
    pub right_angle_at: usize,
}

/// A corner-to-corner distance to check.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Diagonal {
    /// Its two letters.
    pub name: String,
    /// The first corner.
    pub from: String,
    /// The second corner.
    pub to: String,
    /// The leg across, mm.
    pub across: Mm,
    /// The leg down, mm.
    pub down: Mm,
    /// Exact length, mm.
    pub length: Mm,
    /// Length to the tape's step, mm.
    pub tape: Mm,
    /// Where the tape lies.
    pub lies: Lies,
    /// Whether it is in the proof set.
    pub proof: bool,
    /// Whether it is one of the spares.
    pub spare: bool,
    /// Whether the tape reaches it in one pull.
    pub in_reach: bool,
    /// How far the far end of the longer leg moves for 1 mm on this diagonal, mm: c/(shorter leg).
    pub mm_at_end_per_mm: Ratio,
}

/// A distance between two corners on one line across or down the page.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct StraightCheck {
    /// Its two letters.
    pub name: String,
    /// Exact length, mm.
    pub length: Mm,
    /// Length to the tape's step, mm.
    pub tape: Mm,
    /// Where the tape lies.
    pub lies: Lies,
    /// Whether it is in the proof set.
    pub proof: bool,
    /// Whether it is one of the spares.
    pub spare: bool,
    /// Whether the tape reaches it in one pull.
    pub in_reach: bool,
}

/// The fewest diagonals that with all the sides fix the shape.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct ProofSet {
    /// Their names.
    pub names: Vec<String>,
    /// The largest corner ellipse semi-axis, free datum, mm; `null` where the shape stays loose.
    pub worst_corner_sd: Option<Mm>,
    /// Readings beyond what fixes the shape: 0 for a proof set alone, negative where diagonals are wanting.
    pub redundancy: i64,
    /// Whether they fix the shape.
    pub fixed: bool,
}

/// Diagonals beyond the proof set.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SpareSet {
    /// Their names.
    pub names: Vec<String>,
    /// The worst corner with proof set and spares, mm.
    pub worst_corner_sd: Option<Mm>,
    /// Readings beyond what fixes the shape, with proof set and spares.
    pub redundancy: i64,
    /// The largest slip that could hide in one reading, mm; `null` where some reading is not checked by the rest.
    pub hides: Option<Mm>,
}

/// Works out every check size of `footprint`.
///
/// The proof set and the spares are chosen from all lines between corners that can be taped in one pull, straight
/// ones too: across the mouth of a T's stem is as good a tape as any.
#[must_use]
pub fn diagonals(footprint: &Footprint, options: &Options) -> Diagonals {
    let grid = Grid::new(footprint);
    let parts = rectangles(footprint, &grid);
    let taped = |from: usize, to: usize, length: f64| Distance {
        from,
        to,
        sd: options.tape.standard_deviation(length),
    };
    let sides: Vec<Distance> = footprint
        .sides()
        .iter()
        .map(|side| taped(side.from, side.to, side.length))
        .collect();
    let mut lines = lines(footprint, &grid, options);
    let (tapeable, candidates): (Vec<usize>, Vec<Distance>) = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.lies != Lies::Blocked && line.in_reach)
        .map(|(i, line)| (i, taped(line.from, line.to, line.length)))
        .unzip();
    let choice = choose_proof(&footprint.points(), &sides, &candidates, options.spares);
    for i in &choice.with_spares.chosen {
        let proof = choice.fewest.chosen.contains(i);
        let line = &mut lines[tapeable[*i]];
        line.proof = proof;
        line.spare = !proof;
    }
    let names = |wanted: fn(&Line) -> bool| {
        lines
            .iter()
            .filter(|line| wanted(line))
            .map(|line| footprint.line_name(line.from, line.to))
            .collect()
    };
    let redundancy = |chosen: &[usize]| {
        let readings = footprint.len() + chosen.len();
        i64::try_from(readings).unwrap_or(0) - i64::try_from(needed(footprint.len())).unwrap_or(0)
    };
    let (straight, slanting): (Vec<&Line>, Vec<&Line>) = lines.iter().partition(|line| line.is_straight());
    Diagonals {
        triangles: parts
            .iter()
            .enumerate()
            .flat_map(|(i, part)| triangles(i, part))
            .collect(),
        rectangles: parts.iter().map(|part| rectangle_part(footprint, part)).collect(),
        diagonals: slanting
            .iter()
            .map(|line| line.diagonal(footprint, options.units))
            .collect(),
        straight_checks: straight
            .iter()
            .map(|line| line.straight_check(footprint, options.units))
            .collect(),
        proof: ProofSet {
            names: names(|line| line.proof),
            worst_corner_sd: choice.fewest.worst_corner_sd.map(Mm),
            redundancy: redundancy(&choice.fewest.chosen),
            fixed: choice.fewest.worst_corner_sd.is_some(),
        },
        spares: SpareSet {
            names: names(|line| line.spare),
            worst_corner_sd: choice.with_spares.worst_corner_sd.map(Mm),
            redundancy: redundancy(&choice.with_spares.chosen),
            hides: choice.hides.map(Mm),
        },
        sides_past_tape: (0..footprint.len())
            .filter(|i| !options.tape.reaches(footprint.sides()[*i].length))
            .map(|i| footprint.side_name(i))
            .collect(),
    }
}

/// A line between two corners that is not a side.
struct Line {
    from: usize,
    to: usize,
    across: f64,
    down: f64,
    length: f64,
    lies: Lies,
    in_reach: bool,
    proof: bool,
    spare: bool,
}

/// Every line between two corners that is not a side, in order of letters.
fn lines(footprint: &Footprint, grid: &Grid, options: &Options) -> Vec<Line> {
    let corners = footprint.corners();
    let mut lines = vec![];
    for from in 0..corners.len() {
        for to in (from + 1..corners.len()).filter(|to| !footprint.is_side(from, *to)) {
            let (a, b) = (corners[from].at, corners[to].at);
            let length = a.distance(b);
            lines.push(Line {
                from,
                to,
                across: (b.x - a.x).abs(),
                down: (b.y - a.y).abs(),
                length,
                lies: lies(grid, a, b),
                in_reach: options.tape.reaches(length),
                proof: false,
                spare: false,
            });
        }
    }
    lines
}

impl Line {
    fn is_straight(&self) -> bool {
        self.across <= SAME_PLACE || self.down <= SAME_PLACE
    }

    fn diagonal(&self, footprint: &Footprint, units: Units) -> Diagonal {
        Diagonal {
            name: footprint.line_name(self.from, self.to),
            from: footprint.corners()[self.from].name.to_string(),
            to: footprint.corners()[self.to].name.to_string(),
            across: Mm(self.across),
            down: Mm(self.down),
            length: Mm(self.length),
            tape: Mm(units.on_tape(self.length)),
            lies: self.lies,
            proof: self.proof,
            spare: self.spare,
            in_reach: self.in_reach,
            mm_at_end_per_mm: Ratio(self.length / self.across.min(self.down)),
        }
    }

    fn straight_check(&self, footprint: &Footprint, units: Units) -> StraightCheck {
        StraightCheck {
            name: footprint.line_name(self.from, self.to),
            length: Mm(self.length),
            tape: Mm(units.on_tape(self.length)),
            lies: self.lies,
            proof: self.proof,
            spare: self.spare,
            in_reach: self.in_reach,
        }
    }
}

/// The two halves of a rectangle, with right angles at its top right and bottom left.
fn triangles(index: usize, part: &Rectangle) -> [Triangle; 2] {
    [1, 3].map(|right_angle_at| Triangle {
        rectangle: index + 1,
        a: Mm(part.across()),
        b: Mm(part.down()),
        c: Mm(part.diagonal()),
        right_angle_at,
    })
}

fn rectangle_part(footprint: &Footprint, part: &Rectangle) -> RectanglePart {
    RectanglePart {
        across: Mm(part.across()),
        down: Mm(part.down()),
        diagonal: Mm(part.diagonal()),
        corners: part.corners().iter().map(|at| vertex(footprint, *at)).collect(),
    }
}

fn vertex(footprint: &Footprint, at: Point) -> Vertex {
    let corner = footprint
        .corners()
        .iter()
        .find(|corner| corner.at.distance(at) <= SAME_PLACE);
    let on_side = footprint.sides().iter().position(|side| {
        let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
        (a.distance(at) + at.distance(b) - side.length).abs() <= SAME_PLACE
    });
    let side = on_side.filter(|_| corner.is_none());
    Vertex {
        corner: corner.map(|corner| corner.name.to_string()),
        side: side.map(|i| footprint.side_name(i)),
        along: side.map(|i| Mm(footprint.corners()[footprint.sides()[i].from].at.distance(at))),
        x: Mm(at.x),
        y: Mm(at.y),
    }
}
