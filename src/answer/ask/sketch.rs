//! The drawing of a job: which of its answers are shown on the plan.

use crate::answer::commands::{Asked, Known, Part};
use crate::answer::error::AnswerError;
use crate::answer::joists::RoofJoists;
use crate::answer::sketch::Sketch;
use crate::geometry::Point;
use crate::job::{Job, Subject};
use crate::joists::JoistEnd;
use crate::length::Units;
use crate::lines::{Board, ItemKind, Lines};
use crate::packing::Packs;
use crate::plan::{Footprint, SAME_PLACE};
use crate::plates::{Layer, Plates};
use crate::sketch::{
    Anchor, CheckLine, CheckUse, Drawing, JoistLayout, LaidPiece, Opening, Paper, PlateLayout, ProfileBoard,
    Spot, StringLine, Title, character_drawing,
};
use crate::square::Diagonals;

/// The most columns of the terminal drawing.
const COLUMNS: usize = 80;
/// Its most rows: what is left of 24 for the lines round it.
const ROWS: usize = 15;

impl Asked for Sketch {
    /// The outline with the proof set and the spares, and what else the job wants to see on it.
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let diagonals = Diagonals::part(job, known)?;
        let mut drawing = Drawing::new(footprint, job.units);
        let taped = [(CheckUse::Proof, &diagonals.proof.names), (CheckUse::Spare, &diagonals.spares.names)];
        for (purpose, names) in taped {
            let ends = names.iter().filter_map(|name| footprint.parse_line(name));
            drawing.checks.extend(ends.map(|(from, to)| CheckLine { from, to, purpose }));
        }
        let checks = drawing.checks.clone();
        let along = job.lines.marks.iter().flat_map(|marks| &marks.items);
        drawing.openings = along
            .filter(|item| item.kind == ItemKind::Opening)
            .map(|item| Opening {
                side: item.side,
                from: item.from,
                to: item.to,
                window: item.window,
                text: format!("{} {}", item.name, job.units.figure(item.to - item.from)),
            })
            .collect();
        if job.sketch.of == Subject::Plates {
            drawing.checks.clear();
            drawing.plates = Some(layout(job, footprint, known)?);
            return finish(job, drawing, checks);
        }
        if job.sketch.of == Subject::Joists {
            drawing.checks.clear();
            drawing.joists = Some(joists(&*RoofJoists::part(job, known)?, job.units));
            return finish(job, drawing, checks);
        }
        if job.sketch.anchors {
            let plates = Plates::part(job, known)?;
            drawing.anchors = anchors(footprint, &plates).map(|(anchor, _)| anchor).collect();
        }
        if job.sketch.profiles {
            (drawing.boards, drawing.strings) = profiles(&*Lines::part(job, known)?);
        }
        finish(job, drawing, checks)
    }
}

/// Puts the drawing on its sheet.
fn finish(job: &Job, mut drawing: Drawing, checks: Vec<CheckLine>) -> Result<Sketch, AnswerError> {
    drawing.north = job.sketch.north;
    drawing.title = Title { job: job.name.clone(), ..job.sketch.title.clone() };
    drawing.paper = job.sketch.paper.unwrap_or(match job.units {
        Units::Mm | Units::M => Paper::A4,
        Units::FeetInches => Paper::Letter,
    });
    let terminal = character_drawing(&drawing, COLUMNS, ROWS);
    let sketch = Sketch { drawing, scale: job.sketch.scale, checks, terminal };
    // A scale of the user's own has to fit whatever is printed; another is found where it is wanted.
    if sketch.scale.is_some() {
        sketch.scene()?;
    }
    Ok(sketch)
}

/// How the plate of the outline is laid, with the packs under it where the job has readings of its levels.
fn layout(job: &Job, footprint: &Footprint, known: &[Part]) -> Result<PlateLayout, AnswerError> {
    let plates = Plates::part(job, known)?;
    let units = job.units;
    let mut layout = PlateLayout { width: plates.width.0, ..PlateLayout::default() };
    for run in plates.runs.iter().filter(|run| run.layer == Layer::Plate) {
        let Some(side) = side_of(footprint, &run.side) else { continue };
        let at = |mm: f64| run.from_corner.0 + mm;
        for piece in &run.pieces {
            let (from, to) = (at(piece.from.to_mm().0), at(piece.to.to_mm().0));
            let text = format!("{} {}", piece.name, units.figure(piece.length.to_mm().0));
            layout.pieces.push(LaidPiece { side, from, to, name: piece.name.clone(), text });
        }
        for [one, _] in run.pieces.array_windows() {
            layout.splices.push(Spot { side, at: at(one.to.to_mm().0), text: String::new() });
        }
    }
    layout.anchors = anchors(footprint, &plates)
        .map(|(Anchor { side, at }, mark)| Spot { side, at, text: units.figure(mark) })
        .collect();
    if job.packs.is_some() {
        let packs = Packs::part(job, known)?;
        for station in packs.stations.iter().filter(|station| station.pack.0 > 0.0) {
            let Some(side) = side_of(footprint, &station.side) else { continue };
            let text = format!("+{}", units.figure(station.pack.0));
            layout.packs.push(Spot { side, at: station.along.0, text });
        }
    }
    Ok(layout)
}

/// The joists and trimmers on their middle lines, and the marks in one pull.
fn joists(joists: &RoofJoists, units: Units) -> JoistLayout {
    let set_out = &joists.set_out;
    let at = |end: &JoistEnd| Point::new(end.x.0, end.y.0);
    let lines = set_out.joists.iter().map(|joist| (joist.name.clone(), at(&joist.from), at(&joist.to)));
    let trimmers = set_out.trimmers.iter().map(|trimmer| {
        let [from, to] = trimmer.ends.map(|[x, y]| Point::new(x.0, y.0));
        (String::new(), from, to)
    });
    let mut marks: Vec<String> = set_out.joists.iter().map(|joist| units.figure(joist.mark.0)).collect();
    marks.dedup();
    JoistLayout {
        lines: lines.chain(trimmers).collect(),
        words: format!("joist; marks from {}: {}", set_out.set_out_from, marks.join(", ")),
    }
}

/// The anchors of the plate on the masonry, each with its mark from the run's start; those of partitions have no side to
/// stand on.
fn anchors(footprint: &Footprint, plates: &Plates) -> impl Iterator<Item = (Anchor, f64)> {
    plates.anchors.iter().filter_map(|anchor| {
        let run = plates.runs.iter().find(|run| run.side == anchor.side && run.layer == Layer::Plate)?;
        let at = run.from_corner.0 + anchor.at.0;
        Some((Anchor { side: side_of(footprint, &anchor.side)?, at }, anchor.at.0))
    })
}

/// The index of the side called `name`.
fn side_of(footprint: &Footprint, name: &str) -> Option<usize> {
    (0..footprint.len()).find(|i| footprint.side_name(*i) == name)
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
