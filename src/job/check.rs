//! From a [`JobFile`] to a checked [`Job`], with every fault told at once.

mod along;
mod lines;
mod straight;

pub use lines::LinesJob;

use super::faults::Faults;
use super::{
    CornersSection, Fault, JobFile, OrderJob, ReadingsQuestion, SCHEMA, SketchInputs, TapeSection, heights,
    packs, readings, sketch,
};
use crate::cuts;
use crate::length::Units;
use crate::levels::{Packing, WallHead};
use crate::lines::StraightQuestion;
use crate::plan::{Footprint, parse_expression, parse_walk};
use crate::plates;
use crate::quote::quoted;
use crate::tape::Tape;

/// The most diagonals that can be asked for beyond the proof set.
const MOST_SPARES: usize = 20;

/// A checked job.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What it is called.
    pub name: Option<String>,
    /// The units of bare numbers and of the figures that come back.
    pub units: Units,
    /// The plan as it was written.
    pub expression: Option<String>,
    /// The outline, if a plan was given.
    pub footprint: Option<Footprint>,
    /// The tape in use.
    pub tape: Tape,
    /// How many diagonals to choose beyond the proof set.
    pub spares: usize,
    /// A corner as found, if three tapes were given.
    pub angle: Option<AngleQuestion>,
    /// Levels round the plate and what to pack them with, if there are readings and a plan.
    pub packs: Option<Packing>,
    /// The wall head and what stands under it, if anything is given of them.
    pub heights: Option<WallHead>,
    /// What lines and profiles depend on.
    pub lines: LinesJob,
    /// Offset-block readings, if there are any.
    pub straight: Option<StraightQuestion>,
    /// What is asked of the plates, if their width was given.
    pub plates: Option<plates::Options>,
    /// A list of pieces to cut, if there is one.
    pub cuts: Option<cuts::Question>,
    /// Whether there is any timber to cut from.
    pub has_timber: bool,
    /// Taped readings and how to judge them, if there are some and a plan.
    pub readings: Option<ReadingsQuestion>,
    /// What was said about the drawing.
    pub sketch: SketchInputs,
    /// What an order depends on besides the answers of the parts.
    pub order: OrderJob,
}

/// Three tapes at a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AngleQuestion {
    /// Along one side, along the other, between the two ends, mm.
    pub tapes: [f64; 3],
    /// The corner's index in the outline, if one was named.
    pub corner: Option<usize>,
    /// The most it may be out of square at the end of the longer side, mm.
    pub limit: Option<f64>,
}

impl Job {
    /// Checks everything that the file gives. All faults found are returned together.
    pub fn check(file: &JobFile) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        if let Some(schema) = file.schema.filter(|schema| *schema != SCHEMA) {
            faults.add(
                "schema",
                format!("schema {schema} is not known here: write {SCHEMA}"),
            );
        }
        let given: Option<Units> = file
            .units
            .as_ref()
            .and_then(|units| faults.take("units", units.parse()));
        let bare = given.unwrap_or_default();
        let plan = plan(file, bare, &mut faults);
        let (footprint, written_in) = plan.unzip();
        let footprint = match (footprint, &file.house) {
            (Some(footprint), Some(house)) => Some(with_house(footprint, house, &mut faults)),
            (footprint, _) => footprint,
        };
        let tape = tape(file.tape.as_ref(), bare, &mut faults);
        let spares = file
            .diagonals
            .as_ref()
            .and_then(|section| section.spares)
            .unwrap_or(2);
        if spares > MOST_SPARES {
            faults.add(
                "diagonals.spares",
                format!("{spares} is too many: 0 to {MOST_SPARES}"),
            );
        }
        let angle = file
            .corners
            .as_ref()
            .and_then(|section| angle(section, footprint.as_ref(), bare, &mut faults));
        let heights = file
            .heights
            .as_ref()
            .map(|section| heights::wall_head(section, bare, &mut faults));
        let (heights, heights_in) = heights.unzip();
        let units = given
            .or(written_in)
            .or(heights_in.flatten())
            .or_else(|| tapes_written_in(file, bare))
            .unwrap_or_default();
        // What is wrong with the studs is told where they are marked on the sides.
        let studs = file
            .studs
            .as_ref()
            .and_then(|entry| Some(entry.read(bare).ok()?.mm));
        let studs = studs.filter(|mm| *mm > 0.0);
        let packs = file
            .packs
            .as_ref()
            .zip(footprint.as_ref())
            .and_then(|(section, footprint)| {
                packs::packing(section, footprint, studs, (bare, units), &mut faults)
            });
        let lines = lines::lines(file, footprint.as_ref(), bare, units, &mut faults);
        let straight = file
            .straight
            .as_ref()
            .and_then(|section| straight::straight(section, footprint.as_ref(), bare, units, &mut faults));
        let timber = super::timber::timber(file.stock.as_ref(), bare, &mut faults);
        let along = lines.marks.as_ref();
        let plates = super::plates::plates(file, along, timber.as_ref(), (bare, units), &mut faults);
        let cuts = super::timber::cuts(file.cuts.as_ref(), timber.as_ref(), bare, &mut faults);
        let readings = file
            .readings
            .as_ref()
            .zip(footprint.as_ref())
            .and_then(|(section, footprint)| readings::question(section, footprint, tape, bare, &mut faults));
        let sketch = sketch::check(file, &mut faults);
        let job = Self {
            name: file.name.clone(),
            units,
            expression: file.plan.clone().or_else(|| file.walk.clone()),
            footprint,
            tape,
            spares,
            angle,
            packs,
            heights,
            lines,
            straight,
            plates,
            cuts,
            has_timber: timber
                .is_some_and(|timber| !(timber.for_sale.is_empty() && timber.in_van.is_empty())),
            readings,
            sketch,
            order: super::order::order(file, bare, &mut faults),
        };
        faults.none_or(job)
    }
}

fn plan(file: &JobFile, bare: Units, faults: &mut Faults) -> Option<(Footprint, Units)> {
    match (&file.plan, &file.walk) {
        (Some(_), Some(_)) => {
            faults.add("walk", "the plan is given twice: leave out `walk` or `plan`");
            None
        }
        (Some(text), None) => faults.take("plan", parse_expression(text, bare)),
        (None, Some(text)) => faults.take("walk", parse_walk(text, bare)),
        (None, None) => None,
    }
}

fn with_house(footprint: Footprint, house: &[String], faults: &mut Faults) -> Footprint {
    let mut sides = vec![];
    for (i, name) in house.iter().enumerate() {
        sides.extend(faults.take(&format!("house[{i}]"), footprint.parse_side(name)));
    }
    let marked = footprint.with_house(&sides);
    if marked.sides().iter().all(|side| side.house) {
        faults.add("house", crate::plan::PlanError::AllHouse);
    }
    marked
}

fn tape(section: Option<&TapeSection>, bare: Units, faults: &mut Faults) -> Tape {
    let mut tape = Tape::default();
    let Some(section) = section else { return tape };
    if let Some(class) = &section.class {
        tape.class = faults.take("tape.class", class.parse()).unwrap_or_default();
    }
    tape.length = faults.positive("tape.length", section.length.as_ref(), bare);
    if let Some(reading) = faults.not_negative("tape.reading", section.reading.as_ref(), bare) {
        tape.reading = reading;
    }
    if let Some(ends) = faults.not_negative("tape.ends", section.ends.as_ref(), bare) {
        tape.ends = ends;
    }
    tape.from_hook = section.from_hook.unwrap_or(false);
    tape
}

fn angle(
    section: &CornersSection,
    footprint: Option<&Footprint>,
    bare: Units,
    faults: &mut Faults,
) -> Option<AngleQuestion> {
    let limit = faults.not_negative("corners.limit", section.limit.as_ref(), bare);
    let corner = section.corner.as_ref().and_then(|name| {
        let found = one_letter(name).and_then(|letter| footprint?.corner_index(letter));
        if found.is_none() {
            let there = match footprint {
                Some(footprint) => format!(
                    "the corners are A to {}",
                    footprint.corners()[footprint.len() - 1].name
                ),
                None => "give the plan too".to_owned(),
            };
            faults.add(
                "corners.corner",
                format!("there is no corner `{}`: {there}", quoted(name)),
            );
        }
        found
    });
    let tapes = section.tapes.as_ref()?;
    let read: Vec<Option<f64>> = tapes
        .iter()
        .enumerate()
        .map(|(i, entry)| faults.positive(&format!("corners.tapes[{i}]"), Some(entry), bare))
        .collect();
    if let [Some(a), Some(b), Some(c)] = read[..] {
        return Some(AngleQuestion {
            tapes: [a, b, c],
            corner,
            limit,
        });
    }
    if read.len() != 3 {
        faults.add(
            "corners.tapes",
            format!(
                "{} tapes are given: write three, along one side, along the other and between their ends",
                read.len()
            ),
        );
    }
    None
}

fn one_letter(name: &str) -> Option<char> {
    let mut letters = name.trim().chars();
    letters.next().filter(|_| letters.next().is_none())
}

/// The units that the tapes at a corner were written in.
fn tapes_written_in(file: &JobFile, bare: Units) -> Option<Units> {
    file.corners
        .as_ref()?
        .tapes
        .as_ref()?
        .first()?
        .read(bare)
        .ok()?
        .written_in
}
