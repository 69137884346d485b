//! The working of every answer ends at a figure of the answer.

use pegline::practice::Topic;
use serde_json::Value;

use crate::answers_support::jobs;
use crate::program::pegline;

/// The commands that show their working.
const COMMANDS: [&str; 11] = [
    "diagonals",
    "corners",
    "lines",
    "plates",
    "cuts",
    "readings",
    "straight",
    "packs",
    "heights",
    "joists",
    "order",
];

/// A board: its command, its title, its steps, and the answer's figures.
struct Board {
    command: &'static str,
    title: String,
    steps: Vec<String>,
    figures: Vec<f64>,
}

/// Every board of every job.
fn boards() -> Vec<Board> {
    let mut boards = vec![];
    for worked in jobs() {
        for command in COMMANDS {
            let told = pegline([command, "--job", "-", "--working", "--json"]).input(worked.job.to_string());
            let json: Value = serde_json::from_str(&told.run().out).unwrap();
            let mut figures = vec![];
            numbers_in(&json["result"], &mut figures);
            for board in json["working"].as_array().unwrap() {
                let steps = board["steps"].as_array().unwrap().iter();
                boards.push(Board {
                    command,
                    title: board["title"].as_str().unwrap().to_owned(),
                    steps: steps.map(|step| ungrouped(&step.as_str().unwrap().replace('−', "-"))).collect(),
                    figures: figures.clone(),
                });
            }
        }
    }
    boards
}

fn numbers_in(json: &Value, found: &mut Vec<f64>) {
    match json {
        Value::Number(number) => found.extend(number.as_f64()),
        Value::Array(list) => {
            for one in list {
                numbers_in(one, found);
            }
            // A stack of packers is as thick as all of them.
            found.push(list.iter().filter_map(Value::as_f64).sum());
        }
        Value::Object(map) => map.values().for_each(|one| numbers_in(one, found)),
        _ => {}
    }
}

/// A figure, and half of its last place.
type Figure = (f64, f64);

fn figure(text: &str) -> Option<Figure> {
    let places = text.split_once('.').map_or(0, |(_, places)| places.len());
    Some((text.parse().ok()?, 0.501 * 0.1_f64.powi(i32::try_from(places).ok()?)))
}

/// Inches and sixteenths without their mark: `3-1/2`, `7/16`, `5`.
fn inches(text: &str) -> Option<f64> {
    let (negative, text) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
    let (whole, part) =
        text.rsplit_once('-').unwrap_or(if text.contains('/') { ("0", text) } else { (text, "0/1") });
    let (top, bottom) = part.split_once('/')?;
    let size = whole.parse::<f64>().ok()? + top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?;
    Some(if negative { -size } else { size })
}

/// The figures of a text, each as it stands and, where it has a unit of length, in millimetres.
fn figures(text: &str) -> Vec<Vec<Figure>> {
    // A mark of 1/16 in stands for half of one either way.
    let marks = |inches: f64| vec![(inches * 25.4, 25.4 / 32.0 + 1e-6)];
    let words: Vec<&str> = text.split([' ', ',', ';']).filter(|word| !word.is_empty()).collect();
    let mut all = vec![];
    for (i, word) in words.iter().enumerate() {
        let feet = |word: &str| word.strip_suffix('\'').and_then(|feet| feet.parse::<f64>().ok());
        let inch = |word: &&str| word.strip_suffix('"').and_then(inches);
        if let Some(feet) = feet(word) {
            let over = words.get(i + 1).and_then(inch).unwrap_or(0.0);
            all.push(marks(feet * 12.0 + over.copysign(feet)));
        } else if let Some(inches) = inch(word) {
            if i == 0 || feet(words[i - 1]).is_none() {
                all.push(marks(inches));
            }
        } else if let Some((value, half)) = figure(word.trim_end_matches('°')) {
            let per = match words.get(i + 1) {
                Some(&"m") => 1000.0,
                Some(&"in") => 25.4,
                Some(&"ft") => 304.8,
                _ => 1.0,
            };
            // What is cut is known to a tenth of a millimetre.
            all.push(vec![(value, half), (value * per, half.mul_add(per, 0.051))]);
        }
    }
    all
}

/// Digits in threes put together again.
fn ungrouped(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let digit = |i: usize| signs.get(i).is_some_and(char::is_ascii_digit);
    let gap = |i: usize| {
        signs[i] == ' ' && i > 0 && digit(i - 1) && (1..=3).all(|on| digit(i + on)) && !digit(i + 4)
    };
    (0..signs.len()).filter(|i| !gap(*i)).map(|i| signs[i]).collect()
}

#[test]
fn each_board_ends_at_a_figure_of_the_answer() {
    let mut ends = 0;
    for board in boards() {
        // One ends with what a triangle of half the size would show, one with a corner before the answer is fitted.
        let is_other = board.command == "corners" && board.title.starts_with("Corner ");
        if is_other || board.title.starts_with("Why ") || board.title.ends_with("before fitting") {
            continue;
        }
        let last = board.steps.last().unwrap();
        // What is made of a sum, or what stands behind it, or else the last figure of a sentence.
        let made = last.rsplit_once(", so ").map(|(_, made)| figures(made)).unwrap_or_default();
        let behind = last.rsplit_once(" = ").map(|(_, behind)| figures(behind)).unwrap_or_default();
        let any = figures(last);
        let Some(ends_with) = [made.get(..1), Some(&behind[..]), any.last().map(std::slice::from_ref)]
            .into_iter()
            .flatten()
            .find(|ends| !ends.is_empty())
        else {
            continue;
        };
        let is = |known: f64, (end, half): &Figure| (known.abs() - end.abs()).abs() <= *half;
        let known = board.figures.iter().any(|figure| ends_with.iter().flatten().any(|end| is(*figure, end)));
        assert!(known, "{} {}: {last}", board.command, board.title);
        ends += 1;
    }
    assert!(ends > 200, "{ends} boards");
}

/// A keyboard's hyphen before a figure, which is a minus of another kind.
fn other_minus(page: &str) -> Option<&str> {
    page.lines().find(|line| {
        let signs: Vec<char> = line.chars().collect();
        signs.windows(3).any(|three| matches!(three, [' ' | '(', '-', digit] if digit.is_ascii_digit()))
    })
}

#[test]
fn there_is_one_kind_of_minus_on_every_page() {
    let mut minuses = 0;
    for worked in jobs() {
        for command in COMMANDS {
            for more in [&["--full", "--working"][..], &["--json"]] {
                let args = [command, "--job", "-"].into_iter().chain(more.iter().copied());
                let out = pegline(args).input(worked.job.to_string()).run().out;
                // A number of JSON stands behind its key, and a text in quotes.
                let out = out.replace("\": -", "");
                let texts = out.lines().filter(|line| more[0] != "--json" || line.contains('"'));
                let texts = texts.collect::<Vec<_>>().join("\n");
                assert_eq!(other_minus(&texts), None, "{command} of {}", worked.job);
                assert!(!texts.contains("+−"), "{texts}");
                minuses += texts.matches('−').count();
            }
        }
    }
    assert!(minuses > 100, "{minuses}");
    for topic in Topic::ALL {
        for units in ["mm", "ft-in"] {
            for more in [&[][..], &["--answers"], &["--format", "csv"], &["--answers", "--html"]] {
                let level = ["practice", topic.name(), "--level", "3", "--units", units, "--count", "12"];
                let sheet = pegline(level.into_iter().chain(more.iter().copied())).answer();
                assert_eq!(other_minus(&sheet), None, "{} {units}", topic.name());
            }
        }
    }
}
