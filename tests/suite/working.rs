//! The working of every answer ends at a figure of the answer.

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

/// Every board of every job in millimetres.
fn boards() -> Vec<Board> {
    let mut boards = vec![];
    for worked in jobs() {
        for command in COMMANDS {
            let told = pegline([command, "--job", "-", "--working", "--json"]).input(worked.job.to_string());
            let json: Value = serde_json::from_str(&told.run().out).unwrap();
            if json["units"] != "mm" {
                continue;
            }
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
        Value::Array(list) => list.iter().for_each(|one| numbers_in(one, found)),
        Value::Object(map) => map.values().for_each(|one| numbers_in(one, found)),
        _ => {}
    }
}

/// Half of a figure's last place, and the figure.
fn figure(text: &str) -> Option<(f64, f64)> {
    let places = text.split_once('.').map_or(0, |(_, places)| places.len());
    Some((text.parse().ok()?, 0.501 * 0.1_f64.powi(i32::try_from(places).ok()?)))
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
        let figures = |text: &str| -> Vec<(f64, f64)> {
            text.split([' ', ',', ';']).filter_map(|word| figure(word.trim_end_matches('°'))).collect()
        };
        // What is made of a sum, or stands behind it, or else the last figure of a sentence.
        let made = last.rsplit_once(", so ").and_then(|(_, made)| figures(made).first().copied());
        let behind = last.rsplit_once(" = ").and_then(|(_, behind)| figures(behind).first().copied());
        let end = made.or(behind).or_else(|| figures(last).last().copied());
        let Some((end, half)) = end else { continue };
        let known = board.figures.iter().any(|figure| (figure.abs() - end.abs()).abs() <= half);
        assert!(known, "{} {}: {last}", board.command, board.title);
        ends += 1;
    }
    assert!(ends > 200, "{ends} boards");
}
