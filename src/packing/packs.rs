//! Packing a plate level: readings in, packers out.

use super::bed::{self, Bed, Limit, Line};
use super::error::PackingError;
use super::packed::{DatumRule, DatumUsed, Flag, PackVerdict, Packs, Station};
use super::set_ups::{self, SetUp, Sight};
use super::studs::{self, Studs};
use super::{odd_one, read_again};
use crate::geometry::Mm;
use crate::length::{Units, not_negative};
use crate::packers::{Grain, MOST_GAP, Packer, Stacked, make_up};
use crate::plan::{Footprint, Spot};
use crate::rules::GapFilling;

/// What the plate is packed level with.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Datum {
    /// The highest place read, so that nothing has to be cut.
    #[default]
    Highest,
    /// This place, which must have been read.
    Named(Spot),
}

/// What `packs` works from.
#[derive(Debug, Clone, PartialEq)]
pub struct Packing {
    /// The readings, a set-up at a time.
    pub set_ups: Vec<SetUp>,
    /// What to pack level with.
    pub datum: Datum,
    /// The packers in the van; none to have the gaps alone.
    pub packers: Vec<Packer>,
    /// Stud centres along each side, mm, to pack under each stud as well.
    pub studs: Option<f64>,
    /// Limit on the bed's level. The user's own is also the deepest pack that passes without a flag.
    pub limit: Option<Limit>,
    /// How near to its gap a stack has to come, mm: [`CLOSE_ENOUGH`](crate::packers::CLOSE_ENOUGH) unless the user says otherwise.
    pub tolerance: f64,
    /// The deepest gap that the user's schedule fills with solid packers, mm.
    pub solid: Option<f64>,
    /// What fills the gaps where the job is built, so far as the schedule doesn't say.
    pub filling: GapFilling,
    /// The units that places along a side are named in.
    pub units: Units,
}

impl Packing {
    /// Whether the readings can be packed from: tied together, none of them absurd, the datum among them.
    pub fn check(&self, footprint: &Footprint) -> Result<(), PackingError> {
        let solved = solve(footprint, self)?;
        let mut places = solved.heights.places.iter();
        places.try_for_each(|(place, height)| {
            station(footprint, *place, *height, &solved, self.units).map(|_| ())
        })
    }
}

/// The heights, and what they are packed level with.
struct Solved {
    heights: set_ups::Heights,
    /// The datum and its height in the common zero, mm.
    datum: (Spot, f64),
    rule: DatumRule,
    /// The stations' zero in the common one, mm.
    zero: f64,
}

fn solve(footprint: &Footprint, input: &Packing) -> Result<Solved, PackingError> {
    let heights = set_ups::reduce(footprint, &input.set_ups, input.units)?;
    let (datum, rule) = datum(footprint, input, &heights.places)?;
    let zero = if heights.given { 0.0 } else { datum.1 };
    Ok(Solved { heights, datum, rule, zero })
}

/// Works out the packing of the plate on `footprint`.
pub fn packs(footprint: &Footprint, input: &Packing) -> Result<Packs, PackingError> {
    let name = |place: Spot| place.name(footprint, input.units);
    if let Some(solid) = input.solid {
        not_negative("deepest gap for solid packers", solid)?;
    }
    let solved = solve(footprint, input)?;
    let heights = &solved.heights;
    let studs = match input.studs {
        Some(centres) => studs::under(footprint, &heights.places, centres)?,
        None => Studs::default(),
    };
    let mut stations = Vec::new();
    for (spot, height) in heights.places.iter().chain(&studs.under) {
        stations.push(station(footprint, *spot, *height, &solved, input.units)?);
    }
    let read: Vec<bed::Read> = heights
        .places
        .iter()
        .map(|(spot, height)| bed::Read {
            name: name(*spot),
            at: spot.point(footprint),
            round: spot.round(footprint),
            height: *height,
        })
        .collect();
    let bed = bed::check(&read, &Line::of(footprint), input.limit)?;
    let named: Vec<(String, f64)> = read.into_iter().map(|r| (r.name, r.height)).collect();
    let read_again = read_again::find(&named);
    let packers = if read_again.is_some() { &[] } else { input.packers.as_slice() };
    let gaps: Vec<f64> = stations.iter().map(|s| s.pack.0.max(0.0)).collect();
    let made = make_up(&gaps, packers, input.tolerance, input.units)?;
    for (station, stack) in stations.iter_mut().zip(made.stacks) {
        fill(station, stack, input, !packers.is_empty());
    }
    let odd_one_out = match input.datum {
        Datum::Highest if read_again.is_none() => {
            let thinnest = input.packers.iter().map(|p| p.thickness).reduce(f64::min);
            odd_one::find(&named, thinnest)
        }
        _ => None,
    };
    let under_studs = stations.split_off(heights.places.len());
    let all = || stations.iter().chain(&under_studs);
    Ok(Packs {
        verdict: match read_again {
            Some(_) => PackVerdict::ReadAgain,
            None => verdict(&all(), &bed, !packers.is_empty()),
        },
        datum: DatumUsed {
            name: name(solved.datum.0),
            height: Mm(solved.datum.1 - solved.zero),
            rule: solved.rule,
        },
        worst: Mm(all().map(|s| s.pack.0).fold(0.0, f64::max)),
        set_ups: input
            .set_ups
            .iter()
            .zip(&heights.shifts)
            .map(|(set_up, shift)| Sight { kind: set_up.kind, sight: Mm(shift - solved.zero) })
            .collect(),
        unread: studs.unread,
        totals: made.totals,
        pieces: made.pieces,
        proven: made.proven,
        fetch: made.fetch,
        read_again,
        bed,
        odd_one_out,
        closure: heights.closure.clone(),
        solid_gap: Mm(input.solid.unwrap_or(input.filling.ask_from)),
        solid_source: input.solid.is_none().then_some(input.filling.source),
        stations,
        studs: under_studs,
    })
}

/// Differences under this, mm, are rounding.
const NOTHING: f64 = 1e-6;

/// The place the plate is packed level with; of equally high ones, the first round the line.
fn datum(
    footprint: &Footprint,
    input: &Packing,
    places: &[(Spot, f64)],
) -> Result<((Spot, f64), DatumRule), PackingError> {
    match &input.datum {
        Datum::Highest => places
            .iter()
            .copied()
            .reduce(|best, p| if p.1 > best.1 + NOTHING { p } else { best })
            .map(|found| (found, DatumRule::Highest))
            .ok_or(PackingError::NoReadings),
        Datum::Named(place) => {
            let spot = place.on_plate(footprint)?;
            places
                .iter()
                .copied()
                .find(|(s, _)| s.is(spot))
                .map(|found| (found, DatumRule::Named))
                .ok_or_else(|| PackingError::DatumNotRead { given: spot.name(footprint, input.units) })
        }
    }
}

/// The station at `place`, `height` up in the common zero.
fn station(
    footprint: &Footprint,
    place: Spot,
    height: f64,
    solved: &Solved,
    units: Units,
) -> Result<Station, PackingError> {
    let name = place.name(footprint, units);
    let gap = solved.datum.1 - height;
    if gap.abs() > MOST_GAP {
        return Err(PackingError::NotPacking { name, gap, most: MOST_GAP });
    }
    Ok(Station {
        name,
        side: footprint.side_name(place.side()),
        along: Mm(place.distance()),
        height: Mm(height - solved.zero),
        pack: Mm(gap),
        packers: Vec::new(),
        remainder: Mm(0.0),
        flags: Vec::new(),
    })
}

/// Puts a stack under a station and flags what is to be minded.
fn fill(station: &mut Station, stack: Stacked, input: &Packing, packers: bool) {
    let gap = station.pack.0;
    station.packers = stack.packers;
    station.remainder = if gap < -NOTHING { station.pack } else { stack.remainder };
    let own = match input.limit {
        Some(Limit::Own(most)) => most,
        Some(Limit::AlongWall(_) | Limit::Across(_)) | None => f64::INFINITY,
    };
    // The gap as it is packed, to a tenth or a sixteenth: 0.04 mm is nothing to fill.
    let grains = |mm| Grain::of(input.units).rounded(mm);
    let to_fill = gap > 0.0 && grains(gap) > 0;
    let shallow = grains(gap) < grains(input.filling.ask_from);
    let solid_only = to_fill && shallow && input.filling.solid_only;
    let deep = match input.solid {
        Some(most) => to_fill && gap > most + NOTHING,
        None => to_fill && !shallow,
    };
    let not_made = gap > 0.0 && packers && station.remainder.0.abs() > input.tolerance + NOTHING;
    let flags = [
        (gap < -NOTHING, Flag::AboveDatum),
        (gap > own + NOTHING, Flag::OverLimit),
        (not_made, Flag::NotMadeUp),
        (solid_only, Flag::SolidOnly),
        (deep, Flag::AskDesigner),
    ];
    station.flags = flags.into_iter().filter_map(|(set, flag)| set.then_some(flag)).collect();
}

fn verdict<'a>(
    stations: &(impl Iterator<Item = &'a Station> + Clone),
    bed: &Bed,
    packers: bool,
) -> PackVerdict {
    let any = |flag| stations.clone().any(|s| s.flags.contains(&flag));
    let out_of_level = bed.check.as_ref().is_some_and(|c| !c.within);
    // Without packers to choose from, only a gap that comes to no grain is none.
    let bare = |s: &Station| s.packers.is_empty() && (packers || s.remainder.0.abs() < NOTHING);
    if any(Flag::AboveDatum) {
        PackVerdict::AboveDatum
    } else if out_of_level || any(Flag::OverLimit) {
        PackVerdict::OverLimit
    } else if any(Flag::NotMadeUp) {
        PackVerdict::Short
    } else if stations.clone().all(bare) {
        PackVerdict::Level
    } else {
        PackVerdict::Pack
    }
}
