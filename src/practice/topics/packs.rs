//! Packing up to the highest point: from heights, from staff readings, and at a stud between two stations.

use super::ground::Levels;
use super::posed::posed;
use crate::practice::answer::Wrong;
use crate::practice::board::{amount, exact_sum, rounded, sum};
use crate::practice::follow::{Follow, How};
use crate::practice::packers::{fewest, thickest_first};
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, nearest, quotient, quotient_near_edge};
use crate::practice::shape::Shape;
use crate::practice::slip::Slip;
use crate::practice::topic::Level;
use crate::words;

/// Packer sets as a van might hold them (invented), thinnest first: mm, and sixteenths of an inch.
const IN_MM: [&[i64]; 5] =
    [&[1, 2, 5, 10], &[1, 3, 5, 10], &[1, 2, 3, 5, 10], &[1, 3, 4, 10], &[1, 5, 6, 10]];
const IN_SIXTEENTHS: [&[i64]; 5] =
    [&[1, 2, 4, 8], &[1, 2, 4, 8, 12], &[1, 2, 6, 8], &[1, 3, 4, 8], &[1, 4, 6, 12]];

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => {
            let shape = Shape::rectangle(scale, scale.of(6000, 20 * 192), scale.of(4500, 15 * 192))?;
            let levels = Levels::heights(random, scale, 4);
            at_station(random, &shape, &levels)
        }
        Level::Two => {
            let shape = Shape::rectangle(scale, scale.of(6000, 20 * 192), scale.of(4500, 15 * 192))?;
            let levels = Levels::staff(random, scale, 4);
            at_station(random, &shape, &levels)
        }
        Level::Three => {
            let mut shape = Shape::bent(random, scale)?;
            let side = random.below(shape.len());
            shape.given[side] = false;
            let levels = if random.coin() {
                Levels::heights(random, scale, shape.len())
            } else {
                Levels::staff(random, scale, shape.len())
            };
            at_stud(random, &shape, side, &levels)
        }
    }
}

/// The pack at a corner and the fewest packers for it.
fn at_station(random: &mut Random, shape: &Shape, levels: &Levels) -> Option<Question> {
    let scale = shape.scale;
    let top = levels.highest()?;
    let station = random.below(shape.len());
    let (datum, reading) = (levels.readings[top], levels.readings[station]);
    let pack = levels.below(datum, reading);
    if pack < scale.of(4, 3) {
        return None;
    }
    let mut blank = Blank::length(format!("pack at {}", shape.corner(station)), pack);
    if !levels.staff && datum.signum() * reading.signum() < 0 {
        blank.slip(Slip::SignDropped, (datum + reading).abs());
    }
    common_slips(&mut blank, levels, &|datum| levels.below(datum, reading));
    let working = vec![
        levels.datum_step(shape, top),
        format!(
            "pack at {} = {}",
            shape.corner(station),
            if levels.staff { sum(scale, reading, '−', datum) } else { sum(scale, datum, '−', reading) }
        ),
    ];
    let at = format!("at {}", shape.corner(station));
    with_packers(random, shape, levels, "", &at, (blank, pack), working)
}

/// The pack at a stud between two corners, on a side whose length has to be worked out first.
fn at_stud(random: &mut Random, shape: &Shape, side: usize, levels: &Levels) -> Option<Question> {
    let scale = shape.scale;
    let top = levels.highest()?;
    let next = (side + 1) % shape.len();
    let leg = shape.leg(side, next, shape.footprint.sides()[side].heading.is_across())?;
    let centres = scale.of(600, 16 * 16);
    let along = centres * random.within(1, 8, 1);
    let (length, from, to, datum) =
        (leg.total, levels.readings[side], levels.readings[next], levels.readings[top]);
    // reading × length, so that nothing is rounded on the way.
    let at_place = |along: i64| from * length + (to - from) * along;
    let pack_over = |along: i64| levels.below(datum * length, at_place(along));
    let top_of_pack = pack_over(along);
    let pack = nearest(top_of_pack, length);
    if along >= length || from == to || pack < scale.of(4, 3) || quotient_near_edge(top_of_pack, length) {
        return None;
    }
    let (name, first) = (shape.side_name(side), shape.corner(side));
    let mut blank = Blank::rounded("pack at the stud", pack);
    blank
        .slip(Slip::OtherEnd, nearest(pack_over(length - along), length))
        .slips([from, to].map(|end| (Slip::NotInterpolated, levels.below(datum, end))))
        .slip(Slip::HalfWay, nearest(pack_over(0) + pack_over(length), 2 * length));
    for (slip, wrong) in leg.slips() {
        let wrong_way = from * wrong + (to - from) * along;
        blank.slip(slip, nearest(levels.below(datum * wrong, wrong_way), wrong));
    }
    common_slips(&mut blank, levels, &|datum| nearest(levels.below(datum * length, at_place(along)), length));
    let reading = (at_place(along), length);
    let (minuend, taken) = if levels.staff { (reading, (datum, 1)) } else { ((datum, 1), reading) };
    let (per, unit) = scale.of((1, "mm"), (16, "in"));
    let plain = |steps: i64| quotient(steps, per);
    let mut working = vec![
        format!("{name} = {} = {}", shape.words(&leg), scale.text(length)),
        levels.datum_step(shape, top),
        format!("from {first} to {}: {}", shape.corner(next), sum(scale, to, '−', from)),
        format!(
            "{} {unit} × {} {unit} = {} {unit}²",
            plain(to - from),
            plain(along),
            quotient((to - from) * along, per * per)
        ),
        format!(
            "{} {unit}² ÷ {} {unit} = {} from {first} to the stud",
            quotient((to - from) * along, per * per),
            plain(length),
            amount(scale, (to - from) * along, length)
        ),
        format!("at the stud: {}", exact_sum(scale, (from, 1), '+', ((to - from) * along, length))),
        format!("pack = {}", exact_sum(scale, minuend, '−', taken)),
    ];
    working.extend(rounded(scale, "pack", top_of_pack, length));
    let more = format!(" A stud stands on {name}, {} from {first}.", scale.text(along));
    with_packers(random, shape, levels, &more, "at the stud", (blank, pack), working)
}

/// Slips with the datum; `pack` is the pack from another one.
fn common_slips(blank: &mut Blank, levels: &Levels, pack: &dyn Fn(i64) -> i64) {
    blank
        .slip(Slip::FirstDatum, pack(levels.readings[0]).abs())
        .slip(Slip::LowestDatum, pack(levels.lowest()).abs())
        .slip(Slip::ReadingForPack, pack(0).abs());
}

/// The question with its second blank: how many packers.
fn with_packers(
    random: &mut Random,
    shape: &Shape,
    levels: &Levels,
    more: &str,
    place: &str,
    (blank, pack): (Blank, i64),
    mut working: Vec<String>,
) -> Option<Question> {
    let scale = shape.scale;
    let sizes = random.one_of(&scale.of(IN_MM, IN_SIXTEENTHS))?;
    let stack = fewest(pack, sizes)?;
    let list = |sizes: &[i64], between: &str| -> String {
        let texts: Vec<String> = sizes.iter().map(|size| scale.text(*size)).collect();
        texts.join(between)
    };
    let count = i64::try_from(stack.len()).ok()?;
    let mut packers = Blank::count("fewest packers", count);
    packers.follows = Some(Follow { from: 0, how: How::Fewest(sizes.to_vec()) });
    if let Some(greedy) = thickest_first(pack, sizes).filter(|greedy| *greedy != count) {
        packers.trap(Slip::ThickestFirst, Wrong::Count(greedy));
    }
    working.push(format!(
        "the fewest packers that make {}: {} = {}",
        scale.text(pack),
        list(&stack, " + "),
        words::count(count, "packer")
    ));
    let sizes_given = if shape.given.contains(&false) && shape.name != "Rectangle" {
        format!("{} ", shape.sizes())
    } else {
        String::new()
    };
    let given = format!(
        "{sizes_given}{}{more} Packers: {}, plenty of each.",
        levels.sentence(shape),
        list(sizes, ", ")
    );
    let asked = format!(
        "How thick is the pack {place}, to the nearest {}, and what are the fewest packers that make it?",
        scale.step()
    );
    let gist = [levels.readings.as_slice(), &[pack, count]].concat();
    Some(posed(picture(&shape.footprint), given, asked, vec![blank, packers], working, gist))
}
