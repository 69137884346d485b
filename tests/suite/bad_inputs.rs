//! What was typed wrongly, and what is said to it: one table to read through as the one who typed it.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use insta::assert_snapshot;

use crate::program::pegline;

const PLAN: &str = "7800x6000-3000x2400";

/// Values that are no length, whoever asks for one.
const NO_LENGTHS: [&str; 12] = [
    "",
    " ",
    "0",
    "-1",
    "NaN",
    "inf",
    "1e300",
    "٣٤٥",
    "8yd",
    "6,435",
    "99999999999",
    "1/0in",
];

/// A folder with what some of the inputs need: a folder as a file, bytes that are no text.
static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = std::env::temp_dir().join(format!("pegline-bad-inputs-{}", std::process::id()));
    fs::create_dir_all(folder.join("a-folder")).unwrap();
    fs::write(folder.join("no-text.json"), [0xff, 0xfe, 0x00]).unwrap();
    fs::write(folder.join("empty.json"), "").unwrap();
    fs::write(folder.join("there.json"), "{}").unwrap();
    folder
});

/// The words typed and what came of it: exit code and message, one row each.
fn row(table: &mut String, folder: &Path, arguments: &[&str], input: &str) {
    let ran = pegline(arguments).within(folder).input(input).run();
    let quoted = |word: &str| {
        let plain = !word.is_empty()
            && word
                .chars()
                .all(|c| c.is_alphanumeric() || "-=.,:@+/<".contains(c));
        if plain {
            word.to_owned()
        } else {
            format!("'{word}'")
        }
    };
    let words: Vec<String> = arguments.iter().map(|word| quoted(word)).collect();
    table.push_str(&words.join(" "));
    if !input.is_empty() {
        table.push_str(" < ");
        table.push_str(&input.escape_debug().to_string());
    }
    table.push_str(&format!("\n  {}", ran.code));
    if ran.code == 2 {
        assert_eq!(ran.out, "", "{arguments:?}");
        assert!(!ran.err.is_empty(), "{arguments:?}");
        for line in ran.err.lines() {
            let line = line.strip_prefix("error: ").unwrap_or(line);
            table.push_str(&format!("  {line}\n"));
        }
        fits(arguments, &ran.err);
    } else {
        assert_eq!(ran.err, "", "{arguments:?}");
        table.push_str(&format!("  {}\n", ran.out.lines().next().unwrap_or_default()));
    }
}

/// One paragraph a fault (a fault in a file may show its line), lower case, no full stop, nothing of the parser's own.
fn fits(arguments: &[&str], said: &str) {
    for line in said.lines() {
        let Some(message) = line.strip_prefix("error: ") else {
            assert!(
                line.contains('|') || line.starts_with(' '),
                "{arguments:?}: {line}"
            );
            continue;
        };
        assert!(!message.ends_with('.'), "{arguments:?}: {message}");
        assert!(message.chars().count() <= 400, "{arguments:?}: {message}");
        for parser in [
            "os error",
            "invalid type",
            "expected",
            "Usage",
            "missing field",
            "unknown variant",
        ] {
            assert!(!message.contains(parser), "{arguments:?}: {message}");
        }
    }
}

fn table(rows: &[&[&str]]) -> String {
    let mut table = String::new();
    for arguments in rows {
        row(&mut table, &FOLDER, arguments, "");
    }
    table
}

#[test]
fn words_around_the_commands() {
    assert_snapshot!(table(&[
        &["diagnals", PLAN],
        &["xyz"],
        &["--jsno", "diagonals", PLAN],
        &["diagonals", PLAN, "--jsno"],
        &["diagonals", PLAN, "--frobnicate"],
        &["diagonals", PLAN, "-1"],
        &["diagonals", PLAN, "-q"],
        &["diagonals", PLAN, "--format", "xml"],
        &["diagonals", PLAN, "--format"],
        &["diagonals", PLAN, "--format", ""],
        &["diagonals", PLAN, "--json", "--format", "csv"],
        &["diagonals", PLAN, "--json", "--json"],
        &["diagonals", PLAN, "--units", "cm"],
        &["diagonals", PLAN, "--units", ""],
        &["diagonals", PLAN, "--units"],
        &["diagonals", PLAN, "--units", "mm", "--units", "m"],
        &["diagonals", PLAN, "--json=yes"],
        &["job"],
        &["job", "knew"],
        &["job", "new", "hexagon"],
        &["job", "new", ""],
        &["job", "new", "L", "T"],
        &["job", "new", "--force"],
        &["job", "new", "-o"],
        &["job", "new", "-o", ""],
        &["job", "new", "-o", "a-folder"],
        &["job", "new", "-o", "a-folder", "--force"],
        &["job", "new", "-o", "there.json"],
        &["job", "new", "-o", "nowhere/job.json"],
        &["job", "new", "-o", "there.json/job.json"],
        &["job", "check"],
        &["job", "check", "nowhere.json"],
        &["job", "check", "a-folder"],
        &["job", "check", "no-text.json"],
        &["job", "check", "empty.json"],
        &["job", "check", "there.json", "there.json"],
        &["job", "schema", "1"],
        &["batch"],
        &["batch", "sheet"],
        &["batch", "Diagonals"],
        &["batch", "diagonals", "plates"],
    ]));
}

#[test]
fn plans_and_walks() {
    let rows: Vec<Vec<&str>> = [
        "",
        " ",
        "x",
        "7800",
        "7800x",
        "x6000",
        "7800x0",
        "0x6000",
        "-7800x6000",
        "7800x-6000",
        "NaNxNaN",
        "infx6000",
        "1e300x6000",
        "٧٨٠٠x6000",
        "7800x6000x5000",
        "7800*6000",
        "7800x6000-",
        "7800x6000+",
        "7800x6000-3000",
        "7800x6000-3000x2400@",
        "7800x6000-3000x2400@xx",
        "7800x6000-9000x2400",
        "7800x6000-7800x2400",
        "7800x6000-7800x6000",
        "7800x6000-3000x2400@br-3000x2400@br",
        "7800x6000+9000x2400",
        "7800x6000+2400x2400@7000",
        "7800x6000+2400x2400@-1",
        "2000000x6000",
        "0.01x0.01",
        "7800mmx6yd",
        "7,800x6,000",
        "7800x6000;rm",
        "7800x6000\n",
    ]
    .iter()
    .map(|plan| vec!["diagonals", "--", *plan])
    .chain(
        [
            "",
            "R",
            "7800",
            "7800 R",
            "7800 R 3600",
            "7800 X 3600",
            "7800 R 0 R 7800",
            "7800 R -3600 R 7800 R 3600",
            "7800 R 3600 R 7800 R 3700",
            "7800 R 3600 R 7700 R 3600",
            "7800 R 3600 L 7800 L 3600",
            "7800 R R 3600",
            "NaN R 3600 R 7800",
            "1e300 R 1 R 1e300 R 1",
            "7800 R 3600 R 3000 R 3600",
            "3000 R 3000 R 1000 R 4000 R 5000",
        ]
        .iter()
        .map(|walk| vec!["diagonals", "--walk", *walk]),
    )
    .chain(
        ["", "A", "AC", "BA", "ab", "ABC", "AB AB", "A1", "ZZ", "ΑΒ"]
            .iter()
            .map(|side| vec!["diagonals", PLAN, "--house", *side]),
    )
    .chain([
        vec!["diagonals"],
        vec!["diagonals", PLAN, "--walk", "7800 R 6000 R"],
        vec!["diagonals", "--walk"],
        vec!["diagonals", PLAN, "--house"],
        vec!["diagonals", "--house", "AB"],
    ])
    .collect();
    let rows: Vec<&[&str]> = rows.iter().map(Vec::as_slice).collect();
    assert_snapshot!(table(&rows));
}

#[test]
fn lengths_wherever_one_is_asked() {
    let options: [&[&str]; 8] = [
        &["diagonals", PLAN, "--tape-length="],
        &["diagonals", PLAN, "--tape-reading="],
        &["lines", PLAN, "--setback="],
        &["plates", PLAN, "--stock=3m", "--width="],
        &["cuts", "--pieces=1200", "--stock=3m", "--kerf="],
        &["readings", PLAN, "--read=AB=7800", "--held-on="],
        &["packs", PLAN, "--staff=A=1412,B=1409", "--limit="],
        &["heights", "--drop=2398", "--level-depth="],
    ];
    let mut rows = vec![];
    for option in options {
        for word in NO_LENGTHS {
            let (last, before) = option.split_last().unwrap();
            let mut row: Vec<String> = before.iter().map(|word| (*word).to_owned()).collect();
            row.push(format!("{last}{word}"));
            rows.push(row);
        }
    }
    let rows: Vec<Vec<&str>> = rows
        .iter()
        .map(|row| row.iter().map(String::as_str).collect())
        .collect();
    let rows: Vec<&[&str]> = rows.iter().map(Vec::as_slice).collect();
    assert_snapshot!(table(&rows));
}

#[test]
fn options_of_each_command() {
    assert_snapshot!(table(&[
        &["diagonals", PLAN, "--spares", "-1"],
        &["diagonals", PLAN, "--spares", "99"],
        &["diagonals", PLAN, "--spares", "1.5"],
        &["diagonals", PLAN, "--spares", "٣"],
        &["diagonals", PLAN, "--tape-class", "IV"],
        &["diagonals", PLAN, "--tape-class", ""],
        &["corners", PLAN, "--tapes", "3m,4m"],
        &["corners", PLAN, "--tapes", "3m,4m,5m,6m"],
        &["corners", PLAN, "--tapes", "3m,4m,9m"],
        &["corners", PLAN, "--tapes", "3m,,5m"],
        &["corners", PLAN, "--tapes", "0,4m,5m"],
        &["corners", PLAN, "--tapes", "3m,4m,5m", "--corner", "Q"],
        &["corners", PLAN, "--tapes", "3m,4m,5m", "--corner", ""],
        &["corners", PLAN, "--corner", "C"],
        &["corners"],
        &["lines", PLAN, "--layers", "skin"],
        &["lines", PLAN, "--layers", "skin=x"],
        &["lines", PLAN, "--layers", "=102"],
        &["lines", PLAN, "--layers", ""],
        &["lines", PLAN, "--offset", "0"],
        &["lines", PLAN, "--offset=-5000"],
        &["lines", PLAN, "--opening", "CD"],
        &["lines", PLAN, "--opening", "ZZ@600:900"],
        &["lines", PLAN, "--opening", "CD@600"],
        &["lines", PLAN, "--opening", "CD@9000:900"],
        &["straight"],
        &["straight", "--read", "0=20"],
        &["straight", "--block", "20", "--read", "0"],
        &["straight", "--block", "20", "--read", "0=20,0=21"],
        &["straight", "--block", "20", "--read", "x=20,1200=22"],
        &[
            "straight",
            "--block",
            "20",
            "--read",
            "0=20,1200=22",
            "--side",
            "CD"
        ],
        &["plates", PLAN],
        &["plates", PLAN, "--width", "140"],
        &["plates", PLAN, "--width", "9000", "--stock", "3m"],
        &["plates", PLAN, "--width", "140", "--stock", ""],
        &["plates", PLAN, "--width", "140", "--stock", "0"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:-1"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:1.234"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:1e300"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:NaN"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:10,3m:11"],
        &["plates", PLAN, "--width", "140", "--stock", "3m:10,4m"],
        &[
            "plates", PLAN, "--width", "140", "--stock", "3m", "--favour", "speed"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--corners",
            "mitre"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--seconds",
            "-1"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--seconds",
            "x"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--seconds",
            "NaN"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--seconds",
            "1e300"
        ],
        &[
            "plates",
            PLAN,
            "--width",
            "140",
            "--stock",
            "3m",
            "--least-piece",
            "4m"
        ],
        &["plates", PLAN, "--width", "140", "--stock", "3m", "--have", "x3m"],
        &["plates", PLAN, "--width", "140", "--have", "1x3m"],
        &["plates", PLAN, "--width", "140", "--stock", "1mm"],
        &["cuts"],
        &["cuts", "--pieces", "1200"],
        &["cuts", "--pieces", "", "--stock", "3m"],
        &["cuts", "--pieces", "0x1200", "--stock", "3m"],
        &["cuts", "--pieces", "-4x1200", "--stock", "3m"],
        &["cuts", "--pieces=-4x1200", "--stock", "3m"],
        &["cuts", "--pieces", "4x", "--stock", "3m"],
        &["cuts", "--pieces", "4x1200x3", "--stock", "3m"],
        &["cuts", "--pieces", "4x5000", "--stock", "3m"],
        &["cuts", "--pieces", "1.5x1200", "--stock", "3m"],
        &["cuts", "--pieces", "4x1200", "--stock", "3m", "--trim", "3m"],
        &["cuts", "--pieces", "4x1200", "--have", "1x3m"],
        &["readings", PLAN],
        &["readings", PLAN, "--read", ""],
        &["readings", PLAN, "--read", "AB"],
        &["readings", PLAN, "--read", "AB="],
        &["readings", PLAN, "--read", "=7800"],
        &["readings", PLAN, "--read", "AZ=7800"],
        &["readings", PLAN, "--read", "AA=7800"],
        &["readings", PLAN, "--read", "AB=0"],
        &["readings", PLAN, "--read", "AB=-7800"],
        &["readings", PLAN, "--read", "AB=1e300"],
        &["readings", PLAN, "--read", "AB=7800", "--held-on", "8000"],
        &["readings", PLAN, "--read", "AB=7800", "--fit", "XY"],
        &["readings", PLAN, "--read", "AB=7800", "--fit", "best"],
        &["readings", PLAN, "--read", "AB=7800", "--preset", "mine"],
        &[
            "readings", PLAN, "--read", "AB=7800", "--preset", "kent", "--limit", "5"
        ],
        &["readings", PLAN, "--read", "AB=7800", "--temperature", "warm"],
        &["readings", PLAN, "--read", "AB=7800", "--temperature", "900C"],
        &["readings", PLAN, "--read", "AB=7800", "--temperature", "4"],
        &["readings", PLAN, "--read", "AB=7800", "--sag", "19"],
        &["readings", PLAN, "--read", "AB=7800", "--sag", "0,0"],
        &["readings", PLAN, "--read", "AB=7800", "--rise", "AB=9000"],
        &["readings", PLAN, "--read", "AB=7800", "--rise", "AC=1"],
        &["readings", PLAN, "--read", "AB=7800", "--second-class", "II"],
        &["packs", PLAN],
        &["packs", PLAN, "--staff", "A"],
        &["packs", PLAN, "--staff", "A="],
        &["packs", PLAN, "--staff", "Z=1412"],
        &["packs", PLAN, "--staff", "A=NaN"],
        &["packs", PLAN, "--staff", "A=1412,A=1500"],
        &["packs", PLAN, "--staff", "AB@9000=1412,A=1400"],
        &["packs", PLAN, "--staff", "A=1412", "--heights", "B=3"],
        &["packs", PLAN, "--staff", "A=1412,B=1409", "--datum", "C"],
        &["packs", PLAN, "--staff", "A=1412,B=1409", "--packers", "0"],
        &["packs", PLAN, "--staff", "A=1412,B=1409", "--packers", "0x5"],
        &["packs", PLAN, "--staff", "A=1412,B=1409", "--preset", "mine"],
        &[
            "packs",
            PLAN,
            "--staff",
            "A=1412,B=1409",
            "--preset",
            "nhbc",
            "--limit",
            "5"
        ],
        &["heights"],
        &["heights", "--drop", "2398"],
        &["heights", "--drop", "", "--level-depth", "50"],
        &["heights", "--drop", "2398,x", "--level-depth", "50"],
        &[
            "heights",
            "--drop",
            "2398",
            "--level-depth",
            "50",
            "--stack",
            "plate"
        ],
        &[
            "heights",
            "--drop",
            "2398",
            "--level-depth",
            "50",
            "--stack",
            "roof=38"
        ],
        &[
            "heights",
            "--drop",
            "2398",
            "--level-depth",
            "50",
            "--stack",
            "plate=-38"
        ],
        &[
            "heights",
            "--drop",
            "2398",
            "--level-depth",
            "50",
            "--fall",
            "steep"
        ],
        &[
            "heights",
            "--drop",
            "2398",
            "--level-depth",
            "50",
            "--fall",
            "1:0"
        ],
        &["heights", "--ceiling", "2300", "--fall-to", "sea"],
        &["practice"],
        &["practice", "sums"],
        &["practice", "diagonals", "--level", "4"],
        &["practice", "diagonals", "--level", "x"],
        &["practice", "diagonals", "--count", "0"],
        &["practice", "diagonals", "--count", "51"],
        &["practice", "diagonals", "--count", "-1"],
        &["practice", "diagonals", "--seed", "-1"],
        &["practice", "diagonals", "--seed", "99999999999"],
        &["practice", "diagonals", "--units", "cm"],
        &["practice", "diagonals", "--units", "m"],
        &["practice", "diagonals", "--mark", "there.json"],
        &["practice", "--mark", "nowhere.txt"],
        &["practice", "--mark", "a-folder"],
        &["practice", "--mark", "no-text.json"],
        &["practice", "--mark", "empty.json"],
        &["practice", "--mark", "there.json"],
    ]));
}

#[test]
fn job_files() {
    let mut table = String::new();
    for words in [
        vec!["diagonals", "--job", "nowhere.json"],
        vec!["diagonals", "--job", "a-folder"],
        vec!["diagonals", "--job", "no-text.json"],
        vec!["diagonals", "--job", "there.json"],
        vec!["diagonals", "--job", ""],
        vec!["diagonals", "--job"],
        vec!["diagonals", "--job", "there.json", "--job", "there.json"],
        vec!["diagonals", "--job", "-", "--job", "-"],
    ] {
        row(&mut table, &FOLDER, &words, "");
    }
    let job = ["diagonals", "--job", "-"];
    for text in [
        " ",
        "null",
        "[]",
        "7",
        "\"x\"",
        "{",
        "{}}",
        "{'plan': 1}",
        "{plan: 1}",
        r#"{"plan": }"#,
        r#"{"plan": "7800x6000",}"#,
        r#"{"plan": "7800x6000"} x"#,
        r#"{"plan": "a\u0007b"}"#,
        "{\"plan\": \"a\tb\"}",
        r#"{"plan": "\ud800"}"#,
        r#"{"plan": 7800}"#,
        r#"{"plan": null}"#,
        r#"{"plan": "7800x6000", "plan": "1x1"}"#,
        r#"{"plan": "7800x6000", "walk": "1 R 1 R"}"#,
        r#"{"pla": "7800x6000"}"#,
        r#"{"plan": "7800x6000", "house": "AB"}"#,
        r#"{"plan": "7800x6000", "house": [1]}"#,
        r#"{"plan": "7800x6000", "house": ["AC"]}"#,
        r#"{"schema": 2, "plan": "7800x6000"}"#,
        r#"{"schema": -1, "plan": "7800x6000"}"#,
        r#"{"schema": 99999999999, "plan": "7800x6000"}"#,
        r#"{"units": "cm", "plan": "7800x6000"}"#,
        r#"{"plan": "7800x6000", "studs": 1e999}"#,
        r#"{"plan": "7800x6000", "studs": true}"#,
        r#"{"plan": "7800x6000", "studs": 0}"#,
        r#"{"plan": "7800x6000", "studs": -600}"#,
    ] {
        row(&mut table, &FOLDER, &job, text);
    }
    for section in [
        "tape",
        "diagonals",
        "corners",
        "stock",
        "plates",
        "cuts",
        "packs",
        "heights",
        "lines",
        "straight",
        "readings",
        "openings",
        "partitions",
        "joints",
    ] {
        for value in [r#"{"nam": 1}"#, "7", r#"[["x"]]"#] {
            row(
                &mut table,
                &FOLDER,
                &job,
                &format!(r#"{{"plan": "7800x6000", "{section}": {value}}}"#),
            );
        }
    }
    for section in [
        r#""tape": {"class": 2}"#,
        r#""tape": {"from_hook": "yes"}"#,
        r#""diagonals": {"spares": -1}"#,
        r#""diagonals": {"spares": 1.5}"#,
        r#""corners": {"tapes": [3, 4]}"#,
        r#""stock": {"lengths": [3000]}"#,
        r#""stock": {"lengths": [{"length": 3000, "price": -1}]}"#,
        r#""stock": {"lengths": [{"price": 1}]}"#,
        r#""stock": {"have": [{"length": 3000, "count": -1}]}"#,
        r#""cuts": {"pieces": [{"length": 0}]}"#,
        r#""cuts": {"seconds": "long"}"#,
        r#""plates": {"anchors": {"rules": "de"}}"#,
        r#""plates": {"binder": 1}"#,
        r#""packs": {"staff": ["A=1412"]}"#,
        r#""packs": {"staff": [["A=1412"]], "limit": 1, "preset": "nhbc"}"#,
        r#""heights": {"stack": "plate=38"}"#,
        r#""lines": {"layers": [{"name": "skin"}]}"#,
        r#""straight": {"readings": [{"at": 0}]}"#,
        r#""readings": {"read": [["AB=1"]]}"#,
        r#""readings": {"second_tape": {"reed": []}}"#,
        r#""openings": [{"side": "AB"}]"#,
    ] {
        row(
            &mut table,
            &FOLDER,
            &job,
            &format!(r#"{{"plan": "7800x6000", {section}}}"#),
        );
    }
    let batch = ["batch", "diagonals"];
    for line in ["\n", "x\n", "{}\n", "{\"plan\": \"0x0\"}\n"] {
        row(&mut table, &FOLDER, &batch, line);
    }
    let mark = ["practice", "--mark", "-"];
    for sheet in [
        " ",
        "hello",
        "{}",
        "{\"topic\": 1}",
        r#"{"topic": "x", "level": 9, "seed": 1, "count": 99, "answers": {}}"#,
        r#"{"topic": "plates", "level": 1, "seed": 1, "count": 2, "answers": {"9": 1, "x": 2, "1": [[1]]}}"#,
        r#"{"topic": "plates", "level": 1, "seed": 1, "count": 2, "edition": 9, "answers": {}}"#,
    ] {
        row(&mut table, &FOLDER, &mark, sheet);
    }
    assert_snapshot!(table);
}
