//! `pegline practice` from outside: exit codes, formats, widths, and sheets frozen so that a change of the generator is
//! seen.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use serde_json::Value;

use crate::practice_support::TOPICS;
use crate::program::pegline;

fn printed(args: &[&str]) -> String {
    pegline(args).answer()
}

/// What marking says and its exit code.
fn marked(sheet: &str, more: &[&str]) -> (String, i32) {
    let ran = pegline([&["practice", "--mark", "-"], more].concat()).input(sheet).run();
    let said = if ran.out.is_empty() { ran.err } else { ran.out };
    (said, ran.code)
}

#[test]
fn a_json_sheet_filled_from_its_json_answers_is_all_right() {
    for topic in TOPICS {
        for more in [&["--units", "mm"], &["--units", "ft-in"]] {
            let args = [&["practice", topic, "--level", "3", "--seed", "5", "--json"], &more[..]].concat();
            let mut sheet: Value = serde_json::from_str(&printed(&args)).unwrap();
            let answers: Value =
                serde_json::from_str(&printed(&[&args[..], &["--answers"]].concat())).unwrap();
            assert!(!sheet.to_string().contains("\"answer\":"), "a sheet doesn't tell its answers");
            for question in answers["result"]["questions"].as_array().unwrap() {
                let blanks = question["blanks"].as_array().unwrap();
                let texts: Vec<Value> = blanks.iter().map(|blank| blank["text"].clone()).collect();
                let number = question["number"].to_string();
                let to_fill = &mut sheet["result"]["answers"][number.as_str()];
                assert_eq!(to_fill.is_array(), texts.len() > 1, "the form has a place for each blank");
                *to_fill = if texts.len() > 1 { Value::Array(texts) } else { texts[0].clone() };
            }
            let (said, code) = marked(&sheet.to_string(), &["--json"]);
            assert_eq!(code, 0, "{said}");
            let marks: Value = serde_json::from_str(&said).unwrap();
            assert_eq!(marks["result"]["verdict"], "right");
            assert_eq!(marks["result"]["right"], 8);
            assert_eq!(marks["command"], "practice");
        }
    }
}

#[test]
fn a_wrong_or_missing_answer_exits_with_1_and_an_unreadable_sheet_with_2() {
    let sheet = printed(&["practice", "diagonals", "--seed", "7", "--count", "1"]);
    let (said, code) = marked(&sheet, &[]);
    assert_eq!(code, 1);
    assert!(said.starts_with("0 of 1 right\n"), "{said}");
    let (said, code) = marked(&sheet.replace("________", "17250"), &[]);
    assert_eq!(code, 1);
    assert!(said.contains("1, BD: the two sides added, not their squares"), "{said}");
    let (said, code) = marked(&sheet.replace("________", "12750"), &[]);
    assert_eq!((code, said.lines().next()), (0, Some("All right: 1 of 1")));
    let (said, code) = marked(&sheet.replace("________", "long"), &[]);
    assert_eq!(code, 1);
    assert!(said.contains("long   12750 mm   not read"), "{said}");
    assert!(said.contains("Note: line 15: question 1, BD: `long` is not a length"), "{said}");
    let (said, code) = marked(r#"{"topic": "diagonals", "level": "one"}"#, &[]);
    assert_eq!(code, 2);
    assert!(
        said.starts_with("error: standard input:1:37: level: a value of another kind belongs here"),
        "{said}"
    );
}

#[test]
fn a_sheet_is_refused_with_what_to_write_instead() {
    for (args, said) in [
        (&["practice"][..], "TOPIC is missing"),
        (
            &["practice", "stairs"],
            "no topic `stairs`: write diagonals, corners, plates, packs, heights, misread, lines, straight, readings, joists or mixed",
        ),
        (&["practice", "packs", "--level", "4"], "no level `4`: write 1, 2 or 3"),
        (&["practice", "packs", "--count", "51"], "`51` questions: write a number from 1 to 50"),
        (&["practice", "packs", "--units", "m"], "no practice sheet is made in `m`: write mm or ft-in"),
        (&["practice", "packs", "--mark", "x"], "TOPIC can't stand with --mark"),
        (&["practice", "--mark", "/nowhere"], "reading the filled sheet from /nowhere"),
    ] {
        let error = pegline(args).refusal();
        assert!(error.contains(said), "{error}");
    }
}

#[test]
fn every_page_keeps_to_80_columns_and_to_ascii_when_asked() {
    for topic in TOPICS {
        for units in ["mm", "ft-in"] {
            for level in ["1", "2", "3"] {
                let args = [
                    "practice",
                    topic,
                    "--level",
                    level,
                    "--units",
                    units,
                    "--seed",
                    "4294967295",
                    "--count",
                    "50",
                ];
                for more in [&["--ascii"][..], &["--ascii", "--answers"]] {
                    let page = printed(&[&args[..], more].concat());
                    assert!(page.is_ascii());
                    for line in page.lines() {
                        assert!(line.len() <= 80, "{line}");
                        assert!(!line.contains('?') || line.contains("? ") || line.ends_with('?'), "{line}");
                    }
                }
                let (page, _) = marked(&printed(&args), &["--ascii"]);
                assert!(page.lines().all(|line| line.len() <= 80), "{page}");
            }
        }
    }
}

#[test]
fn a_shorter_sheet_is_the_start_of_a_longer_one() {
    let questions = |count: &str| -> Vec<Value> {
        let args = ["practice", "misread", "--level", "3", "--seed", "11", "--count", count, "--json"];
        let sheet: Value = serde_json::from_str(&printed(&args)).unwrap();
        sheet["result"]["questions"].as_array().unwrap().clone()
    };
    assert_eq!(questions("3")[..], questions("12")[..3]);
}

/// Two seeds of every topic. If these change, the edition of the generator goes up.
#[test]
fn the_sheets_of_two_seeds_are_what_they_were() {
    for (seed, units) in [("7", "mm"), ("2024", "ft-in")] {
        let mut sheets = String::new();
        for topic in TOPICS {
            for level in ["1", "2", "3"] {
                let args =
                    ["practice", topic, "--level", level, "--seed", seed, "--units", units, "--count", "3"];
                sheets += &printed(&args);
                sheets.push('\n');
            }
        }
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/practice-seed-");
        let path = format!("{path}{seed}.txt");
        if std::env::var_os("PEGLINE_REWRITE").is_some() {
            std::fs::write(&path, &sheets).unwrap();
        }
        let frozen = std::fs::read_to_string(&path).unwrap();
        for (was, is) in frozen.lines().zip(sheets.lines()) {
            assert_eq!(
                was, is,
                "the generator gives another sheet: its EDITION goes up, then PEGLINE_REWRITE=1"
            );
        }
        assert_eq!(frozen.len(), sheets.len());
    }
}

#[test]
fn a_blank_whose_name_was_changed_is_told_to_keep_it() {
    let sheet = printed(&["practice", "plates", "--seed", "7", "--count", "1"]);
    let blank = "run AB = ________";
    assert!(sheet.contains(blank));
    let told = "the name before the = must stay";
    let (missing, code) = marked(&sheet.replace(blank, "AB = 7060"), &[]);
    assert!(code == 1 && missing.contains(told), "{missing}");
    let (wrong, code) = marked(&sheet.replace(blank, "run AB = 1"), &[]);
    assert!(code == 1 && !wrong.contains(told), "{wrong}");
}
