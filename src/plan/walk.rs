//! The walk: side lengths in order from A, clockwise, with the turn between each two.
//!
//! `7800 R 3600 R 3000 L 2400 R 4800 R 6000`: along AB 7800, turn right, BC 3600, … The last one or two sides may be
//! left out; they are worked out. Sides that are given must close. A walk that ends going up, with as many turns as a
//! whole one, is taken as whole: a whole walk that misses its start must never pass for one with its last two sides
//! left out. Where they were, the first of them has to be given.

use super::error::{Axis, Misclosure, PlanError};
use super::footprint::{Footprint, Heading, corner_name};
use super::limits::{LONGEST_TEXT, MOST_CORNERS, SAME_PLACE};
use super::outline::topmost_left;
use crate::geometry::Point;
use crate::length::{Units, scan};
use crate::words::quoted;

/// Reads a walk. Bare numbers are in `default_units`.
pub fn parse_walk(text: &str, default_units: Units) -> Result<(Footprint, Units), PlanError> {
    if text.len() > LONGEST_TEXT {
        return Err(PlanError::TooMuchText { length: text.len() });
    }
    let steps = Steps::read(text, default_units)?;
    let corners = steps.corners()?;
    // `from_points` letters from the true A; the walk's own letters must be the same, or its user would be misled.
    match topmost_left(&corners) {
        0 => Ok((Footprint::from_points(&corners)?, steps.units)),
        start => Err(PlanError::WrongStart { start: start + 1 }),
    }
}

struct Steps {
    lengths: Vec<f64>,
    headings: Vec<Heading>,
    /// Right turns and left turns given.
    turns: (usize, usize),
    units: Units,
}

impl Steps {
    fn read(text: &str, default_units: Units) -> Result<Self, PlanError> {
        let mut steps = Self { lengths: vec![], headings: vec![], turns: (0, 0), units: default_units };
        let mut heading = Heading::Right;
        let mut rest = text.trim();
        if rest.is_empty() {
            return Err(PlanError::Empty);
        }
        let numbers = rest.split(is_separator).filter(|part| part.starts_with(|c: char| c.is_ascii_digit()));
        if numbers.count() > 1 && !rest.contains(['R', 'r', 'L', 'l']) {
            return Err(PlanError::NoTurns);
        }
        while !rest.is_empty() {
            let index = steps.lengths.len();
            let place = || format!("side {}{}", corner_name(index), corner_name(index + 1));
            if index == MOST_CORNERS {
                return Err(PlanError::CornerCount { count: MOST_CORNERS + 1 });
            }
            let (length, after) =
                scan(rest, default_units).map_err(|error| PlanError::Dimension { place: place(), error })?;
            if length.mm <= SAME_PLACE {
                return Err(PlanError::NotPositive { place: place() });
            }
            if let (0, Some(units)) = (index, length.written_in) {
                steps.units = units;
            }
            steps.lengths.push(length.mm);
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
                    return Err(PlanError::Turn {
                        found: quoted(found),
                        after: place().replace("side ", ""),
                    });
                }
            }
            rest = rest[word.len()..].trim_start_matches(is_separator);
        }
        if steps.lengths.len() < 2 {
            return Err(PlanError::WalkTooShort);
        }
        // A turn may stand after the last side: the one at A, or the one before a side left out.
        let between = steps.lengths.len() - 1;
        if steps.turns.0 + steps.turns.1 > between {
            match heading {
                h if h == steps.headings[between].right() => steps.turns.0 -= 1,
                _ => steps.turns.1 -= 1,
            }
        }
        Ok(steps)
    }

    /// The corners, with closing sides worked out where they were left out.
    fn corners(&self) -> Result<Vec<Point>, PlanError> {
        if self.turns.1 > self.turns.0
            && !matches!(self.mirrored().corners(), Err(PlanError::TurnsDontClose { .. }))
        {
            return Err(PlanError::Anticlockwise);
        }
        let mut at = vec![Point::default()];
        for (length, heading) in self.lengths.iter().zip(&self.headings) {
            let (dx, dy) = heading.step();
            let last = at[at.len() - 1];
            at.push(Point::new(last.x + dx * length, last.y + dy * length));
        }
        let end = at[at.len() - 1];
        let last_heading = self.headings[self.headings.len() - 1];
        // All sides are given when the last one arrives at A going up and only A's own right turn is missing.
        let complete = last_heading == Heading::Up && self.turns.0 + 1 == self.turns.1 + 4;
        if complete {
            if end.x.abs() > SAME_PLACE || end.y.abs() > SAME_PLACE {
                return Err(self.misses(end, &[Axis::Across, Axis::Down]));
            }
            at.pop();
        } else if last_heading.is_across() {
            if end.x.abs() > SAME_PLACE {
                return Err(self.misses(end, &[Axis::Across]));
            }
            self.check_turns(&[last_heading, vertical(end)])?;
        } else {
            self.check_turns(&[last_heading, horizontal(end), vertical(end)])?;
            at.push(Point::new(0.0, end.y));
        }
        Ok(at)
    }

    /// The walk with every turn the other way.
    fn mirrored(&self) -> Self {
        let upside_down = |heading: &Heading| match heading {
            Heading::Up | Heading::Down => heading.right().right(),
            Heading::Left | Heading::Right => *heading,
        };
        Self {
            lengths: self.lengths.clone(),
            headings: self.headings.iter().map(upside_down).collect(),
            turns: (self.turns.1, self.turns.0),
            units: self.units,
        }
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
        let misses = axes
            .iter()
            .map(|axis| (*axis, if *axis == Axis::Across { end.x } else { end.y }))
            .filter(|(_, beyond)| beyond.abs() > SAME_PLACE)
            .map(|(axis, beyond)| Misclosure {
                axis,
                beyond,
                suspects: self.suspects(axis, beyond),
                units: self.units,
            })
            .collect();
        // From below A, its last two sides could go across and then up to it.
        let left_out = axes.len() == 2 && end.x.abs() > SAME_PLACE && end.y > SAME_PLACE;
        PlanError::DoesNotClose { misses, left_out }
    }

    /// The sides along `axis`, each with the length that would close the walk if it alone were wrong.
    fn suspects(&self, axis: Axis, beyond: f64) -> Vec<(String, f64, f64)> {
        // An odd walk leaves its last side out, so its last given side does not end at A.
        let n = self.lengths.len().next_multiple_of(2);
        self.headings
            .iter()
            .enumerate()
            .filter(|(_, heading)| heading.is_across() == (axis == Axis::Across))
            .map(|(i, heading)| {
                let (dx, dy) = heading.step();
                let name = format!("{}{}", corner_name(i), corner_name((i + 1) % n));
                (name, self.lengths[i], self.lengths[i] - (dx + dy) * beyond)
            })
            .filter(|(_, _, closing)| *closing > SAME_PLACE)
            .collect()
    }
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
