//! Heights along the supports, and what goes under each joist so that all lie level, or to one fall.

use super::answer::{Held, Joist, JoistEnd, Levels, Seat};
use super::bays::{Edge, Turned};
use super::error::JoistsError;
use super::input::{Question, Support};
use crate::geometry::Mm;
use crate::length::{Units, at_most, usable};
use crate::packers::{Grain, make_up};
use crate::plan::{Footprint, Spot};

/// Heights read along one side: how far along the supports, and the height, in order.
#[derive(Debug, Clone, Default)]
pub(super) struct Read(Vec<(f64, f64)>);

impl Read {
    /// The height at `u`, on the straight line between the readings on both sides of it.
    fn at(&self, u: f64) -> Option<f64> {
        let after = self.0.iter().position(|(at, _)| *at >= u - NEAR)?;
        let (u1, h1) = self.0[after];
        if after == 0 {
            return ((u1 - u).abs() <= NEAR).then_some(h1);
        }
        let (u0, h0) = self.0[after - 1];
        Some(h0 + (h1 - h0) * ((u - u0) / (u1 - u0)).clamp(0.0, 1.0))
    }
}

/// How near, mm, a joist must be to a reading to take it as its own.
const NEAR: f64 = 0.5;

/// The heights read on each side of a support, sorted along it.
pub(super) struct Readings<'a> {
    footprint: &'a Footprint,
    turned: Turned,
    read: [&'a [(Spot, f64)]; 2],
}

/// The most heights read along a support.
const MOST_HEIGHTS: usize = 1_000;

impl<'a> Readings<'a> {
    /// Checks that every height was read on its own support.
    pub(super) fn new(
        footprint: &'a Footprint,
        turned: Turned,
        question: &'a Question,
        units: Units,
    ) -> Result<Self, JoistsError> {
        let supports = [
            (Support::From, &question.heights_from, &question.from),
            (Support::To, &question.heights_to, &question.to),
        ];
        for (support, read, sides) in supports {
            at_most("heights read along a support", read.len(), MOST_HEIGHTS)?;
            for (spot, height) in read {
                usable(format!("height at {}", spot.name(footprint, units)), *height)?;
                if !sides.iter().any(|side| on(footprint, *spot, *side)) {
                    let names: Vec<String> = sides.iter().map(|side| footprint.side_name(*side)).collect();
                    return Err(JoistsError::NotOnSupport {
                        name: spot.name(footprint, units),
                        example: format!("{}@{}", names[0], units.typed(1200.0)),
                        sides: crate::words::and_list(&names),
                        support,
                    });
                }
            }
        }
        Ok(Self { footprint, turned, read: [&question.heights_from, &question.heights_to] })
    }

    /// Whether there are none.
    pub(super) const fn none(&self) -> bool {
        self.read[0].is_empty() && self.read[1].is_empty()
    }

    /// The height of `edge` under a joist whose middle is at `u`.
    pub(super) fn at(&self, edge: &Edge, support: Support, u: f64) -> Option<f64> {
        let read = match support {
            Support::From => self.read[0],
            Support::To => self.read[1],
        };
        let here = read.iter().filter(|(spot, _)| on(self.footprint, *spot, edge.side));
        let mut known: Vec<(f64, f64)> =
            here.map(|(spot, height)| (self.turned.u(spot.point(self.footprint)), *height)).collect();
        known.sort_by(|a, b| a.0.total_cmp(&b.0));
        // The last one said of a place counts.
        known.dedup_by(|b, a| {
            (b.0 - a.0).abs() <= NEAR && {
                *a = *b;
                true
            }
        });
        // Over the corner of a wall a joist lies a little past its side.
        Read(known).at(u.clamp(edge.u[0], edge.u[1]))
    }
}

fn on(footprint: &Footprint, spot: Spot, side: usize) -> bool {
    spot.side() == side || (spot.distance() <= 0.0 && spot.side() == footprint.sides()[side].to)
}

/// The height of a seat, and where it lies from the line of the first support.
pub(super) type Found = (f64, f64);

/// The joist and its end whose seat gives the highest underside, and that at the line of the first support. Hangers can be
/// moved, bearings can't.
fn highest(joists: &[Joist], found: &[[Option<Found>; 2]], slope: f64) -> Option<(usize, usize, f64)> {
    let known = |held: Option<Held>| -> Vec<(usize, usize, f64)> {
        let ends = joists.iter().zip(found).enumerate().flat_map(|(i, (joist, found))| {
            let ends = [&joist.from, &joist.to].map(|end| end.held);
            (0..2).filter_map(move |end| {
                let (height, at) = found[end].filter(|_| held.is_none_or(|held| ends[end] == held))?;
                Some((i, end, height + slope * at))
            })
        });
        ends.collect()
    };
    let bearings = known(Some(Held::Bears));
    let rule = if bearings.is_empty() { known(None) } else { bearings };
    rule.into_iter().reduce(|best, seat| if seat.2 > best.2 + 1e-9 { seat } else { best })
}

/// Fills the joists' seats and says what it takes; nothing where no seat's height is known. `found` gives the height at
/// each end of each joist, first support first.
pub(super) fn level(
    question: &Question,
    joists: &mut [Joist],
    found: &[[Option<Found>; 2]],
    units: Units,
) -> Result<Option<Levels>, JoistsError> {
    let slope = match question.fall {
        None => 0.0,
        Some((n, Support::To)) => 1.0 / n,
        Some((n, Support::From)) => -1.0 / n,
    };
    let Some((joist, end, underside)) = highest(joists, found, slope) else { return Ok(None) };
    let mut gaps = vec![];
    for (joist, found) in joists.iter_mut().zip(found) {
        for (end, found) in [&mut joist.from, &mut joist.to].into_iter().zip(found) {
            if let Some((height, at)) = found {
                let up = underside - slope * at - height;
                end.seat = Some(Seat {
                    height: Mm(*height),
                    up: Mm(up),
                    packers: vec![],
                    remainder: Mm(0.0),
                    made_up: true,
                });
                if end.held == Held::Bears {
                    gaps.push(up.max(0.0));
                }
            }
        }
    }
    let made = make_up(&gaps, &question.packers, question.within, units)?;
    let bearing = |end: &&mut JoistEnd| end.held == Held::Bears && end.seat.is_some();
    let ends = joists.iter_mut().flat_map(|joist| [&mut joist.from, &mut joist.to]).filter(bearing);
    for (end, stack) in ends.zip(made.stacks) {
        if let Some(seat) = &mut end.seat {
            let off = stack.remainder.0.abs() > question.within + 1e-6;
            seat.made_up = question.packers.is_empty() || !off;
            (seat.packers, seat.remainder) = (stack.packers, stack.remainder);
        }
    }
    let on = if end == 0 { &joists[joist].from } else { &joists[joist].to };
    let grain = Grain::of(units);
    let worst = gaps.iter().copied().filter(|gap| grain.rounded(*gap) > 0).fold(0.0, f64::max);
    Ok(Some(Levels {
        joist: joists[joist].name.clone(),
        on: on.on.clone(),
        underside: Mm(underside),
        fall_per_metre: Mm(slope * 1000.0),
        worst: Mm(worst),
        totals: made.totals,
        pieces: made.pieces,
        proven: made.proven,
        fetch: made.fetch,
        unread: unread(joists),
    }))
}

/// The sides where joists have ends and no height was read.
fn unread(joists: &[Joist]) -> Vec<String> {
    let mut unread: Vec<String> = vec![];
    for end in joists.iter().flat_map(|joist| [&joist.from, &joist.to]) {
        if end.mark.is_some() && end.seat.is_none() && !unread.contains(&end.on) {
            unread.push(end.on.clone());
        }
    }
    unread
}
