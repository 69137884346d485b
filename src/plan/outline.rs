//! From bare points to a checked, lettered [`Footprint`].

use super::error::PlanError;
use super::footprint::{Corner, Footprint, Heading, Side, Turn, corner_name};
use super::limits::{FEWEST_CORNERS, MOST_CORNERS, SAME_PLACE};
use crate::geometry::Point;

impl Footprint {
    /// A footprint from its corners in clockwise order (on the page, y down), starting anywhere and placed anywhere.
    ///
    /// The corners are moved so that the bounding box starts at (0, 0) and lettered from A. Refused, with the place:
    /// fewer than 4 or more than 26 corners, a side of nothing, a side that slants, a straight-through corner, sides
    /// that cross or touch, an anticlockwise outline, a point that is not finite.
    pub fn from_points(points: &[Point]) -> Result<Self, PlanError> {
        let n = points.len();
        if !(FEWEST_CORNERS..=MOST_CORNERS).contains(&n) {
            return Err(PlanError::CornerCount { count: n });
        }
        if points.iter().any(|p| !(p.x.is_finite() && p.y.is_finite())) {
            return Err(PlanError::NotFinite);
        }
        let start = topmost_left(points);
        let left = points.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        let top = points.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        let at: Vec<Point> =
            (0..n).map(|i| points[(start + i) % n]).map(|p| Point::new(p.x - left, p.y - top)).collect();
        let sides = sides_between(&at)?;
        check_apart(&at, &sides)?;
        let corners = (0..n)
            .map(|i| {
                let (arrives, leaves) = (sides[(i + n - 1) % n].heading, sides[i].heading);
                let turn = if leaves == arrives.right() {
                    Turn::Outward
                } else if leaves == arrives.left() {
                    Turn::Inward
                } else {
                    return Err(PlanError::StraightThrough { corner: corner_name(i) });
                };
                Ok(Corner { name: corner_name(i), at: at[i], turn })
            })
            .collect::<Result<_, _>>()?;
        let footprint = Self { corners, sides, house_depth: None, anticlockwise: false };
        if footprint.area() < 0.0 {
            return Err(PlanError::Anticlockwise);
        }
        Ok(footprint)
    }
}

/// The index of corner A: the left end of the topmost side, of the leftmost where several lie equally high.
pub(super) fn topmost_left(points: &[Point]) -> usize {
    let mut best = 0;
    for (i, p) in points.iter().enumerate() {
        let higher = p.y < points[best].y - SAME_PLACE;
        let level = (p.y - points[best].y).abs() <= SAME_PLACE;
        if higher || (level && p.x < points[best].x - SAME_PLACE) {
            best = i;
        }
    }
    best
}

fn sides_between(at: &[Point]) -> Result<Vec<Side>, PlanError> {
    let n = at.len();
    (0..n)
        .map(|i| {
            let to = (i + 1) % n;
            let (across, down) = ((at[to].x - at[i].x).abs(), (at[to].y - at[i].y).abs());
            let name = || format!("{}{}", corner_name(i), corner_name(to));
            if across <= SAME_PLACE && down <= SAME_PLACE {
                return Err(PlanError::NoLength { side: name() });
            }
            if across > SAME_PLACE && down > SAME_PLACE {
                return Err(PlanError::Slanting { side: name() });
            }
            Ok(Side {
                from: i,
                to,
                length: across.max(down),
                heading: Heading::between(at[i], at[to]),
                house: false,
            })
        })
        .collect()
}

/// Refuses sides that cross or touch where they are not neighbours, and neighbours that fold back on each other.
fn check_apart(at: &[Point], sides: &[Side]) -> Result<(), PlanError> {
    let n = sides.len();
    for i in 0..n {
        for j in i + 1..n {
            let (first, second) = (sides[i], sides[j]);
            let neighbours = j == i + 1 || (i == 0 && j == n - 1);
            if neighbours {
                if first.heading == second.heading.right().right() {
                    let corner = if j == i + 1 { j } else { 0 };
                    return Err(PlanError::FoldsBack { corner: corner_name(corner) });
                }
                continue;
            }
            let [ax, bx] = span(at[first.from].x, at[first.to].x);
            let [ay, by] = span(at[first.from].y, at[first.to].y);
            let [cx, dx] = span(at[second.from].x, at[second.to].x);
            let [cy, dy] = span(at[second.from].y, at[second.to].y);
            if ax.max(cx) <= bx.min(dx) + SAME_PLACE && ay.max(cy) <= by.min(dy) + SAME_PLACE {
                let name = |side: Side| format!("{}{}", corner_name(side.from), corner_name(side.to));
                return Err(PlanError::Touching { first: name(first), second: name(second) });
            }
        }
    }
    Ok(())
}

fn span(a: f64, b: f64) -> [f64; 2] {
    [a.min(b), a.max(b)]
}
