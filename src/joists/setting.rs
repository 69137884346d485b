//! The pieces that joists in their places come to: each with its ends, its marks and its length.

use super::answer::{Held, Joist, JoistEnd, Role, Trimmer};
use super::bays::{Bay, Edge, Turned};
use super::ends::{self, found, marked};
use super::error::JoistsError;
use super::input::{Question, Support};
use super::layout::{HAIR, Stands};
use super::levels::{self, Readings};
use crate::geometry::Mm;
use crate::plan::Footprint;

/// The joists in their places.
pub(super) struct Setting<'a> {
    pub(super) footprint: &'a Footprint,
    pub(super) question: &'a Question,
    pub(super) turned: Turned,
    pub(super) bays: &'a [Bay],
    pub(super) stands: &'a [Stands],
}

impl Setting<'_> {
    /// The corner that the one pull is hooked on.
    pub(super) fn start(&self) -> char {
        let corners = self.bays.iter().flat_map(|bay| bay.from.corners);
        let at = |corner: usize| self.turned.u(self.footprint.corners()[corner].at);
        let first = corners.min_by(|a, b| at(*a).total_cmp(&at(*b)));
        first.map_or('?', |corner| self.footprint.corners()[corner].name)
    }

    /// The end of a joist on a side, with its mark from the side's own corner.
    fn end_on(&self, edge: &Edge, support: Support, near: f64) -> JoistEnd {
        let found = found(self.question, edge, support);
        JoistEnd {
            from_corner: self.footprint.corners().get(edge.corners[0]).map(|corner| corner.name),
            mark: Some(Mm(marked(self.question, near) - edge.u[0])),
            ..self.end_at(self.footprint.side_name(edge.side), found.held, found.end, near)
        }
    }

    /// The end of a joist `at` so far from the line of the first support.
    fn end_at(&self, on: String, held: Held, at: f64, near: f64) -> JoistEnd {
        let place = self.turned.point(near + self.question.thickness / 2.0, at);
        let (x, y) = (Mm(place.x), Mm(place.y));
        JoistEnd { on, held, from_corner: None, mark: None, at: Mm(at), x, y, seat: None }
    }

    /// A joist's length along its slope for the distance between its ends on plan.
    fn length(&self, from: f64, to: f64) -> Mm {
        let level = to - from;
        Mm(self.question.fall.map_or(level, |(n, _)| level.hypot(level / n)))
    }

    /// The joists, cut ones in halves.
    pub(super) fn joists(&self) -> Result<Vec<Joist>, JoistsError> {
        let mut joists = vec![];
        for (number, stands) in (1..).zip(self.stands) {
            let bay = &self.bays[stands.bay];
            let end = |edge, support| self.end_on(edge, support, stands.near);
            let (from, to) = (end(&bay.from, Support::From), end(&bay.to, Support::To));
            if to.at.0 - from.at.0 <= HAIR {
                return Err(JoistsError::NoRoom {
                    what: "a joist",
                    between: format!("{} and {}", from.on, to.on),
                    left: to.at.0 - from.at.0,
                });
            }
            let mark = Mm(marked(self.question, stands.near));
            let joist = |name: String, role, from: JoistEnd, to: JoistEnd| Joist {
                length: self.length(from.at.0, to.at.0),
                near: Mm(stands.near),
                name,
                role,
                mark,
                from,
                to,
            };
            let Some(index) = stands.cut_for else {
                let role = match (stands.second, stands.trimming) {
                    (true, _) => Role::Second,
                    (_, true) => Role::Trimming,
                    _ => Role::Joist,
                };
                joists.push(joist(number.to_string(), role, from, to));
                continue;
            };
            let name = &self.question.openings[index].name;
            let on = |at| self.end_at(name.clone(), Held::Hung, at, stands.near);
            let [before, after] = ends::trimmers(self.question, bay, index)?;
            if let Some((_, hangs)) = before {
                joists.push(joist(format!("{number}a"), Role::Cut, from, on(hangs)));
            }
            if let Some((_, hangs)) = after {
                joists.push(joist(format!("{number}b"), Role::Cut, on(hangs), to));
            }
        }
        Ok(joists)
    }

    /// The trimmers across the openings.
    pub(super) fn trimmers(&self) -> Result<Vec<Trimmer>, JoistsError> {
        let mut trimmers = vec![];
        for (index, opening) in self.question.openings.iter().enumerate() {
            let middle = opening.along + opening.width / 2.0;
            let Some(bay) = self.bays.iter().find(|bay| {
                bay.room[0] <= middle
                    && middle <= bay.room[1]
                    && bay.from.v <= opening.out
                    && opening.out < bay.to.v
            }) else {
                continue;
            };
            for (face, _) in ends::trimmers(self.question, bay, index)?.into_iter().flatten() {
                let length = opening.width - 2.0 * self.question.gap;
                if length <= HAIR {
                    return Err(JoistsError::Opening {
                        name: opening.name.clone(),
                        problem: "no trimmer fits across it: make it wider",
                    });
                }
                let ends = [opening.along, opening.along + opening.width].map(|u| {
                    let end = self.turned.point(u, face);
                    [Mm(end.x), Mm(end.y)]
                });
                trimmers.push(Trimmer {
                    ends,
                    opening: opening.name.clone(),
                    at: Mm(face),
                    length: Mm(length),
                    count: if self.question.double_trimming { 2 } else { 1 },
                });
            }
        }
        Ok(trimmers)
    }

    /// The heights of a joist's two seats, where they are known.
    pub(super) fn heights(&self, joist: &Joist, readings: &Readings<'_>) -> [Option<levels::Found>; 2] {
        let middle = joist.near.0 + self.question.thickness / 2.0;
        let stands = self.stands.iter().find(|stands| (stands.near - joist.near.0).abs() <= HAIR);
        let Some(bay) = stands.map(|stands| &self.bays[stands.bay]) else { return [None; 2] };
        [(&joist.from, &bay.from, Support::From), (&joist.to, &bay.to, Support::To)].map(
            |(end, edge, support)| {
                end.mark?;
                let height = readings.at(edge, support, middle)?;
                Some((height, found(self.question, edge, support).face))
            },
        )
    }
}
