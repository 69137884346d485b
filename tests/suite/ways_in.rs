//! The ways into a command: a job file where a plan goes, a plan alone, lists over spaces, what is typed kept in the file.

use std::fs;
use std::path::PathBuf;

use crate::program::{Program, pegline};

const L: &str = "7800x6000-3000x2400";

/// A folder of its own with the job file of an L in it.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("pegline-ways-in-{name}-{}", std::process::id()));
        let _gone = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let new = Self(folder);
        new.run(&["job", "new", L, "--house", "AB", "-o", "plot4.json"]).answer();
        new
    }

    fn run(&self, words: &[&str]) -> Program {
        pegline(words).within(&self.0)
    }

    fn file(&self) -> String {
        fs::read_to_string(self.0.join("plot4.json")).unwrap()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _gone = fs::remove_dir_all(&self.0);
    }
}

#[test]
fn a_started_job_holds_what_was_typed_and_no_reading() {
    let file = Folder::new("started").file();
    assert_eq!(file, format!("{{\n  \"schema\": 1,\n  \"house\": [\"AB\"],\n  \"plan\": \"{L}\"\n}}\n"));
}

#[test]
fn a_job_file_stands_where_a_plan_does() {
    let folder = Folder::new("file");
    let sample = pegline(["job", "new", "L", "--sample"]).answer();
    fs::write(folder.0.join("whole.json"), &sample).unwrap();
    for command in ["day", "diagonals", "corners", "lines", "plates", "packs", "heights", "order", "sketch"] {
        let named = folder.run(&[command, "--job", "whole.json", "--json"]).run();
        assert_eq!(named.err, "", "{command}");
        assert_eq!(folder.run(&[command, "whole.json", "--json"]).run().out, named.out, "{command}");
        assert_eq!(pegline([command, "-", "--json"]).input(sample.clone()).run().out, named.out, "{command}");
    }
}

#[test]
fn a_plan_alone_asks_for_the_day() {
    let folder = Folder::new("alone");
    assert_eq!(folder.run(&[L, "--house", "AB"]).answer(), folder.run(&["day", L, "--house", "AB"]).answer());
    assert_eq!(folder.run(&["7800", "x", "6000"]).answer(), folder.run(&["day", "7800x6000"]).answer());
    assert_eq!(
        folder.run(&["--json", "plot4.json"]).answer(),
        folder.run(&["day", "plot4.json", "--json"]).answer()
    );
}

#[test]
fn a_list_goes_on_over_spaces() {
    let read = "AB=7802,BC=3599,CD=3001,DE=2402,EF=4799,FA=6002,AD=6000,BE=6709,DF=5368";
    let commas = pegline(["readings", L, "--limit", "10", "--read", read]).run().out;
    let spaced: Vec<&str> = read.split(',').collect();
    let option = ["readings", L, "--read"].into_iter().chain(spaced.iter().copied());
    assert_eq!(pegline(option.chain(["--limit", "10"])).run().out, commas);
    let bare = ["readings", L].into_iter().chain(spaced.iter().copied());
    assert_eq!(pegline(bare.chain(["--limit", "10"])).run().out, commas);

    let packs = |words: &[&str]| pegline(["packs", L].iter().chain(words)).run().out;
    let commas = packs(&["--staff", "A=1412,B=1409", "--packers", "1,2,12x5"]);
    assert_eq!(packs(&["--staff", "A=1412", "B=1409", "--packers", "1", "2,", "12x5"]), commas);
    // Before the plan a bare number may be the plan's.
    let first = pegline(["packs", "--packers", "1", "2", "7800", "x", "6000"]).refusal();
    assert!(first.starts_with("error: PLAN: "), "{first}");

    let sides = pegline(["sketch", L, "--house", "AB,FA"]).answer();
    assert_eq!(pegline(["sketch", L, "--house", "AB", "FA"]).answer(), sides);
    assert_eq!(pegline(["sketch", "--house", "AB", "FA", L]).answer(), sides);

    // What a name says of an item, and what is said of its place, are both of one list.
    let lines = |words: &[&str]| pegline(["lines", L, "--marks", "--opening"].iter().chain(words)).answer();
    let commas = lines(&["door=CD:900@600,EF:900@1200"]);
    assert_eq!(lines(&["door=CD:900@600", "EF:900@1200"]), commas);
    assert_eq!(lines(&["door=CD:900@600 EF:900@1200"]), commas);
    assert!(commas.contains("door"), "{commas}");
}

#[test]
fn what_is_typed_is_kept_in_the_job_file() {
    let folder = Folder::new("kept");
    let typed =
        folder.run(&["plates", "plot4.json", "--width", "140", "--stock", "4.8m:15.60", "--keep"]).answer();
    assert_eq!(folder.run(&["plates", "plot4.json"]).answer(), typed);
    // Another length is added to those for sale, and the same one takes a new price.
    folder.run(&["plates", "plot4.json", "--stock", "3.6m:10.80,4800:16", "--keep"]).answer();
    let job: serde_json::Value = serde_json::from_str(&folder.file()).unwrap();
    let expected =
        serde_json::json!([{"length": "4800", "price": "16"}, {"length": "3.6m", "price": "10.80"}]);
    assert_eq!(job["stock"]["lengths"], expected);
    assert_eq!(job["house"][0], "AB");
    // A line that is taped again takes the place of its first reading; a bad verdict is kept like a good one.
    let read = |words: &[&str]| folder.run(&[&["readings", "plot4.json", "--keep"], words].concat()).run();
    assert_eq!(read(&["AB=7802", "BC=3599"]).code, 1);
    assert_eq!(read(&["BA=7803", "CD=3001"]).code, 1);
    let job: serde_json::Value = serde_json::from_str(&folder.file()).unwrap();
    assert_eq!(job["readings"]["read"], serde_json::json!(["BA=7803", "BC=3599", "CD=3001"]));
}

#[test]
fn nothing_is_kept_of_what_was_refused() {
    let folder = Folder::new("refused");
    let before = folder.file();
    for words in [
        &["plates", "plot4.json", "--width", "7m", "--stock", "4.8m", "--keep"][..],
        &["diagonals", "plot4.json", "7800x600o", "--keep"],
        &["plates", "plot4.json", "--width", "0.14", "--units", "m", "--stock", "4.8", "--keep"],
        &["packs", "plot4.json", "--keep"],
    ] {
        folder.run(words).refusal();
        assert_eq!(folder.file(), before, "{words:?}");
    }
    assert_eq!(fs::read_dir(&folder.0).unwrap().count(), 1);
}

#[test]
fn the_day_says_how_each_part_stands_and_what_comes_next() {
    let folder = Folder::new("day");
    let day = folder.run(&["plot4.json"]).answer();
    assert!(day.starts_with("Tape all the sides, then AD 6000, BE 6708, DF 5367;"), "{day}");
    assert!(day.contains("\nNext: pegline book plot4.json plate\n"), "{day}");
    let bad = ["readings", "plot4.json", "--limit", "5", "--keep"];
    let read =
        ["AB=7800", "BC=3600", "CD=3000", "DE=2400", "EF=4830", "FA=6000", "AD=6000", "BE=6708", "DF=5367"];
    assert_eq!(folder.run(&[&bad[..], &read[..]].concat()).run().code, 1);
    let day = folder.run(&["plot4.json"]).run();
    let readings = folder.run(&["readings", "plot4.json"]).run();
    assert_eq!(day.code, 1);
    assert_eq!(day.out.lines().next(), readings.out.lines().next());
}

/// Two bookings of taped lines, EF 30 long in the first, and one of levels.
const BOOKED: &str = r#"{
  "plan": "7800x6000-3000x2400",
  "house": ["AB"],
  "readings": {"limit": "10"},
  "bookings": [
    {"name": "brick", "readings": {"read": ["AB=7800", "BC=3600", "CD=3000", "DE=2400", "EF=4830", "FA=6000", "AD=6000", "BE=6708", "DF=5367"]}},
    {"name": "plate", "readings": {"read": ["AB=7800", "BC=3600", "CD=3000", "DE=2400", "EF=4800", "FA=6000", "AD=6000", "BE=6708", "DF=5367"]}}
  ]
}
"#;

#[test]
fn the_day_and_the_sheet_take_a_booking_by_its_name() {
    for command in ["day", "sheet", "readings"] {
        let asked = |of: &[&str]| pegline([&[command, "-"][..], of].concat()).input(BOOKED).run();
        assert_eq!(
            (asked(&[]).code, asked(&["--of", "plate"]).code, asked(&["--of", "brick"]).code),
            (0, 0, 1)
        );
    }
}

#[test]
fn a_fault_in_a_booking_is_shown_in_its_place() {
    let folder = Folder::new("booked-fault");
    fs::write(folder.0.join("plot4.json"), BOOKED.replace("\"EF=4800\"", "\"EF=48oo\"")).unwrap();
    for words in [&["readings", "plot4.json"][..], &["job", "check", "plot4.json"], &["day", "plot4.json"]] {
        let said = folder.run(words).refusal();
        assert!(
            said.starts_with("error: plot4.json:7:89: bookings[1].readings.read[4]: "),
            "{words:?}: {said}"
        );
    }
    let said = folder.run(&["readings", "plot4.json", "--of", "brick"]).run();
    assert_eq!(said.code, 1, "{}", said.err);
}

#[test]
fn what_has_moved_since_a_booking_is_json_and_csv_too() {
    let asked = |format: &str| {
        let words = ["readings", "-", "--since", "brick", "--format", format];
        pegline(words).input(BOOKED).run().out
    };
    let json: serde_json::Value = serde_json::from_str(&asked("json")).unwrap();
    let moved = &json["moved"];
    assert_eq!(moved["since"], "brick");
    let ef = moved["lines"].as_array().unwrap().iter().find(|line| line["line"] == "EF").unwrap();
    assert_eq!((&ef["then"], &ef["now"], &ef["change"]), (&4830.into(), &4800.into(), &(-30).into()));
    assert!(asked("csv").contains("\nEF,4830,4800,-30\n"), "{}", asked("csv"));
    // The page has the lines that have changed alone.
    let page = asked("table");
    assert!(
        page.contains(" EF        4830     4800   −30 mm\n") && page.contains("8 other lines as before\n"),
        "{page}"
    );
}

#[test]
fn a_list_in_a_job_file_takes_the_texts_that_the_options_take() {
    let objects = r#"{"plan": "7800x6000", "openings": [{"side": "CD", "at": "600", "width": "900", "name": "door"}],
        "joints": [{"side": "AB", "at": "2400"}], "stock": {"lengths": [{"length": "4.8m", "price": "15.60"}],
        "have": [{"length": "3.6m", "count": 2}]}, "plates": {"width": "140"}, "lines": {"layers":
        [{"name": "plate", "width": "140"}]}, "cuts": {"pieces": [{"length": "1200", "count": 4}]},
        "straight": {"side": "CD", "block": "20", "readings": [{"at": "0", "reading": "20"}]}}"#;
    let texts = r#"{"plan": "7800x6000", "openings": ["door=CD:900@600"], "joints": ["AB:2400"],
        "stock": {"lengths": ["4.8m:15.60"], "have": ["2x3.6m"]}, "plates": {"width": "140"},
        "lines": {"layers": ["plate=140"]}, "cuts": {"pieces": ["4x1200"]},
        "straight": {"side": "CD", "block": "20", "readings": ["0=20"]}}"#;
    let asked = |job: &str| pegline(["sheet", "-", "--json"]).input(job.to_owned()).run();
    assert_eq!(asked(texts).err, "");
    assert_eq!(asked(texts).out, asked(objects).out);
    let said = pegline(["plates", "-"]).input(texts.replace("CD:900@600", "CD 900 600")).refusal();
    assert!(said.contains("openings[0]: write the side, the width and how far"), "{said}");
}

#[test]
fn an_opening_is_spelt_alike_everywhere_and_as_before() {
    let marked =
        |option: &str| pegline(["lines", L, option, "CD:900@600", "EF:900@1200", "--marks"]).run().out;
    assert!(marked("--opening").contains("600 opening 1 begins"), "{}", marked("--opening"));
    assert_eq!(marked("--opening"), marked("--openings"));
    let cut = |words: &[&str]| {
        let plates =
            ["plates", L, "--width", "140", "--stock", "4.8m", "--opening", "CD:900@600", "EF:900@1200"];
        pegline([&plates[..], words].concat()).answer()
    };
    assert_eq!(cut(&["--doors", "cut"]), cut(&["--openings", "cut"]));
    assert_ne!(cut(&["--doors", "cut"]), cut(&[]));
}
