//! The whole job on one sheet: every part as its own command gives it, in the order of the day, for the invented jobs in
//! `examples/`.

use std::fs;
use std::path::PathBuf;

use roxmltree::{Document, ParsingOptions};
use serde_json::Value;

use crate::program::{Program, pegline};

/// The invented jobs, the parts that each has inputs for, and the exit code of its sheet.
const JOBS: [(&str, &[&str], i32); 3] = [
    (
        "garden-room",
        &[
            "sketch",
            "diagonals",
            "corners",
            "lines",
            "plates",
            "readings",
            "packs",
            "heights",
            "joists",
            "order",
        ],
        0,
    ),
    ("workshop", &["sketch", "diagonals", "corners", "lines", "plates", "readings", "order"], 1),
    ("side-return", &["sketch", "diagonals", "corners", "lines", "plates", "straight", "packs", "order"], 0),
];

/// The JSON that a run prints, whatever its verdict.
fn json(program: Program) -> Value {
    serde_json::from_str(&program.run().out).unwrap()
}

fn path(job: &str) -> String {
    format!("examples/{job}.json")
}

fn sheet(job: &str) -> Value {
    json(pegline(["sheet", "--job", &path(job), "--json"]))
}

fn names(list: &Value) -> Vec<&str> {
    let items = list.as_array().unwrap();
    items.iter().map(|item| item["command"].as_str().unwrap()).collect()
}

#[test]
fn each_part_is_what_its_own_command_answers_in_the_order_of_the_day() {
    for (job, parts, _) in JOBS {
        let sheet = sheet(job);
        assert_eq!(names(&sheet["result"]["parts"]), parts, "{job}");
        for part in sheet["result"]["parts"].as_array().unwrap() {
            let command = part["command"].as_str().unwrap();
            let own = json(pegline([command, "--job", &path(job), "--json"]));
            assert_eq!(part["result"], own["result"], "{job}: {command}");
            for caution in own["cautions"].as_array().unwrap() {
                let all = sheet["cautions"].as_array().unwrap();
                assert_eq!(all.iter().filter(|said| *said == caution).count(), 1, "{job}: {caution}");
            }
        }
    }
}

#[test]
fn the_page_fits_80_columns_and_a_bad_part_is_named_first_and_in_the_exit_code() {
    for (job, parts, code) in JOBS {
        let answer = pegline(["sheet", "--job", &path(job)]).run();
        assert_eq!(answer.code, code, "{job}");
        let widest = answer.out.lines().map(|line| line.chars().count()).max();
        assert!(widest.unwrap() <= 80, "{job}");
        let headings = answer.out.lines().filter(|line| line.contains("━━━━"));
        // The drawing has no heading.
        assert_eq!(headings.count(), parts.len() - 1, "{job}");
        let readings = pegline(["readings", "--job", &path(job)]).run();
        let first = answer.out.lines().next().unwrap();
        let begins = readings.out.split([';', '\n']).next().unwrap();
        assert_eq!(!begins.is_empty() && first.starts_with(begins), code == 1, "{job}: {first}");
    }
}

/// The fields that a line says are missing, as paths: what stands between backticks.
fn fields(needs: &str) -> Vec<&str> {
    needs.split('`').skip(1).step_by(2).collect()
}

#[test]
fn what_is_missing_is_named_by_fields_that_the_schema_has_and_that_unlock_it() {
    let bare = json(pegline(["sheet", "7800x6000-3000x2400", "--json"]));
    assert_eq!(
        names(&bare["result"]["missing"]),
        ["plates", "readings", "straight", "packs", "heights", "joists", "order"]
    );
    let whole: Value = serde_json::from_str(&fs::read_to_string(path("garden-room")).unwrap()).unwrap();
    let return_: Value = serde_json::from_str(&fs::read_to_string(path("side-return")).unwrap()).unwrap();
    for missing in bare["result"]["missing"].as_array().unwrap() {
        let command = missing["command"].as_str().unwrap();
        // The invented jobs have every section between them; the straightness is of a side that this plan has too.
        let mut job = serde_json::json!({"plan": "7800x6000-3000x2400", "units": "mm"});
        for field in fields(missing["needs"].as_str().unwrap()) {
            let Some((section, key)) = field.split_once('.') else {
                job[field] = whole[field].clone();
                continue;
            };
            let from = [&whole, &return_].into_iter().find(|job| job.get(section).is_some()).unwrap();
            if let Some(value) = from[section].get(key) {
                job[section][key] = value.clone();
            }
        }
        let answer = json(pegline(["sheet", "--job", "-", "--json"]).input(job.to_string()));
        let parts = names(&answer["result"]["parts"]);
        assert!(parts.contains(&command), "{command} from {job}");
    }
}

#[test]
fn the_rows_of_each_part_are_those_of_its_own_csv() {
    for (job, parts, _) in JOBS {
        let long = pegline(["sheet", "--job", &path(job), "--format", "csv"]).run().out;
        let mut reader = csv::Reader::from_reader(long.as_bytes());
        assert_eq!(reader.headers().unwrap(), vec!["part", "row", "column", "value"]);
        let cells: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
        for part in parts.iter().filter(|part| **part != "sketch") {
            let own = pegline([part, "--job", &path(job), "--format", "csv"]).run().out;
            let mut own = csv::Reader::from_reader(own.as_bytes());
            let header = own.headers().unwrap().clone();
            let rows = own.records().map(Result::unwrap).enumerate();
            let expected: Vec<Vec<String>> = rows
                .flat_map(|(i, row)| {
                    let cells = header.iter().zip(row.iter());
                    let cells = cells.map(|(column, value)| {
                        vec![(*part).to_owned(), (i + 1).to_string(), column.to_owned(), value.to_owned()]
                    });
                    cells.collect::<Vec<_>>()
                })
                .collect();
            let found = cells.iter().filter(|cell| &cell[0] == *part);
            let found: Vec<Vec<String>> =
                found.map(|cell| cell.iter().map(str::to_owned).collect()).collect();
            assert_eq!(found, expected, "{job}: {part}");
        }
    }
}

#[test]
fn the_html_page_is_well_formed_whole_in_itself_and_has_every_figure_and_the_drawing() {
    for (job, parts, code) in JOBS {
        let answer = pegline(["sheet", "--job", &path(job), "--html"]).run();
        assert_eq!(answer.code, code);
        for word in ["href", "src=", "url(", "<script", "<link", "@import"] {
            assert!(!answer.out.contains(word), "{job}: {word}");
        }
        let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
        let document = Document::parse_with_options(&answer.out, options).unwrap();
        let count = |tag: &str| document.descendants().filter(|node| node.tag_name().name() == tag).count();
        // The plan, how the plates lie and how the joists lie, each for paper and for a narrow screen.
        let drawn = parts.iter().filter(|part| ["sketch", "plates", "joists"].contains(part));
        assert_eq!(count("svg"), 2 * drawn.count(), "{job}");
        assert_eq!(count("h2"), parts.len() - 1, "{job}");
        // The text is printed on the drawings' paper, upright, and they come after it.
        let paper = if job == "workshop" { "Letter" } else { "A4" };
        assert!(answer.out.contains(&format!("@page {{ size: {paper}; }}")), "{job}");
        assert!(
            answer
                .out
                .contains(&format!("@page {paper}-landscape {{ size: {paper} landscape; margin: 0; }}"))
        );
        assert!(
            answer.out.find("<figure").unwrap() > answer.out.rfind("class=\"caution\"").unwrap(),
            "{job}"
        );
        // Every figure of the text page is on this one, but for those that belong to the drawing in characters.
        let words: String =
            document.descendants().filter_map(|node| node.text()).collect::<Vec<_>>().join(" ");
        let page = pegline(["sheet", "--job", &path(job)]).run().out;
        let after_drawing = page.split_once("\nCheck sizes ━").unwrap().1;
        for word in
            after_drawing.split_whitespace().filter(|word| word.contains(|c: char| c.is_ascii_digit()))
        {
            assert!(words.contains(word), "{job}: {word}");
        }
    }
}

#[test]
fn a_name_can_t_get_out_of_its_place_in_the_html() {
    let job = r#"{"plan": "6000x4000", "name": "</title><b>\"A & B\"\u0007"}"#;
    let page = pegline(["sheet", "--job", "-", "--html"]).input(job).run().out;
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let document = Document::parse_with_options(&page, options).unwrap();
    let heading =
        document.descendants().find(|node| node.has_tag_name(("http://www.w3.org/1999/xhtml", "h1")));
    assert_eq!(heading.unwrap().text(), Some("</title><b>\"A & B\"\u{fffd}"));
}

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("pegline-sheet-{name}-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn the_file_is_written_whole_and_never_over_another_without_force() {
    let folder = folder("file");
    let file = folder.join("plot.html");
    let name = file.to_str().unwrap();
    let job = path("garden-room");
    let args = ["sheet", "--job", job.as_str(), "--html", "-o", name];
    assert_eq!(pegline(args).run().out, "");
    let written = fs::read_to_string(&file).unwrap();
    assert!(written.ends_with("</html>\n"));
    let message = pegline(args).refusal();
    assert!(message.contains("--force"), "{message}");
    assert_eq!(fs::read_to_string(&file).unwrap(), written);
    fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn a_part_that_has_its_inputs_but_no_answer_is_named() {
    let job = r#"{"plan": "6000x4000", "plates": {"width": 140}, "stock": {"lengths": [{"length": 300}]}}"#;
    let message = pegline(["sheet", "--job", "-"]).input(job).refusal();
    assert!(message.starts_with("error: plates: "), "{message}");
    let own = pegline(["plates", "--job", "-"]).input(job).refusal();
    assert_eq!(message, own.replace("error: ", "error: plates: "));
    let message = pegline(["sheet", "--html", "--json", "6000x4000"]).refusal();
    assert_eq!(message, "error: --html: it is a format of its own: leave out --format and --json\n");
}

#[test]
fn working_is_that_of_every_part() {
    let steps = |command: &str| {
        let answer = json(pegline([command, "--job", &path("garden-room"), "--working", "--json"]));
        answer["working"].as_array().cloned().unwrap_or_default()
    };
    let parts =
        ["diagonals", "corners", "lines", "plates", "readings", "packs", "heights", "joists", "order"];
    let all: Vec<Value> = parts.into_iter().flat_map(steps).collect();
    assert_eq!(steps("sheet"), all);
    assert!(all.len() > 20);
}
