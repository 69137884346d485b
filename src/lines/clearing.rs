//! Boards in each other's way: moved clear of another line's run, or put where that line's own board stands.

use super::ground::Ground;
use super::runs::{Reach, Run, Why};
use crate::geometry::Point;
use crate::plan::{Footprint, SAME_PLACE};

/// How far a board is kept from the end of a board on a line that it would otherwise stand on, mm.
const CLEAR: f64 = 50.0;

/// How often the boards are gone through; every move goes outward past something, so few rounds are ever needed.
const MOST_ROUNDS: usize = 64;

/// Moves the ends of `runs` until no board stands on another line's run, as far as that can be had; where it can't, the
/// end says so.
pub(super) fn clear(ground: &Ground<'_>, runs: &mut [Run], reach: Reach) {
    let footprint = ground.footprint;
    for _ in 0..MOST_ROUNDS {
        let mut moved = false;
        for run in 0..runs.len() {
            for end in 0..2 {
                moved |= step(ground, runs, run, end, reach);
            }
        }
        if !moved {
            break;
        }
    }
    for run in 0..runs.len() {
        for end in 0..2 {
            if let Some(clash) = clash(footprint, runs, run, end, reach) {
                runs[run].ends[end].why = Some(Why::Under(names(footprint, &runs[clash.other])));
            }
        }
    }
}

/// Another line that a board stands on.
struct Clash {
    /// The line.
    other: usize,
    /// How far beyond its corner the board would have to stand, mm; nothing where that would not help.
    at_least: Option<f64>,
    /// Whether it would share the other line's board there.
    shares: bool,
}

fn names(footprint: &Footprint, run: &Run) -> Vec<String> {
    run.sides.iter().map(|side| footprint.side_name(*side)).collect()
}

/// Moves one end out of the way of the first line that it stands on; whether it did.
fn step(ground: &Ground<'_>, runs: &mut [Run], run: usize, end: usize, reach: Reach) -> bool {
    let footprint = ground.footprint;
    let Some(clash) = clash(footprint, runs, run, end, reach) else {
        return false;
    };
    let before = runs[run].ends[end].beyond;
    let Some(at_least) = clash.at_least.filter(|at| *at > before + SAME_PLACE) else {
        return false;
    };
    let names = names(footprint, &runs[clash.other]);
    runs[run].settle(ground, end, at_least, reach);
    let put = &mut runs[run].ends[end];
    if (put.beyond - at_least).abs() <= SAME_PLACE && !put.house && put.why != Some(Why::Narrow) {
        put.why = Some(if clash.shares { Why::Shares(names) } else { Why::ClearOf(names) });
    }
    true
}

/// The first line that the board at an end stands on.
fn clash(footprint: &Footprint, runs: &[Run], run: usize, end: usize, reach: Reach) -> Option<Clash> {
    if runs[run].ends[end].house {
        return None;
    }
    let board = runs[run].board(footprint, end, reach);
    let corner = footprint.corners()[runs[run].ends[end].corner].at;
    let (dx, dy) = runs[run].facing(end).step();
    let ahead = |p: Point| (p.x - corner.x) * dx + (p.y - corner.y) * dy;
    let own = runs[run].ends[end].beyond;
    (0..runs.len()).filter(|other| *other != run).find_map(|i| {
        let other = &runs[i];
        if other.heading.is_across() == runs[run].heading.is_across() {
            // A line alongside: its string passes over the board if it goes on beyond it.
            let far_end = usize::from(other.facing(1) == runs[run].facing(end));
            let [far, near] = [far_end, 1 - far_end].map(|end| ahead(other.end_at(footprint, end)));
            let passes_over = near < own - SAME_PLACE && far > own + SAME_PLACE;
            let beside = board.overlaps(other.swath(footprint, reach, 0.0));
            (passes_over && beside).then(|| Clash {
                other: i,
                at_least: Some(far).filter(|_| !other.ends[far_end].house),
                shares: true,
            })
        } else {
            // A line across the way: its string lies along the board, or its own boards would.
            let swath = other.swath(footprint, reach, CLEAR);
            let far = ahead(swath.low).max(ahead(swath.high));
            swath.overlaps(board).then_some(Clash { other: i, at_least: Some(far + CLEAR), shares: false })
        }
    })
}
