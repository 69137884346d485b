//! Input without measure: what is too large is refused by its size, and what is just within answers.

use insta::assert_snapshot;
use pegline::length::Units;
use pegline::plan::{parse_expression, parse_walk};

use crate::program::pegline;

/// One line of what was said, cut short: messages never repeat an endless word whole.
fn short(said: &str) -> &str {
    assert!(said.len() < 400, "{} bytes: {}", said.len(), &said[..200]);
    said
}

#[test]
fn a_plan_of_a_megabyte_is_refused() {
    let ways = [
        format!("7800x6000{}", "-1x1".repeat(250_000)),
        format!("{}x6000", "9".repeat(1_000_000)),
        format!("7800x6000@{}", "x".repeat(1_000_000)),
        "(".repeat(1_000_000),
        " ".repeat(1_000_000),
    ];
    for plan in ways {
        let error = parse_expression(&plan, Units::Mm).unwrap_err().to_string();
        short(&error);
    }
    let walk = "1000 R ".repeat(150_000);
    short(&parse_walk(&walk, Units::Mm).unwrap_err().to_string());
    // The system takes no argument of a megabyte, but a job may hold one.
    let job = format!(r#"{{"plan": "7800x6000{}"}}"#, "-1x1".repeat(250_000));
    let said = pegline(["diagonals", "--job", "-"]).input(job).refusal();
    assert!(said.lines().next().unwrap().len() < 400);
}

#[test]
fn ten_thousand_readings_are_refused_by_their_number() {
    let taped = vec!["AB=7802"; 10_000].join(",");
    let said = pegline(["readings", "7800x6000", "--read", &taped]).refusal();
    assert_snapshot!(short(&said));
    let levels = vec!["A=1412"; 10_000].join(",");
    let said = pegline(["packs", "7800x6000", "--staff", &levels]).refusal();
    assert_snapshot!(short(&said));
    let drops = vec!["2398"; 10_000].join(",");
    let said = pegline(["heights", "--level-depth", "50", "--drop", &drops]).run();
    short(&said.err);
    let blocks: Vec<String> = (0..10_000).map(|at| format!("{}=20", f64::from(at) / 10.0)).collect();
    let ran = pegline(["straight", "--block", "20", "--read", &blocks.join(","), "--format", "csv"]).run();
    short(&ran.err);
    assert!(ran.code == 2 || ran.out.lines().count() >= 10_000, "{}", ran.code);
}

#[test]
fn more_bars_than_a_lorry_carries_are_refused_by_their_number() {
    let said = pegline(["cuts", "--pieces", "100000x1200", "--stock", "3000"]).refusal();
    assert_snapshot!(short(&said));
    let said = pegline([
        "cuts",
        "--pieces",
        "18446744073709551615x1200,18446744073709551615x1300",
        "--stock",
        "3000",
    ])
    .refusal();
    assert_snapshot!(short(&said));
    let said = pegline(["plates", "900mx900m", "--width", "140", "--stock", "2.4m"]).refusal();
    assert_snapshot!(short(&said));
    // Bars without number in the van are as many as can be used.
    let answer = pegline(["cuts", "--pieces", "3x1200", "--have", "100000x2400", "--json"]).json();
    assert_eq!(answer["result"]["bars"].as_array().unwrap().len(), 3);
    let lengths: Vec<String> = (0..100).map(|place| (3000 + place).to_string()).collect();
    let said = pegline(["cuts", "--pieces", "3x1200", "--stock", &lengths.join(",")]).refusal();
    assert_snapshot!(short(&said));
}

/// Lengths that share no divisor, prices that share none, many counted bars: the steps run out, and there is an answer.
#[test]
fn stock_made_to_be_slow_is_answered_with_its_gap() {
    let stock: Vec<String> = (0..40)
        .map(|place| {
            format!("{}.{}:{}.{:02}", 3001 + 97 * place, place % 9 + 1, 9 + place, (place * 37) % 100)
        })
        .collect();
    let have: Vec<String> = (0..20).map(|place| format!("9x{}.3", 2003 + 53 * place)).collect();
    let pieces: Vec<String> =
        (0..60).map(|place| format!("{}x{}.{}", 3 + place % 20, 307 + 41 * place, place % 9 + 1)).collect();
    let (stock, have, pieces) = (stock.join(","), have.join(","), pieces.join(","));
    let answer = pegline([
        "cuts",
        "--pieces",
        &pieces,
        "--stock",
        &stock,
        "--have",
        &have,
        "--seconds",
        "0.1",
        "--json",
    ])
    .json();
    assert!(answer["result"]["bound"].as_f64().unwrap() <= answer["result"]["cost"].as_f64().unwrap());
    let answer = pegline([
        "plates",
        "26000x9000-1700x1310@tl-1900x1170@tr-2100x1230@bl-2300x1410@br",
        "--width",
        "140",
        "--binder",
        "--panels",
        "100",
        "--stock",
        &stock,
        "--have",
        &have,
        "--seconds",
        "0.1",
        "--json",
    ])
    .json();
    assert!(answer["result"]["runs"].as_array().unwrap().len() >= 24);
}

#[test]
fn a_job_file_over_a_mebibyte_is_refused_and_one_just_under_is_read() {
    let job = |length: usize| {
        let head = r#"{"plan": "7800x6000""#;
        format!("{head}{}}}", " ".repeat(length - head.len() - 1))
    };
    let said = pegline(["diagonals", "--job", "-"]).input(job((1 << 20) + 1)).refusal();
    assert_snapshot!(short(&said));
    let answer = pegline(["diagonals", "--job", "-", "--json"]).input(job(1 << 20)).json();
    assert_eq!(answer["plan"]["perimeter"], 27600.0);
}

/// The line has no end; what is read of it has, and the next line is answered.
#[test]
fn an_endless_line_is_passed_over_and_the_next_one_answered() {
    let mut lines = vec![b'{'; 20 << 20];
    lines.extend_from_slice(b"\n{\"plan\": \"7800x6000\"}\n");
    let ran = pegline(["batch", "diagonals"]).input(lines).run();
    assert_eq!((ran.code, ran.err.as_str()), (1, ""));
    let answers: Vec<serde_json::Value> =
        ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), 2);
    assert_eq!(answers[0]["error"]["line"], 1);
    assert_snapshot!(answers[0]["error"]["message"].as_str().unwrap());
    assert_eq!(answers[1]["plan"]["perimeter"], 27600.0);
}

#[test]
fn json_nested_without_end_is_refused() {
    for (open, close) in [("[", "]"), (r#"{"plan":"#, "}")] {
        let job = format!(r#"{{"name": {}1{}}}"#, open.repeat(100_000), close.repeat(100_000));
        let said = pegline(["diagonals", "--job", "-"]).input(job).refusal();
        assert!(said.lines().next().unwrap().contains("this is not JSON"), "{}", &said[..200]);
        let sheet = format!(r#"{{"answers": {}1{}}}"#, open.repeat(100_000), close.repeat(100_000));
        short(&pegline(["practice", "--mark", "-"]).input(sheet).refusal());
    }
}
