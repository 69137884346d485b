//! A job a line in, an answer a line out: in order, whatever each of them takes, and as soon as it is there.

use std::io::{BufRead, BufReader, Write};
use std::process::{Child, Command, Stdio};

use serde_json::{Value, json};

use crate::program::pegline;

/// A batch that waits for its first line.
fn running() -> Child {
    Command::new(assert_cmd::cargo::cargo_bin!("pegline"))
        .args(["batch", "diagonals"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

fn rectangle(across: u32) -> Value {
    json!({ "plan": format!("{across}x4000") })
}

/// Many different lengths out of many: a second and more of search, as much as it is given.
fn slow() -> Value {
    let pieces: Vec<Value> = (0..40).map(|i| json!({"length": 701 + 37 * i, "count": 3})).collect();
    let lengths: Vec<Value> = (0..12)
        .map(|i| json!({"length": 2400 + 307 * i, "price": format!("{}.{:02}", 7 + i, (i * 37) % 100)}))
        .collect();
    json!({"plan": "1000x4000", "cuts": {"pieces": pieces, "seconds": 0.5}, "stock": {"lengths": lengths}})
}

#[test]
fn answers_keep_the_order_of_the_lines_behind_a_slow_one() {
    let easy = json!({"plan": "1000x4000", "cuts": {"pieces": [{"length": 900}]}, "stock": {"lengths": [{"length": 3000}]}});
    let mut lines = vec![slow().to_string()];
    for line in 2..=3000 {
        if line % 500 == 0 {
            lines.push("not a job".to_owned());
        } else {
            lines.push(easy.to_string());
        }
    }
    let ran = pegline(["batch", "cuts"]).input(lines.join("\n")).run();
    assert_eq!((ran.code, ran.err.as_str()), (1, ""));
    let answers: Vec<Value> = ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), 3000);
    assert!(answers[0]["result"]["bars"].as_array().unwrap().len() > 1);
    for (line, answer) in (1..).zip(&answers) {
        let bad = line > 1 && line % 500 == 0;
        let told = answer["error"]["line"].as_u64();
        assert_eq!(told, bad.then_some(line), "line {line}");
    }
}

#[test]
fn an_answer_comes_before_the_next_line_is_written() {
    let mut batch = running();
    let mut input = batch.stdin.take().unwrap();
    let mut answers = BufReader::new(batch.stdout.take().unwrap()).lines();
    for across in [3000, 5000, 7000] {
        writeln!(input, "{}", rectangle(across)).unwrap();
        input.flush().unwrap();
        let answer: Value = serde_json::from_str(&answers.next().unwrap().unwrap()).unwrap();
        assert_eq!(answer["plan"]["corners"][1]["x"], f64::from(across));
    }
    drop(input);
    assert!(answers.next().is_none());
    assert!(batch.wait().unwrap().success());
}

#[test]
fn a_reader_that_goes_away_ends_it() {
    let mut batch = running();
    let mut input = batch.stdin.take().unwrap();
    drop(batch.stdout.take());
    // Until the pipe closes at the other end: it must, though lines are still coming.
    let line = format!("{}\n", rectangle(6000));
    let wrote = (0..1_000_000).find(|_| input.write_all(line.as_bytes()).is_err());
    assert!(wrote.is_some(), "still reading after a million lines");
    batch.wait().unwrap();
}
