//! The questions on lines, straightness, taped readings and joists, worked out again from their words and their sketch:
//! faces by where they stand, ranks by elimination, packs by what they bring level.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use geo::Point;
use pegline::length::Units;
use pegline::practice::{Answer, Level, Question, Topic};

use crate::practice_support::{
    Plan, blank_answer, drawn, length, named, rounds_to, seeds, size_after, sizes_after, sizes_in, word_after,
};

/// Seeds a topic in every run; ten thousand in the long one.
const SEEDS: u32 = 600;

fn is_word(question: &Question, label: &str, word: &str) {
    assert!(
        matches!(blank_answer(question, label), Answer::Word { right, .. } if right == word),
        "{question:?}"
    );
}

fn solve(topic: Topic, question: &Question, level: Level, units: Units) {
    match topic {
        Topic::Lines => lines(question, units),
        Topic::Straight => straight(question, units),
        Topic::Readings => readings(question, level, units),
        Topic::Joists => joists(question, units),
        _ => {}
    }
}

const NEW: [Topic; 4] = [Topic::Lines, Topic::Straight, Topic::Readings, Topic::Joists];

#[test]
fn every_question_on_lines_readings_and_joists_has_the_answer_that_its_words_give() {
    for topic in NEW {
        seeds(topic, SEEDS, |question, level, units| solve(topic, question, level, units));
    }
}

#[test]
#[ignore = "ten thousand seeds a topic: run it after a change of the generator"]
fn ten_thousand_questions_of_each_new_topic_have_the_answer_that_their_words_give() {
    for topic in NEW {
        seeds(topic, 10_000, |question, level, units| solve(topic, question, level, units));
    }
}

#[test]
fn a_mixed_sheet_has_every_topic_with_its_rule_and_is_the_topics_own_question() {
    for seed in 0..60 {
        let level = Level::ALL[seed as usize % 3];
        let sheet = drawn(Topic::Mixed, level, seed, 20, Units::Mm);
        let topics: Vec<Topic> = sheet
            .questions
            .iter()
            .map(|question| {
                let of = |topic: &Topic| {
                    question.given.strip_prefix(topic.rule()).is_some_and(|rest| rest.starts_with(' '))
                };
                // Diagonals and corners have one rule.
                let found = Topic::ALL
                    .into_iter()
                    .filter(of)
                    .find(|topic| *topic != Topic::Diagonals || question.asked.contains("diagonal"));
                let topic = found.unwrap_or_else(|| panic!("{question:?}"));
                let mut own = question.clone();
                own.given = question.given.strip_prefix(topic.rule()).unwrap().trim_start().to_owned();
                solve(topic, &own, level, Units::Mm);
                topic
            })
            .collect();
        for half in topics.chunks(10) {
            let mut names: Vec<&str> = half.iter().map(|topic| topic.name()).collect();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), 10, "{topics:?}");
        }
    }
}

#[test]
fn no_question_comes_twice_on_the_longest_sheet() {
    for topic in Topic::ALL {
        for level in Level::ALL {
            for units in [Units::Mm, Units::FeetInches] {
                let sheet = drawn(topic, level, 3, 50, units);
                let figures: std::collections::BTreeSet<String> = sheet
                    .questions
                    .iter()
                    .map(|question| match (topic, level) {
                        // A rectangle turned round, or its other diagonal, is the same question.
                        (Topic::Diagonals, Level::One | Level::Two) => {
                            let mut sizes = sizes_in(&question.given, units);
                            sizes.sort_by(f64::total_cmp);
                            format!("{sizes:?}")
                        }
                        // A triple and its multiple, whatever they are marked on.
                        (Topic::Corners, Level::One) => {
                            format!(
                                "{:?}",
                                question.blanks.iter().map(|blank| &blank.answer).collect::<Vec<_>>()
                            )
                        }
                        _ => format!("{} {}", question.given, question.asked),
                    })
                    .collect();
                assert_eq!(figures.len(), 50, "{} {level:?} {units:?}", topic.name());
            }
        }
    }
}

/// Every face by where it stands from the middle of the wall.
fn lines(question: &Question, units: Units) {
    if question.given.contains("an opening ") {
        let plan = Plan::read(question, units);
        let side = word_after(&question.given, " On ");
        let (from, to) =
            (word_after(&question.given, "wide begins "), word_after(&question.asked, "tape from "));
        assert!(side.ends_with(to) && !from.is_empty());
        let begins = size_after(&question.given, "wide begins ", units);
        let width = size_after(&question.given, "an opening ", units);
        let whole = plan.distance(side);
        assert_eq!(length(question, "nearer edge"), whole - (begins + width));
        assert_eq!(length(question, "farther edge"), whole - begins);
        return;
    }
    let [skin, cavity, plate] =
        ["skin ", ", cavity ", ", plate "].map(|name| size_after(&question.given, name, units));
    let middle = (skin + cavity + plate) / 2.0;
    let first =
        sizes_after(&question.given, "A footing ", units).first().map_or(middle, |footing| footing / 2.0);
    let at = |from_the_middle: f64| first - from_the_middle;
    for (name, from_the_middle) in [
        ("skin outer", middle),
        ("skin inner", middle - skin),
        ("plate outer", plate - middle),
        ("plate inner", -middle),
    ] {
        if question.blanks.iter().any(|blank| blank.label == name) {
            assert_eq!(length(question, name), at(from_the_middle), "{name}: {question:?}");
        }
    }
}

/// The plate's place on a picture with the string along y = 0 and the building up the page.
fn straight(question: &Question, units: Units) {
    let outside = question.given.contains("along the outside");
    let place = |reading: f64| if outside { reading } else { -reading };
    let sizes = sizes_in(&question.given, units);
    let (line, plate) = match sizes[..] {
        [block, reading] => (place(block), place(reading)),
        [length, first, last, reading, along] => {
            let ends = (Point::new(0.0, place(first)), Point::new(length, place(last)));
            let there = ends.0 + (ends.1 - ends.0) * (along / length);
            (there.y(), place(reading))
        }
        _ => panic!("{question:?}"),
    };
    rounds_to((plate - line).abs(), length(question, "off by"));
    is_word(question, "out or in", if plate > line { "in" } else { "out" });
}

/// Where the letters stand in the sketch.
fn letters(question: &Question) -> Vec<(char, f64, f64)> {
    let mut found = vec![];
    for (row, line) in question.sketch.iter().enumerate() {
        let places = line.chars().enumerate().filter(|(_, c)| c.is_ascii_uppercase());
        found.extend(places.map(|(column, c)| (c, column as f64, 2.0 * row as f64)));
    }
    found.sort_by_key(|(letter, _, _)| *letter);
    found
}

/// How many of the lines tie corners, by elimination over their rows: a line is a row of its two ends' directions.
fn rank(corners: &[(char, f64, f64)], lines: &[&str]) -> usize {
    let at = |letter: char| corners.iter().position(|corner| corner.0 == letter).unwrap();
    let mut rows: Vec<Vec<f64>> = lines
        .iter()
        .map(|line| {
            let ends: Vec<usize> = line.chars().map(at).collect();
            let (dx, dy) = (corners[ends[1]].1 - corners[ends[0]].1, corners[ends[1]].2 - corners[ends[0]].2);
            let mut row = vec![0.0; 2 * corners.len()];
            for (end, sign) in [(ends[0], -1.0), (ends[1], 1.0)] {
                row[2 * end] = sign * dx;
                row[2 * end + 1] = sign * dy;
            }
            row
        })
        .collect();
    let mut rank = 0;
    for column in 0..2 * corners.len() {
        let Some(pivot) = (rank..rows.len())
            .max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))
            .filter(|row| rows[*row][column].abs() > 1e-9)
        else {
            continue;
        };
        rows.swap(rank, pivot);
        let top = rows[rank].clone();
        for row in &mut rows[rank + 1..] {
            let factor = row[column] / top[column];
            row.iter_mut().zip(&top).for_each(|(figure, above)| *figure -= factor * above);
        }
        rank += 1;
    }
    rank
}

fn readings(question: &Question, level: Level, units: Units) {
    match level {
        Level::One => {
            let taped = question.given.split("Taped: ").nth(1).unwrap().trim_end_matches('.');
            let lines: Vec<&str> = taped.split(", ").collect();
            let corners = letters(question);
            let missing = 2 * corners.len() - 3 - rank(&corners, &lines);
            assert_eq!(
                blank_answer(question, "more lines"),
                &Answer::Count(i64::try_from(missing).unwrap()),
                "{question:?}"
            );
            is_word(question, "fixed", if missing == 0 { "yes" } else { "no" });
        }
        Level::Two => {
            let sides = named(&question.given, 2, units);
            let (a, b) = (sides[0].1, sides[1].1);
            let (ac, bd) = (
                size_after(&question.given, "AC reads ", units),
                size_after(&question.given, "and BD ", units),
            );
            // The angle at A by the cosine law in the triangle ABD; where D and C then stand.
            let cosine = (a * a + b * b - bd * bd) / (2.0 * a * b);
            is_word(question, "corner A", if cosine < 0.0 { "open" } else { "closed" });
            let over = length(question, "push by") * cosine.signum();
            let down = b.mul_add(b, -over * over).sqrt();
            assert!(((a + over).hypot(down) - ac).abs() <= 1.0, "{question:?}");
            assert!(((a - over).hypot(down) - bd).abs() <= 1.0, "{question:?}");
            rounds_to((ac * ac - bd * bd).abs() / (4.0 * a), over.abs());
        }
        Level::Three => {
            let corners = letters(question);
            let n = corners.len();
            let sides: Vec<String> =
                (0..n).map(|i| format!("{}{}", corners[i].0, corners[(i + 1) % n].0)).collect();
            let (taped, offered) = question.given.split_once(". One more line can be taped: ").unwrap();
            let names = |text: &str| -> Vec<String> {
                let words = text.split([' ', ',', '.']);
                words
                    .filter(|word| word.len() == 2 && word.chars().all(|c| c.is_ascii_uppercase()))
                    .map(str::to_owned)
                    .collect()
            };
            let taped = names(taped.split("are taped, and ").nth(1).unwrap());
            let tied = |more: &str| {
                let lines = sides.iter().chain(&taped).map(String::as_str).chain([more]);
                rank(&corners, &lines.collect::<Vec<_>>())
            };
            let fixing: Vec<String> =
                names(offered).into_iter().filter(|line| tied(line) == 2 * n - 3).collect();
            let [fixing] = &fixing[..] else { panic!("{fixing:?}: {question:?}") };
            is_word(question, "tape next", fixing);
        }
    }
}

/// With the pack under the end that is named, the joists fall as is wanted.
fn joists(question: &Question, units: Units) {
    let mut hanger = size_after(&question.given, "on the house is ", units);
    let mut bearing = size_after(&question.given, "new wall ", units);
    let wanted = question.given.split_once("1 in ").map_or(0.0, |(_, rest)| {
        let n: f64 = rest.split(' ').next().unwrap().parse().unwrap();
        let fall = size_after(&question.given, "the run is ", units) / n;
        if question.given.contains("away from the house") { fall } else { -fall }
    });
    let before = (hanger - bearing - wanted).abs();
    let by = length(question, "by");
    match blank_answer(question, "pack up the") {
        Answer::Word { right, .. } if right == "hanger" => hanger += by,
        _ => bearing += by,
    }
    let after = (hanger - bearing - wanted).abs();
    assert!(after <= 0.45 && before > 1.5, "{question:?}");
}
