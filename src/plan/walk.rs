//! The walk: side lengths in order from A, with the turn between each two.
//!
//! `7800 R 3600 R 3000 L 2400 R 4800 R 6000`: along AB 7800, turn right, BC 3600, … The last one or two sides may be
//! left out; they are worked out. Sides that are given must close. A walk that ends going up, with as many turns as a
//! whole one, is taken as whole: a whole walk that misses its start must never pass for one with its last two sides
//! left out. Where they were, the first of them has to be given.
//!
//! A walk with more turns to the left was made anticlockwise, down from A first. Seen in a mirror along its slanting
//! axis (across and down changed over) it is a clockwise one, and so it is worked; its corners are turned back after.

use super::error::PlanError;
use super::footprint::{Footprint, Heading, Turn, corner_name};
use super::limits::{LONGEST_TEXT, MOST_CORNERS, SAME_PLACE};
use super::misclosure::{Axis, Misclosure, Repair, as_given};
use super::outline::topmost_left;
use crate::geometry::Point;
use crate::length::{Units, dashed_inches, scan};
use crate::words::quoted;

/// Reads a walk. Bare numbers are in `default_units`.
pub fn parse_walk(text: &str, default_units: Units) -> Result<(Footprint, Units), PlanError> {
    if text.len() > LONGEST_TEXT {
        return Err(PlanError::TooMuchText { length: text.len() });
    }
    let steps = Steps::read(text, default_units)?.clockwise();
    let footprint = steps.outline(&steps.corners()?, default_units)?;
    Ok((footprint, steps.units))
}

/// Refuses a walk without turns, or one that begins with a turn.
fn turns_stand_between(walk: &str) -> Result<(), PlanError> {
    let is_number = |part: &&str| part.starts_with(|c: char| c.is_ascii_digit());
    let numbers: Vec<&str> = walk.split(is_separator).filter(is_number).collect();
    if numbers.len() > 1 && !walk.contains(['R', 'r', 'L', 'l']) {
        let walk = if numbers.len() == 4 {
            numbers.join(" R ")
        } else {
            format!("{} R {} …", numbers[0], numbers[1])
        };
        return Err(PlanError::NoTurns { walk });
    }
    match walk.split(|c: char| !c.is_alphabetic()).next().filter(|word| is_turn(word)) {
        Some(turn) => Err(PlanError::TurnFirst { turn: turn.to_owned() }),
        None => Ok(()),
    }
}

#[derive(Clone)]
struct Steps {
    lengths: Vec<f64>,
    headings: Vec<Heading>,
    /// Right turns and left turns given.
    turns: (usize, usize),
    /// Whether it was walked anticlockwise, and is seen here in the mirror.
    mirrored: bool,
    units: Units,
}

impl Steps {
    fn read(text: &str, default_units: Units) -> Result<Self, PlanError> {
        let mut steps =
            Self { lengths: vec![], headings: vec![], turns: (0, 0), mirrored: false, units: default_units };
        let mut heading = Heading::Right;
        let (mut written_in, mut bare) = (None, false);
        let mut rest = text.trim();
        if rest.is_empty() {
            return Err(PlanError::Empty);
        }
        turns_stand_between(rest)?;
        while !rest.is_empty() {
            let index = steps.lengths.len();
            let place = || format!("side {} of the walk", index + 1);
            if index == MOST_CORNERS {
                return Err(PlanError::CornerCount { count: MOST_CORNERS + 1 });
            }
            let (length, after) =
                scan(rest, default_units).map_err(|error| PlanError::Dimension { place: place(), error })?;
            if length.mm <= SAME_PLACE {
                return Err(PlanError::NotPositive { place: place() });
            }
            match length.written_in {
                Some(units) => written_in = written_in.or(Some(units)),
                None => bare = true,
            }
            let (inches, after) = dashed_inches(rest, after).unwrap_or((0.0, after));
            steps.lengths.push(length.mm + inches);
            steps.headings.push(heading);
            rest = after.trim_start_matches(is_separator);
            let word: String = rest.chars().take_while(|c| c.is_alphabetic()).collect();
            match word.to_lowercase().as_str() {
                _ if rest.is_empty() => break,
                "r" | "right" => {
                    steps.turns.0 += 1;
                    heading = heading.right();
                }
                "l" | "left" => {
                    steps.turns.1 += 1;
                    heading = heading.left();
                }
                _ => {
                    let found = rest.split_whitespace().next().unwrap_or(rest);
                    return Err(PlanError::Turn { found: quoted(found), after: index + 1 });
                }
            }
            rest = rest[word.len()..].trim_start_matches(is_separator);
        }
        if steps.lengths.len() < 2 {
            return Err(PlanError::WalkTooShort);
        }
        steps.units = written_in.unwrap_or(default_units);
        // A bare number beside feet is feet too.
        if bare && steps.units == Units::FeetInches && default_units != Units::FeetInches {
            return Self::read(text, Units::FeetInches);
        }
        steps.leave_out_last_turn(heading);
        Ok(steps)
    }

    /// A turn may stand after the last side: the one at A, or the one before a side left out.
    fn leave_out_last_turn(&mut self, heading: Heading) {
        let between = self.lengths.len() - 1;
        if self.turns.0 + self.turns.1 > between {
            match heading {
                h if h == self.headings[between].right() => self.turns.0 -= 1,
                _ => self.turns.1 -= 1,
            }
        }
    }

    /// The walk itself, or its mirror image if it goes round anticlockwise.
    fn clockwise(self) -> Self {
        let (right, left) = self.turns;
        if left <= right {
            return self;
        }
        let upside_down = |heading: &Heading| match heading {
            Heading::Up | Heading::Down => heading.right().right(),
            Heading::Left | Heading::Right => *heading,
        };
        let headings = self.headings.iter().map(upside_down).collect();
        let mirrored = Self { headings, turns: (left, right), mirrored: true, ..self.clone() };
        if matches!(mirrored.corners(), Err(PlanError::TurnsDontClose { .. })) { self } else { mirrored }
    }

    /// The point at the start of each side and at the end of the last.
    fn path(&self) -> Vec<Point> {
        let mut at = vec![Point::default()];
        for (length, heading) in self.lengths.iter().zip(&self.headings) {
            let (dx, dy) = heading.step();
            let last = at[at.len() - 1];
            at.push(Point::new(last.x + dx * length, last.y + dy * length));
        }
        at
    }

    fn last_heading(&self) -> Heading {
        self.headings[self.headings.len() - 1]
    }

    /// Whether no side is left out: the last one arrives at A going up, and only A's own right turn is missing.
    fn is_whole(&self) -> bool {
        self.last_heading() == Heading::Up && self.turns.0 + 1 == self.turns.1 + 4
    }

    /// The corners, with closing sides worked out where they were left out.
    fn corners(&self) -> Result<Vec<Point>, PlanError> {
        let mut at = self.path();
        let end = at[at.len() - 1];
        if self.is_whole() {
            if end.x.abs() > SAME_PLACE || end.y.abs() > SAME_PLACE {
                return Err(self.misses(end, &[Axis::Across, Axis::Down]));
            }
            at.pop();
        } else if self.last_heading().is_across() {
            if end.x.abs() > SAME_PLACE {
                return Err(self.misses(end, &[Axis::Across]));
            }
            self.check_turns(&[self.last_heading(), vertical(end)])?;
        } else {
            self.check_turns(&[self.last_heading(), horizontal(end), vertical(end)])?;
            at.push(Point::new(0.0, end.y));
        }
        Ok(at)
    }

    /// The outline through `corners`, if the walk starts at its A.
    fn outline(&self, corners: &[Point], default_units: Units) -> Result<Footprint, PlanError> {
        let as_walked: Vec<Point> = if self.mirrored {
            let turned = |p: &Point| Point::new(p.y, p.x);
            corners[..1].iter().chain(corners[1..].iter().rev()).map(turned).collect()
        } else {
            corners.to_vec()
        };
        let mut footprint = Footprint::from_points(&as_walked)?;
        footprint.anticlockwise = self.mirrored;
        // `from_points` letters from the true A; the walk's own letters must be the same, or its user would be misled.
        if topmost_left(&as_walked) != 0 {
            return Err(PlanError::WrongStart { walk: walk_text(&footprint, self.units, default_units) });
        }
        Ok(footprint)
    }

    /// Whether the turns, with those into the closing sides and at A, come round once.
    fn check_turns(&self, closing: &[Heading]) -> Result<(), PlanError> {
        let (mut right, mut left) = self.turns;
        let onward = closing.iter().skip(1).chain([&Heading::Right]);
        for (from, to) in closing.iter().zip(onward) {
            if *to == from.right() {
                right += 1;
            } else if *to == from.left() {
                left += 1;
            }
        }
        if right == left + 4 { Ok(()) } else { Err(PlanError::TurnsDontClose { right, left }) }
    }

    fn misses(&self, end: Point, axes: &[Axis]) -> PlanError {
        let beyond = |axis: Axis| if axis == Axis::Across { end.x } else { end.y };
        let missed: Vec<Axis> =
            axes.iter().copied().filter(|axis| beyond(*axis).abs() > SAME_PLACE).collect();
        let repairs: Vec<Vec<(usize, f64)>> =
            missed.iter().map(|axis| self.closing_lengths(*axis, beyond(*axis))).collect();
        let misses = missed.iter().enumerate().map(|(i, axis)| {
            let other = repairs.iter().enumerate().find(|(j, _)| *j != i).map(|(_, other)| other);
            let closes = |repair: &&(usize, f64)| match other {
                None => self.closes(&[**repair]),
                Some(other) => other.iter().any(|other| self.closes(&[**repair, *other])),
            };
            let mut kept: Vec<Repair> =
                repairs[i].iter().filter(closes).map(|repair| self.repair(*repair)).collect();
            kept.sort_by_key(|repair| {
                repair.slip(self.units).map_or((true, None), |slip| (false, Some(slip)))
            });
            let axis = match (self.mirrored, axis) {
                (false, axis) => *axis,
                (true, Axis::Across) => Axis::Down,
                (true, Axis::Down) => Axis::Across,
            };
            Misclosure { axis, beyond: beyond(missed[i]), repairs: kept, units: self.units }
        });
        // From below A, its last two sides could go across and then up to it.
        let left_out = axes.len() == 2 && end.x.abs() > SAME_PLACE && end.y > SAME_PLACE;
        PlanError::DoesNotClose { misses: misses.collect(), left_out }
    }

    /// The sides along `axis`, by index, each with the length that would close the walk if it alone were wrong.
    fn closing_lengths(&self, axis: Axis, beyond: f64) -> Vec<(usize, f64)> {
        let along = |i: &usize| self.headings[*i].is_across() == (axis == Axis::Across);
        let closing = |i: usize| {
            let (dx, dy) = self.headings[i].step();
            (i, self.lengths[i] - (dx + dy) * beyond)
        };
        (0..self.lengths.len()).filter(along).map(closing).filter(|(_, mm)| *mm > SAME_PLACE).collect()
    }

    /// Whether the walk with other lengths is an outline.
    fn closes(&self, repairs: &[(usize, f64)]) -> bool {
        let mut mended = self.clone();
        for (i, closing) in repairs {
            mended.lengths[*i] = *closing;
        }
        let mut corners = mended.path();
        if mended.is_whole() {
            corners.pop();
        }
        mended.outline(&corners, self.units).is_ok()
    }

    fn repair(&self, (i, closing): (usize, f64)) -> Repair {
        // An odd walk leaves its last side out, so its last given side does not end at A.
        let n = self.lengths.len().next_multiple_of(2);
        let (from, to) = if self.mirrored { (n - 1 - i, (n - i) % n) } else { (i, (i + 1) % n) };
        Repair { side: [from, to].map(corner_name).iter().collect(), given: self.lengths[i], closing }
    }
}

/// The walk round an outline from A, as it would be typed.
fn walk_text(footprint: &Footprint, units: Units, default_units: Units) -> String {
    let unit = match units {
        Units::Mm | Units::M if units != default_units => units.name(),
        _ => "",
    };
    let sides = footprint.sides().iter().map(|side| {
        let turn = match footprint.corners()[side.to].turn {
            Turn::Outward => "R",
            Turn::Inward => "L",
        };
        format!("{}{unit} {turn} ", as_given(units, side.length))
    });
    let text: String = sides.collect();
    text.trim_end_matches([' ', 'R', 'L']).to_owned()
}

/// Whether a word is a turn.
fn is_turn(word: &str) -> bool {
    ["r", "right", "l", "left"].iter().any(|turn| word.eq_ignore_ascii_case(turn))
}

/// What may stand between a length and a turn.
fn is_separator(c: char) -> bool {
    c.is_whitespace() || matches!(c, ',' | ';')
}

fn horizontal(end: Point) -> Heading {
    if end.x > 0.0 { Heading::Left } else { Heading::Right }
}

fn vertical(end: Point) -> Heading {
    if end.y > 0.0 { Heading::Up } else { Heading::Down }
}
