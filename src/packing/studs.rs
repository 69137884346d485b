//! Heights under the studs, interpolated between the places read on each side.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::PackingError;
use crate::geometry::Mm;
use crate::length::{at_most, positive};
use crate::plan::{Footprint, Spot};

/// Places under studs taken at a time.
const MOST_STUDS: usize = 1500;

/// A stretch of plate with no reading on both sides of it, whose studs are therefore not worked out.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Unread {
    /// The side.
    pub side: String,
    /// Where the stretch starts, mm from the side's first corner.
    pub from: Mm,
    /// Where it ends, mm.
    pub to: Mm,
}

/// The places under studs, with interpolated heights, and the stretches left out.
#[derive(Debug, Default)]
pub(super) struct Studs {
    pub(super) under: Vec<(Spot, f64)>,
    pub(super) unread: Vec<Unread>,
}

/// Heights under studs at `centres` mm along each side, counted from its first corner, but for sides on the house
/// and for places that were read themselves. A straight line joins one reading to the next along the side.
pub(super) fn under(
    footprint: &Footprint,
    read: &[(Spot, f64)],
    centres: f64,
) -> Result<Studs, PackingError> {
    let centres = positive("stud centres", centres)?;
    let plated = footprint.sides().iter().filter(|s| !s.house);
    let plated: f64 = plated.map(|s| s.length).sum();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "both figures are positive and bounded, and a float cast saturates"
    )]
    at_most("studs", (plated / centres) as usize, MOST_STUDS)?;
    let mut studs = Studs::default();
    for (index, side) in footprint.sides().iter().enumerate().filter(|(_, s)| !s.house) {
        let known = on_side(footprint, read, index);
        let unread =
            |from: f64, to: f64| Unread { side: footprint.side_name(index), from: Mm(from), to: Mm(to) };
        let (Some(first), Some(last)) = (known.first().copied(), known.last().copied()) else {
            studs.unread.push(unread(0.0, side.length));
            continue;
        };
        if known.len() < 2 {
            studs.unread.push(unread(0.0, side.length));
            continue;
        }
        if first.0 > 0.0 {
            studs.unread.push(unread(0.0, first.0));
        }
        let mut at = 0.0;
        while at < side.length {
            let spot = Spot::along(footprint, index, at)?;
            // A corner is a station of its own when read; unread it has nothing on one side of it.
            if at > first.0 && at < last.0 && spot.distance() > 0.0 && !read.iter().any(|(s, _)| s.is(spot)) {
                studs.under.push((spot, between(&known, at)));
            }
            at += centres;
        }
        if last.0 < side.length {
            studs.unread.push(unread(last.0, side.length));
        }
    }
    Ok(studs)
}

/// The readings on one side, its two corners included, as (distance along, height) in order.
fn on_side(footprint: &Footprint, read: &[(Spot, f64)], index: usize) -> Vec<(f64, f64)> {
    let side = footprint.sides()[index];
    let mut known: Vec<(f64, f64)> = read
        .iter()
        .filter_map(|(spot, height)| {
            if spot.side() == index {
                Some((spot.distance(), *height))
            } else if spot.side() == side.to && spot.distance() == 0.0 {
                Some((side.length, *height))
            } else {
                None
            }
        })
        .collect();
    known.sort_by(|a, b| a.0.total_cmp(&b.0));
    known
}

/// The height at `at`, on the straight line between the readings either side of it.
fn between(known: &[(f64, f64)], at: f64) -> f64 {
    let after = known.partition_point(|(x, _)| *x <= at).clamp(1, known.len() - 1);
    let ((x0, h0), (x1, h1)) = (known[after - 1], known[after]);
    if x1 > x0 { h0 + (h1 - h0) * (at - x0) / (x1 - x0) } else { h0 }
}
