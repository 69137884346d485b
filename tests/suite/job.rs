//! Job files: every fault by file, line and field, with what to write instead; and what overrides what.

use insta::assert_snapshot;
use pegline::job::{Job, JobFile, LARGEST_FILE, PlatesSection, Shape, read, starter};
use pegline::length::Units;
use proptest::prelude::*;

use crate::outlines::Random;
use crate::program::pegline;

/// Standard error of `pegline diagonals` on a job from standard input, without the `error: ` in front.
fn fault(job: &str) -> String {
    pegline(["diagonals", "--job", "-"]).input(job).refusal().replace("error: ", "")
}

#[test]
fn a_text_that_is_no_job_is_told_in_one_line() {
    assert_snapshot!(fault("not json\n"), @"standard input:1:1: `not json` is not the start of a job: a job is one JSON object, from { to } (`pegline job new` writes one)");
    assert_snapshot!(fault(""), @"standard input:1:1: the job is empty: a job is one JSON object, from { to } (`pegline job new` writes one)");
    assert_snapshot!(fault("[]"), @"standard input:1:1: `[]` is not the start of a job: a job is one JSON object, from { to } (`pegline job new` writes one)");
    assert_snapshot!(fault("null"), @"standard input:1:1: `null` is not the start of a job: a job is one JSON object, from { to } (`pegline job new` writes one)");
    let not_text = pegline(["diagonals", "--job", "-"]).input(*b"{\"plan\":\"\xff\"}").refusal();
    assert_snapshot!(not_text, @"error: standard input: this is not text (UTF-8): a job file is JSON");
    assert_snapshot!(fault(&format!("{{\"name\":\"{}\"}}", "x".repeat(LARGEST_FILE))), @"standard input:1:1: the job file is over 1048576 bytes (1 MiB), the most taken");
}

#[test]
fn broken_json_is_told_with_its_line_and_a_caret() {
    assert_snapshot!(fault("{\n  \"plan\": \"6000x4000\",\n}"), @r"
        standard input:3:1: this is not JSON: there is a comma with nothing after it: leave it out
        3 | }
          | ^
        ");
    assert_snapshot!(fault("{\"plan\": \"6000x4000\""), @r#"
        standard input:1:20: this is not JSON: it ends before everything opened is closed
        1 | {"plan": "6000x4000"
          |                    ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\"} x"), @r#"
        standard input:1:23: there is something after the job's closing }: leave it out
        1 | {"plan": "6000x4000"} x
          |                       ^
        "#);
    assert_snapshot!(fault("{plan: \"6000x4000\"}"), @r#"
        standard input:1:2: this is not JSON: a field's name stands in double quotes
        1 | {plan: "6000x4000"}
          |  ^
        "#);
    assert_snapshot!(fault("{\"tape\": {\"length\": 1e999}}"), @r#"
        standard input:1:25: this is not JSON: the number is too large: write one such as 6435
        1 | {"tape": {"length": 1e999}}
          |                         ^
        "#);
}

#[test]
fn an_unknown_field_is_told_with_the_nearest_known_one_and_all_are_told_at_once() {
    assert_snapshot!(
        fault("{\n  \"plan\": \"6000x4000\",\n  \"hause\": [\"AB\"],\n  \"tape\": {\"clas\": \"II\", \"lenght\": \"8m\"}\n}"),
        @r#"
        standard input:3:3: hause: there is no field `hause` here: did you mean `house`?
        3 |   "hause": ["AB"],
          |   ^
        standard input:4:12: tape.clas: there is no field `clas` here: did you mean `class`?
        4 |   "tape": {"clas": "II", "lenght": "8m"}
          |            ^
        standard input:4:26: tape.lenght: there is no field `lenght` here: did you mean `length`?
        4 |   "tape": {"clas": "II", "lenght": "8m"}
          |                          ^
        "#
    );
    assert_snapshot!(fault("{\"tape\": {\"colour\": \"red\"}}"), @r#"
        standard input:1:11: tape.colour: there is no field `colour` here: the fields are class, ends, from_hook, length, reading
        1 | {"tape": {"colour": "red"}}
          |           ^
        "#);
    assert_snapshot!(fault("{\"tape\": {\"a.b[0\": 1, \"\": 2, \"\\u001b[31m\": 3}}"), @r#"
        standard input:1:11: tape.a.b[0: there is no field `a.b[0` here: the fields are class, ends, from_hook, length, reading
        1 | {"tape": {"a.b[0": 1, "": 2, "\u001b[31m": 3}}
          |           ^
        standard input:1:23: tape.: there is no field `` here: the fields are class, ends, from_hook, length, reading
        1 | {"tape": {"a.b[0": 1, "": 2, "\u001b[31m": 3}}
          |                       ^
        standard input:1:30: tape.�[31m: there is no field `�[31m` here: the fields are class, ends, from_hook, length, reading
        1 | {"tape": {"a.b[0": 1, "": 2, "\u001b[31m": 3}}
          |                              ^
        "#);
}

#[test]
fn a_value_of_a_wrong_kind_is_told_with_what_to_write() {
    assert_snapshot!(fault("{\"plan\": 7800}"), @r#"
        standard input:1:10: plan: `7800` is a number: write text in double quotes
        1 | {"plan": 7800}
          |          ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"house\": \"AB\"}"), @r#"
        standard input:1:32: house: `"AB"` is text: write a list in [ ]
        1 | {"plan": "6000x4000", "house": "AB"}
          |                                ^
        "#);
    assert_snapshot!(fault("{\"house\": [\"AB\", 2, null]}"), @r#"
        standard input:1:18: house[1]: `2` is a number: write text in double quotes
        1 | {"house": ["AB", 2, null]}
          |                  ^
        standard input:1:21: house[2]: `null` is nothing: write text in double quotes
        1 | {"house": ["AB", 2, null]}
          |                     ^
        "#);
    assert_snapshot!(fault("{\"tape\": [\"II\"]}"), @r#"
        standard input:1:10: tape: `["II"]` is a list: write fields in { }
        1 | {"tape": ["II"]}
          |          ^
        "#);
    assert_snapshot!(fault("{\"tape\": {\"length\": true, \"from_hook\": \"yes\"}}"), @r#"
        standard input:1:21: tape.length: `true` is a truth value: write a number or text in double quotes, such as 6435, "6.435m", "21ft1-3/8in"
        1 | {"tape": {"length": true, "from_hook": "yes"}}
          |                     ^
        standard input:1:40: tape.from_hook: `"yes"` is text: write true or false
        1 | {"tape": {"length": true, "from_hook": "yes"}}
          |                                        ^
        "#);
    assert_snapshot!(fault("{\"diagonals\": {\"spares\": -1}}"), @r#"
        standard input:1:26: diagonals.spares: `-1` is a number: write a whole number, 0 or more
        1 | {"diagonals": {"spares": -1}}
          |                          ^
        "#);
    assert_snapshot!(fault("{\"diagonals\": {\"spares\": 2.5}}"), @r#"
        standard input:1:26: diagonals.spares: `2.5` is a number: write a whole number, 0 or more
        1 | {"diagonals": {"spares": 2.5}}
          |                          ^
        "#);
    assert_snapshot!(fault("{\"diagonals\": {\"spares\": 1e30}}"), @r#"
        standard input:1:26: diagonals.spares: `1e+30` is a number: write a whole number, 0 or more
        1 | {"diagonals": {"spares": 1e30}}
          |                          ^
        "#);
    assert_snapshot!(fault("{\"schema\": \"1\"}"), @r#"
        standard input:1:12: schema: `"1"` is text: write a whole number, 0 or more
        1 | {"schema": "1"}
          |            ^
        "#);
    assert_snapshot!(fault("{\"schema\": 5000000000}"), @r#"
        standard input:1:12: schema: `5000000000` is a number: write a whole number, 0 or more
        1 | {"schema": 5000000000}
          |            ^
        "#);
    assert_snapshot!(fault("{\"corners\": {\"tapes\": {\"a\": 3}}}"), @r#"
        standard input:1:23: corners.tapes: `{"a":3}` is a set of fields: write a list in [ ]
        1 | {"corners": {"tapes": {"a": 3}}}
          |                       ^
        "#);
}

#[test]
fn a_field_given_twice_is_told() {
    assert_snapshot!(fault("{\"plan\": \"6000x4000\",\n \"plan\": \"5000x4000\"}"), @r#"
        standard input:2:7: `plan` is given twice: leave one of them out
        2 |  "plan": "5000x4000"}
          |       ^
        "#);
    assert_snapshot!(fault("{\"tape\": {\"class\": \"I\", \"class\": \"II\"}}"), @r#"
        standard input:1:31: tape: `class` is given twice: leave one of them out
        1 | {"tape": {"class": "I", "class": "II"}}
          |                               ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"walk\": \"6000 R 4000\"}"), @r#"
        standard input:1:31: walk: the plan is given twice: leave out `walk` or `plan`
        1 | {"plan": "6000x4000", "walk": "6000 R 4000"}
          |                               ^
        "#);
}

#[test]
fn a_value_that_says_the_wrong_thing_is_told_in_its_place() {
    assert_snapshot!(fault("{\"schema\": 2, \"plan\": \"6000x4000\"}"), @r#"
        standard input:1:12: schema: schema 2 is not known here: write 1
        1 | {"schema": 2, "plan": "6000x4000"}
          |            ^
        "#);
    assert_snapshot!(fault("{\"units\": \"cm\", \"plan\": \"6000x4000\"}"), @r#"
        standard input:1:11: units: no units `cm`: write mm, m or ft-in
        1 | {"units": "cm", "plan": "6000x4000"}
          |           ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000\"}"), @r#"
        standard input:1:10: plan: the plan ends after `6000`: write x and the depth, as in 7800x6000
        1 | {"plan": "6000"}
          |          ^
        "#);
    assert_snapshot!(fault("{\"walk\": \"7800 R 6000 R 7850 R 6000\"}"), @r#"
        standard input:1:10: walk: the walk doesn't close: it ends 50 mm too far to the left of A (across); any one of these would close it: AB 7800 -> 7850, CD 7850 -> 7800
        1 | {"walk": "7800 R 6000 R 7850 R 6000"}
          |          ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"house\": [\"AB\", \"AC\"]}"), @r#"
        standard input:1:39: house[1]: there is no side `AC`: the sides are AB, BC, CD, DA
        1 | {"plan": "6000x4000", "house": ["AB", "AC"]}
          |                                       ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"house\": [\"AB\", \"BC\", \"CD\", \"DA\"]}"), @r#"
        standard input:1:32: house: every side is marked as the house: leave at least one side to build
        1 | {"plan": "6000x4000", "house": ["AB", "BC", "CD", "DA"]}
          |                                ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"tape\": {\"class\": \"IV\", \"length\": \"8 yards\", \"reading\": -1}}"), @r#"
        standard input:1:41: tape.class: no tape class `IV`: write I, II or III (on the tape's blade), or US
        1 | {"plan": "6000x4000", "tape": {"class": "IV", "length": "8 yards", "re
          |                                         ^
        standard input:1:57: tape.length: `8 yards` has the unit `yards`: write mm, m, ft or in (6435, 6.435m, 21ft1-3/8in)
        1 | 000", "tape": {"class": "IV", "length": "8 yards", "reading": -1}}
          |                                         ^
        standard input:1:79: tape.reading: `-1` is less than zero: write 0 or more
        1 | : "IV", "length": "8 yards", "reading": -1}}
          |                                         ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"tape\": {\"length\": 0}}"), @r#"
        standard input:1:42: tape.length: `0` must be more than zero
        1 | "plan": "6000x4000", "tape": {"length": 0}}
          |                                         ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"diagonals\": {\"spares\": 21}}"), @r#"
        standard input:1:47: diagonals.spares: 21 is too many: write 0 to 20
        1 | ": "6000x4000", "diagonals": {"spares": 21}}
          |                                         ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"corners\": {\"tapes\": [3000, 4000]}}"), @r#"
        standard input:1:44: corners.tapes: 2 tapes are given: write three, along one side, along the other and between their ends
        1 | lan": "6000x4000", "corners": {"tapes": [3000, 4000]}}
          |                                         ^
        "#);
    assert_snapshot!(fault("{\"plan\": \"6000x4000\", \"corners\": {\"corner\": \"Q\"}}"), @r#"
        standard input:1:45: corners.corner: there is no corner `Q`: the corners are A to D
        1 | an": "6000x4000", "corners": {"corner": "Q"}}
          |                                         ^
        "#);
    assert_snapshot!(fault("{}"), @"there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or `plan` in a job file (--job FILE)");
}

#[test]
fn a_fault_far_into_a_long_line_is_shown_round_its_place() {
    let job = format!("{{\"name\": \"{}\", \"plan\": 5, \"units\": \"mm\"}}", "ä".repeat(200));
    assert_snapshot!(fault(&job), @r#"
        standard input:1:222: plan: `5` is a number: write text in double quotes
        1 | äääääääääääääääääääääääääääää", "plan": 5, "units": "mm"}
          |                                         ^
        "#);
}

#[test]
fn a_fault_in_a_file_names_the_file() {
    let directory = tempdir("named");
    std::fs::write(directory.join("job.json"), "{\n  \"plan\": 5\n}\n").unwrap();
    let said = pegline(["job", "check", "job.json"]).within(&directory).refusal();
    assert_snapshot!(said, @r#"
        error: job.json:2:11: plan: `5` is a number: write text in double quotes
        2 |   "plan": 5
          |           ^
        "#);
    let missing = pegline(["job", "check", "missing.json"]).within(&directory).refusal();
    assert_snapshot!(missing, @"error: reading the job from missing.json: there is no such file or folder: look at its name again");
    std::fs::remove_dir_all(directory).unwrap();
}

fn tempdir(name: &str) -> std::path::PathBuf {
    let directory = std::env::temp_dir().join(format!("pegline-job-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&directory).unwrap();
    directory
}

#[test]
fn every_starter_is_a_job_without_fault() {
    for shape in [Shape::Rectangle, Shape::L, Shape::T, Shape::U] {
        let file = read(&starter(shape)).unwrap();
        let job = Job::check(&file).unwrap();
        assert!(job.footprint.unwrap().sides()[0].house, "{shape:?}");
    }
}

#[test]
fn what_is_laid_over_replaces_field_by_field() {
    let under = read(
        r#"{"name": "under", "plan": "6000x4000", "house": ["AB"], "tape": {"class": "I", "length": "8m"}, "units": "mm"}"#,
    )
    .unwrap();
    let over = read(r#"{"walk": "5 R 4", "tape": {"length": "10m"}, "units": "m"}"#).unwrap();
    let job = Job::check(&under.clone().overlaid(&over).unwrap()).unwrap();
    assert_eq!(job.name.as_deref(), Some("under"));
    assert_eq!(job.units, Units::M);
    let footprint = job.footprint.unwrap();
    assert_eq!(footprint.extent(), (5000.0, 4000.0));
    assert!(footprint.sides()[0].house);
    assert_eq!(job.tape.length, Some(10_000.0));
    assert_eq!(job.tape.class, pegline::tape::TapeClass::I);
    assert_eq!(under.clone().overlaid(&JobFile::default()).unwrap(), under);
}

#[test]
fn a_figure_that_is_no_number_is_refused_with_a_job_file_as_without() {
    let file = read(r#"{"plan": "6000x4000", "plates": {"width": 140, "seconds": 3}}"#).unwrap();
    for figure in [f64::NAN, f64::INFINITY] {
        let plates = Some(PlatesSection { seconds: Some(figure), ..PlatesSection::default() });
        let refused = file.clone().overlaid(&JobFile { plates, ..JobFile::default() });
        assert!(refused.unwrap_err().message.contains("no number"), "{figure}");
    }
    let job = r#"{"plan": "6000x4000", "stock": {"lengths": [{"length": "4.8m"}]}, "plates": {"width": 140, "seconds": 3}}"#;
    for word in ["nan", "inf"] {
        let alone = pegline(["plates", "6000x4000", "--width", "140", "--stock", "4.8m", "--seconds", word]);
        let laid = pegline(["plates", "--job", "-", "--seconds", word]).input(job);
        let said = alone.refusal();
        assert_eq!(said, laid.refusal());
        assert!(said.contains("write a number, such as 0.5"), "{said}");
    }
}

/// A job with one random thing done to its text: a bit of it doubled, dropped or replaced by JSON's own signs.
fn spoilt(random: &mut Random) -> String {
    let mut text: Vec<char> = "{\n  \"schema\": 1, \"name\": \"x\", \"units\": \"mm\", \"plan\": \"7800x6000-3000x2400\",\n  \"house\": [\"AB\"], \"tape\": {\"class\": \"II\", \"length\": \"30m\", \"from_hook\": false},\n  \"diagonals\": {\"spares\": 2}, \"corners\": {\"tapes\": [3000, 4000, \"5m\"], \"corner\": \"A\", \"limit\": 5}\n}"
        .chars()
        .collect();
    for _ in 0..=random.below(3) {
        let at = random.below(text.len());
        let end = (at + random.below(12)).min(text.len());
        let piece: Vec<char> = match random.below(4) {
            0 => vec![],
            1 => [&text[at..end], &text[at..end]].concat(),
            _ => {
                let signs = [
                    '{', '}', '[', ']', '"', ',', ':', '\\', '9', '-', 'e', '.', 'ä', '\u{0}', '\n', ' ',
                    '\u{202e}', '@',
                ];
                (0..=random.below(3)).map(|_| random.pick(&signs)).collect()
            }
        };
        text.splice(at..end, piece);
        if text.is_empty() {
            break;
        }
    }
    text.into_iter().collect()
}

#[test]
fn thousands_of_spoilt_jobs_are_read_or_refused_with_a_place_in_the_text() {
    let mut random = Random::new(31);
    let mut refused = 0;
    for _ in 0..6000 {
        let text = spoilt(&mut random);
        match read(&text) {
            Ok(file) => {
                let _checked = Job::check(&file);
            }
            Err(error) => {
                refused += 1;
                assert!(!error.faults.is_empty(), "{text}");
                for (fault, place) in error.faults {
                    assert!(
                        !fault.message.is_empty() && !fault.to_string().contains(char::is_control),
                        "{text}: {fault}"
                    );
                    let line = text.split('\n').nth(place.line - 1).unwrap();
                    assert!(place.column <= line.chars().count() + 1, "{text}: {place:?}");
                    assert!(place.echo().lines().count() == 2, "{text}: {}", place.echo());
                }
            }
        }
    }
    assert!(refused > 3000, "{refused}");
}

proptest! {
    #[test]
    fn any_text_is_a_job_or_is_refused(text in any::<String>(), signs in "[{}\\[\\]\":,a-z0-9.e\\\\ \n-]{0,60}") {
        for text in [format!("{{{text}}}"), format!("{{{signs}}}"), text, signs] {
            if let Err(error) = read(&text) {
                prop_assert!(!error.to_string().is_empty());
            }
        }
    }
}

#[test]
fn nested_lists_a_thousand_deep_are_refused() {
    let deep = format!("{{\"house\": {}{}}}", "[".repeat(5000), "]".repeat(5000));
    assert!(fault(&deep).contains("brackets are nested too deep"));
}
