//! Reading a printed question again from its words and its sketch, with nothing from the generator's own structs.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use geo::{Distance, Euclidean, Point};
use pegline::length::Units;
use pegline::practice::{Answer, Ask, Level, Question, Sheet, Topic, sheet};

/// The topics by name.
pub(crate) const TOPICS: [&str; 11] = [
    "diagonals",
    "corners",
    "plates",
    "packs",
    "heights",
    "misread",
    "lines",
    "straight",
    "readings",
    "joists",
    "mixed",
];

/// A sheet.
pub(crate) fn drawn(topic: Topic, level: Level, seed: u32, count: u32, units: Units) -> Sheet {
    sheet(Ask { topic, level, seed, count, units }).unwrap()
}

/// Every seed from 0 to 9999 of a topic, the levels and the two tapes in turn.
pub(crate) fn ten_thousand(topic: Topic, check: impl Fn(&Question, Level, Units)) {
    seeds(topic, 10_000, check);
}

/// Every seed up to `end` of a topic, the levels and the two tapes in turn.
pub(crate) fn seeds(topic: Topic, end: u32, check: impl Fn(&Question, Level, Units)) {
    for seed in 0..end {
        let level = Level::ALL[seed as usize % 3];
        let units = if seed / 3 % 2 == 0 { Units::Mm } else { Units::FeetInches };
        for question in &drawn(topic, level, seed, 2, units).questions {
            fair(question, units);
            check(question, level, units);
        }
    }
}

/// What holds for any question: it fits a page, has something to fill in, no negative answer, and no wrong answer that
/// is the right one.
fn fair(question: &Question, units: Units) {
    assert!(!question.blanks.is_empty() && !question.working.is_empty());
    assert!(question.sketch.iter().all(|line| line.chars().count() <= 80));
    assert!(!question.given.contains("−0 ") && !question.given.contains("+0 "));
    for blank in &question.blanks {
        let last = words_of(blank_answer(question, &blank.label), units);
        let shown = question.working.iter().any(|step| step.contains(&last));
        assert!(shown, "{last} is the end of a working: {question:?}");
        if let Answer::Length(steps) = blank.answer {
            assert!(steps > 0, "{question:?}");
        }
    }
}

fn words_of(answer: &Answer, units: Units) -> String {
    match answer {
        Answer::Length(steps) => units.with_unit(*steps as f64 * units.tape_step()),
        Answer::Count(count) => count.to_string(),
        Answer::Word { right, .. } => right.clone(),
    }
}

/// The answer that belongs in a blank.
pub(crate) fn blank_answer<'a>(question: &'a Question, label: &str) -> &'a Answer {
    let blank = question.blanks.iter().find(|blank| blank.label == label);
    &blank.unwrap_or_else(|| panic!("no blank {label}: {question:?}")).answer
}

/// The length that belongs in a blank, in mm or sixteenths of an inch.
pub(crate) fn length(question: &Question, label: &str) -> f64 {
    match blank_answer(question, label) {
        Answer::Length(steps) => *steps as f64,
        other => panic!("{label} is no length: {other:?}"),
    }
}

/// Whether `answer` is `exact` rounded, with `exact` clear of the rounding edge by 0.05 of a step.
pub(crate) fn rounds_to(exact: f64, answer: f64) {
    assert!((exact - answer).abs() <= 0.45, "{exact} should round to {answer} well clear of the edge");
}

/// One size: its value in mm or in sixteenths of an inch, and how many words it took. Mixed from the words alone.
fn size(words: &[&str], units: Units) -> Option<(f64, usize)> {
    let clean = |word: &str| word.trim_end_matches([',', ';', '.', ':', '?', ')']).to_owned();
    if units == Units::Mm {
        let number = words.first()?.replace('−', "-").parse().ok()?;
        return (clean(words.get(1)?) == "mm").then_some((number, 2));
    }
    let first = clean(words.first()?);
    let (sign, first_size) = match first.strip_prefix('−') {
        Some(rest) => (-1.0, rest.to_owned()),
        None => (1.0, first.trim_start_matches('+').to_owned()),
    };
    if let Some(feet) = first_size.strip_suffix('\'') {
        let feet: f64 = feet.parse().ok()?;
        let inches = (first == words[0]).then(|| inches(&clean(words.get(1)?))).flatten();
        let taken = if inches.is_some() { 2 } else { 1 };
        return Some((sign * (192.0 * feet + 16.0 * inches.unwrap_or(0.0)), taken));
    }
    Some((sign * 16.0 * inches(&first_size)?, 1))
}

/// `6-1/2"`, `1/2"`, `6"`.
fn inches(word: &str) -> Option<f64> {
    let word = word.strip_suffix('"')?;
    let fraction = |text: &str| -> Option<f64> {
        let (top, bottom) = text.split_once('/')?;
        Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?)
    };
    match word.split_once('-') {
        Some((whole, part)) => Some(whole.parse::<f64>().ok()? + fraction(part)?),
        None => fraction(word).or_else(|| word.parse().ok()),
    }
}

/// Every size in a text that stands right after `before`, in order.
pub(crate) fn sizes_after(text: &str, before: &str, units: Units) -> Vec<f64> {
    text.match_indices(before)
        .filter_map(|(at, _)| {
            let words: Vec<&str> = text[at + before.len()..].split_whitespace().take(2).collect();
            size(&words, units).map(|(value, _)| value)
        })
        .collect()
}

/// The one size after `before`.
pub(crate) fn size_after(text: &str, before: &str, units: Units) -> f64 {
    let sizes = sizes_after(text, before, units);
    assert_eq!(sizes.len(), 1, "one size after `{before}` in `{text}`");
    sizes[0]
}

/// Every size in a text, in order.
pub(crate) fn sizes_in(text: &str, units: Units) -> Vec<f64> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut found = vec![];
    let mut at = 0;
    while at < words.len() {
        match size(&words[at..], units) {
            Some((value, taken)) => {
                found.push(value);
                at += taken;
            }
            None => at += 1,
        }
    }
    found
}

/// The sizes in a text that follow a name of one or two capitals: `AB 7800 mm`, `C -16 mm`.
pub(crate) fn named(text: &str, letters: usize, units: Units) -> Vec<(String, f64)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    (0..words.len())
        .filter(|i| words[*i].len() == letters && words[*i].chars().all(|c| c.is_ascii_uppercase()))
        .filter_map(|i| Some((words[i].to_owned(), size(&words[i + 1..], units)?.0)))
        .collect()
}

/// A plan read from a sketch and from sizes: corners in order, in steps.
#[derive(Debug)]
pub(crate) struct Plan {
    pub(crate) corners: Vec<Point<f64>>,
}

/// Which way each side runs, as (x, y): AB to the right, and at every corner to the right again but at the inward ones that
/// the words name. The sketch, where there is one, shows the same.
pub(crate) fn directions(question: &Question) -> Vec<(f64, f64)> {
    let inward: Vec<char> = match question.given.split_once("inward corner") {
        Some((_, rest)) => {
            let ends = [":", " as taped", ", none"].map(|end| rest.find(end).unwrap_or(rest.len()));
            let named = &rest[..ends.into_iter().min().unwrap()];
            named.chars().filter(char::is_ascii_uppercase).collect()
        }
        None => vec![],
    };
    let n = match question.given.split_once(' ').map_or("", |(shape, _)| shape.trim_end_matches(':')) {
        "L" => 6,
        "T" => 8,
        _ => 4,
    };
    let mut way = (1.0, 0.0);
    let ways: Vec<(f64, f64)> = (0..n)
        .map(|i| {
            let here = way;
            let next = char::from(b'A' + u8::try_from((i + 1) % n).unwrap());
            let (x, y) = way;
            way = if inward.contains(&next) { (y, -x) } else { (-y, x) };
            here
        })
        .collect();
    assert_eq!(way, (1.0, 0.0), "it goes round once: {question:?}");
    if !question.sketch.is_empty() {
        assert_eq!(ways, drawn_directions(&question.sketch), "{question:?}");
    }
    ways.into_iter().map(|(x, y)| (x + 0.0, y + 0.0)).collect()
}

/// Which way each side runs, read from where the letters stand in the sketch.
fn drawn_directions(sketch: &[String]) -> Vec<(f64, f64)> {
    let mut letters: Vec<(char, f64, f64)> = vec![];
    for (row, line) in sketch.iter().enumerate() {
        for (column, c) in line.chars().enumerate() {
            if c.is_ascii_uppercase() {
                letters.push((c, column as f64, row as f64));
            }
        }
    }
    letters.sort_by_key(|(letter, _, _)| *letter);
    let n = letters.len();
    (0..n)
        .map(|i| {
            let ((_, x, y), (_, to_x, to_y)) = (letters[i], letters[(i + 1) % n]);
            assert!((x == to_x) != (y == to_y), "a side runs across or down: {sketch:?}");
            let sign = |d: f64| if d == 0.0 { 0.0 } else { d.signum() };
            (sign(to_x - x), sign(to_y - y))
        })
        .collect()
}

/// The name of side `i` of `n`.
pub(crate) fn side_name(i: usize, n: usize) -> String {
    let letter = |i: usize| char::from(b'A' + u8::try_from(i % n).unwrap());
    format!("{}{}", letter(i), letter(i + 1))
}

impl Plan {
    /// From the sketch and the sizes given; at most one side across and one down may be missing, and none may be given
    /// that doesn't close.
    pub(crate) fn read(question: &Question, units: Units) -> Self {
        let given = named(&question.given, 2, units);
        let directions = directions(question);
        let n = directions.len();
        let mut sides: Vec<Option<f64>> = (0..n)
            .map(|i| given.iter().find(|(name, _)| *name == side_name(i, n)).map(|(_, size)| *size))
            .collect();
        if n == 4 {
            // A rectangle is given by AB and BC.
            sides[2] = sides[2].or(sides[0]);
            sides[3] = sides[3].or(sides[1]);
        }
        for across in [true, false] {
            let on_axis: Vec<usize> = (0..n).filter(|i| (directions[*i].1 == 0.0) == across).collect();
            let along = |i: usize| directions[i].0 + directions[i].1;
            let sum: f64 = on_axis.iter().filter_map(|i| sides[*i].map(|side| along(*i) * side)).sum();
            let missing: Vec<usize> = on_axis.iter().copied().filter(|i| sides[*i].is_none()).collect();
            match missing[..] {
                [] => assert_eq!(sum, 0.0, "the sides close: {question:?}"),
                [one] => sides[one] = Some(-sum * along(one)),
                _ => panic!("two sides missing one way: {question:?}"),
            }
        }
        let sides: Vec<f64> = sides.into_iter().map(Option::unwrap).collect();
        assert!(sides.iter().all(|side| *side > 0.0), "an impossible side: {question:?}");
        Self { corners: walk(&directions, &sides) }
    }

    /// The distance between two corners by their letters.
    pub(crate) fn distance(&self, line: &str) -> f64 {
        distance(&self.corners, line)
    }
}

/// The corners that sides lead to.
pub(crate) fn walk(directions: &[(f64, f64)], sides: &[f64]) -> Vec<Point<f64>> {
    let mut at = Point::new(0.0, 0.0);
    directions
        .iter()
        .zip(sides)
        .map(|((dx, dy), side)| {
            let here = at;
            at += Point::new(dx * side, dy * side);
            here
        })
        .collect()
}

/// The distance between two corners by their letters, by the geometry crate.
pub(crate) fn distance(corners: &[Point<f64>], line: &str) -> f64 {
    let ends: Vec<usize> = line.bytes().map(|letter| usize::from(letter - b'A')).collect();
    Euclidean.distance(corners[ends[0]], corners[ends[1]])
}

/// The word after `before` in a text.
pub(crate) fn word_after<'a>(text: &'a str, before: &str) -> &'a str {
    let at = text.find(before).unwrap_or_else(|| panic!("`{before}` in `{text}`"));
    let rest = &text[at + before.len()..];
    rest.split([' ', ',', '.', '?', ';']).next().unwrap()
}
