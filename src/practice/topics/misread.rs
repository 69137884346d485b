//! Spot the misread: the sides and some diagonals as taped, one of them wrong, and only one that can be.

use super::posed::posed;
use crate::practice::answer::Wrong;
use crate::practice::board::{pythagoras, so};
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, root, root_near_edge};
use crate::practice::shape::Shape;
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

/// Readings this many steps apart disagree, whatever the rounding.
const APART: i64 = 2;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    let mut shape = match level {
        Level::One => Shape::neat(random, scale)?.2,
        Level::Two => Shape::any(random, scale)?,
        Level::Three => Shape::bent(random, scale)?,
    };
    shape.given.fill(true);
    let mut set = Set::taped(random, &shape)?;
    let wrong = random.below(set.readings.len());
    let truth = set.readings[wrong];
    let (misread, how) = slip(random, level, scale, truth)?;
    set.readings[wrong] = misread;
    let others_explain = (0..set.readings.len()).any(|i| i != wrong && set.agrees_without(&shape, i));
    if others_explain || !set.agrees_without(&shape, wrong) {
        return None;
    }
    let names = set.names(&shape);
    let list: Vec<String> = names
        .iter()
        .zip(&set.readings)
        .map(|(name, reading)| format!("{name} {}", scale.text(*reading)))
        .collect();
    let mut line = Blank::word("wrong reading", &names[wrong], names.clone());
    for name in names.iter().filter(|name| **name != names[wrong]) {
        line.trap(Slip::SoundReading, Wrong::Word(name.clone()));
    }
    let mut size = Blank::rounded("out by", (misread - truth).abs());
    size.either_sign = true;
    size.slip(Slip::LengthForError, truth).slip(Slip::LengthForError, misread);
    Some(posed(
        picture(&shape.footprint),
        format!("{} as taped: {}.", shape.described(), list.join(", ")),
        "Which reading is wrong, and by how much?".to_owned(),
        vec![line, size],
        working(&shape, &set, wrong, truth, how),
        set.readings,
    ))
}

/// What the misread reading shows, and how it came to it.
fn slip(random: &mut Random, level: Level, scale: Scale, truth: i64) -> Option<(i64, &'static str)> {
    let (held, tens, whole) = scale.of((100, 10, 1000), (16, 16, 192));
    let holding = scale.of(
        "as if the tape was held on 100 and the 100 not taken off",
        "as if the tape was held on 1 in and the inch not taken off",
    );
    let (dropped, added) = scale.of(
        ("as if a metre was dropped", "as if a metre was counted twice"),
        ("as if a foot was dropped", "as if a foot was counted twice"),
    );
    let choices = if level == Level::One { 3 } else { 5 };
    let (misread, how) = match random.below(choices) {
        0 => (truth + held, holding),
        1 => (truth - whole, dropped),
        2 => (truth + whole, added),
        3 => (truth - tens, "as if the blade was read one figure low"),
        _ if scale.is_feet() => (truth + held, holding),
        _ => (swapped(random, truth)?, "as if two digits were swapped"),
    };
    (misread > scale.of(1000, 3 * 192) && (misread - truth).abs() >= 9).then_some((misread, how))
}

/// Two unlike neighbouring digits swapped.
fn swapped(random: &mut Random, truth: i64) -> Option<i64> {
    let mut digits = truth.to_string().into_bytes();
    let at = random.below(digits.len().saturating_sub(1));
    digits.swap(at, at + 1);
    let misread: i64 = String::from_utf8(digits).ok()?.parse().ok()?;
    (misread != truth && misread.to_string().len() == truth.to_string().len()).then_some(misread)
}

/// All sides in order, then some diagonals.
struct Set {
    diagonals: Vec<(usize, usize)>,
    readings: Vec<i64>,
}

impl Set {
    /// The readings as they should be; nothing if a diagonal lies near a rounding edge.
    fn taped(random: &mut Random, shape: &Shape) -> Option<Self> {
        let n = shape.len();
        let mut diagonals: Vec<(usize, usize)> = (0..n)
            .flat_map(|i| (i + 1..n).map(move |j| (i, j)))
            .filter(|(i, j)| shape.at[*i].0 != shape.at[*j].0 && shape.at[*i].1 != shape.at[*j].1)
            .collect();
        // An L's six sides and four diagonals, a T's eight and five: enough to find one wrong reading.
        let wanted = match n {
            4 => 2,
            6 => 4,
            _ => 5,
        };
        while diagonals.len() > wanted {
            diagonals.remove(random.below(diagonals.len()));
        }
        let squares: Vec<i64> = diagonals.iter().map(|(i, j)| square(&shape.at, *i, *j)).collect();
        if squares.iter().any(|square| root_near_edge(*square)) {
            return None;
        }
        let sides = (0..n).map(|i| shape.side(i));
        let readings = sides.chain(squares.iter().map(|square| root(*square))).collect();
        Some(Self { diagonals, readings })
    }

    fn names(&self, shape: &Shape) -> Vec<String> {
        let sides = (0..shape.len()).map(|i| shape.side_name(i));
        let diagonals = self.diagonals.iter();
        sides.chain(diagonals.map(|(i, j)| shape.footprint.line_name(*i, *j))).collect()
    }

    /// The sides as read, but for one that is made to close the outline; it may come out as nothing or less.
    fn mended(&self, shape: &Shape, side: usize) -> Vec<i64> {
        let mut sides = self.readings[..shape.len()].to_vec();
        sides[side] = 0;
        let (x, y) = misclosure(shape, &sides);
        let (dx, dy) = direction(shape, side);
        sides[side] = -(x * dx + y * dy);
        sides
    }

    /// Whether all readings but one fit one square-cornered outline together.
    fn agrees_without(&self, shape: &Shape, left_out: usize) -> bool {
        let n = shape.len();
        let sides = if left_out < n { self.mended(shape, left_out) } else { self.readings[..n].to_vec() };
        if sides.iter().any(|side| *side <= 0) {
            return false;
        }
        let (x, y) = misclosure(shape, &sides);
        if x.abs() >= APART || y.abs() >= APART {
            return false;
        }
        let at = walked(shape, &sides);
        let diagonals = self.diagonals.iter().zip(&self.readings[n..]).enumerate();
        diagonals
            .filter(|(k, _)| n + k != left_out)
            .all(|(_, ((i, j), reading))| (root(square(&at, *i, *j)) - reading).abs() < APART)
    }
}

/// Which way side `i` runs.
fn direction(shape: &Shape, i: usize) -> (i64, i64) {
    let (from, to) = (shape.at[i], shape.at[(i + 1) % shape.len()]);
    ((to.0 - from.0).signum(), (to.1 - from.1).signum())
}

/// The corners that sides of these lengths lead to.
fn walked(shape: &Shape, sides: &[i64]) -> Vec<(i64, i64)> {
    let mut at = vec![(0, 0)];
    for (i, side) in sides.iter().enumerate() {
        let (dx, dy) = direction(shape, i);
        let (x, y) = at[i];
        at.push((x + dx * side, y + dy * side));
    }
    at
}

fn misclosure(shape: &Shape, sides: &[i64]) -> (i64, i64) {
    walked(shape, sides).last().copied().unwrap_or_default()
}

fn square(at: &[(i64, i64)], i: usize, j: usize) -> i64 {
    (at[i].0 - at[j].0).pow(2) + (at[i].1 - at[j].1).pow(2)
}

/// Why it is none of the other sides that run the same way: each would make a diagonal disagree.
fn eliminated(shape: &Shape, set: &Set, wrong: usize) -> Vec<String> {
    let n = shape.len();
    let names = set.names(shape);
    let axis = |i: usize| direction(shape, i).0 == 0;
    let suspects = (0..n).filter(|i| *i != wrong && axis(*i) == axis(wrong));
    suspects
        .filter_map(|i| {
            let sides = set.mended(shape, i);
            if sides[i] <= 0 {
                return Some(format!("not {}: nothing would be left of it", names[i]));
            }
            let at = walked(shape, &sides);
            let diagonals = set.diagonals.iter().zip(&set.readings[n..]);
            let (k, would, read) = diagonals
                .enumerate()
                .map(|(k, ((from, to), read))| (k, root(square(&at, *from, *to)), *read))
                .find(|(_, would, read)| (would - read).abs() >= APART)?;
            Some(format!(
                "not {}: it would be {}, and then {} would read {}, not {}",
                names[i],
                shape.scale.text(sides[i]),
                names[n + k],
                shape.scale.text(would),
                shape.scale.text(read)
            ))
        })
        .collect()
}

/// How to find it: the sides against each other, then the diagonals against the sides.
fn working(shape: &Shape, set: &Set, wrong: usize, truth: i64, how: &str) -> Vec<String> {
    let scale = shape.scale;
    let n = shape.len();
    let names = set.names(shape);
    let mut steps = vec![];
    for (word, x) in [("across", true), ("down", false)] {
        let sum = |ahead: bool| -> (Vec<String>, i64) {
            let on_axis = (0..n).filter(|i| {
                let (dx, dy) = direction(shape, *i);
                (if x { dx } else { dy }) == if ahead { 1 } else { -1 }
            });
            let sides: Vec<usize> = on_axis.collect();
            let named = sides.iter().map(|i| names[*i].clone()).collect();
            (named, sides.iter().map(|i| set.readings[*i]).sum())
        };
        let ((there, one), (back, other)) = (sum(true), sum(false));
        let verdict = if one == other { "they agree" } else { "they don't agree" };
        steps.push(format!(
            "{word}: {} = {} against {} = {}: {verdict}",
            there.join(" + "),
            scale.text(one),
            back.join(" + "),
            scale.text(other)
        ));
    }
    if wrong < n {
        steps.extend(eliminated(shape, set, wrong));
        steps.push(format!(
            "{} must be {} to agree with the other sides, and then every diagonal agrees",
            names[wrong],
            scale.text(truth)
        ));
    } else {
        steps.push("so the sides are right, and a diagonal is wrong".to_owned());
        let (i, j) = set.diagonals[wrong - n];
        let (a, b) = ((shape.at[i].0 - shape.at[j].0).abs(), (shape.at[i].1 - shape.at[j].1).abs());
        steps.extend(pythagoras(scale, ("across", a), ("down", b), &names[wrong]));
    }
    let (read, off) = (set.readings[wrong], (set.readings[wrong] - truth).abs());
    steps.push(format!(
        "{} was read {}: {} − {} = {}, {how}",
        names[wrong],
        scale.text(read),
        scale.text(read.max(truth)),
        scale.text(read.min(truth)),
        scale.text(off)
    ));
    steps.push(so(scale, "out by", off));
    steps
}
