//! How far an outline can be held off before a side comes to nothing or two meet.

use std::fmt;

use crate::geometry::Point;
use crate::plan::{Footprint, SAME_PLACE};

/// What happens to an outline at its limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stop {
    /// A side comes to nothing.
    Vanishes(String),
    /// Two sides meet.
    Meet(String, String),
}

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Vanishes(side) => write!(f, "side {side} comes to nothing"),
            Self::Meet(first, second) => write!(f, "sides {first} and {second} meet"),
        }
    }
}

/// How far an outline can be offset one way.
#[derive(Debug, Clone, PartialEq)]
pub struct OffsetLimit {
    /// The distance, mm, that the offset must stay under.
    pub less_than: f64,
    /// What happens there.
    pub stop: Stop,
}

/// How each corner moves for 1 mm of offset, `sign` 1 outward or −1 inward. House sides stay.
pub(super) fn pace(footprint: &Footprint, sign: f64) -> Vec<Point> {
    (0..footprint.len())
        .map(|i| {
            let (arrives, leaves) = footprint.sides_at(i);
            [arrives, leaves]
                .into_iter()
                .map(|side| footprint.sides()[side])
                .filter(|side| !side.house)
                .map(|side| side.heading.outward())
                .fold(Point::default(), |sum, (x, y)| Point::new(sum.x + x * sign, sum.y + y * sign))
        })
        .collect()
}

/// How far `footprint` can be offset outward, or inward; nothing where there is no limit.
#[must_use]
pub fn offset_limit(footprint: &Footprint, outward: bool) -> Option<OffsetLimit> {
    let pace = pace(footprint, if outward { 1.0 } else { -1.0 });
    let vanish = footprint.sides().iter().enumerate().filter_map(|(i, side)| {
        let (dx, dy) = side.heading.step();
        let (from, to) = (pace[side.from], pace[side.to]);
        let grows = (to.x - from.x) * dx + (to.y - from.y) * dy;
        (grows < 0.0).then(|| OffsetLimit {
            less_than: side.length / -grows,
            stop: Stop::Vanishes(footprint.side_name(i)),
        })
    });
    let pairs = (0..footprint.len()).flat_map(|i| (i + 2..footprint.len()).map(move |j| (i, j)));
    let meet = pairs.filter_map(|(i, j)| {
        Some(OffsetLimit {
            less_than: meeting(footprint, &pace, i, j)?,
            stop: Stop::Meet(footprint.side_name(i), footprint.side_name(j)),
        })
    });
    // A side that comes to nothing is told rather than the two beside it that meet.
    vanish.chain(meet).reduce(
        |best, next| {
            if next.less_than < best.less_than - SAME_PLACE { next } else { best }
        },
    )
}

/// The offset at which two parallel sides come to lie on each other or to touch end to end, if they ever do.
fn meeting(footprint: &Footprint, pace: &[Point], i: usize, j: usize) -> Option<f64> {
    let (first, second) = (footprint.sides()[i], footprint.sides()[j]);
    let across = first.heading.is_across();
    if second.heading.is_across() != across {
        return None;
    }
    // Along the sides, and from one to the other.
    let split = |p: Point| if across { (p.x, p.y) } else { (p.y, p.x) };
    let corner = |i: usize| split(footprint.corners()[i].at);
    let (gap, closing) = (
        corner(second.from).1 - corner(first.from).1,
        split(pace[second.from]).1 - split(pace[first.from]).1,
    );
    if gap * closing >= 0.0 {
        return None;
    }
    let at = -gap / closing;
    let span = |from: usize, to: usize| {
        let [a, b] = [from, to].map(|i| corner(i).0 + split(pace[i]).0 * at);
        (a.min(b), a.max(b))
    };
    let (a, b) = (span(first.from, first.to), span(second.from, second.to));
    (a.0.max(b.0) <= a.1.min(b.1) + SAME_PLACE).then_some(at)
}
