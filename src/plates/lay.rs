//! Lines laid from stock: the plate alone, or plate and head binder together with their splices kept apart.

use super::error::PlatesError;
use super::lines::{Layer, Line};
use super::options::Options;
use super::zones::Zone;
use crate::cutting::{self, Bound, Effort, Favour, Layout, Problem, Run, plan_runs};
use crate::exact::Tenths;

/// A layout by the measures of its favour, the first that counts first.
pub(super) type Value = (i64, i64);

/// A layout, and what is known of every other.
#[derive(Debug, Clone)]
pub(super) struct Laid {
    pub(super) layout: Layout,
    pub(super) favour: Favour,
    /// No layout has a lesser value.
    pub(super) bound: Value,
}

impl Laid {
    pub(super) fn value(&self) -> Value {
        value(&self.layout, self.favour)
    }

    pub(super) fn proven(&self) -> bool {
        self.value() <= self.bound
    }
}

/// One part in so many of the work.
pub(super) fn share(whole: Effort, parts: u32) -> Effort {
    Effort { steps: whole.steps / u64::from(parts), time: whole.time / parts }
}

fn value(layout: &Layout, favour: Favour) -> Value {
    let splices = i64::try_from(layout.splices).unwrap_or(i64::MAX);
    let cost = layout.cost.0;
    match favour {
        Favour::Splices => (splices, cost),
        Favour::Cost => (cost, splices),
        Favour::ASplice(worth) => (cost + worth.0 * splices, splices),
    }
}

/// The engine's bound as a value.
fn bound(layout: &Layout, favour: Favour) -> Value {
    if layout.proven {
        return value(layout, favour);
    }
    match layout.bound {
        Bound::FewestSplices { splices, cost } => (splices, cost.0),
        Bound::Cost { cost, splices } => (cost.0, splices),
        Bound::CostPlusPerSplice { total } => (total.0, 0),
    }
}

/// Where each line may be spliced.
type Zones = Vec<Vec<Zone>>;

/// Lays the lines best by `favour`. Where there is a head binder its splices keep clear of the plate's.
///
/// Both layers are first laid as if they could be spliced over each other: no layout that keeps them apart is better, so
/// that is the bound. If that layout doesn't happen to keep them apart, the splices of one layer are pinned and all lines
/// are laid again, the other layer's kept clear of them; whichever way comes out best is taken.
pub(super) fn lay(
    lines: &[Line],
    options: &Options,
    favour: Favour,
    effort: Effort,
) -> Result<Laid, PlatesError> {
    let lap = options.splices.lap;
    let both = [Layer::Plate, Layer::Binder].map(|layer| lines.iter().any(|line| line.layer == layer));
    // With two layers there are up to five lists to make, the first of which carries the proof.
    let (first, later) =
        if both == [true, true] { (share(effort, 3), share(effort, 6)) } else { (effort, effort) };
    let free: Zones = lines.iter().map(|line| line.zones(&[], 0.0)).collect();
    let together = plan(lines, free, options, favour, first)?;
    let bound = bound(&together, favour);
    let laid = |layout| Laid { layout, favour, bound };
    if both != [true, true] || kept_apart(lines, &together, lap) {
        return Ok(laid(together));
    }
    let alone = alone(lines, options, favour, later);
    let ways =
        [(Some(&together), Layer::Plate), (Some(&together), Layer::Binder), (alone.as_ref(), Layer::Plate)];
    let mut best: Option<Laid> = None;
    let mut problem = None;
    for (from, pinned) in ways {
        let Some(from) = from else { continue };
        let zones = pinned_zones(lines, from, pinned, lap);
        match plan(lines, zones, options, favour, later) {
            Ok(layout) => {
                let found = laid(layout);
                if best.as_ref().is_none_or(|best| found.value() < best.value()) {
                    best = Some(found);
                }
            }
            Err(error) => problem = problem.or(Some(error)),
        }
        if best.as_ref().is_some_and(Laid::proven) {
            break;
        }
    }
    best.ok_or_else(|| match problem {
        Some(problem) => PlatesError::NoLap { lap, problem },
        None => cutting::Error::StockRunsOut.into(),
    })
}

/// The plate laid without the binder, its runs in their places among all the lines.
fn alone(lines: &[Line], options: &Options, favour: Favour, effort: Effort) -> Option<Layout> {
    // The lines of a layer follow each other, the plate's first, so that its places stay as they are.
    let plate: Vec<Line> = lines.iter().filter(|line| line.layer == Layer::Plate).cloned().collect();
    let zones = plate.iter().map(|line| line.zones(&[], 0.0)).collect();
    plan(&plate, zones, options, favour, effort).ok()
}

/// Zones that hold one layer's splices where a layout has them, and the other layer's clear of those.
fn pinned_zones(lines: &[Line], from: &Layout, pinned: Layer, lap: f64) -> Zones {
    lines
        .iter()
        .enumerate()
        .map(|(place, line)| {
            if line.layer == pinned {
                splices(from, place).map(|at| (at, at)).collect()
            } else {
                let others: Vec<f64> = lines
                    .iter()
                    .enumerate()
                    .filter(|(_, other)| other.layer == pinned && other.on == line.on)
                    .flat_map(|(other_place, other)| {
                        splices(from, other_place).map(|at| at.to_mm().0 + other.origin)
                    })
                    .collect();
                line.zones(&others, lap)
            }
        })
        .collect()
}

/// Whether every splice of the binder keeps clear of every splice of the plate under it.
fn kept_apart(lines: &[Line], layout: &Layout, lap: f64) -> bool {
    lines.iter().enumerate().all(|(place, line)| {
        line.layer == Layer::Plate
            || lines
                .iter()
                .enumerate()
                .filter(|(_, other)| other.layer == Layer::Plate && other.on == line.on)
                .all(|(other_place, other)| {
                    splices(layout, place).all(|at| {
                        splices(layout, other_place).all(|under| {
                            let apart = at.to_mm().0 + line.origin - under.to_mm().0 - other.origin;
                            apart.abs() >= lap - 1e-6
                        })
                    })
                })
    })
}

/// The splices of a run, from its start.
fn splices(layout: &Layout, run: usize) -> impl Iterator<Item = Tenths> {
    let pieces = layout.runs.get(run).map_or(&[][..], |run| &run.pieces[..]);
    pieces.iter().skip(1).map(|piece| piece.from)
}

fn plan(
    lines: &[Line],
    zones: Zones,
    options: &Options,
    favour: Favour,
    effort: Effort,
) -> Result<Layout, cutting::Error> {
    plan_runs(&Problem {
        runs: lines
            .iter()
            .zip(zones)
            .map(|(line, zones)| Run {
                name: line.name.clone(),
                length: Tenths::nearest(line.length),
                splices: Some(zones),
            })
            .collect(),
        stock: options.timber.stock(),
        rules: options.timber.rules(Tenths::nearest(options.splices.least_piece)),
        favour,
        effort,
    })
}
