//! Boards in each other's way: moved clear of another line's run, or put where that line's own board stands.

use super::boards::Why;
use super::runs::{Reach, Run};
use crate::plan::{Footprint, SAME_PLACE};

/// How far a board is kept from the end of a board on a line that it would otherwise stand on, mm.
const CLEAR: f64 = 50.0;

/// How often the boards are gone through; every move goes outward past something, so few rounds are ever needed.
const MOST_ROUNDS: usize = 64;

/// Moves the ends of `runs` until no board stands on another line's run, as far as that can be had.
pub(super) fn clear(footprint: &Footprint, runs: &mut [Run], reach: Reach) {
    for _ in 0..MOST_ROUNDS {
        let mut moved = false;
        for run in 0..runs.len() {
            for end in 0..2 {
                moved |= !runs[run].ends[end].house && step(footprint, runs, run, end, reach);
            }
        }
        if !moved {
            return;
        }
    }
}

/// Moves one end out of the way of the first line that it stands on; whether it did.
fn step(footprint: &Footprint, runs: &mut [Run], run: usize, end: usize, reach: Reach) -> bool {
    let board = runs[run].board(footprint, end, reach);
    let names = |other: &Run| -> Vec<String> {
        other
            .sides
            .iter()
            .map(|side| footprint.side_name(*side))
            .collect()
    };
    let found = (0..runs.len()).filter(|other| *other != run).find_map(|i| {
        let other = &runs[i];
        if other.heading.is_across() == runs[run].heading.is_across() {
            let at = shared_end(footprint, runs, run, end, i, reach)?;
            Some((at, Why::Shares(names(other))))
        } else {
            let swath = other.swath(footprint, reach, CLEAR);
            if !swath.overlaps(board) {
                return None;
            }
            let facing = runs[run].facing(end);
            let corner = footprint.corners()[runs[run].ends[end].corner].at;
            let (dx, dy) = facing.step();
            let far = [swath.low, swath.high]
                .map(|p| (p.x - corner.x) * dx + (p.y - corner.y) * dy)
                .into_iter()
                .fold(f64::NEG_INFINITY, f64::max);
            // The board's own half thickness, so that it is clear afterwards.
            Some((far + CLEAR, Why::ClearOf(names(other))))
        }
    });
    let Some((at_least, why)) = found else {
        return false;
    };
    let before = runs[run].ends[end].clone();
    if at_least <= before.beyond + SAME_PLACE {
        return false;
    }
    runs[run].settle(footprint, end, at_least, reach);
    let put = &mut runs[run].ends[end];
    if (put.beyond - at_least).abs() <= SAME_PLACE {
        put.why = Some(why);
    }
    (put.beyond - before.beyond).abs() > SAME_PLACE
}

/// How far beyond its corner end `end` has to stand to share the board of a line alongside whose string passes over
/// it; nothing where none does.
fn shared_end(
    footprint: &Footprint,
    runs: &[Run],
    run: usize,
    end: usize,
    other: usize,
    reach: Reach,
) -> Option<f64> {
    let facing = runs[run].facing(end);
    let corner = footprint.corners()[runs[run].ends[end].corner].at;
    let (dx, dy) = facing.step();
    let ahead = |run: usize, end: usize| {
        let p = runs[run].end_at(footprint, end);
        (p.x - corner.x) * dx + (p.y - corner.y) * dy
    };
    let other_end = usize::from(runs[other].facing(1) == facing);
    let (own, far, near) = (
        ahead(run, end),
        ahead(other, other_end),
        ahead(other, 1 - other_end),
    );
    let passes_over = near < own - SAME_PLACE && far > own + SAME_PLACE;
    let beside = runs[run]
        .board(footprint, end, reach)
        .overlaps(runs[other].swath(footprint, reach, 0.0));
    (passes_over && beside && !runs[other].ends[other_end].house).then_some(far)
}
