//! Jobs of several shapes and units that answer every question, and their answers as other programs get them.

use std::fs;
use std::sync::OnceLock;

use pegline::answer::Question;
use serde_json::{Value, json};

use crate::program::pegline;

/// A job that answers every question.
pub(crate) struct Worked {
    /// What it is, for messages.
    pub(crate) name: String,
    /// The job file.
    pub(crate) job: Value,
}

/// An answer and what was asked.
pub(crate) struct Told {
    /// The command.
    pub(crate) command: &'static str,
    /// The job.
    pub(crate) job: String,
    /// What `--json` printed.
    pub(crate) json: Value,
    /// What `--format csv` printed.
    pub(crate) csv: String,
}

/// The frozen job file: every section that there was when it was frozen.
pub(crate) fn frozen() -> Value {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/job.schema1.json");
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

/// The starters, one of them in feet and inches and one as a walk in metres, with every question's section filled in.
pub(crate) fn jobs() -> Vec<Worked> {
    let mut jobs = vec![Worked { name: "frozen".to_owned(), job: with_joists(frozen()) }];
    for shape in ["rectangle", "L", "T", "U"] {
        let job = pegline(["job", "new", shape, "--sample"]).json();
        jobs.push(Worked { name: shape.to_owned(), job: filled(job) });
    }
    let l = pegline(["job", "new", "L", "--sample"]).json();
    let mut feet = in_mm(&l);
    feet["units"] = "ft-in".into();
    feet["plan"] = "25ft7inx19ft8-1/2in-9ft10inx7ft10-1/2in".into();
    feet["packs"]["packers"] = json!(["1/16in", "1/8in", "1/4in", "1/2in"]);
    let mut walk = in_mm(&l);
    walk["units"] = "m".into();
    walk["walk"] = "7.8 R 3.6 R 3 L 2.4".into();
    walk.as_object_mut().unwrap().remove("plan");
    for (name, job) in [("feet and inches", feet), ("walk in metres", walk)] {
        jobs.push(Worked { name: name.to_owned(), job: filled(job) });
    }
    jobs
}

/// With a list of pieces, and with readings of every side and every line inside, a millimetre or two out.
fn filled(mut job: Value) -> Value {
    job["cuts"] = json!({"pieces": [{"length": "1200mm", "count": 4}, {"length": "2350mm", "count": 3}]});
    let sizes = pegline(["diagonals", "--job", "-", "--json"]).input(job.to_string()).json();
    let sides = sizes["plan"]["sides"].as_array().unwrap().iter();
    let diagonals = sizes["result"]["diagonals"].as_array().unwrap().iter();
    let read: Vec<String> = sides
        .chain(diagonals.filter(|line| line["lies"] == "inside"))
        .enumerate()
        .map(|(i, line)| {
            let out = [0.0, 1.0, -1.0, 2.0][i % 4];
            let length = line["length"].as_f64().unwrap().round() + out;
            format!("{}={length}mm", line["name"].as_str().unwrap())
        })
        .collect();
    job["readings"] = json!({"read": read, "limit": "10mm", "masonry": true, "overhang": "10mm"});
    with_joists(job)
}

/// With joists from every side that faces down the page to every one that faces up it, their corners read as level but
/// for the first.
fn with_joists(mut job: Value) -> Value {
    let sizes = pegline(["diagonals", "--job", "-", "--json"]).input(job.to_string()).json();
    let corners = sizes["plan"]["corners"].as_array().unwrap();
    let at =
        |name: char| corners.iter().find(|corner| corner["name"] == name.to_string()).unwrap()["x"].as_f64();
    let sides = |rightward: bool| -> Vec<String> {
        let names =
            sizes["plan"]["sides"].as_array().unwrap().iter().map(|side| side["name"].as_str().unwrap());
        let run = |name: &str| {
            let ends: Vec<f64> = name.chars().filter_map(at).collect();
            if rightward { ends[0] < ends[1] } else { ends[0] > ends[1] }
        };
        names.filter(|name| run(name)).map(str::to_owned).collect()
    };
    let read = |sides: &[String]| -> Vec<String> {
        let ends = sides.iter().flat_map(|side| side.chars());
        ends.enumerate().map(|(i, corner)| format!("{corner}={}mm", if i == 0 { 4 } else { 0 })).collect()
    };
    let (from, to) = (sides(true), sides(false));
    job["joists"] = json!({
        "from": from, "to": to, "centres": "600mm", "bearing": "100mm", "wall": "140mm", "hanger_gap": "3mm",
        "bearer": "47mm", "bolts": "600mm", "noggings": "nhbc", "double": ["1200mm"],
        "heights_from": read(&from), "heights_to": read(&to), "packers": job["packs"]["packers"],
        "stock": [{"length": "4800mm", "price": "34.00"}, {"length": "9600mm", "price": "80.00"}],
    });
    job
}

/// A starter with `mm` after every bare length, so that other units can be asked for.
fn in_mm(value: &Value) -> Value {
    match value {
        Value::String(text) => {
            let figure = text.rsplit_once('=').map_or(text.as_str(), |(_, figure)| figure);
            if figure.parse::<f64>().is_ok() { format!("{text}mm").into() } else { value.clone() }
        }
        Value::Array(list) => list.iter().map(in_mm).collect(),
        Value::Object(map) => map
            .iter()
            .map(|(key, value)| {
                let value = if key == "price" || key == "order" { value.clone() } else { in_mm(value) };
                (key.clone(), value)
            })
            .collect(),
        other => other.clone(),
    }
}

/// Every question's answer to each of [`jobs`], through the program; asked once for all tests.
pub(crate) fn told() -> &'static [Told] {
    static TOLD: OnceLock<Vec<Told>> = OnceLock::new();
    TOLD.get_or_init(ask_all)
}

fn ask_all() -> Vec<Told> {
    let mut told = vec![];
    for Worked { name, job } in &jobs() {
        for command in Question::ALL.map(Question::name) {
            let ask = |more: &[&str]| {
                let ran = pegline([command, "--job", "-"].iter().chain(more)).input(job.to_string()).run();
                assert!(
                    ran.code < 2 && ran.err.is_empty(),
                    "the job `{name}` doesn't answer `{command}`: if the command is new, give these jobs its section\n{}",
                    ran.err
                );
                ran.out
            };
            told.push(Told {
                command,
                job: name.clone(),
                json: serde_json::from_str(&ask(&["--json"])).unwrap(),
                csv: ask(&["--format", "csv"]),
            });
        }
    }
    told
}
