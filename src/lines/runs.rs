//! The lines to be strung: sides on one line share a string; each end stands on a profile or a nail in the house.

use schemars::JsonSchema;
use serde::Serialize;

use super::ground::{Ground, Span, Stretch, ahead, crossed_at, level_with};
use crate::geometry::{Mm, Point};
use crate::plan::{Footprint, Heading, SAME_PLACE};

/// What the places of the boards depend on, besides the outline, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    /// From a corner, or from where a string leaves the footprint, to its profile.
    pub(super) setback: f64,
    /// From the outline's line to the outer end of a board.
    pub(super) outer: f64,
    /// From the outline's line to the inner end of a board.
    pub(super) inner: f64,
    /// From the outline to the edge of the dig round it.
    pub(super) dig: f64,
}

/// Why a board does not stand at the setback beyond its own corner.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// Ahead of the corner lies the footprint: it stands beyond the far side, which is named.
    Past {
        /// That side.
        side: String,
        /// How far beyond it, mm.
        by: Mm,
    },
    /// Beside the line there is no room for it: it stands beyond the corner, which is named, where there is.
    Beside {
        /// That corner.
        corner: String,
        /// How far beyond it, mm.
        by: Mm,
    },
    /// It would stand on the run of the line along these sides.
    ClearOf(Vec<String>),
    /// It stands where the line along these sides ends.
    Shares(Vec<String>),
    /// No place was found that the line along these sides leaves free: their strings pass over it.
    Under(Vec<String>),
    /// There is no room for a whole board: a wall, old or new, is in the way of one end of it.
    Narrow,
}

/// One end of a string.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct End {
    /// The index of the corner it stands beyond.
    pub(super) corner: usize,
    /// How far beyond, mm.
    pub(super) beyond: f64,
    /// It is a nail in the house wall.
    pub(super) house: bool,
    /// Why it does not stand at the setback.
    pub(super) why: Option<Why>,
}

/// A string along one side or along several on one line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Run {
    /// The sides' indices, in the order that the string passes them.
    pub(super) sides: Vec<usize>,
    /// Which way the sides run.
    pub(super) heading: Heading,
    /// Behind the first side, and ahead of the last.
    pub(super) ends: [End; 2],
}

/// A rectangle on the page, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rect {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Rect {
    /// The rectangle with opposite corners `a` and `b`.
    pub(super) fn of(a: Point, b: Point) -> Self {
        Self { low: Point::new(a.x.min(b.x), a.y.min(b.y)), high: Point::new(a.x.max(b.x), a.y.max(b.y)) }
    }

    /// Whether the two have more than an edge in common, counting a rectangle of no thickness as touching.
    pub(super) fn overlaps(self, other: Self) -> bool {
        self.nearer(other, -SAME_PLACE)
    }

    /// Whether the two are less than `gap` mm apart, measured across the page and down it.
    pub(super) fn nearer(self, other: Self, gap: f64) -> bool {
        self.low.x < other.high.x + gap
            && other.low.x < self.high.x + gap
            && self.low.y < other.high.y + gap
            && other.low.y < self.high.y + gap
    }
}

impl Run {
    /// Which way end `end` looks: back along the sides for 0, ahead for 1.
    pub(super) fn facing(&self, end: usize) -> Heading {
        if end == 0 { self.heading.right().right() } else { self.heading }
    }

    /// Where end `end` of the outline's string is.
    pub(super) fn end_at(&self, footprint: &Footprint, end: usize) -> Point {
        let (dx, dy) = self.facing(end).step();
        let End { corner, beyond, .. } = self.ends[end];
        let at = footprint.corners()[corner].at;
        Point::new(at.x + dx * beyond, at.y + dy * beyond)
    }

    /// The strip that boards on this line take up between its two ends, `margin` wider all round where it is long.
    pub(super) fn swath(&self, footprint: &Footprint, reach: Reach, margin: f64) -> Rect {
        let (start, end) = (self.end_at(footprint, 0), self.end_at(footprint, 1));
        let (ox, oy) = self.heading.outward();
        let shifted = |p: Point, by: f64| Point::new(p.x + ox * by, p.y + oy * by);
        Rect::of(shifted(start, reach.outer + margin), shifted(end, -reach.inner - margin))
    }

    /// A board across the line at end `end`, as thick as two pegs.
    pub(super) fn board(&self, footprint: &Footprint, end: usize, reach: Reach) -> Rect {
        const HALF: f64 = 50.0;
        let at = self.end_at(footprint, end);
        let ((ox, oy), (dx, dy)) = (self.heading.outward(), self.heading.step());
        Rect::of(
            Point::new(at.x + ox * reach.outer + dx * HALF, at.y + oy * reach.outer + dy * HALF),
            Point::new(at.x - ox * reach.inner - dx * HALF, at.y - oy * reach.inner - dy * HALF),
        )
    }

    /// Moves end `end` to the first place at least `at_least` beyond its corner that a board can stand, or to the house
    /// wall if that comes first.
    pub(super) fn settle(&mut self, ground: &Ground<'_>, end: usize, at_least: f64, reach: Reach) {
        let footprint = ground.footprint;
        let heading = self.facing(end);
        // The outline's outside is to the left of a side, walking clockwise.
        let (left, right) = if end == 1 { (reach.outer, reach.inner) } else { (reach.inner, reach.outer) };
        let span = Span { left, right, dig: reach.dig };
        let from = footprint.corners()[self.ends[end].corner].at;
        let mut stretches = ahead(ground, from, heading, span);
        let mut found = first_place(&stretches, at_least, reach);
        let narrow = found.is_none();
        if narrow {
            // No room for a whole board anywhere; there is always some for the string itself.
            stretches = ahead(ground, from, heading, HAIR);
            found = first_place(&stretches, at_least, reach);
        }
        let (beyond, house) = found.unwrap_or((at_least, false));
        let passed = stretches.iter().rev().find(|stretch| !stretch.open && stretch.to <= beyond);
        let put = &mut self.ends[end];
        put.beyond = beyond;
        put.house = house;
        if house {
            put.why = None;
        } else if narrow {
            put.why = Some(Why::Narrow);
        } else if let Some(stretch) = passed {
            let by = Mm(beyond - stretch.to);
            put.why = Some(match crossed_at(footprint, from, heading, stretch.to) {
                Some(side) => Why::Past { side: footprint.side_name(side), by },
                None => Why::Beside { corner: level_with(footprint, from, heading, stretch.to), by },
            });
        }
    }
}

/// What the string itself takes up.
const HAIR: Span = Span { left: 1.0, right: 1.0, dig: 0.0 };

/// The first place at least `at_least` on, and whether it is the house wall.
fn first_place(stretches: &[Stretch], at_least: f64, reach: Reach) -> Option<(f64, bool)> {
    for (i, stretch) in stretches.iter().enumerate() {
        if stretch.house {
            return Some((stretch.from, true));
        }
        let at = (stretch.from + reach.setback).max(at_least);
        // A trench beside the next part of the footprint is no place for a board either.
        let room = match stretches.get(i + 1) {
            Some(next) if next.house => stretch.to,
            _ => stretch.to - reach.outer,
        };
        if stretch.open && at <= room {
            return Some((at, false));
        }
    }
    None
}

/// The lines of the outline, each end in its first place; the house's own sides have none.
pub(super) fn runs(ground: &Ground<'_>, reach: Reach) -> Vec<Run> {
    let footprint = ground.footprint;
    let mut runs: Vec<Run> = vec![];
    let mut taken = vec![false; footprint.len()];
    for (i, side) in footprint.sides().iter().enumerate() {
        if side.house || taken[i] {
            continue;
        }
        let sides = on_one_string(ground, i);
        for each in &sides {
            taken[*each] = true;
        }
        let (first, last) = (sides[0], sides[sides.len() - 1]);
        let end = |corner| End { corner, beyond: 0.0, house: false, why: None };
        let mut run = Run {
            heading: side.heading,
            ends: [end(footprint.sides()[first].from), end(footprint.sides()[last].to)],
            sides,
        };
        for end in 0..2 {
            run.settle(ground, end, 0.0, reach);
        }
        runs.push(run);
    }
    runs
}

/// The sides on one line with side `index` that one string can serve: same way, nothing of the house between.
fn on_one_string(ground: &Ground<'_>, index: usize) -> Vec<usize> {
    let footprint = ground.footprint;
    let side = footprint.sides()[index];
    let (step, out) = (side.heading.step(), side.heading.outward());
    let origin = footprint.corners()[side.from].at;
    let along = |corner: usize| {
        let p = footprint.corners()[corner].at;
        (p.x - origin.x) * step.0 + (p.y - origin.y) * step.1
    };
    let off = |corner: usize| {
        let p = footprint.corners()[corner].at;
        (p.x - origin.x) * out.0 + (p.y - origin.y) * out.1
    };
    let mut alike: Vec<usize> = (0..footprint.len())
        .filter(|i| {
            let other = footprint.sides()[*i];
            !other.house && other.heading == side.heading && off(other.from).abs() <= SAME_PLACE
        })
        .collect();
    alike.sort_by(|a, b| along(footprint.sides()[*a].from).total_cmp(&along(footprint.sides()[*b].from)));
    // Split where the house stands between two neighbours.
    let mut groups: Vec<Vec<usize>> = vec![];
    for i in alike {
        let joined = groups.last().and_then(|group: &Vec<usize>| group.last()).is_some_and(|before| {
            let from = footprint.sides()[*before].to;
            let gap = along(footprint.sides()[i].from) - along(from);
            let at = footprint.corners()[from].at;
            !ahead(ground, at, side.heading, HAIR)
                .iter()
                .any(|stretch| stretch.house && stretch.from < gap - SAME_PLACE)
        });
        match groups.last_mut() {
            Some(group) if joined => group.push(i),
            _ => groups.push(vec![i]),
        }
    }
    groups.into_iter().find(|group| group.contains(&index)).unwrap_or_else(|| vec![index])
}
