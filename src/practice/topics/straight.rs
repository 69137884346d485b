//! Is it straight: readings from a string to the plate, less the blocks that the string is held off by.

use super::posed::posed;
use crate::practice::answer::Wrong;
use crate::practice::board::{amount, exact_sum, rounded, so, sum};
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes, nearest, quotient, quotient_near_edge};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

/// Which way a plate stands off the line.
const WAYS: [&str; 2] = ["out", "in"];

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => equal_blocks(random, scale, true),
        Level::Two => {
            let outside = random.coin();
            equal_blocks(random, scale, outside)
        }
        Level::Three => unequal_ends(random, scale),
    }
}

/// The same block at both ends: the reading less the block.
fn equal_blocks(random: &mut Random, scale: Scale, outside: bool) -> Option<Question> {
    // Offcuts of boards and sheets as they are sold (from memory).
    let block = random.one_of(&scale.of([18, 20, 22, 25, 38, 45, 50], [8, 10, 12, 16, 24, 24, 56]))?;
    let off = scale.of(Sizes(-9, 9, 1), Sizes(-6, 6, 1)).draw(random);
    let reading = block + off;
    if off.abs() < 2 || reading < 2 {
        return None;
    }
    let given = format!(
        "A string is pulled along the {} of a plate over blocks of {} at both ends. In the middle the tape from string \
         to plate reads {}.",
        face(outside),
        scale.text(block),
        scale.text(reading)
    );
    let asked =
        "How far is the plate off the straight line there, and does it stand out from the building or in?";
    let mut size = Blank::length("off by", off.abs());
    size.either_sign = true;
    size.slip(Slip::BlockLeftOn, reading).slip(Slip::BlockAdded, reading + block);
    let way = way(off, outside);
    let working = vec![
        format!("reading less block: {}", sum(scale, reading, '−', block)),
        towards(off, outside),
        so(scale, "off by", off.abs()),
    ];
    let gist = vec![block, reading, i64::from(outside)];
    Some(posed(vec![], given, asked.to_owned(), vec![size, way], working, gist))
}

/// Ends that stand differently off the string: the line runs straight from one to the other.
fn unequal_ends(random: &mut Random, scale: Scale) -> Option<Question> {
    let length = scale.of(Sizes(3000, 9000, 100), Sizes(10 * 192, 30 * 192, 192)).draw(random);
    let along = scale.of(Sizes(600, 8000, 100), Sizes(2 * 192, 28 * 192, 96)).draw(random);
    let ends = scale.of(Sizes(15, 60, 1), Sizes(12, 48, 1));
    let (first, last) = (ends.draw(random), ends.draw(random));
    let reading = ends.draw(random);
    let outside = random.coin();
    // Everything times the length, so that nothing is rounded on the way.
    let line = first * length + (last - first) * along;
    let over = reading * length - line;
    let off = nearest(over, length);
    if along + scale.of(300, 192) > length
        || (first - last).abs() < scale.of(6, 5)
        || off.abs() < 2
        || quotient_near_edge(over, length)
        || quotient_near_edge(line, length)
    {
        return None;
    }
    let given = format!(
        "A string is pulled along the {} of a plate {} long. The tape from string to plate reads {} at the first end, \
         {} at the other, and {} at a station {} from the first end.",
        face(outside),
        scale.text(length),
        scale.text(first),
        scale.text(last),
        scale.text(reading),
        scale.text(along)
    );
    let asked = format!(
        "How far is the plate there off the straight line between its ends, to the nearest {}, and does it stand out from \
         the building or in?",
        scale.step()
    );
    let mut size = Blank::rounded("off by", off.abs());
    size.either_sign = true;
    let from = |figure: i64| (reading - figure).abs();
    let swapped = first * length + (last - first) * (length - along);
    size.slips([first, last].map(|end| (Slip::NotInterpolated, from(end))))
        .slip(Slip::OtherEnd, nearest(reading * length - swapped, length).abs())
        .slip(Slip::HalfWay, nearest(2 * reading - first - last, 2).abs())
        .slip(Slip::BlockLeftOn, reading);
    let way = way(off, outside);
    let working = unequal_working(scale, length, along, [first, last, reading], outside);
    let gist = vec![length, along, first, last, reading];
    Some(posed(vec![], given, asked, vec![size, way], working, gist))
}

fn unequal_working(
    scale: Scale,
    length: i64,
    along: i64,
    [first, last, reading]: [i64; 3],
    outside: bool,
) -> Vec<String> {
    let (per, unit) = scale.of((1, "mm"), (16, "in"));
    let plain = |steps: i64| quotient(steps, per);
    let product = (last - first) * along;
    let line = first * length + product;
    let over = reading * length - line;
    let mut steps = vec![
        format!("from end to end the string gains: {}", sum(scale, last, '−', first)),
        format!("{} × {} = {} {unit}²", plain(last - first), plain(along), quotient(product, per * per)),
        format!(
            "{} {unit}² ÷ {} = {}, what it gains up to the station",
            quotient(product, per * per),
            plain(length),
            amount(scale, product, length)
        ),
        format!("the straight line there: {}", exact_sum(scale, (first, 1), '+', (product, length))),
        format!("reading less line: {}", exact_sum(scale, (reading, 1), '−', (line, length))),
        towards(over, outside),
    ];
    steps.extend(rounded(scale, "off by", over.abs(), length));
    steps
}

const fn face(outside: bool) -> &'static str {
    if outside { "outside" } else { "inside" }
}

/// Which way a plate that reads `off` more than the line stands.
fn stands(off: i64, outside: bool) -> &'static str {
    WAYS[usize::from((off > 0) == outside)]
}

fn way(off: i64, outside: bool) -> Blank {
    let right = stands(off, outside);
    let mut blank = Blank::word("out or in", right, WAYS.map(str::to_owned).to_vec());
    for wrong in WAYS.into_iter().filter(|way| *way != right) {
        blank.trap(Slip::OutForIn, Wrong::Word(wrong.to_owned()));
    }
    blank
}

fn towards(off: i64, outside: bool) -> String {
    format!(
        "{} than the straight line: the plate stands {} the string, which is {}side: {}",
        if off > 0 { "more" } else { "less" },
        if off > 0 { "away from" } else { "towards" },
        if outside { "out" } else { "in" },
        stands(off, outside)
    )
}
