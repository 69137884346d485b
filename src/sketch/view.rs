//! A side as seen from outside: along it, and out from it.

use crate::geometry::Point;
use crate::plan::{Footprint, Heading, SAME_PLACE};

/// How the outline is seen by somebody who stands outside and faces the sides with one heading. `along` is x or y, `out`
/// grows away from the footprint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct View(pub(super) Heading);

impl View {
    /// Every view, in the order that sides are met from A.
    pub(super) const ALL: [Self; 4] =
        [Self(Heading::Right), Self(Heading::Down), Self(Heading::Left), Self(Heading::Up)];

    /// (along, out) of a point.
    pub(super) const fn split(self, p: Point) -> (f64, f64) {
        match self.0 {
            Heading::Right => (p.x, -p.y),
            Heading::Down => (p.y, p.x),
            Heading::Left => (p.x, p.y),
            Heading::Up => (p.y, -p.x),
        }
    }

    /// The point at (along, out).
    pub(super) const fn join(self, along: f64, out: f64) -> Point {
        match self.0 {
            Heading::Right => Point::new(along, -out),
            Heading::Down => Point::new(out, along),
            Heading::Left => Point::new(along, out),
            Heading::Up => Point::new(-out, along),
        }
    }

    /// How a text along these sides is turned, degrees clockwise: read from below or from the right (ISO 129-1, from memory).
    pub(super) const fn turn(self) -> f64 {
        if self.0.is_across() { 0.0 } else { -90.0 }
    }

    /// Whether above such a text means out from the footprint.
    pub(super) const fn above_is_out(self) -> bool {
        matches!(self.0, Heading::Right | Heading::Up)
    }
}

/// A side on paper, as seen in its own view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seen {
    pub(super) side: usize,
    pub(super) view: View,
    /// Its ends along, the lower first.
    pub(super) from: f64,
    pub(super) to: f64,
    /// How far out it lies.
    pub(super) out: f64,
    /// How far it is from there to the next part of the footprint, or infinity.
    pub(super) clearance: f64,
}

impl Seen {
    pub(super) fn mid(self) -> f64 {
        f64::midpoint(self.from, self.to)
    }

    pub(super) fn span(self) -> f64 {
        self.to - self.from
    }
}

/// Every side of `footprint`, at `per_mm` mm on paper for a mm of plan.
pub(super) fn seen(footprint: &Footprint, per_mm: f64) -> Vec<Seen> {
    let corners = footprint.corners();
    let in_view = |view: View, side: usize| {
        let side = footprint.sides()[side];
        let (a, out) = view.split(corners[side.from].at);
        let (b, _) = view.split(corners[side.to].at);
        (a.min(b), a.max(b), out)
    };
    (0..footprint.len())
        .map(|i| {
            let heading = footprint.sides()[i].heading;
            let view = View(heading);
            let (from, to, out) = in_view(view, i);
            let clearance = (0..footprint.len())
                .filter(|j| footprint.sides()[*j].heading.is_across() == heading.is_across())
                .map(|j| in_view(view, j))
                .filter(|(low, high, _)| high.min(to) - low.max(from) > SAME_PLACE)
                .map(|(_, _, beyond)| beyond - out)
                .filter(|gap| *gap > SAME_PLACE)
                .fold(f64::INFINITY, f64::min);
            Seen {
                side: i,
                view,
                from: from * per_mm,
                to: to * per_mm,
                out: out * per_mm,
                clearance: clearance * per_mm,
            }
        })
        .collect()
}
