//! `fixtures/job.schema1.json` is a job file as users of schema 1 have them on their disks, with every section that
//! there was when it was frozen (everything is invented). It is never edited: as long as `job::SCHEMA` is 1, and for as
//! long as a later program says that it reads schema 1, it is read, checked and answered, with the same figures.

use pegline::job::{Job, JobFile, SCHEMA, read};
use serde_json::Value;

use crate::answers_support::frozen;
use crate::program::pegline;

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/job.schema1.json");

/// The questions that it was frozen with, an exit code, and a figure of each answer by JSON pointer. The lengths are
/// the plan's own or Pythagoras' (√(7800² + 3600²), 3-4-5 × 1900); the others are what the program said on that day.
const ANSWERS: [(&str, &str, &str); 9] = [
    ("diagonals", "/result/diagonals/0/length", "8590.693"),
    ("corners", "/result/corners/0/diagonal", "9500"),
    ("lines", "/result/lines/0/string_length", "4600"),
    ("straight", "/result/worst", "2"),
    ("plates", "/result/runs/0/length", "3460"),
    ("cuts", "/result/cost", "21.6"),
    ("readings", "/result/verdict", "\"square\""),
    ("packs", "/result/worst", "10"),
    ("heights", "/result/ceiling_height", "2373"),
];

#[test]
fn the_frozen_job_file_is_read_whole_and_checks() {
    let text = std::fs::read_to_string(FILE).unwrap();
    let file: JobFile = read(&text).unwrap();
    assert_eq!(file.schema, Some(1));
    assert_eq!(SCHEMA, 1, "a new schema number still reads the frozen file of the old");
    Job::check(&file).unwrap();
    // What was read is all that was written: no key was passed over.
    let again = serde_json::to_value(&file).unwrap();
    let keys = |value: &Value| -> Vec<String> {
        let fields = value.as_object().unwrap().iter();
        fields.filter(|(_, value)| !value.is_null()).map(|(key, _)| key.clone()).collect()
    };
    let (mut written, mut kept) = (keys(&frozen()), keys(&again));
    written.sort();
    kept.sort();
    assert_eq!(written, kept);
    assert!(written.len() >= 20, "{written:?}");
    let said = pegline(["job", "check", FILE]).answer();
    assert!(said.contains("nothing wrong"), "{said}");
}

#[test]
fn the_frozen_job_file_answers_every_question_as_it_did() {
    for (command, pointer, figure) in ANSWERS {
        let ran = pegline([command, "--job", FILE, "--json"]).run();
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{command}");
        let json: Value = serde_json::from_str(&ran.out).unwrap();
        let found = json.pointer(pointer).unwrap();
        assert_eq!(found.to_string(), figure, "{command} {pointer}");
    }
}
