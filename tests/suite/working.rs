//! The working of every answer: each sum on the board comes out at what is written behind it, and ends at the answer.

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
                    steps: steps.map(|step| step.as_str().unwrap().replace('−', "-")).collect(),
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

/// A sum read from a board.
struct Sum<'a> {
    rest: &'a str,
    operators: usize,
    multiplies: bool,
}

impl Sum<'_> {
    /// The value of `text` if all of it is a sum, and whether its operands may have been rounded to be multiplied.
    fn value(text: &str) -> Option<(f64, bool)> {
        let without_units: Vec<&str> =
            text.split(' ').filter(|word| !word.starts_with(char::is_alphabetic)).collect();
        let text = without_units.concat();
        let mut sum = Sum { rest: &text, operators: 0, multiplies: false };
        let value = sum.terms()?;
        (sum.rest.is_empty() && sum.operators > 0).then_some((value, sum.multiplies))
    }

    fn takes(&mut self, sign: char) -> bool {
        let taken = self.rest.strip_prefix(sign);
        self.rest = taken.unwrap_or(self.rest);
        taken.is_some()
    }

    fn terms(&mut self) -> Option<f64> {
        let mut value = self.factors()?;
        loop {
            if self.takes('+') {
                value += self.factors()?;
            } else if self.takes('-') {
                value -= self.factors()?;
            } else {
                return Some(value);
            }
            self.operators += 1;
        }
    }

    fn factors(&mut self) -> Option<f64> {
        let mut value = self.operand()?;
        loop {
            if self.takes('×') {
                value *= self.operand()?;
            } else if self.takes('÷') || self.takes('/') {
                value /= self.operand()?;
            } else {
                return Some(value);
            }
            self.operators += 1;
            self.multiplies = true;
        }
    }

    fn operand(&mut self) -> Option<f64> {
        if self.takes('√') {
            self.operators += 1;
            return Some(self.operand()?.sqrt());
        }
        if self.takes('(') {
            let value = self.terms()?;
            return self.takes(')').then_some(value);
        }
        let negative = self.takes('-');
        let end = self.rest.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(self.rest.len());
        let (figure, rest) = self.rest.split_at(end);
        self.rest = rest;
        figure.parse::<f64>().ok().map(|value| if negative { -value } else { value })
    }
}

/// Half of a figure's last place, and the figure.
fn figure(text: &str) -> Option<(f64, f64)> {
    let places = text.split_once('.').map_or(0, |(_, places)| places.len());
    Some((text.parse().ok()?, 0.501 * 0.1_f64.powi(i32::try_from(places).ok()?)))
}

#[test]
fn every_sum_on_a_board_comes_out_at_what_is_written_behind_it() {
    let mut sums = 0;
    for board in boards() {
        for step in &board.steps {
            let sum = step.rsplit(": ").next().unwrap();
            let parts: Vec<&str> = sum.split(" = ").collect();
            for pair in parts.windows(2) {
                let behind = pair[1].trim_end_matches(',');
                // A slope is told in another unit than its sum.
                let same_unit = !behind.ends_with("in a metre");
                let result = behind.split([' ', ',']).next().and_then(figure).filter(|_| same_unit);
                let (Some((value, multiplies)), Some((result, half))) = (Sum::value(pair[0]), result) else {
                    continue;
                };
                let within = if multiplies { half + value.abs() / 1000.0 } else { half };
                assert!(
                    (value - result).abs() <= within,
                    "{} {}: {step}: {value}",
                    board.command,
                    board.title
                );
                sums += 1;
            }
        }
    }
    assert!(sums > 1000, "{sums} sums");
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
