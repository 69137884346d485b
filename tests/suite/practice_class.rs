//! A class: a set drawn for thirty names, filled in, marked together in one run, and printed on paper.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use crate::practice_support::TOPICS;
use crate::program::pegline;

/// A folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("pegline-class-{name}-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn names(count: usize) -> String {
    (1..=count).map(|i| format!("Pupil {i}")).collect::<Vec<_>>().join("\n")
}

fn set(topic: &str, count: usize, more: &[&str]) -> String {
    let args = ["practice", topic, "--class", "-", "--seed", "40", "--count", "4"];
    pegline(args.iter().chain(more)).input(names(count)).answer()
}

#[test]
fn a_class_of_thirty_is_drawn_filled_and_marked_in_one_run() {
    let folder = folder("thirty");
    let printed = set("diagonals", 30, &[]);
    let key: Value = serde_json::from_str(&set("diagonals", 30, &["--answers", "--json"])).unwrap();
    let sheets: Vec<&str> = printed.split('\u{c}').collect();
    assert_eq!(sheets.len(), 30);
    for (i, sheet) in sheets.iter().enumerate() {
        let pupil = &key["result"]["sheets"][i];
        assert_eq!((&pupil["name"], &pupil["seed"]), (&format!("Pupil {}", i + 1).into(), &(40 + i).into()));
        let mut filled = (*sheet).to_owned();
        for question in pupil["questions"].as_array().unwrap() {
            let right = question["blanks"][0]["text"].as_str().unwrap().replace(" mm", "");
            // Every third pupil can't be read once, every fifth leaves the last blank.
            let what = match (i % 3, i % 5, question["number"].as_u64().unwrap()) {
                (0, _, 1) => "dont know",
                (_, 0, 4) => "________",
                _ => &right,
            };
            filled = filled.replacen("________", if what == "________" { "\u{2}" } else { what }, 1);
        }
        fs::write(folder.join(format!("{i:02}.txt")), filled.replace('\u{2}', "________")).unwrap();
    }
    let folder_name = folder.to_str().unwrap();
    let marked = pegline(["practice", "--mark", folder_name, "--json"]).run();
    assert_eq!(marked.code, 1, "{}", marked.err);
    let marks: Value = serde_json::from_str(&marked.out).unwrap();
    let class = &marks["result"];
    // 10 sheets have one answer that can't be read, 6 one that is missing.
    assert_eq!((&class["right"], &class["of"]), (&(120 - 16).into(), &120.into()));
    assert_eq!(class["sheets"][0]["questions"][0]["mark"], "wrong");
    assert_eq!(class["sheets"][0]["questions"][0]["blanks"][0]["mark"], "unread");
    assert_eq!(class["sheets"][29]["name"], "Pupil 30");
    let page = pegline(["practice", "--mark", folder_name]).run().out;
    assert!(page.starts_with("30 sheets marked: 104 of 120 questions right\n"), "{page}");
    let csv = pegline(["practice", "--mark", folder_name, "--format", "csv"]).run().out;
    assert_eq!(csv.lines().count(), 121);
    fs::remove_dir_all(folder).unwrap();
}

#[test]
fn the_commonest_slips_go_on_the_board_and_a_file_that_is_no_sheet_stops_nothing() {
    let folder = folder("board");
    for (i, sheet) in set("heights", 4, &[]).split('\u{c}').enumerate() {
        // The drop itself: the level's own depth forgotten, on every sheet and in every question.
        let mut filled = sheet.to_owned();
        for given in sheet.lines().filter(|line| line.starts_with("Drop ")) {
            let drop = given.split(' ').nth(1).unwrap();
            filled = filled.replacen("________", drop, 1);
        }
        fs::write(folder.join(format!("{i}.txt")), filled).unwrap();
    }
    fs::write(folder.join("9-notes.txt"), "no sheet at all").unwrap();
    let marked = pegline(["practice", "--mark", folder.to_str().unwrap()]).run();
    assert_eq!(marked.code, 2);
    assert!(marked.err.contains("9-notes.txt: there is no head line"), "{}", marked.err);
    assert!(
        marked.out.contains("For the board: the level's own depth forgotten (16 times, on 4 sheets)"),
        "{}",
        marked.out
    );
    fs::remove_dir_all(folder).unwrap();
}

#[test]
fn sheets_of_one_file_and_of_several_are_marked_together() {
    let both = set("plates", 2, &[]);
    let from_one = pegline(["practice", "--mark", "-"]).input(both.clone()).run();
    assert!(from_one.out.starts_with("2 sheets marked: 0 of 8 questions right\n"), "{}", from_one.out);
    assert!(from_one.out.contains("Pupil 2"), "{}", from_one.out);
}

#[test]
fn a_pupils_sheet_tells_no_answers_and_no_question_runs_across_a_page() {
    for topic in TOPICS {
        let text = pegline(["practice", topic, "--level", "3", "--count", "20"]).answer();
        assert!(!text.contains("--answers") && text.contains("Name: ...."), "{text}");
        for page in text.split('\u{c}') {
            assert!(page.lines().count() <= 60, "{page}");
        }
        let begins = text.matches("\nQuestion ").count() + text.matches("\u{c}Question ").count();
        assert_eq!(begins, 20, "{text}");
    }
}

#[test]
fn the_paper_has_a_section_a_pupil_with_name_score_and_squares_and_is_well_formed() {
    for (topic, level) in [("diagonals", "3"), ("mixed", "2"), ("corners", "1")] {
        let more = ["--html", "--level", level];
        let sheets = set(topic, 3, &more);
        let key = set(topic, 3, &[&more[..], &["--answers"]].concat());
        for (html, squares) in [(&sheets, 12), (&key, 0)] {
            let document = roxmltree::Document::parse_with_options(
                html,
                roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() },
            )
            .unwrap();
            let count = |tag: &str| document.descendants().filter(|node| node.has_tag_name(tag)).count();
            let named =
                |tag: &str| document.descendants().filter(|node| node.tag_name().name() == tag).count();
            assert_eq!(count("section").max(named("section")), 3);
            assert_eq!(html.matches("url(#squares)").count(), squares);
            assert!(html.contains("Pupil 3"));
        }
        assert!(sheets.contains("size: A4") && sheets.contains("break-inside: avoid"));
        assert!(!sheets.contains("<ol>") && key.contains("<ol>"));
    }
}

#[test]
fn a_list_of_names_that_cannot_be_used_is_refused() {
    let refused =
        |names: &str| pegline(["practice", "plates", "--class", "-"]).input(names.to_owned()).refusal();
    assert!(refused("\n\n").contains("the list of names has 0 names: write 1 to 200, one a line"));
    assert!(
        refused("One\nTwo\none\n").contains("line 3: there are two called one: add what tells them apart")
    );
    assert!(refused("A: B\n").contains("line 1: a name has at most 60 characters"));
    let both = pegline(["practice", "plates", "--class", "x", "--mark", "y"]).refusal();
    assert!(both.contains("--mark") || both.contains("--class"), "{both}");
    let json = pegline(["practice", "plates", "--html", "--json"]).refusal();
    assert!(json.contains("--html: it is a format of its own"), "{json}");
}
