//! What was typed wrongly, and what is said to it: tables to read through as the one who typed it.
//!
//! The words typed are in fixtures/bad-inputs, a run a line.

use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use insta::assert_snapshot;

use crate::program::{pegline, typed};

/// A folder with what some of the inputs need: a folder as a file, bytes that are no text.
static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = std::env::temp_dir().join(format!("pegline-bad-inputs-{}", std::process::id()));
    fs::create_dir_all(folder.join("a-folder")).unwrap();
    fs::write(folder.join("no-text.json"), [0xff, 0xfe, 0x00]).unwrap();
    fs::write(folder.join("empty.json"), "").unwrap();
    fs::write(folder.join("there.json"), "{}").unwrap();
    // A pound sign as Windows programs write it.
    fs::write(folder.join("windows.csv"), b"item,rate\npeg,\xa30.64\n").unwrap();
    folder
});

/// Nothing is written, and nothing written over, by a run that says what is wrong.
fn assert_folder_is_as_it_was() {
    let mut names: Vec<String> = fs::read_dir(&*FOLDER)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    let made = ["a-folder", "empty.json", "no-text.json", "there.json", "windows.csv"];
    assert_eq!(names, made);
    assert_eq!(fs::read_dir(FOLDER.join("a-folder")).unwrap().count(), 0);
    assert_eq!(fs::read_to_string(FOLDER.join("there.json")).unwrap(), "{}");
}

/// Each line with what came of it: the exit code, and each message, or the first line printed, or each of a batch.
fn told(lines: &str) -> String {
    let mut table = String::new();
    for line in lines.lines() {
        let (words, input) = typed(line);
        let ran = pegline(&words).within(&FOLDER).input(input).run();
        table.extend([line, "\n"]);
        if ran.code == 2 {
            assert_eq!(ran.out, "", "{line}");
            assert!(!ran.err.is_empty(), "{line}");
            for said in ran.err.lines() {
                let message = said.strip_prefix("error: ");
                let margin = if message.is_some() { "  2  " } else { "     " };
                table.extend([margin, message.unwrap_or(said), "\n"]);
            }
        } else {
            assert_eq!(ran.err, "", "{line}");
            let lines = if line.starts_with("batch ") { usize::MAX } else { 1 };
            for said in ran.out.lines().take(lines) {
                let answer = r#"{"pegline":"#;
                let said = if said.starts_with(answer) { answer } else { said };
                table.extend(["  ", &ran.code.to_string(), "  ", said, "\n"]);
            }
        }
    }
    assert_folder_is_as_it_was();
    table
}

/// One paragraph a fault (a fault in a file shows its line too), no full stop, nothing of a parser's own.
fn assert_fits(table: &str) {
    for message in table.lines().filter_map(|line| line.strip_prefix("  2  ")) {
        assert!(!message.ends_with('.') && message.chars().count() <= 400, "{message}");
        for parser in [
            "os error",
            "invalid ",
            "expected",
            "missing field",
            "unknown variant",
            "For more information",
            "line 1 column",
        ] {
            assert!(!message.contains(parser), "{message}");
        }
    }
}

/// Every run of a file of bad inputs is answered as its snapshot says, and reads well.
fn held(name: &str, runs: &str) {
    let table = told(runs);
    assert_snapshot!(name, table);
    assert_fits(&table);
}

#[test]
fn words_around_the_commands() {
    held("words_around_the_commands", include_str!("../../fixtures/bad-inputs/words.txt"));
}

#[test]
fn plans_and_walks() {
    held("plans_and_walks", include_str!("../../fixtures/bad-inputs/plans.txt"));
}

#[test]
fn lengths_wherever_one_is_asked() {
    held("lengths_wherever_one_is_asked", include_str!("../../fixtures/bad-inputs/lengths.txt"));
}

/// Metres typed as bare numbers, most of them: none gets a verdict.
#[test]
fn sizes_that_can_not_be() {
    held("sizes_that_can_not_be", include_str!("../../fixtures/bad-inputs/sizes.txt"));
}

/// A neighbour's way of writing, a phone's quotes, a space for a comma.
#[test]
fn what_was_meant() {
    held("what_was_meant", include_str!("../../fixtures/bad-inputs/meant.txt"));
}

#[test]
fn options_of_each_command() {
    held("options_of_each_command", include_str!("../../fixtures/bad-inputs/options.txt"));
}

#[test]
fn drawings_and_sheets() {
    held("drawings_and_sheets", include_str!("../../fixtures/bad-inputs/drawings.txt"));
}

#[test]
fn orders_and_price_lists() {
    held("orders_and_price_lists", include_str!("../../fixtures/bad-inputs/orders.txt"));
}

#[test]
fn batches() {
    held("batches", include_str!("../../fixtures/bad-inputs/batch.txt"));
}

#[test]
fn practice_sheets() {
    held("practice_sheets", include_str!("../../fixtures/bad-inputs/practice.txt"));
}

#[test]
fn job_files() {
    held("job_files", include_str!("../../fixtures/bad-inputs/jobs.txt"));
}
