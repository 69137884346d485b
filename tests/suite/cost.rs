//! What is wrong costs nothing: any input of the largest size taken, whatever is wrong with it, ends soon and in little
//! memory.

use serde_json::{Map, Value, json};

/// The largest size taken, bytes.
const LARGEST: usize = 1 << 20;

/// One item as often as a text of the largest size holds it, between `open` and `close`.
fn filled(open: &str, item: impl Fn(usize) -> String, close: &str) -> String {
    let mut text = open.to_owned();
    for number in 0.. {
        let item = item(number);
        if text.len() + item.len() + close.len() >= LARGEST {
            break;
        }
        if number > 0 {
            text.push(',');
        }
        text.push_str(&item);
    }
    text + close
}

/// Where the job's lists and sections stand in its schema, with what an item of a list is.
fn places(schema: &Value, at: &Value, path: &[String], found: &mut Vec<(Vec<String>, Option<Value>)>) {
    let name = at["$ref"].as_str().or_else(|| at["anyOf"][0]["$ref"].as_str());
    let at = name.map_or(at, |name| schema.pointer(name.trim_start_matches('#')).unwrap());
    if let Some(items) = at.get("items") {
        found.push((path.to_vec(), Some(items.clone())));
    }
    if let Some(fields) = at["properties"].as_object() {
        found.push((path.to_vec(), None));
        for (name, field) in fields {
            places(schema, field, &[path, std::slice::from_ref(name)].concat(), found);
        }
    }
}

/// Jobs of the largest size with everything wrong: a list full of what is no item, a section full of unknown fields.
fn jobs() -> Vec<String> {
    let schema: Value = serde_json::from_str(include_str!("../../fixtures/job.schema.json")).unwrap();
    let mut found = vec![];
    places(&schema, &schema, &[], &mut found);
    assert!(found.len() > 30, "the schema is walked: {found:?}");
    let name = "n".repeat(LARGEST - 200);
    let opening = json!({ "side": "AB", "at": 600, "width": 900, "name": name });
    let mut jobs = vec![json!({ "plan": "7800x6000", "openings": [opening] }).to_string()];
    for (path, items) in found {
        let open = path.iter().fold(String::new(), |open, name| format!("{open}{{\"{name}\":"));
        let close = "}".repeat(path.len());
        let mut fill = |open_list: &str, item: &dyn Fn(usize) -> String, close_list: &str| {
            let job = filled(&format!("{open}{open_list}"), item, &format!("{close_list}{close}"));
            // The plan first, so that what stands on one is looked at too.
            let plan =
                if path.first().is_some_and(|name| name == "plan") { "" } else { r#"{"plan":"7800x6000","# };
            jobs.push(format!("{plan}{}", if plan.is_empty() { job.as_str() } else { &job[1..] }));
        };
        match items {
            None => fill("{", &|number| format!("\"k{number}\":1"), "}"),
            Some(item) if item["type"] == "array" => fill("[[", &|number| format!("\"A=x{number}\""), "]]"),
            Some(item) if item.get("$ref").is_some() => {
                fill("[", &|_| "{}".to_owned(), "]");
                fill("[", &|number| format!("{{\"k{number}\":1}}"), "]");
                let entry = r#"{"side":"AB","at":1,"width":900,"length":900,"item":"peg","rate":1}"#;
                fill("[", &|_| entry.to_owned(), "]");
            }
            Some(_) => fill("[", &|number| format!("\"x{number}=0\""), "]"),
        }
    }
    jobs
}

/// As a shell limits a run: so much address space, in KiB, and so many seconds of a processor.
fn limited(arguments: &str, input: String, kib: usize, seconds: u32) -> (i32, String, String) {
    let program = assert_cmd::cargo::cargo_bin!("pegline");
    let script = format!("ulimit -v {kib}; ulimit -t {seconds}; exec '{}' {arguments}", program.display());
    let output = assert_cmd::Command::new("sh").args(["-c", &script]).write_stdin(input).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

#[test]
fn thirty_thousand_faults_are_told_by_twenty_and_their_number() {
    let job = format!(
        "{{\"plan\":\"7800x6000\",{}}}",
        (0..30_000).map(|number| format!("\"k{number}\":1")).collect::<Vec<_>>().join(",")
    );
    let (code, out, said) = limited("diagonals --job -", job, 200_000, 20);
    assert_eq!((code, out.as_str()), (2, ""), "{said}");
    assert_eq!(said.lines().filter(|line| line.starts_with("error: standard input:1:")).count(), 20);
    assert_eq!(said.lines().last(), Some("error: and 29,980 more"));
}

/// Each is answered by its own line, and a good job after them too.
#[test]
fn a_batch_of_jobs_that_are_wrong_all_over_costs_their_own_lines_only() {
    let mut lines = jobs();
    let bad = lines.len();
    lines.push(r#"{"plan":"7800x6000"}"#.to_owned());
    // Unoptimised, on a busy machine: a twentieth of a second a line when it was written.
    let (code, out, said) = limited("batch diagonals", lines.join("\n"), 300_000, 60);
    assert_eq!((code, said.as_str()), (1, ""));
    let answers: Vec<Value> = out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), bad + 1);
    for (job, answer) in lines.iter().zip(&answers[..bad]) {
        let told = answer["error"]["message"].as_str().unwrap_or_else(|| panic!("{}", &job[..100]));
        assert!(told.len() < 20_000, "{} bytes told of {}", told.len(), &job[..100]);
    }
    assert_eq!(answers[bad]["plan"]["perimeter"], 27600.0);
}

#[test]
fn price_lists_and_sheets_that_are_wrong_all_over_end_soon() {
    let rows = |row: &str| format!("item,rate\n{}", row.repeat((LARGEST - 20) / row.len()));
    let lists = [
        filled("", |number| format!("c{number}"), "\n"),
        filled("item,rate,", |_| "item".to_owned(), "\n"),
        rows("peg,x\n"),
        rows("peg,1,2\n"),
        rows("\"peg,1\n"),
        rows("peg,1\n"),
        filled("[", |_| "{}".to_owned(), "]"),
        filled("[", |_| r#"{"item":"peg","rate":"x"}"#.to_owned(), "]"),
    ];
    for list in lists {
        let start = list[..30].to_owned();
        let (code, out, said) = limited("order 7800x6000 --prices -", list, 400_000, 20);
        assert_eq!((code, out.as_str()), (2, ""), "{start}: {said}");
        assert!(said.len() < 20_000, "{start}: {} bytes", said.len());
    }
    let answers: Map<String, Value> = (0..40_000).map(|number| (format!("q{number}"), json!("x"))).collect();
    let form =
        json!({"topic": "diagonals", "level": 1, "seed": 7, "count": 8, "answers": answers}).to_string();
    let text = "x = y\n".repeat((LARGEST - 20) / 6);
    for sheet in [form, text] {
        let (code, out, said) = limited("practice --mark -", sheet, 400_000, 20);
        assert_eq!((code, out.as_str()), (2, ""), "{said}");
        assert!(said.len() < 20_000, "{} bytes", said.len());
    }
}
