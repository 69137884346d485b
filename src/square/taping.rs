//! The order that the lines of a proof are taped in: what proves the shape first, and the least walking.

use super::answer::Diagonals;
use crate::plan::Footprint;

/// The lines to tape, by their ends: the sides round the outline, then the proof set, then the spares, each diagonal begun at
/// the corner nearest to where the tape is. Lines past the tape are left out.
#[must_use]
pub fn taping_order(footprint: &Footprint, diagonals: &Diagonals) -> Vec<(usize, usize)> {
    let past = |name: &String| diagonals.sides_past_tape.contains(name);
    let sides = (0..footprint.len()).filter(|side| !past(&footprint.side_name(*side)));
    let mut order: Vec<(usize, usize)> =
        sides.map(|side| (footprint.sides()[side].from, footprint.sides()[side].to)).collect();
    let apart = |a: usize, b: usize| footprint.corners()[a].at.distance(footprint.corners()[b].at);
    let mut stands = order.last().map_or(0, |(_, to)| *to);
    for names in [&diagonals.proof.names, &diagonals.spares.names] {
        let mut left: Vec<(usize, usize)> =
            names.iter().filter_map(|name| footprint.parse_line(name)).collect();
        while let Some(next) = (0..left.len()).min_by(|a, b| {
            let walk = |(from, to): (usize, usize)| apart(stands, from).min(apart(stands, to));
            walk(left[*a]).total_cmp(&walk(left[*b]))
        }) {
            let (from, to) = left.remove(next);
            stands = if apart(stands, from) <= apart(stands, to) { to } else { from };
            order.push((from, to));
        }
    }
    order
}
