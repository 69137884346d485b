//! Every question drawn is worked out again from its printed words and its sketch, by another route than the
//! generator's: distances by a geometry crate, brute force for multiples, packers and misreads, bisection for angles.
//! Ten thousand seeds a topic.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use std::collections::BTreeSet;

use geo::{Contains, LineString, Point, Polygon};
use pegline::length::Units;
use pegline::practice::{Answer, Level, Question, Topic};

use crate::practice_support::{
    Plan, blank_answer, directions, distance, length, named, rounds_to, side_name, size_after, sizes_in,
    ten_thousand, walk, word_after,
};

fn is_word(question: &Question, label: &str, word: &str) {
    match blank_answer(question, label) {
        Answer::Word { right, .. } => assert_eq!(right, word, "{question:?}"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_diagonal_asked_for_is_the_distance_between_its_corners() {
    ten_thousand(Topic::Diagonals, |question, level, units| {
        let plan = Plan::read(question, units);
        let line = word_after(&question.asked, "the diagonal ");
        let exact = plan.distance(line);
        rounds_to(exact, length(question, line));
        let neat = (exact - exact.round()).abs() < 1e-9;
        assert!(level != Level::One || neat, "level 1 is whole triples: {question:?}");
        assert_eq!(question.given.contains("is not given"), level == Level::Three);
    });
}

#[test]
fn every_corner_question_is_the_triangle_or_the_angle_it_says() {
    ten_thousand(Topic::Corners, |question, _, units| {
        if question.asked.contains("marked out") {
            marked_out(question, units);
        } else if question.asked.contains("biggest") {
            biggest(question, units);
        } else {
            as_found(question, units);
        }
    });
}

/// The marks lie on their sides, and the tape between them is a whole number.
fn marked_out(question: &Question, units: Units) {
    let plan = Plan::read(question, units);
    let multiple = size_after(&question.asked, "a multiple of ", units);
    let legs = &question.asked[question.asked.find(": the ").unwrap()..];
    let mut corner_to_marks = vec![];
    let second = &legs[legs.find(", the ").unwrap()..];
    for (number, side) in [
        (word_after(legs, ": the "), word_after(legs, " along ")),
        (word_after(second, ", the "), word_after(second, " along ")),
    ] {
        let along = number.parse::<f64>().unwrap() * multiple;
        assert_eq!(along, length(question, &format!("along {side}")), "{question:?}");
        assert!(along <= plan.distance(side), "the mark lies on the side: {question:?}");
        corner_to_marks.push(along);
    }
    let between = geo::Euclidean;
    let marks = (Point::new(corner_to_marks[0], 0.0), Point::new(0.0, corner_to_marks[1]));
    let exact = geo::Distance::distance(&between, marks.0, marks.1);
    assert!((exact - length(question, "between the marks")).abs() < 1e-6, "{question:?}");
}

/// No larger multiple fits, tried one by one, and none either with the 3 and the 4 changed round.
fn biggest(question: &Question, units: Units) {
    let plan = Plan::read(question, units);
    let step = size_after(&question.asked, "in multiples of ", units);
    let tape = size_after(&question.asked, "with a tape of ", units);
    let (short, long) =
        (word_after(&question.asked, "shorter side "), word_after(&question.asked, "the 4 along "));
    let corner = word_after(&question.asked, "fits corner ");
    assert!(short.contains(corner) && long.contains(corner), "{question:?}");
    let (a, b) = (plan.distance(short), plan.distance(long));
    assert!(a < b, "the shorter side is the shorter: {question:?}");
    let fits = |k: f64| {
        let either_way = (3.0 * k <= a && 4.0 * k <= b) || (4.0 * k <= a && 3.0 * k <= b);
        either_way && 5.0 * k <= tape
    };
    let best = (1..1000).map(|i| f64::from(i) * step).take_while(|k| fits(*k)).last().unwrap();
    assert_eq!(length(question, &format!("along {short}")), 3.0 * best, "{question:?}");
    assert_eq!(length(question, &format!("along {long}")), 4.0 * best, "{question:?}");
    assert_eq!(length(question, "between the marks"), 5.0 * best, "{question:?}");
}

/// The angle is found by bisection: the longer leg is swung until the third tape fits.
fn as_found(question: &Question, units: Units) {
    let text = &question.given[question.given.find("At corner").unwrap()..];
    let sizes = sizes_in(text, units);
    let [a, b, c] = sizes[..] else { panic!("{question:?}") };
    let end = |angle: f64| Point::new(b * angle.cos(), b * angle.sin());
    let tape = |angle: f64| geo::Distance::distance(&geo::Euclidean, end(angle), Point::new(a, 0.0));
    let (mut low, mut high) = (0.5_f64, 2.5_f64);
    for _ in 0..100 {
        let middle = f64::midpoint(low, high);
        if tape(middle) < c {
            low = middle;
        } else {
            high = middle;
        }
    }
    let off = end(low).x().abs();
    rounds_to(off, length(question, "off by"));
    assert!((tape(std::f64::consts::FRAC_PI_2) - length(question, "if square")).abs() < 1e-6);
    let open = low > std::f64::consts::FRAC_PI_2;
    is_word(question, "open or closed", if open { "open" } else { "closed" });
    assert!(off > 1.5, "out far enough to see: {question:?}");
}

/// A run covers its strip but for what a through run takes at an outward corner, and the corner itself where it goes
/// through at an inward one. Whether a corner is outward is asked of the geometry crate: is the ground past it inside?
#[test]
fn every_plate_run_covers_what_the_corners_leave_it() {
    ten_thousand(Topic::Plates, |question, _, units| {
        let plan = Plan::read(question, units);
        let n = plan.corners.len();
        let width = size_after(&question.given, "Plate ", units);
        let run = word_after(&question.asked, "run on ");
        let outline = Polygon::new(LineString::from(plan.corners.clone()), vec![]);
        let side = (0..n).find(|i| side_name(*i, n) == run).unwrap();
        let (from, to) = (plan.corners[side], plan.corners[(side + 1) % n]);
        let along = (to - from) / plan.distance(run);
        // Walking clockwise with y down the page, the ground is on the right hand.
        let inward = Point::new(-along.y(), along.x());
        let mut exact = plan.distance(run);
        for (corner, at, away) in [(side, from, -along), (side + 1, to, along)] {
            let letter = char::from(b'A' + u8::try_from(corner % n).unwrap());
            let lower = question.given.replace("; at", " At");
            let through = word_after(&lower, &format!("At {letter} the run on ")) == run;
            let past = at + away * (width / 2.0) + inward * (width / 2.0);
            match (outline.contains(&past), through) {
                (true, true) => exact += width,
                (false, false) => exact -= width,
                _ => {}
            }
        }
        assert_eq!(length(question, &format!("run {run}")), exact.round(), "{question:?}");
        assert!(exact > 0.0);
    });
}

#[test]
fn every_pack_reaches_the_highest_point_and_no_fewer_packers_make_it() {
    ten_thousand(Topic::Packs, |question, level, units| {
        let staff = question.given.contains("bigger is lower");
        let at = question.given.find(if staff { "Staff" } else { "Heights" }).unwrap();
        let readings = named(&question.given[at..], 1, units);
        let height = |letter: char| {
            let reading = readings.iter().find(|(name, _)| name.starts_with(letter)).unwrap().1;
            if staff { -reading } else { reading }
        };
        let heights: Vec<f64> =
            readings.iter().map(|(name, _)| height(name.chars().next().unwrap())).collect();
        let highest = heights.iter().copied().fold(f64::MIN, f64::max);
        assert_eq!(heights.iter().filter(|h| **h == highest).count(), 1, "one highest point");
        assert_eq!(readings.len(), directions(question).len(), "a reading at every corner");
        let pack = if level == Level::Three {
            let plan = Plan::read(question, units);
            let side = word_after(&question.given, "stands on ");
            let along = size_after(&question.given, &format!("stands on {side}, "), units);
            let ends: Vec<char> = side.chars().collect();
            let part = along / plan.distance(side);
            assert!(part < 1.0, "the stud stands on the side: {question:?}");
            let there = height(ends[0]) * (1.0 - part) + height(ends[1]) * part;
            rounds_to(highest - there, length(question, "pack at the stud"));
            length(question, "pack at the stud")
        } else {
            let corner = word_after(&question.asked, "the pack at ").chars().next().unwrap();
            let pack = length(question, &format!("pack at {corner}"));
            assert_eq!(highest - height(corner), pack, "{question:?}");
            pack
        };
        let packers = sizes_in(&question.given[question.given.find("Packers:").unwrap()..], units);
        let fewest = fewest_by_layers(pack, &packers);
        match blank_answer(question, "fewest packers") {
            Answer::Count(count) => assert_eq!(usize::try_from(*count).unwrap(), fewest, "{question:?}"),
            other => panic!("{other:?}"),
        }
    });
}

/// All totals that one packer makes, then two, and so on, until the pack is among them.
fn fewest_by_layers(pack: f64, packers: &[f64]) -> usize {
    let whole: Vec<i64> = packers.iter().map(|size| size.round() as i64).collect();
    let pack = pack.round() as i64;
    let mut totals = BTreeSet::from([0]);
    for count in 1..=200 {
        totals = totals
            .iter()
            .flat_map(|total| whole.iter().map(move |size| total + size))
            .filter(|total| *total <= pack)
            .collect();
        if totals.contains(&pack) {
            return count;
        }
    }
    panic!("{packers:?} don't make {pack}");
}

/// The heights are built up again from the datum: floor to ceiling and plate to binder must both end at the wall head.
#[test]
fn every_chain_of_heights_ends_at_the_wall_head() {
    ten_thousand(Topic::Heights, |question, level, units| {
        let given = question.given.as_str();
        let one = |name: &str| size_after(given, name, units);
        let head_from_drops = || {
            let drops = &given[given.find("Drop").unwrap()..given.find("level").unwrap()];
            let drops = sizes_in(drops, units);
            assert_eq!(drops.len(), if level == Level::One { 1 } else { 3 });
            let highest = drops.iter().copied().fold(f64::MIN, f64::max);
            assert_eq!(drops.iter().filter(|drop| **drop == highest).count(), 1, "one highest drop");
            highest - one("level ")
        };
        match level {
            Level::One => assert_eq!(length(question, "wall head") + one("level "), one("Drop ")),
            Level::Two => {
                let built = one("Plate ") + length(question, "panel") + one("binder ");
                assert_eq!(built, head_from_drops(), "{question:?}");
            }
            Level::Three if given.contains("is wanted") => {
                let room = one("Floor finish ") + one("A ceiling of ") + one("ceiling lining ");
                assert_eq!(length(question, "wall head"), room);
                assert_eq!(one("Plate ") + length(question, "panel") + one("binder "), room);
            }
            Level::Three => {
                let head = head_from_drops();
                let rails = 2.0 * one("two rails of ");
                assert_eq!(one("Plate ") + rails + length(question, "stud") + one("binder "), head);
                let room = one("Floor finish ") + length(question, "ceiling") + one("ceiling lining ");
                assert_eq!(room, head, "{question:?}");
            }
        }
    });
}

/// Each reading in turn is left out: only without the wrong one do all the others fit one outline.
#[test]
fn every_misread_is_the_only_reading_that_can_be_wrong() {
    ten_thousand(Topic::Misread, |question, _, units| {
        let directions = directions(question);
        let n = directions.len();
        let readings = named(&question.given, 2, units);
        let explanations: Vec<(String, f64)> = (0..readings.len())
            .filter_map(|left_out| explained_without(&directions, n, &readings, left_out))
            .collect();
        let [(name, off)] = &explanations[..] else {
            panic!("{} readings could be the wrong one: {question:?}", explanations.len());
        };
        is_word(question, "wrong reading", name);
        rounds_to(*off, length(question, "out by"));
    });
}

/// The reading left out and how far it is off, if the others all fit to half a mark.
fn explained_without(
    directions: &[(f64, f64)],
    n: usize,
    readings: &[(String, f64)],
    left_out: usize,
) -> Option<(String, f64)> {
    let value = |name: &str| readings.iter().find(|(other, _)| other == name).unwrap().1;
    let mut sides: Vec<f64> = (0..n).map(|i| value(&side_name(i, n))).collect();
    let (name, read) = &readings[left_out];
    if let Some(side) = (0..n).find(|i| side_name(*i, n) == *name) {
        let (dx, dy) = directions[side];
        let others = (0..n).filter(|i| *i != side);
        let along: f64 = others.map(|i| (directions[i].0 * dx + directions[i].1 * dy) * sides[i]).sum();
        sides[side] = -along;
    }
    let sum = |axis: fn(&(f64, f64)) -> f64| -> f64 {
        directions.iter().zip(&sides).map(|(d, side)| axis(d) * side).sum()
    };
    if sum(|d| d.0).abs() > 0.5 || sum(|d| d.1).abs() > 0.5 || sides.iter().any(|side| *side <= 0.0) {
        return None;
    }
    let corners = walk(directions, &sides);
    let fit = readings
        .iter()
        .filter(|(other, _)| other != name)
        .all(|(other, reading)| (distance(&corners, other) - reading).abs() <= 0.5);
    fit.then(|| (name.clone(), (distance(&corners, name) - read).abs()))
}
