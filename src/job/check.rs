//! From a [`JobFile`] to a checked [`Job`], with every fault told at once.

use std::cell::RefCell;

use super::cursor::Cursor;
use super::faults::Faults;
use super::file::SCHEMA;
use super::sections::{
    AngleQuestion, JoistsJob, LinesJob, OrderJob, ReadingsQuestion, SketchInputs, corners, cuts, diagonals,
    heights, joists, lines, order, packs, plates, readings, sketch, stock, straight, tape,
};
use super::sizes::{ReadPlan, plan_doubts, plan_refusal};
use super::{Fault, JobFile, LengthEntry};
use crate::cuts::Question as CutsQuestion;
use crate::heights::WallHead;
use crate::length::Units;
use crate::lines::StraightQuestion;
use crate::packing::Packing;
use crate::plan::{Footprint, PlanError, parse_expression, parse_walk};
use crate::plates::Options as PlatesOptions;
use crate::tape::Tape;

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
    /// The limit that they are to be able to call, mm, if one is given.
    pub check_limit: Option<f64>,
    /// A corner as found, if three tapes were given.
    pub angle: Option<AngleQuestion>,
    /// Levels round the plate and what to pack them with, if there are readings and a plan.
    pub packs: Option<Packing>,
    /// The wall head and what stands under it, if anything is given of them.
    pub heights: Option<WallHead>,
    /// Joists between two supports, if both are given, and their centres, and a plan.
    pub joists: Option<JoistsJob>,
    /// What lines and profiles depend on.
    pub lines: LinesJob,
    /// Offset-block readings, if there are any.
    pub straight: Option<StraightQuestion>,
    /// What is asked of the plates, if their width was given.
    pub plates: Option<PlatesOptions>,
    /// A list of pieces to cut, if there is one.
    pub cuts: Option<CutsQuestion>,
    /// Taped readings and how to judge them, if there are some and a plan.
    pub readings: Option<ReadingsQuestion>,
    /// What was said about the drawing.
    pub sketch: SketchInputs,
    /// What an order depends on besides the answers of the parts.
    pub order: OrderJob,
    /// Sizes that can be and seldom are, by their field: to be looked at before the answer is believed.
    pub doubts: Vec<Fault>,
}

impl Job {
    /// Checks everything that the file gives. All faults found are returned together.
    pub fn check(file: &JobFile) -> Result<Self, Faults> {
        let faults = RefCell::new(Faults::default());
        let at = Cursor::top(Units::default(), &faults);
        let booked = file.bookings.is_some().then(|| file.clone().booked(None)).transpose();
        let booked = at.take(booked.map_err(|fault| fault.message)).flatten();
        let file = booked.as_ref().unwrap_or(file);
        if let Some(schema) = file.schema.filter(|schema| *schema != SCHEMA) {
            at.field("schema").fault(format!("schema {schema} is not known here: write {SCHEMA}"));
        }
        let given: Option<Units> = file.units.as_ref().and_then(|text| at.field("units").take(text.parse()));
        let (footprint, at) = outline(file, given, Cursor::top(given.unwrap_or_default(), &faults));
        let (plan_of, units) = (footprint.as_ref(), at.units);
        let tape = tape::tape(file.tape.as_ref(), at.field("tape"));
        let spares = diagonals::spares(file.diagonals.as_ref(), at.field("diagonals"));
        let check_limit = diagonals::limit(file.diagonals.as_ref(), at.field("diagonals"));
        let corners = file.corners.as_ref();
        let angle = corners.and_then(|section| corners::angle(section, plan_of, at.field("corners")));
        let heights = file.heights.as_ref();
        let heights = heights.map(|section| heights::wall_head(section, plan_of, at.field("heights")));
        // What is wrong with the studs is told where they are marked on the sides.
        let studs = file.studs.as_ref().and_then(|entry| Some(entry.read(at.default_units).ok()?.mm));
        let studs = studs.filter(|mm| *mm > 0.0);
        let packs = file.packs.as_ref().zip(plan_of);
        let packs = packs
            .and_then(|(section, footprint)| packs::packing(section, footprint, studs, at.field("packs")));
        let along = file.along();
        let lines = lines::lines(file.lines.as_ref(), along, plan_of, at);
        let straight = file.straight.as_ref();
        let straight =
            straight.and_then(|section| straight::straight(section, plan_of, at.field("straight")));
        let timber = stock::timber(file.stock.as_ref(), at.field("stock"));
        let marks = lines.marks.as_ref();
        let plates = plates::plates(file.plates.as_ref(), along, marks, timber.as_ref(), at);
        let cuts = cuts::cuts(file.cuts.as_ref(), timber.as_ref(), at.field("cuts"));
        let readings = file.readings.as_ref().zip(plan_of).and_then(|(section, footprint)| {
            let ends_said = file.tape.as_ref().is_some_and(|tape| tape.ends.is_some());
            readings::question(section, footprint, tape, ends_said, at.field("readings"))
        });
        let plate_width = file.plates.as_ref().and_then(|plates| plates.width.as_ref());
        let joists = file.joists.as_ref().zip(plan_of).and_then(|(section, footprint)| {
            joists::joists_job(section, footprint, timber.as_ref(), plate_width, at.field("joists"))
        });
        let sketch = sketch::check(file.sketch.as_ref(), file.drawn_unasked(), plan_of, at.field("sketch"));
        let order = order::order(file.order.as_ref(), file.parts(), at.field("order"));
        let plan_doubts = plan_of.into_iter().flat_map(|footprint| plan_doubts(footprint, units));
        let mut doubts: Vec<Fault> = plan_doubts.map(|words| Fault::new("plan", words)).collect();
        doubts.extend(faults.borrow_mut().doubts(units));
        doubts.extend(order::doubts(&order));
        let job = Self {
            name: file.name.clone(),
            units,
            expression: file.plan.clone().or_else(|| file.walk.clone()),
            footprint,
            tape,
            spares,
            check_limit,
            angle,
            packs,
            heights,
            joists,
            lines,
            straight,
            plates,
            cuts,
            readings,
            sketch,
            order,
            doubts,
        };
        faults.into_inner().none_or(job)
    }
}

/// The outline with its house, and the cursor that tells the rest in the job's units.
fn outline<'a>(file: &JobFile, given: Option<Units>, at: Cursor<'a>) -> (Option<Footprint>, Cursor<'a>) {
    let (footprint, written_in) = plan(file, at).unzip();
    let footprint = match (footprint, &file.house) {
        (Some(footprint), Some(house)) => Some(with_house(footprint, house, at)),
        (footprint, _) => footprint,
    };
    let units =
        given.or(written_in).or_else(|| written_elsewhere(file, at.default_units)).unwrap_or_default();
    let at = at.answered_in(units);
    let depth = file.house_depth.as_ref();
    (footprint.map(|footprint| with_house_depth(footprint, depth, at.field("house_depth"))), at)
}

/// The units of a job without a plan: those that the first length of a part is written in.
fn written_elsewhere(file: &JobFile, default_units: Units) -> Option<Units> {
    let tapes = file.corners.as_ref().and_then(|section| section.tapes.as_ref()?.first());
    let pieces = file.cuts.as_ref().and_then(|section| Some(&section.pieces.as_ref()?.first()?.length));
    let block = file.straight.as_ref().and_then(|section| section.block.as_ref());
    let written_in = |entry: &LengthEntry| entry.read(default_units).ok()?.written_in;
    let first = || [tapes, pieces, block].into_iter().flatten().find_map(written_in);
    // A bare number beside feet and inches is not taken for millimetres.
    let readings = file.straight.iter().flat_map(|section| section.readings.iter().flatten());
    let sold = file.stock.iter().filter(|_| pieces.is_some());
    let sold = sold.flat_map(|section| section.lengths.iter().flatten().map(|sold| &sold.length));
    let mut beside = readings.filter_map(|entry| entry.reading.as_ref()).chain(sold);
    let in_feet = || beside.find_map(written_in).filter(|units| *units == Units::FeetInches);
    let heights = file.heights.as_ref().and_then(|section| heights::written_in(section, default_units));
    heights.or_else(first).or_else(in_feet)
}

fn plan(file: &JobFile, at: Cursor<'_>) -> Option<(Footprint, Units)> {
    match (&file.plan, &file.walk) {
        (Some(_), Some(_)) => {
            at.field("walk").fault("the plan is given twice: leave out `walk` or `plan`");
            None
        }
        (Some(text), None) => possible_plan(text, parse_expression, at.field("plan")),
        (None, Some(text)) => possible_plan(text, parse_walk, at.field("walk")),
        (None, None) => None,
    }
}

/// A plan of a size that one can have, and the units that it is written in.
fn possible_plan(text: &str, read: ReadPlan, at: Cursor<'_>) -> Option<(Footprint, Units)> {
    let plan = at.take(read(text, at.default_units))?;
    if let Some(refusal) = plan_refusal(text, &plan, at.default_units, read) {
        at.fault(refusal);
        return None;
    }
    Some(plan)
}

fn with_house(footprint: Footprint, house: &[String], at: Cursor<'_>) -> Footprint {
    let mut sides = vec![];
    for (i, name) in house.iter().enumerate() {
        sides.extend(at.item("house", i).take(footprint.parse_side(name)));
    }
    let marked = footprint.with_house(&sides);
    if marked.sides().iter().all(|side| side.house) {
        at.field("house").fault(PlanError::AllHouse);
    }
    marked
}

fn with_house_depth(footprint: Footprint, depth: Option<&LengthEntry>, at: Cursor<'_>) -> Footprint {
    let Some(depth) = at.positive(depth) else { return footprint };
    if !footprint.sides().iter().any(|side| side.house) {
        at.fault("say too which sides are the house: --house AB, or `house` in the job file");
    }
    footprint.with_house_depth(depth)
}
