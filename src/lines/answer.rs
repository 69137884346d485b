//! The whole answer: lines, boards, checks, offset outline and running marks.

use schemars::JsonSchema;
use serde::Serialize;

use super::boards::{Board, BoardKind, Nail, board};
use super::checks::{Checks, checks};
use super::clearing::clear;
use super::error::LinesError;
use super::faces::{Faces, Wall};
use super::ground::Ground;
use super::marks::{MarksQuestion, SideMarks, running_marks};
use super::offset::{Offset, offset_outline};
use super::profiles::{Profile, Size, profiles};
use super::runs::{Reach, Run, runs};
use crate::geometry::{Mm, Point, Ratio};
use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units, not_negative, positive, usable};
use crate::plan::Footprint;
use crate::sag::{NEWTONS_PER_POUND, line_weight, parabola, pull_for};

/// How far profiles stand beyond the corners unless it is said, mm: 1 m, or 4 ft. Common practice, no source.
#[must_use]
pub const fn usual_setback(units: Units) -> f64 {
    match units {
        Units::Mm | Units::M => 1000.0,
        Units::FeetInches => 4.0 * MM_PER_FOOT,
    }
}

/// The sag, mm, past which a string is no level: a millimetre, or 1/16 in.
#[must_use]
pub const fn sag_limit(units: Units) -> f64 {
    units.tape_step()
}

/// Pegs that carry a profile board. Common practice, no source.
const PEGS_A_BOARD: usize = 2;

/// The string in use and how hard it is pulled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StringLine {
    /// Its weight, g/m.
    pub grams_per_metre: f64,
    /// The pull, N.
    pub pull: f64,
    /// The weight is assumed, not given.
    pub weight_assumed: bool,
    /// The pull is assumed, not given.
    pub pull_assumed: bool,
}

impl Default for StringLine {
    /// A light braided line pulled hard by hand: 1 g/m at 50 N. Assumed values, no source.
    fn default() -> Self {
        Self::usual(Units::Mm)
    }
}

impl StringLine {
    /// A light braided line pulled hard by hand: 1 g/m at 50 N, or at 10 lb. Assumed values, no source.
    #[must_use]
    pub const fn usual(units: Units) -> Self {
        let pull = match units {
            Units::Mm | Units::M => 50.0,
            Units::FeetInches => 10.0 * NEWTONS_PER_POUND,
        };
        Self { grams_per_metre: 1.0, pull, weight_assumed: true, pull_assumed: true }
    }

    /// Its weight, N/mm.
    fn weight(&self) -> f64 {
        line_weight(self.grams_per_metre)
    }
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct LinesQuestion<'a> {
    /// The outline.
    pub footprint: &'a Footprint,
    /// How far profiles stand beyond the corners, mm.
    pub setback: f64,
    /// The wall's build-up.
    pub wall: &'a Wall,
    /// The string.
    pub string: StringLine,
    /// The distance that the offset outline is held off, mm, outward positive.
    pub offset: Option<f64>,
    /// What to mark along the sides.
    pub marks: Option<&'a MarksQuestion>,
    /// The units whose tape step lengths are rounded to.
    pub units: Units,
}

/// The most studs marked round an outline: so many that the centres can only be a slip of the unit.
const MOST_STUDS: f64 = 100_000.0;

impl LinesQuestion<'_> {
    /// Whether it can be: every length, the string's weight and its pull more than nothing, every side on the outline.
    fn check(&self) -> Result<(), LinesError> {
        positive("the setback", self.setback)?;
        positive("the string's weight", self.string.grams_per_metre)?;
        positive("the string's pull", self.string.pull)?;
        for layer in &self.wall.layers {
            positive(layer.name.as_str(), layer.width)?;
        }
        for (what, length) in [("the footing", self.wall.footing), ("its projection", self.wall.projection)] {
            length.map(|length| not_negative(what, length)).transpose()?;
        }
        self.offset.map(|offset| usable("the offset", offset)).transpose()?;
        let Some(marks) = self.marks else { return Ok(()) };
        if let Some(centres) = marks.studs {
            let most = self.footprint.perimeter() / MOST_STUDS;
            if positive("the studs' centres", centres)? < most {
                return Err(LinesError::Studs(centres));
            }
        }
        for item in &marks.items {
            usable(item.name.as_str(), item.from)?;
            not_negative(item.name.as_str(), item.to - item.from)?;
        }
        let sides = self.footprint.len();
        let named = marks.sides.iter().map(|(side, _)| *side).chain(marks.items.iter().map(|item| item.side));
        named
            .into_iter()
            .try_for_each(|side| if side < sides { Ok(()) } else { Err(LinesError::NoSide { side, sides }) })
    }
}

/// The line of one side. Sides on one line share the string: each has its entry, alike but for its own name.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct WallLine {
    /// The side.
    pub side: String,
    /// The other sides that the same string serves.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub with: Vec<String>,
    /// One string from board to board, mm.
    pub string_length: Mm,
    /// How far it hangs in the middle, mm.
    pub sag: Mm,
    /// The pull, N, at which it hangs no more than [`sag_limit`].
    pub pull_for_level: Ratio,
    /// The two ends, as the side is walked clockwise.
    pub boards: [Board; 2],
}

/// How much string.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct StringTotal {
    /// Lines to string, sides that share one counted once.
    pub lines: usize,
    /// One string on each line, mm.
    pub length: Mm,
    /// A string for every face on each line, all up at once, mm.
    pub all_faces: Mm,
    /// Its weight, g/m.
    pub grams_per_metre: Ratio,
    /// Its pull, N.
    pub pull: Ratio,
    /// Whether the weight is assumed.
    pub weight_assumed: bool,
    /// Whether the pull is assumed.
    pub pull_assumed: bool,
}

/// The lines' answer.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Lines {
    /// How far profiles stand beyond the corners, mm.
    pub setback: Mm,
    /// The faces that each board is marked for.
    pub wall: Faces,
    /// The line of every side but the house's.
    pub lines: Vec<WallLine>,
    /// The boards, and the nails in the house.
    pub profiles: Vec<Profile>,
    /// The boards by length.
    pub board_sizes: Vec<Size>,
    /// Pegs for all the boards.
    pub pegs: usize,
    /// The string.
    pub string: StringTotal,
    /// What to tape between the strings.
    pub checks: Checks,
    /// The offset outline, if one was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offset: Option<Offset>,
    /// The running marks of the sides, if they were asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<SideMarks>,
}

impl Lines {
    /// One of the entries for each string: several sides may share one.
    pub fn strings(&self) -> impl Iterator<Item = &WallLine> {
        let shared =
            |i: usize, line: &WallLine| self.lines[..i].iter().any(|before| line.with.contains(&before.side));
        self.lines.iter().enumerate().filter(move |(i, line)| !shared(*i, line)).map(|(_, line)| line)
    }

    /// Every nail in the house wall, and those past its end.
    pub fn nails_in_the_wall(&self) -> impl Iterator<Item = &Nail> {
        let ends = self.strings().flat_map(|line| &line.boards);
        ends.filter(|end| end.kind == BoardKind::HouseWall).flat_map(|end| &end.marks)
    }
}

/// The least setback, mm, at which a board clears the outermost face and the boards round its corner, to the next 50 mm
/// or 2 in.
#[must_use]
pub fn least_setback(faces: &Faces, units: Units) -> f64 {
    let step = match units {
        Units::Mm | Units::M => 50.0,
        Units::FeetInches => 2.0 * MM_PER_INCH,
    };
    // A board's own reach beyond the line round the corner, and 100 mm to spare.
    let least = Reach::new(faces, 0.0).outer + 100.0;
    (least / step).ceil() * step
}

/// Works out lines, boards and checks.
pub fn lines(question: &LinesQuestion<'_>) -> Result<Lines, LinesError> {
    let LinesQuestion { footprint, setback, string, units, .. } = *question;
    question.check()?;
    let faces = question.wall.faces()?;
    let least = least_setback(&faces, units);
    if setback < least {
        return Err(LinesError::Setback { setback, least });
    }
    let reach = Reach::new(&faces, setback);
    let ground = Ground::of(footprint);
    let mut runs = runs(&ground, reach);
    clear(&ground, &mut runs, reach);
    let (profiles, labels) = profiles(footprint, &runs, &faces, reach, units);
    let lengths: Vec<f64> = runs.iter().map(|run| length(footprint, run)).collect();
    let mut wall_lines: Vec<(usize, WallLine)> = vec![];
    for ((run, labels), length) in runs.iter().zip(&labels).zip(&lengths) {
        for side in &run.sides {
            let others = run.sides.iter().filter(|other| *other != side);
            let line = WallLine {
                side: footprint.side_name(*side),
                with: others.map(|other| footprint.side_name(*other)).collect(),
                string_length: Mm(*length),
                sag: Mm(parabola(string.weight(), *length, string.pull).unwrap_or_default()),
                pull_for_level: Ratio(
                    pull_for(string.weight(), *length, sag_limit(units)).unwrap_or_default(),
                ),
                boards: [0, 1].map(|end| board(&ground, run, end, &faces, &labels[end])),
            };
            wall_lines.push((*side, line));
        }
    }
    wall_lines.sort_by_key(|(side, _)| *side);
    let total: f64 = lengths.iter().sum();
    Ok(Lines {
        setback: Mm(setback),
        lines: wall_lines.into_iter().map(|(_, line)| line).collect(),
        board_sizes: sizes(&profiles),
        pegs: PEGS_A_BOARD * profiles.iter().filter(|profile| profile.kind == BoardKind::Profile).count(),
        profiles,
        string: StringTotal {
            lines: runs.len(),
            length: Mm(total),
            all_faces: Mm(total * faces.faces.len() as f64),
            grams_per_metre: Ratio(string.grams_per_metre),
            pull: Ratio(string.pull),
            weight_assumed: string.weight_assumed,
            pull_assumed: string.pull_assumed,
        },
        checks: checks(&ground, &runs),
        offset: question.offset.map(|by| offset_outline(footprint, by, units)).transpose()?,
        marks: question.marks.map_or_else(Vec::new, |marks| running_marks(footprint, marks)),
        wall: faces,
    })
}

fn length(footprint: &Footprint, run: &Run) -> f64 {
    let [start, end]: [Point; 2] = [0, 1].map(|end| run.end_at(footprint, end));
    start.distance(end)
}

/// The boards by length, shortest first.
fn sizes(profiles: &[Profile]) -> Vec<Size> {
    let mut sizes: Vec<Size> = vec![];
    let boards = profiles.iter().filter(|profile| profile.kind == BoardKind::Profile);
    for board in boards {
        match sizes.iter_mut().find(|size| (size.length.0 - board.length.0).abs() < 0.5) {
            Some(size) => size.count += 1,
            None => sizes.push(Size { length: board.length, count: 1 }),
        }
    }
    sizes.sort_by(|a, b| a.length.0.total_cmp(&b.length.0));
    sizes
}
