//! How level the bed is, against the user's own limit or a published one.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::PackingError;
use crate::geometry::{Mm, Point};
use crate::length::not_negative;
use crate::plan::Footprint;
use crate::rules::Preset;

/// What the bed's level is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// The user's own: the most that highest and lowest may differ, mm, wherever they are.
    Own(f64),
    /// A published limit on a wall's bed joint: any two places, by the length of new wall between them, the
    /// shorter way round.
    AlongWall(&'static Preset),
    /// A published limit on the level of the whole: any two places, by the straight distance between them.
    Across(&'static Preset),
}

/// The limit that was used, as the answer states it.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Against {
    /// The user's own limit, mm.
    Own(Mm),
    /// A published limit, with its source.
    Published(&'static Preset),
}

/// The two places that come out worst against the limit.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct BedCheck {
    /// The higher place, then the lower.
    pub between: [String; 2],
    /// Distance between them, mm: along the wall for a limit on a wall's bed joint, straight for any other.
    pub distance: Mm,
    /// How far the second lies under the first, mm.
    pub difference: Mm,
    /// What the limit allows over that distance, mm.
    pub limit: Mm,
    /// Whether every pair of places that the limit covers is within it.
    pub within: bool,
    /// Pairs of places that the limit says nothing about: too far apart for it, or with no new wall between them.
    pub not_covered: usize,
    /// Where the limit comes from.
    pub against: Against,
}

/// The bed as it was read.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Bed {
    /// The highest place.
    pub highest: String,
    /// The lowest place.
    pub lowest: String,
    /// How far the lowest lies under the highest, mm.
    pub spread: Mm,
    /// Against the limit, if there is one and it covers any two of the places.
    pub check: Option<BedCheck>,
}

/// A place read, as this file needs it.
pub(super) struct Read {
    pub(super) name: String,
    pub(super) at: Point,
    /// Distance round the plate line from its first corner, mm.
    pub(super) round: f64,
    pub(super) height: f64,
}

/// Differences under this, mm, are rounding and not level.
const NOTHING: f64 = 1e-6;

/// The plate line: how far it is round the outline, and where it is the house and no new wall.
pub(super) struct Line {
    perimeter: f64,
    /// From where to where each house side runs, mm round the outline.
    house: Vec<(f64, f64)>,
}

impl Line {
    /// The plate line of `footprint`.
    pub(super) fn of(footprint: &Footprint) -> Self {
        let (mut at, mut house) = (0.0, Vec::new());
        for side in footprint.sides() {
            if side.house {
                house.push((at, at + side.length));
            }
            at += side.length;
        }
        Self { perimeter: at, house }
    }

    /// The distance between two places along new walls, the shorter way round that has no house in it, mm; none where
    /// the house lies between them both ways.
    fn along(&self, a: f64, b: f64) -> Option<f64> {
        let (from, to) = if a < b { (a, b) } else { (b, a) };
        // A place read is never within a house side, so a side lies wholly on one way or the other.
        let between = |house: &&(f64, f64)| from - AT_A_CORNER < house.0 && house.1 < to + AT_A_CORNER;
        let on_it = self.house.iter().filter(between).count();
        let one = (on_it == 0).then_some(to - from);
        let other = (on_it == self.house.len()).then_some(self.perimeter - (to - from));
        one.into_iter().chain(other).reduce(f64::min)
    }
}

/// Places nearer than this, mm, to a side's end are at its corner.
const AT_A_CORNER: f64 = 0.5;

/// Checks the bed of a plate line.
pub(super) fn check(read: &[Read], line: &Line, limit: Option<Limit>) -> Result<Bed, PackingError> {
    let (Some(first), limit) = (read.first(), checked(limit)?) else {
        return Err(PackingError::NoReadings);
    };
    let highest = read.iter().fold(first, |best, r| if r.height > best.height + NOTHING { r } else { best });
    let lowest = read.iter().fold(first, |best, r| if r.height < best.height - NOTHING { r } else { best });
    let spread = highest.height - lowest.height;
    let check = match limit {
        None => None,
        Some(Limit::Own(most)) => Some(BedCheck {
            between: [highest.name.clone(), lowest.name.clone()],
            distance: Mm(highest.at.distance(lowest.at)),
            difference: Mm(spread),
            limit: Mm(most),
            within: spread <= most + NOTHING,
            not_covered: 0,
            against: Against::Own(Mm(most)),
        }),
        Some(Limit::AlongWall(preset)) => against_preset(read, preset, |a, b| line.along(a.round, b.round)),
        Some(Limit::Across(preset)) => against_preset(read, preset, |a, b| Some(a.at.distance(b.at))),
    };
    Ok(Bed { highest: highest.name.clone(), lowest: lowest.name.clone(), spread: Mm(spread), check })
}

fn checked(limit: Option<Limit>) -> Result<Option<Limit>, PackingError> {
    if let Some(Limit::Own(most)) = limit {
        not_negative("limit on level", most)?;
    }
    Ok(limit)
}

/// The pair that uses up most of its limit; of equal ones, the first round the line.
fn against_preset(
    read: &[Read],
    preset: &'static Preset,
    apart: impl Fn(&Read, &Read) -> Option<f64>,
) -> Option<BedCheck> {
    let mut worst: Option<(f64, BedCheck)> = None;
    let mut not_covered = 0;
    for (i, a) in read.iter().enumerate() {
        for b in read.iter().skip(i + 1) {
            let limited = apart(a, b).and_then(|distance| Some((distance, preset.limit(distance)?)));
            let Some((distance, limit)) = limited else {
                not_covered += 1;
                continue;
            };
            let (high, low) = if a.height >= b.height { (a, b) } else { (b, a) };
            let difference = high.height - low.height;
            let used = difference / limit;
            if worst.as_ref().is_none_or(|(most, _)| used > most + 1e-9) {
                let check = BedCheck {
                    between: [high.name.clone(), low.name.clone()],
                    distance: Mm(distance),
                    difference: Mm(difference),
                    limit: Mm(limit),
                    within: difference <= limit + NOTHING,
                    not_covered: 0,
                    against: Against::Published(preset),
                };
                worst = Some((used, check));
            }
        }
    }
    worst.map(|(_, check)| BedCheck { not_covered, ..check })
}
