//! What the program prints as JSON, held by a general-purpose validator to the schemas that it prints.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use jsonschema::Validator;
use pegline::answer::Question;
use serde_json::{Value, json};

use crate::answers_support::{Worked, frozen, jobs, told};
use crate::practice_support::TOPICS;
use crate::program::pegline;
use crate::tree::tree;

fn answers_schema() -> Value {
    pegline(["job", "schema", "--answers"]).json()
}

fn validator(schema: &Value) -> Validator {
    jsonschema::meta::validate(schema).unwrap();
    jsonschema::validator_for(schema).unwrap()
}

/// Holds `value` to a schema; every fault is said.
fn holds(schema: &Validator, value: &Value, what: &str) {
    let faults: Vec<String> =
        schema.iter_errors(value).map(|fault| format!("{}: {fault:.300}", fault.instance_path())).collect();
    assert!(faults.is_empty(), "{what}:\n{}", faults.join("\n"));
}

#[test]
fn the_answers_schema_is_the_committed_one() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/answers.schema.json");
    let committed = fs::read_to_string(path).unwrap_or_default();
    let printed = pegline(["job", "schema", "--answers"]).answer();
    assert!(
        committed == printed,
        "fixtures/answers.schema.json is not what `pegline job schema --answers` prints. A new key may be added; a key \
         that is renamed or changes its meaning or unit is another schema number. To refresh it:\n    \
         cargo run -- job schema --answers > fixtures/answers.schema.json"
    );
}

#[test]
fn every_definition_of_the_answers_schema_has_a_name_of_its_own_and_says_what_its_keys_are() {
    let schema = answers_schema();
    for (name, definition) in schema["$defs"].as_object().unwrap() {
        assert!(
            !name.ends_with(|c: char| c.is_ascii_digit()),
            "{name}: two types share a name: give one a #[schemars(rename = \"…\")]"
        );
        let keys = definition["properties"].as_object();
        for (key, of) in keys.into_iter().flatten() {
            let tag = of.get("const").is_some();
            assert!(tag || of["description"].is_string(), "{name}.{key}");
        }
    }
}

/// Commands that print no JSON answer of their own.
const OTHERS: [&str; 5] = ["batch", "book", "job", "completions", "man"];

#[test]
fn every_command_is_in_the_answers_schema() {
    let schema = answers_schema();
    let cases: Vec<&str> = schema["oneOf"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|case| case["properties"]["command"]["const"].as_str())
        .collect();
    for command in tree()[0].commands() {
        assert!(
            cases.contains(&command.as_str()) || OTHERS.contains(&command.as_str()),
            "`{command}` has no case in the answers' schema: see src/answer/schema.rs"
        );
    }
}

#[test]
fn every_answer_holds_to_the_answers_schema() {
    let schema = validator(&answers_schema());
    for answer in told() {
        let what = format!("{} of {}", answer.command, answer.job);
        assert_eq!(answer.json["command"], answer.command);
        holds(&schema, &answer.json, &what);
    }
    for Worked { name, job } in jobs() {
        // A drawing has no working, and the day is told in its parts.
        let worked = Question::ALL.map(Question::name).into_iter();
        for command in worked.filter(|command| !["sketch", "day"].contains(command)) {
            let ran = pegline([command, "--job", "-", "--json", "--working"]).input(job.to_string()).run();
            let json: Value = serde_json::from_str(&ran.out).unwrap();
            assert!(!json["working"].as_array().unwrap().is_empty(), "{command}");
            holds(&schema, &json, &format!("{command} of {name}, with its working"));
        }
    }
}

#[test]
fn every_line_of_a_batch_holds_to_the_answers_schema() {
    let schema = validator(&answers_schema());
    let mut lines: Vec<String> = jobs().iter().map(|worked| worked.job.to_string()).collect();
    lines.extend(
        ["{\"plan\": \"7800\"}", "not a job", "{\"plan\": \"7800x6000\", \"house\": [\"XY\"]}"]
            .map(str::to_owned),
    );
    let input = lines.join("\n");
    for command in Question::ALL.map(Question::name) {
        let ran = pegline(["batch", command]).input(input.clone()).run();
        assert_eq!(ran.code, 1, "{command}: {}", ran.err);
        let lines: Vec<Value> = ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
        assert_eq!(lines.len(), input.lines().count(), "{command}");
        for (number, line) in (1..).zip(&lines) {
            holds(&schema, line, &format!("batch {command}, line {number}"));
        }
        for (line, number) in lines[lines.len() - 3..].iter().zip(lines.len() - 2..) {
            assert_eq!(line["error"]["line"], number, "{command}");
        }
    }
}

#[test]
fn every_practice_sheet_its_answers_and_its_marks_hold_to_the_answers_schema() {
    let schema = validator(&answers_schema());
    for topic in TOPICS {
        for (level, units) in [("1", "mm"), ("2", "ft-in"), ("3", "mm")] {
            let ask = ["practice", topic, "--level", level, "--units", units, "--count", "4", "--json"];
            let what = format!("practice {topic} {level} {units}");
            let mut sheet = pegline(ask).json();
            holds(&schema, &sheet, &what);
            let answers = pegline(ask.iter().chain(&["--answers"])).json();
            holds(&schema, &answers, &what);
            // One question wrong, the others left out, so that every kind of mark is there.
            for (number, blank) in sheet["result"]["answers"].as_object_mut().unwrap() {
                if number == "1" {
                    *blank = match blank {
                        Value::Array(blanks) => json!(vec!["12mm"; blanks.len()]),
                        _ => json!("12mm"),
                    };
                }
            }
            let ran = pegline(["practice", "--mark", "-", "--json"]).input(sheet.to_string()).run();
            if ran.code == 2 {
                // A word is asked for: a length can't be its answer.
                continue;
            }
            let marks: Value = serde_json::from_str(&ran.out).unwrap();
            assert_eq!(marks["command"], "practice");
            holds(&schema, &marks, &what);
        }
    }
}

/// Keys that an answer may lack: they stand only where there is something to say.
const OPTIONAL: [&str; 11] = [
    "corners /result/corners/0/three_four_five",
    "corners /result/found",
    "diagonals /result/rectangles/0/corners/0/corner",
    "lines /result/marks",
    "lines /result/offset",
    "plates /result/bound_splices",
    "plates /result/fixings",
    "sheet /result/parts/0/result/labels/0/name",
    "sheet /result/parts/0/result/lines/0/name",
    "sketch /result/labels/0/name",
    "sketch /result/lines/0/name",
];

/// The keys of `value` at any depth, one element of each list, as paths.
fn keys(value: &Value, path: &str, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(map) => {
            for (key, below) in map {
                let here = format!("{path}/{key}");
                keys(below, &here, found);
                found.insert(here);
            }
        }
        Value::Array(list) => {
            if let Some(first) = list.first() {
                keys(first, &format!("{path}/0"), found);
            }
        }
        _ => {}
    }
}

/// The reason for the schema: whoever reads the answers finds out here that a key has gone, and not on site.
#[test]
fn a_key_that_is_renamed_is_caught_by_the_answers_schema() {
    let schema = validator(&answers_schema());
    let mut missed = BTreeSet::new();
    let mut tried = 0;
    for answer in told().iter().filter(|told| ["frozen", "T"].contains(&told.job.as_str())) {
        let mut paths = BTreeSet::new();
        keys(&answer.json, "", &mut paths);
        for path in paths {
            let mut other = answer.json.clone();
            let (above, key) = path.rsplit_once('/').unwrap();
            let map = other.pointer_mut(above).unwrap().as_object_mut().unwrap();
            let value = map.remove(key).unwrap();
            map.insert(format!("{key}_renamed"), value);
            tried += 1;
            if schema.is_valid(&other) {
                missed.insert(format!("{} {path}", answer.command));
            }
        }
    }
    assert!(tried > 500, "{tried} keys");
    let missed: Vec<&str> =
        missed.iter().map(String::as_str).filter(|missed| !OPTIONAL.contains(missed)).collect();
    assert!(missed.is_empty(), "not caught: {missed:#?}");
}

#[test]
fn a_result_under_another_commands_name_and_a_figure_as_text_are_caught() {
    let schema = validator(&answers_schema());
    let answers: Vec<_> = told().iter().filter(|told| told.job == "frozen").collect();
    for answer in &answers {
        for other in Question::ALL.map(Question::name) {
            let mut json = answer.json.clone();
            json["command"] = other.into();
            // The plates' answer has every key of a plain cut list, and more.
            let may_pass = answer.command == "plates" && other == "cuts";
            assert_eq!(
                schema.is_valid(&json),
                other == answer.command || may_pass,
                "{} as {other}",
                answer.command
            );
        }
    }
    let mut json = answers[0].json.clone();
    json["result"]["diagonals"][0]["length"] = "8590.693".into();
    assert!(!schema.is_valid(&json));
    json["result"]["diagonals"][0]["length"] = Value::Null;
    assert!(!schema.is_valid(&json));
    json["result"]["diagonals"][0]["length"] = 8590.693.into();
    json["result"]["diagonals"][0]["lies"] = "underground".into();
    assert!(!schema.is_valid(&json));
    json["result"]["diagonals"][0]["lies"] = "outside".into();
    json["result"]["new"] = "keys may be added".into();
    assert!(schema.is_valid(&json));
}

#[test]
fn every_job_file_there_is_holds_to_the_job_files_schema() {
    let schema = validator(&pegline(["job", "schema"]).json());
    for worked in jobs() {
        holds(&schema, &worked.job, &worked.name);
    }
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for entry in fs::read_dir(&examples).into_iter().flatten() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "json") {
            let job = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
            holds(&schema, &job, &path.display().to_string());
        }
    }
    let mut job = frozen();
    job["plats"] = job["plates"].clone();
    assert!(!schema.is_valid(&job), "a key that there is none of");
    let mut job = frozen();
    job["house"] = "AB".into();
    assert!(!schema.is_valid(&job), "a text for a list");
}
