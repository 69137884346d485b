//! Bays: stretches where every joist runs between the same two sides.

use super::error::JoistsError;
use super::input::Question;
use crate::geometry::Point;
use crate::plan::{Footprint, Heading, SAME_PLACE, Turn};

/// The plan turned: `u` along the supports from the end that is set out from, `v` from the first support inward, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Turned {
    origin: Point,
    along: (f64, f64),
    inward: (f64, f64),
}

impl Turned {
    /// How far along the supports `p` lies.
    pub(super) fn u(&self, p: Point) -> f64 {
        (p.x - self.origin.x) * self.along.0 + (p.y - self.origin.y) * self.along.1
    }

    /// How far in from the line of the first support `p` lies.
    pub(super) fn v(&self, p: Point) -> f64 {
        (p.x - self.origin.x) * self.inward.0 + (p.y - self.origin.y) * self.inward.1
    }

    /// The point of the plan at `u`, `v`.
    pub(super) fn point(&self, u: f64, v: f64) -> Point {
        Point::new(
            self.origin.x + self.along.0 * u + self.inward.0 * v,
            self.origin.y + self.along.1 * u + self.inward.1 * v,
        )
    }
}

/// A side that joists run from or to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge {
    pub(super) side: usize,
    /// From where to where it runs along the supports.
    pub(super) u: [f64; 2],
    /// The corners there.
    pub(super) corners: [usize; 2],
    pub(super) v: f64,
    pub(super) house: bool,
}

/// A stretch where joists run from one side to one other.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bay {
    pub(super) from: Edge,
    pub(super) to: Edge,
    /// From where to where on the outline.
    pub(super) u: [f64; 2],
    /// From where to where there is room for joists: between the walls, or over the corner of one.
    pub(super) room: [f64; 2],
    /// Whether a wall beside the joists ends it, at either end.
    pub(super) walled: [bool; 2],
}

/// Turns the plan, so that the first support begins at `u` = 0 and lies at `v` = 0.
pub(super) fn turn(footprint: &Footprint, question: &Question) -> Result<Turned, JoistsError> {
    let (Some(first), Some(_)) = (question.from.first(), question.to.first()) else {
        return Err(JoistsError::NoSupport);
    };
    let sides = footprint.sides();
    let heading = |side: &usize| sides.get(*side).map(|side| side.heading).ok_or(JoistsError::NoSupport);
    for support in [&question.from, &question.to] {
        let first = heading(&support[0])?;
        for side in support {
            if heading(side)? != first {
                return Err(JoistsError::TwoWays {
                    first: footprint.side_name(support[0]),
                    second: footprint.side_name(*side),
                });
            }
        }
    }
    let clockwise = heading(first)?;
    let way: Heading = if question.backward { clockwise.right().right() } else { clockwise };
    let flat = Turned { origin: Point::default(), along: way.step(), inward: clockwise.right().step() };
    let corners = question.from.iter().flat_map(|side| [sides[*side].from, sides[*side].to]);
    let start = corners
        .map(|corner| footprint.corners()[corner].at)
        .reduce(|best, p| if (flat.u(p), flat.v(p)) < (flat.u(best), flat.v(best)) { p } else { best });
    Ok(Turned { origin: start.unwrap_or_default(), ..flat })
}

/// The bays between the supports, in order along them.
pub(super) fn bays(
    footprint: &Footprint,
    turned: Turned,
    question: &Question,
) -> Result<Vec<Bay>, JoistsError> {
    let across = footprint.sides()[question.from[0]].heading.is_across();
    let edges: Vec<Edge> = (0..footprint.len())
        .filter(|side| footprint.sides()[*side].heading.is_across() == across)
        .map(|side| edge(footprint, turned, side))
        .collect();
    let mut cuts: Vec<f64> = edges.iter().flat_map(|edge| edge.u).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|b, a| *b - *a <= SAME_PLACE);
    let mut bays: Vec<Bay> = vec![];
    for (start, end) in cuts.iter().zip(cuts.iter().skip(1)) {
        let middle = f64::midpoint(*start, *end);
        let mut crossed: Vec<Edge> =
            edges.iter().copied().filter(|edge| edge.u[0] < middle && middle < edge.u[1]).collect();
        crossed.sort_by(|a, b| a.v.total_cmp(&b.v));
        // A line across an outline goes in at one side and out at the next.
        for pair in crossed.chunks_exact(2) {
            let (from, to) = (pair[0], pair[1]);
            if !question.from.contains(&from.side) || !question.to.contains(&to.side) {
                continue;
            }
            match bays.iter_mut().find(|bay| {
                (bay.from.side, bay.to.side) == (from.side, to.side) && bay.u[1] >= start - SAME_PLACE
            }) {
                Some(bay) => bay.u[1] = *end,
                None => bays.push(Bay { from, to, u: [*start, *end], room: [0.0; 2], walled: [false; 2] }),
            }
        }
    }
    if bays.is_empty() {
        let names = |sides: &[usize]| {
            let names: Vec<String> = sides.iter().map(|side| footprint.side_name(*side)).collect();
            crate::words::and_list(&names)
        };
        return Err(JoistsError::NotFacing { from: names(&question.from), to: names(&question.to) });
    }
    for bay in &mut bays {
        for end in 0..2 {
            find_room(footprint, turned, question.wall, bay, end);
        }
    }
    Ok(bays)
}

fn edge(footprint: &Footprint, turned: Turned, side: usize) -> Edge {
    let found = footprint.sides()[side];
    let mut corners = [found.from, found.to];
    let u = |corner: usize| turned.u(footprint.corners()[corner].at);
    if u(corners[0]) > u(corners[1]) {
        corners.reverse();
    }
    let v = turned.v(footprint.corners()[found.from].at);
    Edge { side, u: corners.map(u), corners, v, house: found.house }
}

/// Where the joists of a bay have to end: at the inner face of a wall beside them; where there is none, over the corner of
/// the wall that turns off there.
fn find_room(footprint: &Footprint, turned: Turned, wall: f64, bay: &mut Bay, end: usize) {
    let at = bay.u[end];
    let out = if end == 0 { -1.0 } else { 1.0 };
    let thick = |house: bool| if house { 0.0 } else { wall };
    let beside = footprint.sides().iter().filter(|side| {
        let [a, b] = [side.from, side.to].map(|corner| footprint.corners()[corner].at);
        let (low, high) = (turned.v(a).min(turned.v(b)), turned.v(a).max(turned.v(b)));
        (turned.u(a) - at).abs() <= SAME_PLACE
            && (turned.u(b) - at).abs() <= SAME_PLACE
            && high.min(bay.to.v) - low.max(bay.from.v) > SAME_PLACE
    });
    let depth = beside.map(|side| thick(side.house)).reduce(f64::max);
    if let Some(depth) = depth {
        bay.walled[end] = true;
        bay.room[end] = at - out * depth;
        return;
    }
    let reach = |edge: &Edge| {
        let past = (edge.u[end] - at) * out;
        if past > SAME_PLACE {
            return past;
        }
        let corner = edge.corners[end];
        let (arriving, leaving) = footprint.sides_at(corner);
        let turns_off = footprint.sides()[if arriving == edge.side { leaving } else { arriving }];
        match footprint.corners()[corner].turn {
            Turn::Inward if !edge.house => thick(turns_off.house),
            Turn::Inward | Turn::Outward => 0.0,
        }
    };
    bay.room[end] = at + out * reach(&bay.from).min(reach(&bay.to)).min(wall);
}
