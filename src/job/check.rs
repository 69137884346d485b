//! From a [`JobFile`] to a checked [`Job`], with every fault told at once.

use super::faults::Faults;
use super::sections::{
    AngleQuestion, JoistsJob, LinesJob, OrderJob, ReadingsQuestion, SketchInputs, corners, cuts, diagonals,
    heights, joists, lines, order, packs, plates, readings, sketch, stock, straight, tape,
};
use super::sizes::{ReadPlan, plan_doubt, plan_refusal};
use super::{Fault, JobFile, SCHEMA};
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
    /// Whether there is any timber to cut from.
    pub has_timber: bool,
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
        let mut faults = Faults::default();
        if let Some(schema) = file.schema.filter(|schema| *schema != SCHEMA) {
            faults.add("schema", format!("schema {schema} is not known here: write {SCHEMA}"));
        }
        let given: Option<Units> = file.units.as_ref().and_then(|units| faults.take("units", units.parse()));
        let bare = given.unwrap_or_default();
        let plan = plan(file, bare, &mut faults);
        let (footprint, written_in) = plan.unzip();
        let footprint = match (footprint, &file.house) {
            (Some(footprint), Some(house)) => Some(with_house(footprint, house, &mut faults)),
            (footprint, _) => footprint,
        };
        let footprint = footprint.map(|footprint| with_house_depth(footprint, file, bare, &mut faults));
        let tape = tape::tape(file.tape.as_ref(), bare, &mut faults);
        let spares = diagonals::spares(file.diagonals.as_ref(), &mut faults);
        let angle = file
            .corners
            .as_ref()
            .and_then(|section| corners::angle(section, footprint.as_ref(), bare, &mut faults));
        let named = given.or(written_in).unwrap_or_default();
        let heights = file
            .heights
            .as_ref()
            .map(|section| heights::wall_head(section, footprint.as_ref(), (bare, named), &mut faults));
        let (heights, heights_in) = heights.unzip();
        let units = given
            .or(written_in)
            .or(heights_in.flatten())
            .or_else(|| corners::tapes_written_in(file, bare))
            .unwrap_or_default();
        // What is wrong with the studs is told where they are marked on the sides.
        let studs = file.studs.as_ref().and_then(|entry| Some(entry.read(bare).ok()?.mm));
        let studs = studs.filter(|mm| *mm > 0.0);
        let packs = file.packs.as_ref().zip(footprint.as_ref()).and_then(|(section, footprint)| {
            packs::packing(section, footprint, studs, (bare, units), &mut faults)
        });
        let lines = lines::lines(file, footprint.as_ref(), bare, units, &mut faults);
        let straight = file
            .straight
            .as_ref()
            .and_then(|section| straight::straight(section, footprint.as_ref(), bare, units, &mut faults));
        let timber = stock::timber(file.stock.as_ref(), bare, &mut faults);
        let along = lines.marks.as_ref();
        let plates = plates::plates(file, along, timber.as_ref(), (bare, units), &mut faults);
        let cuts = cuts::cuts(file.cuts.as_ref(), timber.as_ref(), bare, &mut faults);
        let readings =
            file.readings.as_ref().zip(footprint.as_ref()).and_then(|(section, footprint)| {
                readings::question(section, footprint, tape, bare, &mut faults)
            });
        let joists = joists::joists_job(file, footprint.as_ref(), (bare, units), &mut faults);
        let sketch = sketch::check(file, &mut faults);
        let order = order::order(file, bare, &mut faults);
        let plan_doubt = footprint.as_ref().and_then(|footprint| plan_doubt(footprint, units));
        let mut doubts: Vec<Fault> = plan_doubt.into_iter().map(|words| Fault::new("plan", words)).collect();
        doubts.extend(faults.doubts(units));
        doubts.extend(order::doubts(&order));
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
            joists,
            lines,
            straight,
            plates,
            cuts,
            has_timber: timber
                .is_some_and(|timber| !(timber.for_sale.is_empty() && timber.in_van.is_empty())),
            readings,
            sketch,
            order,
            doubts,
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
        (Some(text), None) => possible_plan("plan", text, bare, parse_expression, faults),
        (None, Some(text)) => possible_plan("walk", text, bare, parse_walk, faults),
        (None, None) => None,
    }
}

fn with_house_depth(footprint: Footprint, file: &JobFile, bare: Units, faults: &mut Faults) -> Footprint {
    let Some(depth) = faults.positive("house_depth", file.house_depth.as_ref(), bare) else {
        return footprint;
    };
    if !footprint.sides().iter().any(|side| side.house) {
        faults
            .add("house_depth", "say too which sides are the house: --house AB, or `house` in the job file");
    }
    footprint.with_house_depth(depth)
}

/// A plan of a size that one can have, and the units that it is written in.
fn possible_plan(
    field: &str,
    text: &str,
    default_units: Units,
    read: ReadPlan,
    faults: &mut Faults,
) -> Option<(Footprint, Units)> {
    let plan = faults.take(field, read(text, default_units))?;
    if let Some(refusal) = plan_refusal(text, &plan.0, default_units, read) {
        faults.add(field, refusal);
        return None;
    }
    Some(plan)
}

fn with_house(footprint: Footprint, house: &[String], faults: &mut Faults) -> Footprint {
    let mut sides = vec![];
    for (i, name) in house.iter().enumerate() {
        sides.extend(faults.take(&format!("house[{i}]"), footprint.parse_side(name)));
    }
    let marked = footprint.with_house(&sides);
    if marked.sides().iter().all(|side| side.house) {
        faults.add("house", PlanError::AllHouse);
    }
    marked
}
