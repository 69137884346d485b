//! Wrong answers worked out from a question's words alone, by the arithmetic of the slip: each is named as the slip it
//! is, or not at all.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use std::collections::BTreeMap;

use geo::{Distance, Euclidean, Point};
use pegline::length::Units;
use pegline::page::{Look, text};
use pegline::practice::{Answer, Level, Mark, Question, Sheet, Slip, Topic, mark, read_text};
use pegline::report::practice::question_sheet;

use crate::practice_support::{
    Plan, blank_answer, drawn, length, named, size_after, sizes_after, sizes_in, word_after,
};

/// A wrong answer: the blank it is written in, the slip's name, and what is written, in steps or as it stands.
type Planted = (String, &'static str, Written);

enum Written {
    Steps(f64),
    Text(String),
}
use Written::{Steps, Text};

/// How often each of so many kinds of wrong answer must come up in a topic.
const LEAST: usize = 400;
const KINDS: usize = 6;

fn written(what: &Written, units: Units) -> String {
    match what {
        Text(text) => text.clone(),
        Steps(steps) if units == Units::Mm => steps.to_string(),
        Steps(steps) => units.with_unit(steps * units.tape_step()),
    }
}

fn right(answer: &Answer, units: Units) -> String {
    match answer {
        Answer::Length(steps) => written(&Steps(*steps as f64), units),
        Answer::Count(count) => count.to_string(),
        Answer::Word { right, .. } => right.clone(),
    }
}

/// The printed sheet of one question with its blanks filled.
fn filled(sheet: &Sheet, fill: &dyn Fn(&str) -> Option<String>) -> String {
    let mut page = text(&question_sheet(sheet, ""), Look::default());
    for blank in &sheet.questions[0].blanks {
        let what = fill(&blank.label).unwrap_or_else(|| right(&blank.answer, sheet.ask.units));
        page = page.replacen("________", &what, 1);
    }
    page
}

/// What each slip of `topic` leads to in this question, and those of any hand.
fn planted(topic: Topic, level: Level, question: &Question, units: Units) -> Vec<Planted> {
    let mut all = match topic {
        Topic::Diagonals => diagonals(question, units),
        Topic::Corners => corners(question, units),
        Topic::Plates => plates(question, units),
        Topic::Packs => packs(question, units),
        Topic::Heights => heights(question, units),
        Topic::Misread => misread(question, units),
        Topic::Lines => lines(question, units),
        Topic::Straight => straight(question, units),
        Topic::Readings => readings(question, units),
        Topic::Joists => joists(question, units),
        Topic::Mixed => vec![],
    };
    for blank in &question.blanks {
        if let Answer::Length(steps) = blank.answer {
            let steps = steps as f64;
            let rounds = matches!(topic, Topic::Diagonals | Topic::Misread)
                || (topic == Topic::Corners && blank.label == "off by")
                || blank.label == "pack at the stud"
                || blank.label == "push by"
                || (topic == Topic::Straight && level == Level::Three)
                || (topic == Topic::Joists && level != Level::One);
            let near = if rounds { "rounding" } else { "one mark" };
            all.push((blank.label.clone(), near, Steps(steps + 1.0)));
            all.push((blank.label.clone(), near, Steps(steps - 1.0)));
            if !blank.either_sign {
                all.push((
                    blank.label.clone(),
                    "minus left",
                    Text(format!("-{}", written(&Steps(steps), units))),
                ));
            }
        }
    }
    all
}

fn diagonals(question: &Question, units: Units) -> Vec<Planted> {
    let plan = Plan::read(question, units);
    let line = word_after(&question.asked, "the diagonal ");
    let ends: Vec<usize> = line.bytes().map(|letter| usize::from(letter - b'A')).collect();
    let (from, to) = (plan.corners[ends[0]], plan.corners[ends[1]]);
    let (a, b) = ((from.x() - to.x()).abs(), (from.y() - to.y()).abs());
    let right = length(question, line);
    let mut all = vec![
        ("added sides", Steps(a + b)),
        ("squares taken off", Steps((a * a - b * b).abs().sqrt().round())),
        ("side for diagonal", Steps(a)),
        ("side for diagonal", Steps(b)),
    ];
    if units == Units::Mm {
        all.push(("no root", Text((a * a + b * b).to_string())));
        all.push(("halved for root", Text(f64::midpoint(a * a, b * b).to_string())));
        all.push(("unit", Text((right / 1000.0).to_string())));
        all.push(("round figure", Steps(right + 100.0)));
    } else {
        // Decimals of a foot to two places, written as inches and tenths of one, to the nearest sixteenth.
        let feet = (right / 192.0).floor();
        let hundredths = ((right / 192.0 - feet) * 100.0).round();
        let inches = (hundredths / 10.0 * 16.0).round();
        all.push(("feet decimals", Steps(feet * 192.0 + inches)));
        all.push(("round figure", Steps(right + 192.0)));
    }
    all.into_iter().map(|(name, what)| (line.to_owned(), name, what)).collect()
}

/// Whether this is the diagonal's length with one given side taken for a leg that it is only a part of.
fn takes_one_part(question: &Question, units: Units, what: &Written) -> bool {
    let Steps(steps) = what else { return false };
    let plan = Plan::read(question, units);
    let ends: Vec<usize> = word_after(&question.asked, "the diagonal ")
        .bytes()
        .map(|letter| usize::from(letter - b'A'))
        .collect();
    let leg = plan.corners[ends[0]] - plan.corners[ends[1]];
    let sides = named(&question.given, 2, units);
    sides
        .iter()
        .any(|(_, side)| [leg.x(), leg.y()].iter().any(|other| (other.hypot(*side) - steps).abs() <= 1.0))
}

fn corners(question: &Question, units: Units) -> Vec<Planted> {
    if question.blanks[0].label == "if square" {
        return as_found(question, units);
    }
    let labels: Vec<&str> = question.blanks.iter().map(|blank| blank.label.as_str()).collect();
    let sizes: Vec<f64> = labels.iter().map(|label| length(question, label)).collect();
    let mut all = vec![(labels[2].to_owned(), "added sides", Steps(sizes[0] + sizes[1]))];
    for (label, right) in labels.iter().zip(&sizes) {
        let others = sizes.iter().filter(|size| *size != right);
        all.extend(others.map(|size| ((*label).to_owned(), "triple place", Steps(*size))));
    }
    if question.asked.contains("biggest") {
        let plan = Plan::read(question, units);
        let step = size_after(&question.asked, "in multiples of ", units);
        let tape = size_after(&question.asked, "with a tape of ", units);
        let short = plan.distance(word_after(&question.asked, "shorter side "));
        let long = plan.distance(word_after(&question.asked, "the 4 along "));
        all.push((labels[0].to_owned(), "side for leg", Steps(short)));
        all.push((labels[0].to_owned(), "other side", Steps(long)));
        all.push((labels[1].to_owned(), "other side", Steps(short)));
        all.push((labels[1].to_owned(), "side for leg", Steps(long)));
        let by_tape = (tape / 5.0 / step).floor() * step;
        for (label, number) in labels.iter().zip([3.0, 4.0, 5.0]) {
            if number * by_tape > length(question, label) {
                all.push(((*label).to_owned(), "tape alone", Steps(number * by_tape)));
            }
            let smaller = length(question, label) - number * step;
            all.push(((*label).to_owned(), "small multiple", Steps(smaller)));
        }
    }
    all
}

fn as_found(question: &Question, units: Units) -> Vec<Planted> {
    let text = &question.given[question.given.find("At corner").unwrap()..];
    let [a, b, c] = sizes_in(text, units)[..] else { panic!("{question:?}") };
    let square = Euclidean.distance(Point::new(a, 0.0), Point::new(0.0, b));
    let at = |label: &str| label.to_owned();
    let wrong_word = if c > square { "closed" } else { "open" };
    let over = (c * c - a * a - b * b).abs();
    let mut all = vec![
        (at("if square"), "tape as read", Steps(c)),
        (at("if square"), "added sides", Steps(a + b)),
        (at("open or closed"), "open for closed", Text(wrong_word.to_owned())),
        (at("off by"), "tape difference", Steps((c - square).abs())),
        (at("off by"), "not halved", Steps((over / a).round())),
        (at("off by"), "other leg", Steps((over / 2.0 / b).round())),
    ];
    if units == Units::Mm {
        all.push((at("if square"), "no root", Text((a * a + b * b).to_string())));
    }
    all
}

fn plates(question: &Question, units: Units) -> Vec<Planted> {
    let plan = Plan::read(question, units);
    let width = size_after(&question.given, "Plate ", units);
    let run = word_after(&question.asked, "run on ");
    let label = format!("run {run}");
    let side = plan.distance(run);
    let ends = length(question, &label) - side;
    let mut all = vec![("no width", Steps(side)), ("width wrong way", Steps(side - ends))];
    if ends.abs() > 1.5 * width {
        all.push(("one end", Steps(side + ends / 2.0)));
    }
    for (name, size) in named(&question.given, 2, units) {
        // A size that is so many widths from the answer is an end seen to wrongly, too.
        let widths = (size - side) / width;
        if name != run && (widths.fract() != 0.0 || widths.abs() > 4.0) {
            all.push(("other side", Steps(size)));
            all.push(("other side", Steps(size + ends)));
        }
    }
    if units == Units::Mm {
        all.push(("round figure", Steps(side + ends + 100.0)));
        all.push(("unit", Text(((side + ends) / 1000.0).to_string())));
    }
    all.into_iter().map(|(name, what)| (label.clone(), name, what)).collect()
}

fn packs(question: &Question, units: Units) -> Vec<Planted> {
    let staff = question.given.contains("Staff");
    let readings = named(&question.given, 1, units);
    let values = readings.iter().map(|(_, reading)| *reading);
    let (high, low) = if staff {
        (values.clone().fold(f64::MAX, f64::min), values.fold(0.0, f64::max))
    } else {
        (values.clone().fold(f64::MIN, f64::max), values.fold(f64::MAX, f64::min))
    };
    let label = question.blanks[0].label.clone();
    let mut all = vec![];
    if let Some(corner) = label.strip_prefix("pack at ").filter(|corner| corner.len() == 1) {
        let reading = readings.iter().find(|(name, _)| name == corner).unwrap().1;
        all.push((label.clone(), "reading for pack", Steps(reading.abs())));
        all.push((label.clone(), "lowest datum", Steps((low - reading).abs())));
        all.push((label.clone(), "first datum", Steps((readings[0].1 - reading).abs())));
        if !staff && high * reading < 0.0 {
            all.push((label, "sign dropped", Steps((high + reading).abs())));
        }
    } else {
        let side = question.given.split(" from ").next().unwrap().rsplit("stands on ").next().unwrap();
        let ends: Vec<f64> = side[..2]
            .chars()
            .map(|end| readings.iter().find(|(name, _)| *name == end.to_string()).unwrap().1)
            .collect();
        for end in &ends {
            all.push((label.clone(), "not interpolated", Steps((high - end).abs())));
        }
        let length = Plan::read(question, units).distance(&side[..2]);
        let along = size_after(&question.given, &format!("stands on {}, ", &side[..2]), units);
        for (name, part) in [("half way", 0.5), ("other end", 1.0 - along / length)] {
            let there = ends[0] + (ends[1] - ends[0]) * part;
            all.push((label.clone(), name, Steps((high - there).abs().round())));
        }
    }
    let Answer::Count(count) = blank_answer(question, "fewest packers") else { panic!("{question:?}") };
    all.push(("fewest packers".to_owned(), "too few packers", Text((count - 1).to_string())));
    all.push(("fewest packers".to_owned(), "too many packers", Text((count + 4).to_string())));
    all
}

fn heights(question: &Question, units: Units) -> Vec<Planted> {
    let mut all = vec![];
    let one = |before: &str| sizes_after(&question.given, before, units).first().copied();
    let depth = one(", level ");
    for blank in &question.blanks {
        let answer = length(question, &blank.label);
        let mut add = |name: &'static str, steps: f64| all.push((blank.label.clone(), name, Steps(steps)));
        if let Some(depth) = depth {
            add("no depth", answer + depth);
            add("depth added", answer + 2.0 * depth);
            add("depth twice", answer - depth);
        }
        let (plate, binder) = (one("Plate "), one("binder "));
        let (floor, lining) = (one("loor finish "), one("ceiling lining "));
        if let ("panel" | "stud", Some(plate), Some(binder)) = (blank.label.as_str(), plate, binder) {
            add("no plate", answer + plate);
            add("no binder", answer + binder);
            add("no plate or binder", answer + plate + binder);
            if let Some(rail) = one("two rails of ") {
                add("one rail", answer + rail);
                add("no rails", answer + 2.0 * rail);
            }
        }
        match (blank.label.as_str(), floor, lining) {
            ("ceiling", Some(floor), Some(lining)) => {
                add("no floor", answer + floor);
                add("no lining", answer + lining);
            }
            ("wall head", Some(floor), Some(lining)) => {
                add("no floor", answer - floor);
                add("no lining", answer - lining);
            }
            _ => {}
        }
    }
    all
}

fn misread(question: &Question, units: Units) -> Vec<Planted> {
    let Answer::Word { right, .. } = blank_answer(question, "wrong reading") else { panic!("{question:?}") };
    let off = length(question, "out by");
    let mut all = vec![];
    for (name, reading) in named(&question.given, 2, units) {
        if name == *right {
            all.push(("out by".to_owned(), "length for error", Steps(reading)));
        } else {
            all.push(("wrong reading".to_owned(), "sound reading", Text(name)));
        }
    }
    if units == Units::Mm {
        all.push(("out by".to_owned(), "unit", Text((off / 1000.0).to_string())));
        all.push(("out by".to_owned(), "round figure", Steps(off + 1000.0)));
        let digits = off.to_string().into_bytes();
        for i in 1..digits.len() {
            let mut swapped = digits.clone();
            swapped.swap(i - 1, i);
            if swapped != digits && swapped[0] != b'0' {
                all.push(("out by".to_owned(), "swapped digits", Text(String::from_utf8(swapped).unwrap())));
            }
        }
    } else {
        all.push(("out by".to_owned(), "round figure", Steps(off + 192.0)));
        all.push(("out by".to_owned(), "round figure", Steps(off + 1920.0)));
    }
    all
}

fn lines(question: &Question, units: Units) -> Vec<Planted> {
    let mut all = vec![];
    let mut add = |label: &str, name, steps: f64| all.push((label.to_owned(), name, Steps(steps)));
    if question.given.contains("opening") {
        let (width, from) = (
            size_after(&question.given, "an opening ", units),
            size_after(&question.given, "wide begins ", units),
        );
        let (near, far) = (length(question, "nearer edge"), length(question, "farther edge"));
        add("nearer edge", "other end", from);
        add("nearer edge", "width left on", far);
        add("farther edge", "other end", from + width);
        add("farther edge", "own width", width);
        add("nearer edge", "minus left", -near);
        return all;
    }
    let [skin, cavity, plate] =
        ["skin ", ", cavity ", ", plate "].map(|name| size_after(&question.given, name, units));
    let footing = sizes_after(&question.given, "A footing ", units).first().copied();
    let out = footing.map_or(0.0, |footing| (footing - skin - cavity - plate) / 2.0);
    add("skin inner", "own width", skin);
    add("plate outer", "own width", cavity);
    add("plate inner", "own width", plate);
    add("plate outer", "layer left out", out + cavity);
    add("plate inner", "layer left out", out + skin + plate);
    if let Some(footing) = footing {
        add("skin outer", "not centred", 2.0 * out);
        if (footing / 2.0).fract() == 0.0 {
            add("skin outer", "half the footing", footing / 2.0);
        }
        add("plate outer", "from the skin", skin + cavity);
        add("plate inner", "not centred", 2.0 * out + skin + cavity + plate);
    }
    all
}

fn straight(question: &Question, units: Units) -> Vec<Planted> {
    let Answer::Word { right, .. } = blank_answer(question, "out or in") else { panic!("{question:?}") };
    let other = if right == "in" { "out" } else { "in" };
    let mut all = vec![("out or in".to_owned(), "out for in", Text(other.to_owned()))];
    let mut add = |name, steps: f64| all.push(("off by".to_owned(), name, Steps(steps)));
    let sizes = sizes_in(&question.given, units);
    let off = length(question, "off by");
    if let [block, reading] = sizes[..] {
        add("block left on", reading);
        add("block added", reading + block);
    } else if let [length, first, last, reading, along] = sizes[..] {
        add("not interpolated", (reading - first).abs());
        add("not interpolated", (reading - last).abs());
        add("half way", (reading - f64::midpoint(first, last)).abs().round());
        add("other end", (reading - first - (last - first) * (1.0 - along / length)).abs().round());
        add("block left on", reading);
    }
    if units == Units::Mm {
        all.push(("off by".to_owned(), "unit", Steps(off * 10.0)));
    }
    all
}

fn readings(question: &Question, units: Units) -> Vec<Planted> {
    let mut all = vec![];
    for blank in &question.blanks {
        if let Answer::Word { right, allowed } = &blank.answer {
            let name = match blank.label.as_str() {
                "fixed" => "fixed or not",
                "corner A" => "open for closed",
                _ => "tied already",
            };
            let wrong = allowed.iter().filter(|word| *word != right);
            all.extend(wrong.map(|word| (blank.label.clone(), name, Text(word.clone()))));
        }
    }
    if let Some((_, taped)) = question.given.split_once("Taped: ") {
        let corners =
            question.sketch.iter().flat_map(|row| row.chars()).filter(char::is_ascii_uppercase).count();
        let lines = taped.split(',').count();
        let plain = (2 * corners - 3).saturating_sub(lines);
        let Answer::Count(missing) = blank_answer(question, "more lines") else { panic!("{question:?}") };
        if i64::try_from(plain).unwrap() != *missing {
            all.push(("more lines".to_owned(), "counted all", Text(plain.to_string())));
        }
    }
    if question.given.contains("AC reads") {
        let (ac, bd) =
            (size_after(&question.given, "AC reads ", units), size_after(&question.given, "and BD ", units));
        let sides = named(&question.given, 2, units);
        let (a, b) = (sides[0].1, sides[1].1);
        let over = (ac * ac - bd * bd).abs();
        for (name, steps) in [
            ("diagonal difference", (ac - bd).abs()),
            ("half difference", ((ac - bd).abs() / 2.0).round()),
            ("other side", (over / 4.0 / b).round()),
            ("not halved", (over / 2.0 / a).round()),
        ] {
            all.push(("push by".to_owned(), name, Steps(steps)));
        }
    }
    all
}

fn joists(question: &Question, units: Units) -> Vec<Planted> {
    let Answer::Word { right, .. } = blank_answer(question, "pack up the") else { panic!("{question:?}") };
    let other = if right == "hanger" { "bearing" } else { "hanger" };
    let mut all = vec![("pack up the".to_owned(), "other support", Text(other.to_owned()))];
    let mut add = |name, steps: f64| all.push(("by".to_owned(), name, Steps(steps)));
    let (hanger, bearing) = (
        size_after(&question.given, "on the house is ", units),
        size_after(&question.given, "new wall ", units),
    );
    add("no fall", (hanger - bearing).abs());
    if let Some((_, rest)) = question.given.split_once("1 in ") {
        let n: f64 = rest.split(' ').next().unwrap().parse().unwrap();
        let fall = size_after(&question.given, "the run is ", units) / n;
        let sign = if question.given.contains("away from") { 1.0 } else { -1.0 };
        add("fall alone", fall.round());
        add("fall wrong way", (-sign * fall - (hanger - bearing)).abs().round());
    }
    if units == Units::Mm {
        let by = length(question, "by");
        all.push(("by".to_owned(), "unit", Text((by / 10.0).to_string())));
        all.push(("by".to_owned(), "round figure", Steps(by + 100.0)));
    }
    all
}

/// A wrong answer that two slips lead to is either's.
fn could_be<'a>(all: &'a [Planted], at: &Planted, units: Units) -> Vec<&'a str> {
    let same = |other: &&Planted| {
        other.0 == at.0
            && match (&other.2, &at.2) {
                (Steps(one), Steps(two)) => (one - two).abs() <= 1.0,
                (one, two) => written(one, units) == written(two, units),
            }
    };
    all.iter().filter(same).map(|(_, name, _)| *name).collect()
}

/// How often each kind of wrong answer of a topic came up, was named, and was named as something else.
#[derive(Debug, Default, Clone, Copy)]
struct Tally {
    planted: usize,
    named: usize,
}

fn tallied(topic: Topic) -> BTreeMap<&'static str, Tally> {
    let mut tallies: BTreeMap<&'static str, Tally> = BTreeMap::new();
    // Two digits that can be swapped are seldom in how far a reading is out.
    for seed in 0..if topic == Topic::Misread { 5400 } else { 1500 } {
        let level = Level::ALL[seed as usize % 3];
        let units = if seed / 3 % 2 == 0 { Units::Mm } else { Units::FeetInches };
        let sheet = drawn(topic, level, seed, 1, units);
        let question = &sheet.questions[0];
        let all = planted(topic, level, question, units);
        for at in &all {
            let (label, name, what) = at;
            let near_right = match (blank_answer(question, label), what) {
                (Answer::Length(right), Steps(steps)) => {
                    (steps - *right as f64).abs() <= 1.0 && !matches!(*name, "rounding" | "one mark")
                        || *steps <= 0.0
                }
                _ => false,
            };
            if near_right {
                continue;
            }
            let page = filled(&sheet, &|other| (other == label).then(|| written(what, units)));
            let marks = mark(&read_text(&page).unwrap());
            let blanks = &marks.questions[0].blanks;
            let found = blanks.iter().find(|blank| blank.label == *label).unwrap();
            assert_eq!(found.mark, Mark::Wrong, "{name}: {page}");
            let slip = found.slip.map(Slip::name);
            let tally = tallies.entry(name).or_default();
            tally.planted += 1;
            if let Some(slip) = slip {
                let mut could = could_be(&all, at, units);
                if *name == "round figure" {
                    // A reading that is out by a round figure is that far from another round figure.
                    could.push("length for error");
                }
                if *name == "side for diagonal" && takes_one_part(question, units, what) {
                    could.push("one part");
                }
                if *name == "other side" {
                    // A side's length is also a part of the sum that the side asked for is put together from.
                    could.extend(["cut-out", "whole side", "one part"]);
                }
                assert!(could.contains(&slip), "{slip} for {could:?}:\n{page}");
                tally.named += 1;
            }
        }
    }
    tallies
}

fn named_rightly(topic: Topic) {
    let tallies = tallied(topic);
    let kinds = tallies.values().filter(|tally| tally.planted >= LEAST).count();
    assert!(kinds >= KINDS, "{tallies:#?}");
    for (name, tally) in &tallies {
        assert!(tally.named * 10 >= tally.planted * 8, "{name}: {tally:?}");
    }
}

#[test]
fn wrong_diagonals_are_named_rightly() {
    named_rightly(Topic::Diagonals);
}

#[test]
fn wrong_corners_are_named_rightly() {
    named_rightly(Topic::Corners);
}

#[test]
fn wrong_plates_are_named_rightly() {
    named_rightly(Topic::Plates);
}

#[test]
fn wrong_packs_are_named_rightly() {
    named_rightly(Topic::Packs);
}

#[test]
fn wrong_heights_are_named_rightly() {
    named_rightly(Topic::Heights);
}

#[test]
fn wrong_misreads_are_named_rightly() {
    named_rightly(Topic::Misread);
}

#[test]
fn wrong_lines_are_named_rightly() {
    named_rightly(Topic::Lines);
}

#[test]
fn wrong_straights_are_named_rightly() {
    named_rightly(Topic::Straight);
}

#[test]
fn wrong_readings_are_named_rightly() {
    named_rightly(Topic::Readings);
}

#[test]
fn wrong_joists_are_named_rightly() {
    named_rightly(Topic::Joists);
}

/// One question's blanks filled with these, in order; its marks and slips.
fn marks_of(topic: Topic, level: Level, seed: u32, units: Units, fill: &[&str]) -> Vec<(Mark, &'static str)> {
    let sheet = drawn(topic, level, seed, 1, units);
    let mut page = text(&question_sheet(&sheet, ""), Look::default());
    for what in fill {
        page = page.replacen("________", what, 1);
    }
    let marks = mark(&read_text(&page).unwrap());
    let blanks = marks.questions[0].blanks.iter();
    blanks.map(|blank| (blank.mark, blank.slip.map_or("", Slip::name))).collect()
}

/// The answers of a question as they are written.
fn answers_of(topic: Topic, level: Level, seed: u32) -> Vec<String> {
    let sheet = drawn(topic, level, seed, 1, Units::Mm);
    sheet.questions[0].blanks.iter().map(|blank| right(&blank.answer, Units::Mm)).collect()
}

#[test]
fn an_answer_that_is_right_for_what_stands_before_it_follows() {
    // The reading, 4 mm, taken for the pack of 18 mm: 3 + 1, two packers.
    let marks = |fill: &[&str]| marks_of(Topic::Packs, Level::One, 11, Units::Mm, fill);
    assert_eq!(answers_of(Topic::Packs, Level::One, 11)[0], "18");
    assert_eq!(marks(&["4", "2"]), [(Mark::Wrong, "reading for pack"), (Mark::Follows, "")]);
    // For 4 mm one is too few, not for 18 mm alone.
    assert_eq!(marks(&["4", "1"])[1], (Mark::Wrong, "too few packers"));
    assert_eq!(marks(&["4", "4"])[1], (Mark::Wrong, "too many packers"));
    // Twice the triangle: the second leg and the tape are right for the first.
    let triangle: Vec<String> = answers_of(Topic::Corners, Level::One, 3)
        .iter()
        .map(|size| (2 * size.parse::<i64>().unwrap()).to_string())
        .collect();
    let fill: Vec<&str> = triangle.iter().map(String::as_str).collect();
    let found: Vec<Mark> =
        marks_of(Topic::Corners, Level::One, 3, Units::Mm, &fill).iter().map(|(mark, _)| *mark).collect();
    assert_eq!(found, [Mark::Wrong, Mark::Follows, Mark::Follows]);
}

#[test]
fn two_answers_in_each_others_place_are_told_so_and_one_alone_is_not() {
    let seed = (0..50).find(|seed| answers_of(Topic::Heights, Level::Three, *seed).len() == 2).unwrap();
    let answers = answers_of(Topic::Heights, Level::Three, seed);
    let marks = |fill: &[&str]| marks_of(Topic::Heights, Level::Three, seed, Units::Mm, fill);
    let changed = (Mark::Wrong, "changed places");
    assert_eq!(marks(&[&answers[1], &answers[0]]), [changed, changed]);
    assert_ne!(marks(&[&answers[1], "2000"])[0], changed);
    // A length where a count belongs, and the count where the length does.
    let answers = answers_of(Topic::Packs, Level::One, 11);
    let swapped = marks_of(Topic::Packs, Level::One, 11, Units::Mm, &[&answers[1], &answers[0]]);
    assert_eq!(swapped, [changed, changed]);
}

#[test]
fn decimals_of_a_foot_written_as_inches_are_told_so() {
    // 33 by 21 ft 9 in and the like, found by its answer: 39.5 ft and a bit is 39 ft 6-1/2 in.
    let seed = (0..20_000)
        .find(|seed| {
            let sheet = drawn(Topic::Diagonals, Level::Two, *seed, 1, Units::FeetInches);
            right(&sheet.questions[0].blanks[0].answer, Units::FeetInches) == "39' 6-1/2\""
        })
        .unwrap();
    for wrong in ["39ft 5.4in", "39ft 5-3/8in", "39ft 5-1/2in", "39ft 5in"] {
        let marks = marks_of(Topic::Diagonals, Level::Two, seed, Units::FeetInches, &[wrong]);
        assert_eq!(marks, [(Mark::Wrong, "feet decimals")], "{wrong}");
    }
}
