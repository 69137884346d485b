//! The drawing of a job: which of its answers are shown on the plan.

use schemars::JsonSchema;
use serde::Serialize;

use super::sheet::part;
use super::{Answer, AnswerError, Part, Question};
use crate::geometry::Point;
use crate::job::{Job, Subject};
use crate::length::Units;
use crate::lines::{Board, ItemKind, Lines};
use crate::plan::{Footprint, SAME_PLACE};
use crate::plates::{Layer, Plates};
use crate::sketch::{
    Anchor, CharacterDrawing, CheckLine, CheckUse, Drawing, LaidPiece, Opening, Paper, PlateLayout,
    ProfileBoard, Scene, Spot, StringLine, Title, character_drawing, scene,
};
use crate::square::Diagonals;

/// The most columns of the terminal drawing.
const COLUMNS: usize = 80;
/// Its most rows: what is left of 24 for the lines round it.
const ROWS: usize = 15;

/// A job's plan, drawn.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Sketch {
    /// On a sheet of paper.
    #[serde(flatten)]
    pub scene: Scene,
    /// In characters.
    #[serde(skip)]
    pub terminal: CharacterDrawing,
    /// The lines to tape: why, name, length in mm.
    #[serde(skip)]
    pub checks: Vec<(CheckUse, String, f64)>,
}

/// Draws the job's outline with the proof set and the spares of `diagonals`.
pub(super) fn sketch(
    job: &Job,
    footprint: &Footprint,
    diagonals: &Diagonals,
    known: &[Part],
) -> Result<Sketch, AnswerError> {
    let mut drawing = Drawing::new(footprint, job.units);
    let taped = [(CheckUse::Proof, &diagonals.proof.names), (CheckUse::Spare, &diagonals.spares.names)];
    let mut checks = vec![];
    for (purpose, names) in taped {
        for name in names {
            if let Some((from, to)) = footprint.parse_line(name) {
                drawing.checks.push(CheckLine { from, to, purpose });
                let corners = footprint.corners();
                checks.push((purpose, name.clone(), corners[from].at.distance(corners[to].at)));
            }
        }
    }
    let along = job.lines.marks.iter().flat_map(|marks| &marks.items);
    drawing.openings = along
        .filter(|item| item.kind == ItemKind::Opening)
        .map(|item| Opening {
            side: item.side,
            from: item.from,
            to: item.to,
            text: format!("{} {}", item.name, job.units.figure(item.to - item.from)),
        })
        .collect();
    if job.sketch.of == Subject::Plates {
        drawing.checks.clear();
        drawing.plates = Some(layout(job, footprint, known)?);
        return finish(job, drawing, checks);
    }
    if job.sketch.anchors
        && let Answer::Plates(plates) = part(job, Question::Plates, known)?
    {
        drawing.anchors = anchors(footprint, &plates);
    }
    if job.sketch.profiles
        && let Answer::Lines(lines) = part(job, Question::Lines, known)?
    {
        (drawing.boards, drawing.strings) = profiles(&lines);
    }
    finish(job, drawing, checks)
}

/// Puts the drawing on its sheet.
fn finish(
    job: &Job,
    mut drawing: Drawing,
    checks: Vec<(CheckUse, String, f64)>,
) -> Result<Sketch, AnswerError> {
    drawing.north = job.sketch.north;
    drawing.title = Title { job: job.name.clone(), ..job.sketch.title.clone() };
    drawing.paper = job.sketch.paper.unwrap_or(match job.units {
        Units::Mm | Units::M => Paper::A4,
        Units::FeetInches => Paper::Letter,
    });
    Ok(Sketch {
        scene: scene(&drawing, job.sketch.scale)?,
        terminal: character_drawing(&drawing, COLUMNS, ROWS),
        checks,
    })
}

/// How the plate of the outline is laid, with the packs under it where the job has readings of its levels.
fn layout(job: &Job, footprint: &Footprint, known: &[Part]) -> Result<PlateLayout, AnswerError> {
    let Answer::Plates(plates) = part(job, Question::Plates, known)? else {
        return Ok(PlateLayout::default());
    };
    let units = job.units;
    let side_of = |name: &str| (0..footprint.len()).find(|i| footprint.side_name(*i) == name);
    let mut layout = PlateLayout { width: plates.width.0, ..PlateLayout::default() };
    for run in plates.runs.iter().filter(|run| run.layer == Layer::Plate) {
        let Some(side) = side_of(&run.side) else { continue };
        let at = |mm: f64| run.from_corner.0 + mm;
        for piece in &run.pieces {
            let (from, to) = (at(piece.from.to_mm().0), at(piece.to.to_mm().0));
            let text = format!("{} {}", piece.name, units.figure(piece.length.to_mm().0));
            layout.pieces.push(LaidPiece { side, from, to, name: piece.name.clone(), text });
        }
        for [one, _] in run.pieces.array_windows() {
            layout.splices.push(Spot { side, at: at(one.to.to_mm().0), text: String::new() });
        }
        for anchor in plates.anchors.iter().filter(|anchor| anchor.side == run.side) {
            let text = units.figure(anchor.at.0);
            layout.anchors.push(Spot { side, at: at(anchor.at.0), text });
        }
    }
    if job.packs.is_some()
        && let Answer::Packs(packs) = part(job, Question::Packs, known)?
    {
        for station in packs.stations.iter().filter(|station| station.pack.0 > 0.0) {
            let Some(side) = side_of(&station.side) else { continue };
            let text = format!("+{}", units.figure(station.pack.0));
            layout.packs.push(Spot { side, at: station.along.0, text });
        }
    }
    Ok(layout)
}

/// The anchors of the plate on the masonry; those of partitions have no side to stand on.
fn anchors(footprint: &Footprint, plates: &Plates) -> Vec<Anchor> {
    let side_of = |name: &str| (0..footprint.len()).find(|i| footprint.side_name(*i) == name);
    plates
        .anchors
        .iter()
        .filter_map(|anchor| {
            let run = plates.runs.iter().find(|run| run.side == anchor.side && run.layer == Layer::Plate)?;
            Some(Anchor { side: side_of(&anchor.side)?, at: run.from_corner.0 + anchor.at.0 })
        })
        .collect()
}

/// The boards with the nails of the outline's own lines, and those lines.
fn profiles(lines: &Lines) -> (Vec<ProfileBoard>, Vec<StringLine>) {
    let mut boards: Vec<ProfileBoard> = lines
        .profiles
        .iter()
        .map(|profile| {
            let half = profile.length.0 / 2.0;
            let (dx, dy) = if profile.across { (half, 0.0) } else { (0.0, half) };
            let (x, y) = (profile.x.0, profile.y.0);
            ProfileBoard {
                label: profile.label.clone(),
                from: Point::new(x - dx, y - dy),
                to: Point::new(x + dx, y + dy),
                nails: vec![],
            }
        })
        .collect();
    let mut strings: Vec<StringLine> = vec![];
    for line in &lines.lines {
        let [Some(from), Some(to)] = line.boards.each_ref().map(outline_nail) else {
            continue;
        };
        // Sides on one line share a string, walked either way.
        let known = strings.iter().any(|s| same(s.from, s.to, from, to) || same(s.to, s.from, from, to));
        if known {
            continue;
        }
        strings.push(StringLine { from, to });
        for (end, at) in line.boards.iter().zip([from, to]) {
            if let Some(board) = boards.iter_mut().find(|board| board.label == end.label) {
                board.nails.push(at);
            }
        }
    }
    (boards, strings)
}

fn same(a: Point, b: Point, c: Point, d: Point) -> bool {
    a.distance(c) < SAME_PLACE && b.distance(d) < SAME_PLACE
}

/// The nail of the face nearest the outline: at the scale of a sheet the faces' nails would be one blot.
fn outline_nail(board: &Board) -> Option<Point> {
    let nearest = board.marks.iter().min_by(|a, b| a.offset.0.abs().total_cmp(&b.offset.0.abs()))?;
    Some(Point::new(nearest.x.0, nearest.y.0))
}
