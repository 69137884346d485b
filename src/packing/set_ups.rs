//! One or several set-ups of the instrument reduced to one set of heights.
//!
//! A height is height of the line of sight less the staff reading, so each set-up has one unknown. Set-ups are tied
//! through the places that two of them read. The first tie met carries the heights over; every further one closes
//! on a height that is already known, and what it is out by is its *misclosure*. The misclosures are shared by
//! least squares with every reading weighted alike: a place read more than once gets the mean of its readings, and
//! each set-up is raised or lowered as a whole so that its corrections add up to nothing.

use nalgebra::{DMatrix, DVector};
use schemars::JsonSchema;
use serde::Serialize;

use super::error::PackingError;
use crate::geometry::Mm;
use crate::length::{Units, at_most, usable};
use crate::plan::{Footprint, Spot};

/// What the figures of a set-up are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "SetUpFigures")]
pub enum Readings {
    /// Heights: up is +.
    Heights,
    /// Staff readings from a level line of sight: the bigger, the lower.
    Staff,
}

/// Everything read without moving the instrument.
#[derive(Debug, Clone, PartialEq)]
pub struct SetUp {
    /// What the figures are.
    pub kind: Readings,
    /// Each place and its figure, mm.
    pub readings: Vec<(Spot, f64)>,
}

/// One reading that closes on a height already known.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Closing {
    /// The place.
    pub name: String,
    /// Number of the set-up that read it again, from 1.
    pub set_up: usize,
    /// The height it gives, less the height known before, mm.
    pub misclosure: Mm,
}

/// What sharing out the misclosure did to one reading.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Correction {
    /// The place.
    pub name: String,
    /// Number of the set-up, from 1.
    pub set_up: usize,
    /// Added to the height that this reading gives, mm.
    pub correction: Mm,
}

/// How the set-ups close on each other.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Closure {
    /// Every closing reading, in the order carried.
    pub closings: Vec<Closing>,
    /// The largest misclosure, as a positive figure, mm.
    pub worst: Mm,
    /// What each reading that closes, or is closed on, was corrected by.
    pub corrections: Vec<Correction>,
    /// How the misclosure was shared out.
    pub shared: &'static str,
}

/// Where a set-up's zero lies after the misclosures are shared out.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Sight {
    /// What its figures are.
    pub kind: Readings,
    /// In the stations' own zero, mm: the height of the line of sight, which staff readings are taken from; or what
    /// is added to each height given.
    pub sight: Mm,
}

const SHARED: &str = "by least squares, every reading weighted alike: a place read twice takes the mean";

/// One reading, found on the plate line and turned into a height in its set-up's own zero.
struct Seen {
    set_up: usize,
    place: usize,
    height: f64,
}

/// The places read, in the order round the line, each with its height; and how the set-ups close.
pub(super) struct Heights {
    pub(super) places: Vec<(Spot, f64)>,
    pub(super) closure: Option<Closure>,
    /// How far each set-up's zero lies above the common one, mm.
    pub(super) shifts: Vec<f64>,
    /// Whether the heights are in the user's own zero, which is then kept.
    pub(super) given: bool,
}

/// The most set-ups of the instrument, and the most readings of them all.
const MOST_SET_UPS: usize = 100;
const MOST_LEVELS: usize = 2_000;

/// Reduces `set_ups` to one height a place.
pub(super) fn reduce(
    footprint: &Footprint,
    set_ups: &[SetUp],
    units: Units,
) -> Result<Heights, PackingError> {
    at_most("set-ups", set_ups.len(), MOST_SET_UPS)?;
    at_most("readings", set_ups.iter().map(|s| s.readings.len()).sum(), MOST_LEVELS)?;
    let mut spots: Vec<Spot> = Vec::new();
    let mut seen = Vec::new();
    for (set_up, readings) in set_ups.iter().enumerate() {
        for (place, value) in &readings.readings {
            let spot = place.on_plate(footprint)?;
            let value = usable(format!("reading at {}", spot.name(footprint, units)), *value)?;
            let place = spots.iter().position(|s| s.is(spot)).unwrap_or_else(|| {
                spots.push(spot);
                spots.len() - 1
            });
            let height = match readings.kind {
                Readings::Heights => value,
                Readings::Staff => -value,
            };
            seen.push(Seen { set_up, place, height });
        }
    }
    if spots.len() < 2 {
        return Err(PackingError::NoReadings);
    }
    let used: Vec<bool> = set_ups.iter().map(|s| !s.readings.is_empty()).collect();
    let kept = set_ups.iter().position(|s| s.kind == Readings::Heights && !s.readings.is_empty());
    let root = kept.or_else(|| used.iter().position(|u| *u)).unwrap_or(0);
    let carried = carry(&seen, &used, spots.len(), root)?;
    let shifts = share(&seen, set_ups.len(), spots.len(), root, &carried);
    let heights = means(&seen, spots.len(), &shifts);
    let name = |spot: Spot| spot.name(footprint, units);
    let closure = closure(&name, &spots, &seen, &carried, &shifts, &heights);
    let mut places: Vec<(Spot, f64)> = spots.into_iter().zip(heights).collect();
    places.sort_by(|a, b| a.0.order(b.0));
    Ok(Heights { places, closure, shifts, given: kept.is_some() })
}

/// How far each set-up's zero lies above the root's, carried through the first tie met, and what closes on it.
struct Carried {
    shifts: Vec<f64>,
    /// Index of a closing reading, and its misclosure.
    closings: Vec<(usize, f64)>,
}

fn carry(seen: &[Seen], used: &[bool], places: usize, root: usize) -> Result<Carried, PackingError> {
    let mut known: Vec<Option<f64>> = vec![None; places];
    let mut shifts: Vec<Option<f64>> = vec![None; used.len()];
    let mut closings = Vec::new();
    let mut next = Some((root, 0.0, None));
    while let Some((set_up, shift, tie)) = next {
        shifts[set_up] = Some(shift);
        for (i, reading) in seen.iter().enumerate().filter(|(_, r)| r.set_up == set_up) {
            let height = reading.height + shift;
            match known[reading.place] {
                Some(before) if tie != Some(i) => closings.push((i, height - before)),
                Some(_) => {}
                None => known[reading.place] = Some(height),
            }
        }
        next = seen.iter().enumerate().find_map(|(i, r)| {
            let before = known[r.place].filter(|_| shifts[r.set_up].is_none())?;
            Some((r.set_up, before - r.height, Some(i)))
        });
    }
    if let Some(loose) = (0..used.len()).find(|s| used[*s] && shifts[*s].is_none()) {
        return Err(PackingError::NotTied { set_up: loose + 1 });
    }
    Ok(Carried { shifts: shifts.into_iter().map(Option::unwrap_or_default).collect(), closings })
}

/// The set-ups' shifts after the misclosures are shared; as carried where everything closes.
fn share(seen: &[Seen], set_ups: usize, places: usize, root: usize, carried: &Carried) -> Vec<f64> {
    if carried.closings.iter().all(|(_, m)| *m == 0.0) {
        return carried.shifts.clone();
    }
    // Normal equations with the places eliminated: each reading pulls its set-up towards its place's mean.
    let mut normal = DMatrix::<f64>::zeros(set_ups, set_ups);
    let mut right = DVector::<f64>::zeros(set_ups);
    for place in 0..places {
        let here: Vec<&Seen> = seen.iter().filter(|r| r.place == place).collect();
        let share = 1.0 / here.len() as f64;
        let carried_height = |r: &Seen| r.height + carried.shifts[r.set_up];
        let mean = here.iter().map(|r| carried_height(r)).sum::<f64>() * share;
        for r in &here {
            normal[(r.set_up, r.set_up)] += 1.0;
            right[r.set_up] += mean - carried_height(r);
            for other in &here {
                normal[(r.set_up, other.set_up)] -= share;
            }
        }
    }
    // The root stays where it is; a set-up with no readings would leave an empty row.
    for s in (0..set_ups).filter(|s| *s == root || !seen.iter().any(|r| r.set_up == *s)) {
        normal.fill_row(s, 0.0);
        normal.fill_column(s, 0.0);
        normal[(s, s)] = 1.0;
        right[s] = 0.0;
    }
    match normal.cholesky() {
        Some(factor) => {
            let change = factor.solve(&right);
            carried.shifts.iter().zip(change.iter()).map(|(s, c)| s + c).collect()
        }
        None => carried.shifts.clone(),
    }
}

fn means(seen: &[Seen], places: usize, shifts: &[f64]) -> Vec<f64> {
    let mut sums = vec![(0.0, 0.0); places];
    for r in seen {
        let (sum, count) = &mut sums[r.place];
        *sum += r.height + shifts[r.set_up];
        *count += 1.0;
    }
    sums.into_iter().map(|(sum, count)| sum / count).collect()
}

fn closure(
    name: &dyn Fn(Spot) -> String,
    spots: &[Spot],
    seen: &[Seen],
    carried: &Carried,
    shifts: &[f64],
    heights: &[f64],
) -> Option<Closure> {
    if carried.closings.is_empty() {
        return None;
    }
    let closings: Vec<Closing> = carried
        .closings
        .iter()
        .map(|&(i, misclosure)| Closing {
            name: name(spots[seen[i].place]),
            set_up: seen[i].set_up + 1,
            misclosure: Mm(misclosure),
        })
        .collect();
    let worst = closings.iter().map(|c| c.misclosure.0.abs()).fold(0.0, f64::max);
    let shared = |place| seen.iter().filter(|r| r.place == place).count() > 1;
    let corrections = seen
        .iter()
        .filter(|r| shared(r.place))
        .map(|r| Correction {
            name: name(spots[r.place]),
            set_up: r.set_up + 1,
            correction: Mm(heights[r.place] - r.height - shifts[r.set_up]),
        })
        .collect();
    Some(Closure { closings, worst: Mm(worst), corrections, shared: SHARED })
}
