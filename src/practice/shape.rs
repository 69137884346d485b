//! Rectangles, L and T drawn for a question, some of their sides given and the rest to be worked out.

use super::random::Random;
use super::scale::{Scale, Sizes};
use super::slip::Slip;
use crate::geometry::Point;
use crate::plan::{Footprint, Turn};
use crate::words;

/// Whole-number right triangles, for neat sizes.
/// Source: Euclid's rule, (m² − n²), 2mn, (m² + n²) with m, n = 2, 1; 3, 2; 4, 1; 5, 2.
pub(super) const TRIPLES: [(i64, i64, i64); 4] = [(3, 4, 5), (5, 12, 13), (8, 15, 17), (20, 21, 29)];

/// A shape whose sides are whole steps of the sheet's tape.
pub(super) struct Shape {
    /// The checked outline.
    pub(super) footprint: Footprint,
    /// Its name: Rectangle, L or T.
    pub(super) name: &'static str,
    /// Where its corners are, in steps.
    pub(super) at: Vec<(i64, i64)>,
    /// Which sides are given.
    pub(super) given: Vec<bool>,
    /// The tape.
    pub(super) scale: Scale,
}

/// A side's part in a leg: added or taken off.
#[derive(Debug, Clone, Copy)]
pub(super) struct Term {
    adds: bool,
    side: usize,
    size: i64,
}

/// One leg of a right triangle, put together from given sides.
#[derive(Debug)]
pub(super) struct Leg {
    /// Its parts, one that adds first.
    pub(super) terms: Vec<Term>,
    /// Its length, steps.
    pub(super) total: i64,
}

impl Shape {
    fn new(name: &'static str, scale: Scale, points: &[(i64, i64)]) -> Option<Self> {
        let in_mm: Vec<Point> = points.iter().map(|(x, y)| Point::new(scale.mm(*x), scale.mm(*y))).collect();
        let footprint = Footprint::from_points(&in_mm).ok()?;
        let steps = |mm: f64| whole(mm / scale.0.tape_step());
        let at = footprint.points().iter().map(|p| (steps(p.x), steps(p.y))).collect();
        let given = vec![true; footprint.len()];
        Some(Self { footprint, name, at, given, scale })
    }

    /// A rectangle with AB and BC given.
    pub(super) fn rectangle(scale: Scale, across: i64, down: i64) -> Option<Self> {
        let corners = [(0, 0), (across, 0), (across, down), (0, down)];
        let mut shape = Self::new("Rectangle", scale, &corners)?;
        shape.given = vec![true, true, false, false];
        Some(shape)
    }

    /// A rectangle whose diagonal is a whole number: its triple, its multiple in steps, and itself.
    pub(super) fn neat(random: &mut Random, scale: Scale) -> Option<((i64, i64, i64), i64, Self)> {
        let triple = random.one_of(&TRIPLES)?;
        // Multiples of 50 mm, or of a quarter of a foot: enough of them for the longest sheet.
        let step = scale.of(50, 48);
        let (least, most) = scale.of((1500, 12_000), (4 * 192, 48 * 192));
        let multiple = step
            * random.within((least + triple.0 * step - 1) / (triple.0 * step), most / (triple.1 * step), 1);
        let legs = (triple.0 * multiple, triple.1 * multiple);
        let (across, down) = if random.coin() { legs } else { (legs.1, legs.0) };
        (legs.1 <= most).then_some(())?;
        Some((triple, multiple, Self::rectangle(scale, across, down)?))
    }

    /// A rectangle of any size that the tape shows (half inches on a tape in feet).
    pub(super) fn any(random: &mut Random, scale: Scale) -> Option<Self> {
        let sizes = scale.of(Sizes(1800, 12_000, 1), Sizes(6 * 192, 40 * 192, 8));
        let across = sizes.draw(random);
        let down = sizes.draw(random);
        Self::rectangle(scale, across, down)
    }

    /// An L or a T.
    pub(super) fn bent(random: &mut Random, scale: Scale) -> Option<Self> {
        let sizes = |least: i64, most: i64| {
            scale.of(Sizes(least * 100, most * 100, 10), Sizes(least * 64, most * 64, 8))
        };
        let across = sizes(54, 100).draw(random);
        let down = sizes(40, 80).draw(random);
        let w = sizes(12, 30).draw(random);
        let d = sizes(12, 26).draw(random);
        if random.coin() {
            let (right, lower) = (across - w, down - d);
            let corners = match random.below(4) {
                0 => [(0, 0), (across, 0), (across, lower), (right, lower), (right, down), (0, down)],
                1 => [(0, 0), (across, 0), (across, down), (w, down), (w, lower), (0, lower)],
                2 => [(0, 0), (right, 0), (right, d), (across, d), (across, down), (0, down)],
                _ => [(w, 0), (across, 0), (across, down), (0, down), (0, d), (w, d)],
            };
            Self::new("L", scale, &corners)
        } else {
            let left = sizes(10, 26).draw(random);
            let (right, leg) = (left + w, down + d);
            (right + scale.of(600, 384) <= across).then_some(())?;
            let corners = [
                (0, 0),
                (across, 0),
                (across, down),
                (right, down),
                (right, leg),
                (left, leg),
                (left, down),
                (0, down),
            ];
            Self::new("T", scale, &corners)
        }
    }

    /// The number of corners.
    pub(super) fn len(&self) -> usize {
        self.at.len()
    }

    /// The length of side `i`, steps.
    pub(super) fn side(&self, i: usize) -> i64 {
        let (from, to) = (self.at[i], self.at[(i + 1) % self.len()]);
        (to.0 - from.0).abs() + (to.1 - from.1).abs()
    }

    /// The name of side `i`.
    pub(super) fn side_name(&self, i: usize) -> String {
        self.footprint.side_name(i)
    }

    /// The letter of corner `i`.
    pub(super) fn corner(&self, i: usize) -> char {
        self.footprint.corners()[i].name
    }

    /// A side with its length: `AB 7800 mm`.
    pub(super) fn named(&self, i: usize) -> String {
        format!("{} {}", self.side_name(i), self.scale.text(self.side(i)))
    }

    /// What it is, with what its name leaves open: `L with its inward corner at D`.
    pub(super) fn described(&self) -> String {
        let corners = self.footprint.corners().iter().filter(|corner| corner.turn == Turn::Inward);
        let inward: Vec<String> = corners.map(|corner| corner.name.to_string()).collect();
        match inward.as_slice() {
            [] => self.name.to_owned(),
            [one] => format!("{} with its inward corner at {one}", self.name),
            several => format!("{} with its inward corners at {}", self.name, words::and_list(several)),
        }
    }

    /// The sizes given, in a sentence: `L with its inward corner at D: AB 7800 mm, …; EF is not given.`
    pub(super) fn sizes(&self) -> String {
        let named: Vec<String> = (0..self.len()).filter(|i| self.given[*i]).map(|i| self.named(i)).collect();
        let missing = match (self.name, self.given.iter().position(|given| !given)) {
            ("Rectangle", _) | (_, None) => String::new(),
            (_, Some(i)) => format!("; {} is not given", self.side_name(i)),
        };
        format!("{}: {}{missing}.", self.described(), named.join(", "))
    }

    /// The distance between two corners across or down the page, put together from given sides, the fewest that do;
    /// nothing if it can't be, or if it is none.
    pub(super) fn leg(&self, from: usize, to: usize, across: bool) -> Option<Leg> {
        let n = self.len();
        let way = |start: usize, end: usize| -> Vec<usize> {
            (0..n)
                .map(|i| (start + i) % n)
                .take_while(|i| *i != end)
                .filter(|i| self.is_across(*i) == across)
                .collect()
        };
        [way(from, to), way(to, from)]
            .into_iter()
            .filter(|sides| sides.iter().all(|i| self.given[*i]))
            .min_by_key(Vec::len)
            .and_then(|sides| self.sum(&sides))
    }

    fn is_across(&self, i: usize) -> bool {
        self.at[i].1 == self.at[(i + 1) % self.len()].1
    }

    fn sum(&self, sides: &[usize]) -> Option<Leg> {
        let along = |i: usize| {
            let (from, to) = (self.at[i], self.at[(i + 1) % self.len()]);
            to.0 - from.0 + to.1 - from.1
        };
        let total: i64 = sides.iter().map(|i| along(*i)).sum();
        let mut terms: Vec<Term> = sides
            .iter()
            .map(|i| Term { adds: (along(*i) > 0) == (total > 0), side: *i, size: along(*i).abs() })
            .collect();
        // A board shows 7800 − 3000, not −3000 + 7800.
        terms.sort_by_key(|term| !term.adds);
        (total != 0).then(|| Leg { terms, total: total.abs() })
    }

    /// A leg on the board, before its total: `AB`, or `AB − CD = 7800 mm − 3000 mm`.
    pub(super) fn words(&self, leg: &Leg) -> String {
        let list = |show: &dyn Fn(&Term) -> String| {
            leg.terms.iter().enumerate().fold(String::new(), |mut text, (i, term)| {
                text.push_str(match (i, term.adds) {
                    (0, _) => "",
                    (_, true) => " + ",
                    (_, false) => " − ",
                });
                text.push_str(&show(term));
                text
            })
        };
        let names = list(&|term| self.side_name(term.side));
        if leg.terms.len() == 1 {
            names
        } else {
            format!("{names} = {}", list(&|term| self.scale.text(term.size)))
        }
    }
}

impl Leg {
    /// The lengths that slips with the parts lead to.
    pub(super) fn slips(&self) -> Vec<(Slip, i64)> {
        if self.terms.len() < 2 {
            return vec![];
        }
        let sum = |adds: bool| -> i64 {
            let parts = self.terms.iter().filter(|term| term.adds == adds);
            parts.map(|term| term.size).sum()
        };
        let (whole, off) = (sum(true), sum(false));
        if off > 0 {
            vec![(Slip::CutOut, off), (Slip::WholeSide, whole), (Slip::AddedParts, whole + off)]
        } else {
            let parts = self.terms.iter().map(|term| (Slip::OnePart, term.size));
            parts.collect()
        }
    }
}

impl Sizes {
    /// One of them.
    pub(super) fn draw(self, random: &mut Random) -> i64 {
        random.within(self.0, self.1, self.2)
    }
}

/// A value that is whole but for the last bits.
#[expect(
    clippy::cast_possible_truncation,
    reason = "sizes are a few thousand steps, and a float cast saturates"
)]
pub(super) fn whole(value: f64) -> i64 {
    value.round() as i64
}
