//! `pegline lines` and `pegline straight` as they are run.

use std::process::{Command, Output, Stdio};

use approx::assert_relative_eq;
use serde_json::Value;

/// Runs the program, with nothing on its standard input.
pub(crate) fn run(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pegline"))
        .args(args)
        .stdin(Stdio::null())
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap()
}

fn json(args: &[&str]) -> Value {
    let output = run(&[args, &["--json"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

const WALL: [&str; 10] = [
    "lines",
    "7800x6000-3000x2400",
    "--house",
    "AB",
    "--setback",
    "1m",
    "--layers",
    "skin=102,cavity=50,plate=140",
    "--footing",
    "600",
];

#[test]
fn lines_tells_every_board_and_mark_in_json() {
    let answer = json(&WALL);
    assert_eq!(answer["command"], "lines");
    let cd = &answer["result"]["lines"][1];
    assert_eq!((&cd["side"], &cd["string_length"]), (&"CD".into(), &9800.into()));
    let board = &cd["boards"][1];
    assert_eq!((&board["at"], &board["setback"]), (&"D".into(), &5800.into()));
    let marks: Vec<(&str, f64)> = board["marks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|mark| (mark["face"].as_str().unwrap(), mark["offset"].as_f64().unwrap()))
        .collect();
    assert_eq!(marks[0], ("footing outer", 306.0));
    assert_eq!(marks[3], ("plate outer", 0.0));
    assert_eq!(marks[5], ("footing inner", -294.0));
    assert_eq!(answer["cautions"][0], "check for buried services before driving pegs");
}

/// By hand: √(6800² + 5600²).
#[test]
fn the_offset_outlines_ad_is_8809_086() {
    let answer = json(&["lines", "7800x6000-3000x2400", "--offset", "1m"]);
    let diagonals = answer["result"]["offset"]["diagonals"].as_array().unwrap();
    let ad = diagonals.iter().find(|d| d["name"] == "AD").unwrap();
    assert_relative_eq!(ad["length"].as_f64().unwrap(), 8809.086, epsilon = 1e-9);
    assert_eq!(answer["result"]["offset"]["by"], 1000);
}

#[test]
fn an_inward_offset_is_written_with_a_minus() {
    let answer = json(&["lines", "6000x4000", "--offset", "-20"]);
    let sides = &answer["result"]["offset"]["sides"];
    assert_eq!((&sides[0]["length"], &sides[1]["length"]), (&5960.into(), &3960.into()));
}

const STRAIGHT: [&str; 7] =
    ["straight", "--side", "CD", "--block", "20", "--read", "0=20,1200=22,2400=17,3600=20"];

#[test]
fn straight_judges_against_the_limit_and_exits_by_it() {
    let good = run(&[&STRAIGHT[..], &["--limit", "3"]].concat());
    assert_eq!(good.status.code(), Some(0));
    let bad = run(&[&STRAIGHT[..], &["--limit", "2"]].concat());
    assert_eq!(bad.status.code(), Some(1));
    let said = String::from_utf8(bad.stdout).unwrap();
    assert!(said.starts_with("Out of line"), "{said}");
    let answer = json(&[&STRAIGHT[..], &["--limit", "3"]].concat());
    let result = &answer["result"];
    assert_eq!((&result["worst"], &result["verdict"]), (&3.into(), &"straight".into()));
    let out: Vec<i64> = result["stations"]
        .as_array()
        .unwrap()
        .iter()
        .map(|station| station["out"].as_i64().unwrap())
        .collect();
    assert_eq!(out, [0, 2, -3, 0]);
}

#[test]
fn with_a_plan_straight_names_the_side_to_tap_toward() {
    let output = run(&[&STRAIGHT[..], &["6000x4000"]].concat());
    let said = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(said.contains("in, toward AB"), "{said}");
}

/// By hand: 600 centres from D; the opening is 500 to 1100 from D, the joint 2400 from C is 3600 from D.
#[test]
fn running_marks_are_measured_from_the_corner_named_first() {
    let answer = json(&[
        "lines",
        "6000x4000",
        "--openings",
        "DC:600@500",
        "--joints",
        "CD:2400",
        "--studs",
        "600",
        "--marks=DC",
    ]);
    let side = &answer["result"]["marks"][0];
    assert_eq!((&side["side"], &side["from"]), (&"DC".into(), &"D".into()));
    let at: Vec<i64> =
        side["marks"].as_array().unwrap().iter().map(|mark| mark["at"].as_i64().unwrap()).collect();
    assert_eq!(at, [0, 500, 1100, 1200, 1800, 2400, 3000, 3600, 4200, 4800, 5400, 6000]);
    assert_eq!(side["studs_in_openings"], 1);
    assert_eq!(side["marks"][7]["things"].as_array().unwrap().len(), 2);
}

#[test]
fn a_job_file_says_the_same_as_options() {
    let job = r#"{
        "plan": "7800x6000-3000x2400", "house": ["AB"],
        "lines": {
            "setback": "1m", "footing": 600,
            "layers": [{"name": "skin", "width": 102}, {"name": "cavity", "width": 50}, {"name": "plate", "width": 140}]
        },
        "straight": {
            "side": "CD", "block": 20, "limit": 3,
            "readings": [{"at": 0, "reading": 20}, {"at": 2400, "reading": 17}, {"at": 1200, "reading": 22}]
        }
    }"#;
    let file = std::env::temp_dir().join(format!("pegline-lines-{}.json", std::process::id()));
    std::fs::write(&file, job).unwrap();
    let path = file.to_str().unwrap();
    let from_file = json(&["lines", "--job", path]);
    assert_eq!(from_file["result"], json(&WALL)["result"]);
    let straight = json(&["straight", "--job", path]);
    std::fs::remove_file(&file).unwrap();
    assert_eq!(straight["result"]["stations"][1]["at"], 1200);
}

#[test]
fn the_starter_job_files_can_be_set_out_and_judged() {
    for shape in ["rectangle", "L", "T", "U"] {
        let starter = run(&["job", "new", shape, "--sample"]).stdout;
        let file = std::env::temp_dir().join(format!("pegline-starter-{shape}-{}.json", std::process::id()));
        std::fs::write(&file, starter).unwrap();
        let path = file.to_str().unwrap();
        let lines = json(&["lines", "--job", path]);
        let straight = json(&["straight", "--job", path]);
        std::fs::remove_file(&file).unwrap();
        assert!(lines["result"]["marks"].is_array(), "{shape}");
        assert_eq!(straight["result"]["verdict"], "straight", "{shape}");
    }
}

#[test]
fn tables_keep_to_80_columns_and_ascii_to_ascii() {
    for extra in [&["--offset", "500"][..], &["--studs", "600", "--working"]] {
        let output = run(&[&WALL[..], extra, &["--ascii"]].concat());
        let said = String::from_utf8(output.stdout).unwrap();
        assert!(said.is_ascii());
        let longest = said.lines().max_by_key(|line| line.chars().count()).unwrap();
        assert!(longest.chars().count() <= 80, "{longest}");
    }
}

#[test]
fn csv_has_a_row_for_every_nail_and_as_many_fields_in_each() {
    let output = run(&[&WALL[..], &["--format", "csv", "--offset", "1m"]].concat());
    let mut reader = csv::Reader::from_reader(&output.stdout[..]);
    let rows: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();
    let count = |what: &str| rows.iter().filter(|row| &row[0] == what).count();
    // Five lines, two ends, six faces; three of the ends are in the house, two of them at the ends of its wall, where
    // the footing's and the skin's three faces stand outside it.
    assert_eq!((count("nail on board"), count("nail in house"), count("nail past house")), (42, 12, 6));
    assert_eq!((count("string"), count("offset side")), (5, 6));
}

#[test]
fn a_string_that_sags_past_a_millimetre_is_warned_of() {
    let said = |pull: &str| {
        let output = run(&["lines", "6000x4000", "--string", "1g/m", "--pull", pull, "--full"]);
        String::from_utf8(output.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // By hand: 8 m between boards, 0.00980665 × 8² ÷ 8 ÷ T: 1.57 mm at 50 N, 0.78 at 100 N.
    assert!(said("50N").contains("hangs 1.6 mm") && said("50N").contains("don't take levels"));
    assert!(said("100N").contains("hangs 0.8 mm") && !said("100N").contains("don't take levels"));
}
