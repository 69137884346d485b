//! 3-4-5 and its kin at a corner: the marks, the biggest that fits, and a corner as found.

use super::angle;
use super::posed::posed;
use crate::practice::board::amount;
use crate::practice::follow::{Follow, How};
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes};
use crate::practice::shape::{Shape, TRIPLES};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => marks(random, scale),
        Level::Two => {
            let shape = Shape::any(random, scale)?;
            biggest(random, &shape, 1)
        }
        Level::Three if random.coin() => angle::question(random, scale),
        Level::Three => {
            let mut shape = Shape::bent(random, scale)?;
            let corner = random.below(shape.len());
            let (arrives, leaves) = shape.footprint.sides_at(corner);
            let left_out = if random.coin() { arrives } else { leaves };
            shape.given[left_out] = false;
            biggest(random, &shape, corner)
        }
    }
}

/// A triple and its multiple are given.
fn marks(random: &mut Random, scale: Scale) -> Option<Question> {
    let sizes = scale.of(Sizes(4000, 12_000, 100), Sizes(12 * 192, 40 * 192, 192));
    let shape = Shape::rectangle(scale, sizes.draw(random), sizes.draw(random))?;
    let corner = random.below(4);
    let (arrives, leaves) = shape.footprint.sides_at(corner);
    let triple = random.one_of(&TRIPLES)?;
    let multiple = scale.of(50, 48) * random.within(2, 60, 1);
    let (first, second) = if random.coin() { (arrives, leaves) } else { (leaves, arrives) };
    let (a, b, c) = (triple.0 * multiple, triple.1 * multiple, triple.2 * multiple);
    let least = scale.of(900, 3 * 192);
    if a > shape.side(first) || b > shape.side(second) || a < least {
        return None;
    }
    let (first, second) = (shape.side_name(first), shape.side_name(second));
    let (m, n, p) = triple;
    let asked = format!(
        "{} {m}-{n}-{p} is marked out from corner {} with a multiple of {}: the {m} along {first}, the {n} along {second}. \
         How far along each is the mark, and what must the tape read between the marks?",
        if m == 8 { "An" } else { "A" },
        shape.corner(corner),
        scale.text(multiple),
    );
    let blanks = blanks(triple, &[(first.as_str(), a), (second.as_str(), b), ("", c)]);
    let mut working: Vec<String> = [(m, a, &first), (n, b, &second)]
        .into_iter()
        .map(|(number, size, side)| times(scale, number, multiple, size, &format!("along {side}")))
        .collect();
    working.push(format!(
        "{m}² + {n}² = {} + {} = {} = {p}², so the third number is {p}",
        m * m,
        n * n,
        p * p
    ));
    working.push(times(scale, p, multiple, c, "between the marks"));
    Some(posed(picture(&shape.footprint), shape.sizes(), asked, blanks, working, vec![m, multiple]))
}

/// The biggest 3-4-5 in whole steps that fits both sides of a corner and the tape.
fn biggest(random: &mut Random, shape: &Shape, corner: usize) -> Option<Question> {
    let scale = shape.scale;
    let step = scale.of(100, 96);
    let tape = random.one_of(&scale.of([5000, 8000, 10_000], [16 * 192, 25 * 192, 30 * 192]))?;
    let (arrives, leaves) = shape.footprint.sides_at(corner);
    let (short, long) =
        if shape.side(arrives) < shape.side(leaves) { (arrives, leaves) } else { (leaves, arrives) };
    let limits = [(shape.side(short), 3), (shape.side(long), 4), (tape, 5)];
    let multiple = limits.iter().map(|(size, number)| size / number).min()? / step * step;
    // A side that is just a multiple long leaves it open whether the mark may lie on its end.
    let just = limits[..2].iter().any(|(size, number)| size % (number * step) == 0);
    if just || multiple < 4 * step || shape.side(short) == shape.side(long) {
        return None;
    }
    let (short_name, long_name) = (shape.side_name(short), shape.side_name(long));
    let asked = format!(
        "What is the biggest 3-4-5 that fits corner {} in multiples of {}, the 3 along the shorter side {short_name}, \
         the 4 along {long_name}, with a tape of {}? How far along each is the mark, and what must the tape read \
         between the marks?",
        shape.corner(corner),
        scale.text(step),
        scale.text(tape),
    );
    let sides = [shape.side(short), shape.side(long)];
    let mut blanks = blanks(
        (3, 4, 5),
        &[(short_name.as_str(), 3 * multiple), (long_name.as_str(), 4 * multiple), ("", 5 * multiple)],
    );
    wrong_multiples(&mut blanks, multiple, step, sides, tape);
    let mut working = vec![];
    for (side, number) in [(short, 3), (long, 4)] {
        let from_others = (!shape.given[side]).then(|| {
            shape.leg(side, (side + 1) % shape.len(), shape.footprint.sides()[side].heading.is_across())
        });
        let size = shape.side(side);
        match from_others {
            Some(Some(leg)) if shape.name != "Rectangle" => working.push(format!(
                "{} = {} = {}",
                shape.side_name(side),
                shape.words(&leg),
                scale.text(size)
            )),
            _ => working.push(format!("{} = {}", shape.side_name(side), scale.text(size))),
        }
        working.push(format!("{} ÷ {number} = {}", scale.text(size), amount(scale, size, number)));
    }
    working.push(format!("tape {0} ÷ 5 = {1}", scale.text(tape), amount(scale, tape, 5)));
    working.push(format!(
        "the least of them, down to a whole {}: {}",
        scale.text(step),
        scale.text(multiple)
    ));
    working.push(times(scale, 3, multiple, 3 * multiple, &format!("along {short_name}")));
    working.push(times(scale, 4, multiple, 4 * multiple, &format!("along {long_name}")));
    working.push(times(scale, 5, multiple, 5 * multiple, "between the marks"));
    let gist = vec![sides[0], sides[1], tape];
    Some(posed(picture(&shape.footprint), shape.sizes(), asked, blanks, working, gist))
}

/// The three blanks of a triangle: along a side each, then between the marks.
fn blanks(triple: (i64, i64, i64), sizes: &[(&str, i64)]) -> Vec<Blank> {
    let all: Vec<i64> = sizes.iter().map(|(_, size)| *size).collect();
    let numbers = [triple.0, triple.1, triple.2];
    sizes
        .iter()
        .enumerate()
        .map(|(i, (side, size))| {
            let between = side.is_empty();
            let label = if between { "between the marks".to_owned() } else { format!("along {side}") };
            let mut blank = Blank::length(label, *size);
            if between {
                blank.slip(Slip::AddedSides, all[0] + all[1]);
            }
            blank.slips(all.iter().map(|other| (Slip::TriplePlace, *other)));
            if i > 0 {
                let how = How::Times { top: numbers[i], bottom: numbers[0] };
                blank.follows = Some(Follow { from: 0, how });
            }
            blank
        })
        .collect()
}

/// The slips of another multiple than the biggest that fits both sides and the tape.
fn wrong_multiples(blanks: &mut [Blank], multiple: i64, step: i64, sides: [i64; 2], tape: i64) {
    let by_tape = tape / 5 / step * step;
    for (i, (number, blank)) in (3..).zip(blanks).enumerate() {
        if by_tape > multiple {
            blank.slip(Slip::TapeAlone, number * by_tape);
        }
        if let Some(side) = sides.get(i) {
            blank.slip(Slip::SideForLeg, *side).slip(Slip::OtherSide, sides[1 - i]);
        }
        let others = (1..=4 * multiple / step).map(|steps| steps * step);
        blank.slips(others.map(|other| {
            let slip = if other < multiple { Slip::SmallMultiple } else { Slip::LargeMultiple };
            (slip, number * other)
        }));
    }
}

fn times(scale: Scale, number: i64, multiple: i64, size: i64, place: &str) -> String {
    format!("{place}: {number} × {} = {}", scale.text(multiple), scale.text(size))
}
