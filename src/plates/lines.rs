//! The runs of each layer with what closes parts of them to splices: openings, panel joints, partitions.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::PlatesError;
use super::handing::Handing;
use super::options::{Options, Stretch};
use super::runs::{End, SideRun, runs};
use super::zones::{Closed, Zone, allowed};
use crate::plan::{Footprint, SAME_PLACE};

/// More panel joints than any run can have.
const MOST_MARKS: u32 = 20_000;

/// Which plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Layer {
    /// The wall plate on the masonry.
    Plate,
    /// The head binder on top of the panels.
    Binder,
}

/// A run to be laid.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    pub(super) layer: Layer,
    /// The side's letters, or the partition's name.
    pub(super) name: String,
    /// The line it lies on: the side's index, or the partition's after all the sides.
    pub(super) on: usize,
    /// Where its start is, mm from the side's first corner.
    pub(super) origin: f64,
    pub(super) length: f64,
    pub(super) start: End,
    pub(super) end: End,
    /// What is closed to splices whatever the other layer does, mm from its start.
    closed: Vec<Closed>,
    /// The least distance of a splice from each end, mm.
    margins: (f64, f64),
    /// Openings in it that are cut out later, mm from its start.
    pub(super) kept: Vec<(f64, f64)>,
    /// Where studs are set out from, mm from its start, and whether backwards.
    pub(super) set_out: (f64, bool),
}

impl Line {
    /// Whether there is anything to lay.
    pub(super) fn is_something(&self) -> bool {
        self.length > SAME_PLACE
    }

    /// Where a splice may lie when these places of the same line, mm from the side's first corner, are to be kept clear
    /// of by `lap`.
    pub(super) fn zones(&self, others: &[f64], lap: f64) -> Vec<Zone> {
        let mut closed = self.closed.clone();
        closed.extend(others.iter().map(|at| at - self.origin).map(|at| Closed::around(at, at, lap)));
        allowed(self.margins.0, self.length - self.margins.1, &closed)
    }
}

/// The runs of one layer for a handing of the plate; the binder takes the opposite one.
pub(super) fn lines(
    footprint: &Footprint,
    options: &Options,
    plate: &Handing,
    layer: Layer,
) -> Result<Vec<Line>, PlatesError> {
    let plate_runs = runs(footprint, options.width, plate)?;
    let layer_runs = match layer {
        Layer::Plate => plate_runs.clone(),
        Layer::Binder => runs(footprint, options.width, &plate.opposite())?,
    };
    let mut lines = vec![];
    for (run, under) in layer_runs.iter().zip(&plate_runs) {
        let on_side = on_side(footprint, options, run, under, layer)?;
        lines.extend(on_side.into_iter().filter(Line::is_something));
    }
    lines.extend(inside(footprint, options, layer));
    Ok(lines)
}

/// The lines of the partitions.
pub(super) fn inside(footprint: &Footprint, options: &Options, layer: Layer) -> Vec<Line> {
    let margin = margin(options, End::Butts);
    let partitions = options.partitions.iter().enumerate();
    partitions
        .map(|(place, partition)| Line {
            layer,
            name: partition.name.clone(),
            on: footprint.len() + place,
            origin: 0.0,
            length: partition.length,
            start: End::Butts,
            end: End::Butts,
            closed: panel_joints(options, 0.0, partition.length),
            margins: (margin, margin),
            kept: vec![],
            set_out: if options.splices.panels_from_last { (partition.length, true) } else { (0.0, false) },
        })
        .collect()
}

/// The least distance of a splice from such an end.
fn margin(options: &Options, end: End) -> f64 {
    let rules = options.splices;
    match end {
        End::Opening => rules.least_piece,
        _ => rules.corner_distance.unwrap_or(rules.least_piece),
    }
}

/// The lines of one side: one, or with openings cut out of the plate, those between them, of no length where an opening
/// reaches an end.
pub(super) fn on_side(
    footprint: &Footprint,
    options: &Options,
    run: &SideRun,
    under: &SideRun,
    layer: Layer,
) -> Result<Vec<Line>, PlatesError> {
    let rules = options.splices;
    let (first, last) = (-run.past_start, footprint.sides()[run.side].length + run.past_end);
    let openings = openings_on(footprint, options, run.side)?;
    let closed_by = |stretches: &[Stretch], clear: f64| {
        let here = stretches.iter().filter(|stretch| stretch.side == run.side);
        here.map(|stretch| Closed::around(stretch.from, stretch.to, clear)).collect::<Vec<_>>()
    };
    // What is left of a piece beside a door that is cut out later is a piece too.
    let stays = layer == Layer::Plate && !options.cut_openings;
    let beside = if stays { rules.post_clear.max(rules.least_piece) } else { rules.post_clear };
    let mut closed = closed_by(&options.openings, beside);
    closed.extend(closed_by(&options.met, rules.post_clear));
    closed.extend(
        options
            .joints
            .iter()
            .filter(|(side, _)| *side == run.side)
            .map(|(_, at)| Closed::around(*at, *at, rules.panel_clear)),
    );
    let (plate_first, plate_last) = (-under.past_start, footprint.sides()[run.side].length + under.past_end);
    closed.extend(panel_joints(options, plate_first, plate_last));
    let cuts = options.cut_openings && layer == Layer::Plate;
    let mut ends = vec![(first, run.start)];
    if cuts {
        for opening in &openings {
            ends.push((opening.from.min(last), End::Opening));
            ends.push((opening.to.max(first), End::Opening));
        }
    }
    ends.push((last, run.end));
    let kept: &[Stretch] = if cuts { &[] } else { &openings };
    let set_out = if rules.panels_from_last { footprint.sides()[run.side].length } else { 0.0 };
    Ok(ends
        .chunks_exact(2)
        .map(|pair| {
            let ((from, start), (to, end)) = (pair[0], pair[1]);
            let moved = |part: &Closed| Closed { from: part.from - from, to: part.to - from };
            Line {
                layer,
                name: footprint.side_name(run.side),
                on: run.side,
                origin: from,
                length: to - from,
                start,
                end,
                closed: closed.iter().map(moved).collect(),
                margins: (margin(options, start), margin(options, end)),
                kept: kept.iter().map(|opening| (opening.from - from, opening.to - from)).collect(),
                set_out: (set_out - from, rules.panels_from_last),
            }
        })
        .collect())
}

/// The openings of a side in order along it, none over another.
fn openings_on(footprint: &Footprint, options: &Options, side: usize) -> Result<Vec<Stretch>, PlatesError> {
    let mut openings: Vec<Stretch> =
        options.openings.iter().filter(|opening| opening.side == side).copied().collect();
    openings.sort_by(|a, b| a.from.total_cmp(&b.from));
    for pair in openings.windows(2) {
        if pair[0].to > pair[1].from + SAME_PLACE {
            return Err(PlatesError::OpeningsOverlap {
                side: footprint.side_name(side),
                first: pair[0].from,
                second: pair[1].from,
            });
        }
    }
    Ok(openings)
}

/// What panel joints close between two ends of a plate, mm from the side's first corner.
fn panel_joints(options: &Options, first: f64, last: f64) -> Vec<Closed> {
    let rules = options.splices;
    let Some(every) = rules.panels else {
        return vec![];
    };
    let joint = |count: u32| {
        let along = f64::from(count) * every;
        if rules.panels_from_last { last - along } else { first + along }
    };
    (1..MOST_MARKS)
        .map(joint)
        .take_while(|at| *at > first && *at < last)
        .map(|at| Closed::around(at, at, rules.panel_clear))
        .collect()
}
