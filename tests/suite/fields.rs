//! What holds of every field of the job file, whichever it is: the fields are taken from its schema, so that a new one
//! can't be forgotten.

use std::collections::BTreeSet;
use std::fs;

use pegline::answer::Question;
use pegline::job::{JobFile, read};
use serde_json::{Value, json};

use crate::program::{Ran, pegline};

/// A value of the kind that a schema describes, and every field in it set.
fn example(schema: &Value, at: &Value) -> Value {
    let at = at["anyOf"].as_array().map_or(at, |kinds| &kinds[0]);
    if let Some(name) = at["$ref"].as_str() {
        return example(schema, &schema.pointer(name.trim_start_matches('#')).unwrap().clone());
    }
    let kind = at["type"].as_array().map_or(&at["type"], |kinds| &kinds[0]);
    match (kind.as_str(), at["properties"].as_object()) {
        (Some("object"), Some(fields)) => {
            fields.iter().map(|(name, field)| (name.clone(), example(schema, field))).collect()
        }
        (Some("array"), _) => json!([example(schema, &at["items"])]),
        (Some("boolean"), _) => json!(true),
        (Some("integer"), _) => json!(3),
        (Some("number"), _) => json!(2.5),
        (Some("string"), _) => json!("word"),
        _ => panic!("no value is known of the kind {at}"),
    }
}

/// The paths of every field of a job, `stock.have` and the like: those of a list's items are not told apart.
fn paths(value: &Value, path: &str, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                let path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                paths(field, &path, found);
                found.insert(path);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| paths(item, path, found)),
        _ => {}
    }
}

/// A job with every field of the schema set.
fn whole() -> Value {
    let schema = pegline::job::schema().to_value();
    example(&schema, &schema)
}

#[test]
fn every_field_of_the_job_file_survives_an_empty_command_line() {
    // One section at a time, since a plan and a walk, or a limit and a preset, are never both there.
    for (name, section) in whole().as_object().unwrap() {
        let fields: Vec<Value> = match section.as_object() {
            Some(fields) => fields.iter().map(|(field, value)| json!({ name: { field: value } })).collect(),
            None => vec![json!({ name: section })],
        };
        for job in fields {
            let file = read(&job.to_string()).unwrap_or_else(|faults| panic!("{job}: {faults}"));
            let given = serde_json::to_value(&file).unwrap();
            let laid = file.overlaid(&JobFile::default()).unwrap();
            let kept = serde_json::to_value(&laid).unwrap();
            assert_eq!(kept, given);
            let (mut wanted, mut there) = (BTreeSet::new(), BTreeSet::new());
            paths(&job, "", &mut wanted);
            paths(&kept, "", &mut there);
            assert!(there.is_superset(&wanted), "{job} is read as {kept}");
        }
    }
}

#[test]
fn what_is_typed_is_laid_over_a_file_and_nothing_else_of_it_changes() {
    let mut under = whole();
    // A job has either of them.
    for (section, field) in [("packs", "preset"), ("packs", "heights"), ("readings", "preset")] {
        under[section].as_object_mut().unwrap().remove(field);
    }
    under.as_object_mut().unwrap().remove("walk");
    let file = read(&under.to_string()).unwrap();
    let before = serde_json::to_value(&file).unwrap();
    let over = read(r#"{"plates": {"dpc_lap": "150mm"}, "name": "another"}"#).unwrap();
    let after = serde_json::to_value(file.overlaid(&over).unwrap()).unwrap();
    let mut expected = before;
    expected["plates"]["dpc_lap"] = "150mm".into();
    expected["name"] = "another".into();
    assert_eq!(after, expected);
}

/// Where the words of the fuzz target that are made from the schema begin.
const FROM_THE_SCHEMA: &str = "# The fields of the job file, from its schema:\n";

#[test]
fn the_words_of_the_fuzz_target_have_every_field_of_the_job_file() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fuzz/words.dict");
    let kept = fs::read_to_string(path).unwrap();
    let (by_hand, _) = kept.split_once(FROM_THE_SCHEMA).unwrap();
    // A line of such a text names a field of the job or of a section.
    let job = whole();
    let fields = job.as_object().unwrap().iter().flat_map(|(name, section)| match section.as_object() {
        Some(fields) => fields.keys().map(|field| format!("\"{name}.{field} \"\n")).collect(),
        None => vec![format!("\"{name} \"\n")],
    });
    let fields: BTreeSet<String> = fields.collect();
    let made = by_hand.to_owned() + FROM_THE_SCHEMA + &String::from_iter(fields);
    if std::env::var_os("PEGLINE_REWRITE").is_some() {
        fs::write(path, &made).unwrap();
    }
    assert!(
        made == kept,
        "PEGLINE_REWRITE=1 cargo test words_of_the_fuzz_target makes tests/fuzz/words.dict anew"
    );
}

/// What the help gives as a default in words: what is done, where no value that could be typed does the same.
const IN_WORDS: [&str; 18] = [
    "without end",
    "no limit",
    "no tax",
    "none",
    "none, they are fixed to the wall",
    "level",
    "the highest",
    "the top of the stack",
    "the least piece",
    "the plates' width, else the bearing",
    "the house's",
    "the first's",
    "the limit",
    "what the tape can tell",
    "what the job file has inputs for",
    "the largest usual one that fits",
    "plate, or the wall's outermost face if no layer is called plate",
    "table",
];

/// A command line that meets what each command asks for, the units behind every length; an order has no default to type.
const ASKED: [(&str, &str); 14] = [
    ("day", "PLAN"),
    ("diagonals", "PLAN"),
    ("corners", "PLAN --tapes 3000mm,4000mm,5004mm --corner C --limit 10mm"),
    (
        "plates",
        "PLAN --width 140mm --binder --stock 3600mm,4800mm --studs 600mm --panels 2400mm --anchor-spacing 1200mm --anchor-end 300mm",
    ),
    ("cuts", "--pieces 4x1200mm,2x900mm --stock 3600mm"),
    ("packs", "PLAN --staff A=1412mm,B=1409mm,C=1405mm,D=1411mm --packers PACKERS"),
    (
        "heights",
        "--drop 2398mm,2396mm --level-depth 50mm --stack plate=38mm,binder=38mm --ceiling 2300mm --hanger 2400mm --run 3000mm --fall 1:40",
    ),
    (
        "joists",
        "PLAN --house AB --from AB --to EF,CD --centres 400mm --bearing 100mm --fall 1:40 --heights-from A=0,B=2mm --heights-to E=0,F=1mm --packers PACKERS --stock 4800mm,6600mm",
    ),
    ("lines", "PLAN --layers skin=102mm,plate=140mm --marks --studs 600mm"),
    ("straight", "--block 20mm --read 0mm=20mm,1200mm=22mm,2400mm=17mm --limit 3mm"),
    ("readings", "PLAN --read AB=7802mm,BC=3600mm,CD=3000mm --second-tape AC=8592mm,BD=4688mm"),
    ("sketch", "PLAN"),
    ("sheet", "PLAN"),
    ("order", "PLAN"),
];

/// The options of a command and their defaults, from its help.
fn defaults(command: &str) -> Vec<(String, String)> {
    let help = pegline([command, "--help"]).answer();
    let words: Vec<&str> = help.split_whitespace().collect();
    let mut option = "";
    let mut found = vec![];
    for (i, word) in words.iter().enumerate() {
        // An option's own line has the name of its value behind it.
        if word.starts_with("--") && words.get(i + 1).is_some_and(|next| next.starts_with('<')) {
            option = word;
        }
        if *word == "[default:" {
            let default = words[i + 1..].join(" ");
            found.push((option.to_owned(), default.split(']').next().unwrap().to_owned()));
        }
    }
    found
}

/// What to type for a default, in these units; none where it is in words.
fn to_type(default: &str, units: &str) -> Option<String> {
    let default = default.trim_end_matches(", assumed");
    if IN_WORDS.contains(&default) {
        return None;
    }
    // `1m, or 4ft in feet and inches` and the like.
    let Some(in_feet) = default.strip_suffix(" in feet and inches") else { return Some(default.to_owned()) };
    let in_feet = in_feet.trim_end_matches(" in a job");
    let (metric, feet) = in_feet
        .split_once(", or ")
        .or_else(|| in_feet.split_once(", and "))
        .or_else(|| in_feet.split_once("; "))
        .unwrap_or_else(|| panic!("`{default}` gives no value for a job in mm"));
    Some(if units == "ft-in" { feet } else { metric }.to_owned())
}

/// An answer without what is said of it, and without whether a value was given or taken.
fn judged(ran: &Ran) -> Value {
    fn plain(value: &mut Value) {
        match value {
            Value::Object(fields) => {
                fields.retain(|name, _| name != "notes" && !name.contains("assumed"));
                fields.values_mut().for_each(plain);
            }
            Value::Array(items) => items.iter_mut().for_each(plain),
            _ => {}
        }
    }
    let mut answer = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{ran:?}"));
    plain(&mut answer);
    answer
}

#[test]
fn every_default_of_the_help_can_be_typed_and_changes_nothing_in_mm_and_in_feet() {
    let commands: BTreeSet<&str> = ASKED.iter().map(|(command, _)| *command).collect();
    assert_eq!(commands, Question::ALL.map(Question::name).into_iter().collect());
    let (mut typed, mut wrong) = (0, vec![]);
    // An order's inputs come from a file alone; the options that it has with defaults are those that all have.
    for (command, line) in ASKED.into_iter().filter(|(command, _)| *command != "order") {
        for (units, plan, packers) in [
            ("mm", "7800x6000-3000x2400", "1,2,3,5"),
            ("ft-in", "25ft7inx19ft8in-9ft10inx7ft10in", "1/16in,1/8in,1/4in"),
        ] {
            let line = line.replace("PLAN", plan).replace("PACKERS", packers);
            let line: Vec<&str> = [command].into_iter().chain(line.split(' ')).collect();
            let ask = |more: &[&str]| {
                pegline(line.iter().copied().chain(["--units", units, "--json"]).chain(more.iter().copied()))
                    .run()
            };
            let typable = |(option, default): (String, String)| Some((option, to_type(&default, units)?));
            let options: Vec<(String, String)> = defaults(command).into_iter().filter_map(typable).collect();
            let without = (!options.is_empty()).then(|| judged(&ask(&[])));
            for (option, value) in options {
                let with = ask(&[&option, &value]);
                if with.code > 1 || Some(judged(&with)) != without {
                    wrong.push(format!("{command} {option} {value} --units {units}: {}", with.err));
                }
                typed += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "not the defaults that the help says:\n{}", wrong.join("\n"));
    assert!(typed > 90, "{typed} defaults were typed");
}
