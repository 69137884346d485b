//! What other machines and editors do to files and arguments: line ends of Windows, byte order marks, UTF-16, names that
//! are not UTF-8.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use crate::answers_support::frozen;
use crate::program::pegline;

const MARK: &str = "\u{feff}";

fn directory(name: &str) -> PathBuf {
    let directory = std::env::temp_dir().join(format!("pegline-terminals-{name}-{}", std::process::id()));
    let _removed = fs::remove_dir_all(&directory);
    fs::create_dir_all(&directory).unwrap();
    directory
}

/// As an editor on Windows saves it.
fn windows(text: &str) -> String {
    format!("{MARK}{}", text.replace('\n', "\r\n"))
}

#[test]
fn a_job_file_saved_on_windows_is_the_same_job() {
    let here = directory("job");
    let job = serde_json::to_string_pretty(&frozen()).unwrap();
    fs::write(here.join("job.json"), windows(&job)).unwrap();
    let expected = pegline(["diagonals", "--job", "-", "--json"]).input(job.clone()).json();
    let from_file = pegline(["diagonals", "--job", "job.json", "--json"]).within(&here).json();
    assert_eq!(from_file, expected);
    let piped = pegline(["diagonals", "--job", "-", "--json"]).input(windows(&job)).json();
    assert_eq!(piped, expected);
    let line = serde_json::to_string(&frozen()).unwrap();
    let batch = pegline(["batch", "diagonals"]).input(format!("{MARK}{line}\r\n{line}\r\n")).answer();
    assert_eq!(batch.lines().count(), 2);
    for line in batch.lines() {
        assert_eq!(serde_json::from_str::<Value>(line).unwrap(), expected);
    }
    fs::remove_dir_all(here).unwrap();
}

#[test]
fn a_fault_in_a_file_saved_on_windows_is_told_in_its_place() {
    let job = "{\"plan\": \"7800x6000\",\n \"house\": [\"AC\"]}\n";
    let said = pegline(["diagonals", "--job", "-"]).input(job).refusal();
    assert!(said.starts_with("error: standard input:2:12: house[0]: "), "{said}");
    assert_eq!(pegline(["diagonals", "--job", "-"]).input(windows(job)).refusal(), said);
    let job = "{\"plans\": \"7800x6000\"}";
    let said = pegline(["diagonals", "--job", "-"]).input(job).refusal();
    assert_eq!(pegline(["diagonals", "--job", "-"]).input(windows(job)).refusal(), said);
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    let said = pegline(["diagonals", "--job", "-"]).input(*b"{\"plan\": \"\xe9\"}").refusal();
    assert!(said.contains("this is not text (UTF-8)"), "{said}");
}

#[test]
fn a_practice_sheet_filled_on_windows_is_marked_the_same() {
    let ask = ["practice", "plates", "--count", "3", "--seed", "4"];
    let sheet = pegline(ask).answer();
    let answers = pegline(ask.iter().chain(&["--json", "--answers"])).json();
    let texts: Vec<&str> = answers["result"]["questions"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|question| question["blanks"].as_array().unwrap())
        .map(|blank| blank["text"].as_str().unwrap())
        .collect();
    let mut filled = sheet;
    for text in &texts {
        filled = filled.replacen("________ mm", text, 1);
    }
    assert!(!filled.contains("____"), "{filled}");
    let marked = pegline(["practice", "--mark", "-"]).input(filled.clone()).answer();
    assert_eq!(pegline(["practice", "--mark", "-"]).input(windows(&filled)).answer(), marked);
    let mut form = pegline(ask.iter().chain(&["--json"])).json();
    for (blank, text) in form["result"]["answers"].as_object_mut().unwrap().values_mut().zip(&texts) {
        *blank = (*text).into();
    }
    let form = serde_json::to_string_pretty(&form).unwrap();
    assert_eq!(pegline(["practice", "--mark", "-"]).input(windows(&form)).answer(), marked);
}

#[cfg(unix)]
mod not_utf_8 {
    use std::ffi::{OsStr, OsString};
    use std::os::unix::ffi::OsStrExt;

    use super::*;
    use crate::tree::tree;

    /// `caf\xe9`, as an old disk or a wrong locale hands it over.
    fn name() -> &'static OsStr {
        OsStr::from_bytes(b"caf\xe9")
    }

    #[test]
    fn an_argument_that_is_not_text_is_refused_by_every_command() {
        for command in tree() {
            let words: Vec<OsString> = command.words.iter().map(OsString::from).collect();
            pegline(words.iter().map(OsString::as_os_str).chain([name()])).refusal();
            for option in command.options() {
                let with = |join: &[u8]| {
                    let written = [b"--", option.as_bytes(), join, name().as_bytes()].concat();
                    OsString::from(OsStr::from_bytes(&written))
                };
                // `-o` takes any name; what is written there is seen to below.
                if option != "output" {
                    let asked = words.iter().cloned().chain([with(b"=")]);
                    pegline(asked).refusal();
                }
            }
        }
        let said = pegline([OsStr::new("diagonals"), name()]).refusal();
        assert!(said.contains("UTF-8"), "{said}");
    }

    #[test]
    fn a_file_is_written_under_a_name_that_is_not_text() {
        let here = directory("name");
        pegline([OsStr::new("job"), OsStr::new("new"), OsStr::new("--sample"), OsStr::new("-o"), name()])
            .within(&here)
            .answer();
        let written = fs::read_to_string(here.join(name())).unwrap();
        assert_eq!(written, pegline(["job", "new", "--sample"]).answer());
        fs::remove_dir_all(here).unwrap();
    }
}
