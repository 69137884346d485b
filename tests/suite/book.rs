//! The field book through a pipe, through a terminal, and killed between lines.

use std::fs;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use pegline::answer::Answered;
use pegline::book::Book;
use pegline::job::{JobFile, read};
use pegline::page::Detail;

use crate::program::pegline;
#[cfg(target_os = "linux")]
use crate::terminal::Terminal;

/// A folder of its own with the job file of an L in it.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str, job: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("pegline-book-{name}-{}", std::process::id()));
        let _gone = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("plot4.json"), job).unwrap();
        Self(folder)
    }

    fn file(&self) -> JobFile {
        read(&fs::read_to_string(self.0.join("plot4.json")).unwrap()).unwrap()
    }

    /// What is booked under `name`, and what is struck out of it.
    fn booked(&self, name: &str) -> (Vec<String>, Vec<String>) {
        let bookings = self.file().bookings.unwrap_or_default();
        let booking = bookings.into_iter().find(|booking| booking.is_called(name)).unwrap_or_default();
        let read = booking.readings.and_then(|section| section.read).unwrap_or_default();
        (read, booking.struck.unwrap_or_default())
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _gone = fs::remove_dir_all(&self.0);
    }
}

const L: &str = r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "readings": {"limit": "10"}}"#;

/// A plate taped once, with CD held on 100 and taped again.
const DAY: &str = "7802\n3599\n3101\n3001\n2400\n4801\n6001\n";

#[test]
fn a_line_in_is_a_line_out_and_the_verdict_ends_it() {
    let folder = Folder::new("lines", L);
    let ran = pegline(["book", "plot4.json", "plate"]).within(&folder.0).input(DAY).run();
    let lines: Vec<&str> = ran.out.lines().take(7).collect();
    assert_eq!(
        lines,
        [
            "AB 7802: +2 mm",
            "BC 3599: −1 mm",
            "CD 3101: 101 mm long: the 100 held on was not taken off? Again; Enter keeps it",
            "CD 3001: +1 mm (3101 struck out)",
            "DE 2400: as drawn",
            "EF 4801: +1 mm",
            "FA 6001: +1 mm",
        ]
    );
    assert!(ran.out.lines().nth(8).unwrap().starts_with("Not fixed: 6 of the 9"), "{}", ran.out);
    assert_eq!(ran.code, 1);
    let read = ["AB=7802", "BC=3599", "CD=3001", "DE=2400", "EF=4801", "FA=6001"].map(str::to_owned).to_vec();
    assert_eq!(folder.booked("plate"), (read, vec!["CD=3101".to_owned()]));
}

#[test]
fn jumps_strikes_and_undo_do_what_they_say_and_what_cannot_be_is_not_booked() {
    let folder = Folder::new("jumps", L);
    let typed = "DE\n2401\nBC 3600\n- DE\nundo\nAB 7.8\nAB\n7799\nXY 3\n7 m\nnonsense\n?\n";
    let ran = pegline(["book", "plot4.json"]).within(&folder.0).input(typed).run();
    let said: Vec<&str> = ran.out.lines().take_while(|line| !line.is_empty()).collect();
    assert_eq!(said[..4], ["DE 2401: +1 mm", "BC 3600: as drawn", "DE: 2401 struck out", "undone"]);
    assert!(said[4].starts_with("AB: not booked: "), "{}", said[4]);
    assert_eq!(said[5], "AB 7799: −1 mm");
    assert!(said[6].starts_with("`XY` is no line"), "{}", said[6]);
    assert!(said.last().unwrap().starts_with("Misread: tape CD again"), "{said:?}");
    let (read, struck) = folder.booked("plate");
    assert_eq!(read[..3], ["DE=2401", "BC=3600", "AB=7799"]);
    assert!(struck.is_empty());
}

/// A plate to the plan but for `off`, taped to the millimetre as it is asked: how many tapes, and what is said last.
fn taped(plan: &str, off: impl Fn(&str) -> f64) -> (usize, Book) {
    let mut book = Book::open(read(plan).unwrap(), "plate").unwrap();
    let mut tapes = 0;
    while let Some(asked) = book.asked().map(str::to_owned) {
        let footprint = book.job().footprint.clone().unwrap();
        let (from, to) = footprint.parse_line(&asked).unwrap();
        let corners = footprint.corners();
        let length = corners[from].at.distance(corners[to].at).round() + off(&asked);
        book.line(&length.to_string());
        tapes += 1;
        assert!(tapes < 40, "it never stops: {asked}");
    }
    (tapes, book)
}

#[test]
fn it_asks_no_more_than_the_whole_set_when_all_is_well_and_then_the_verdict_is_good() {
    let (tapes, book) = taped(L, |_| 0.0);
    assert!((10..=11).contains(&tapes), "{tapes}");
    assert!(book.answer().unwrap().good());
}

#[test]
fn the_check_sizes_the_book_and_the_verdict_name_the_same_lines_to_show_up_a_misread() {
    let mut book = Book::open(read(L).unwrap(), "plate").unwrap();
    let readings = ["7802", "3599", "3001", "2400", "4801", "6001", "6001", "5367", "6708"];
    let said = readings.map(|reading| book.line(reading).lines.concat());
    assert_eq!(said[8], "BE 6708: as drawn; the shape is fixed; BF or CE would show a misread");
    let sizes = pegline(["diagonals", "7800x6000-3000x2400", "--house", "AB"]).answer();
    assert!(sizes.contains("BF 9841 and CE 3842 show a\nmisread"), "{sizes}");
    let job = serde_json::to_string(book.file()).unwrap();
    let verdict = pegline(["readings", "-"]).input(job).answer();
    assert!(verdict.contains("To check what nothing checks: BF or CE\n"), "{verdict}");
    assert_eq!(book.asked(), Some("BF"));
}

#[test]
fn a_plate_that_is_out_beyond_doubt_is_taped_no_further() {
    // F is 12 mm too far out along FA, over a limit of 10, and what that does to A is too close to it to call.
    let (tapes, book) = taped(L, |line| match line {
        "FA" => 12.0,
        "DF" => 5.4,
        "BF" => 7.4,
        "CF" => 3.6,
        _ => 0.0,
    });
    let verdict = book.answer().unwrap().remarks(book.job(), Detail::Short).verdict.unwrap();
    assert!(verdict.words.starts_with("Out: "), "{verdict:?}");
    assert!(tapes <= 12, "{tapes}");
}

#[test]
fn brickwork_is_told_by_its_sides_and_where_the_plate_stands_off_it_and_nobody_is_to_move_it() {
    let folder = Folder::new("brick", r#"{"plan": "7800x6000-3000x2400", "house": ["AB"]}"#);
    let typed = "7802\n3599\n3001\n2402\n4799\n6012\n6000\n5376\n6709\n9850\n3842\n";
    let ran = pegline(["book", "plot4.json", "brick"]).within(&folder.0).input(typed).run();
    let page = ran.out.split_once("\n\n").unwrap().1;
    let first = page.lines().next().unwrap();
    assert_eq!(first, "Brickwork: FA 12 mm long; the plate stands back 12.3 mm at F, side EF");
    assert!(!page.contains("to move"), "{page}");
}

#[test]
fn a_book_closed_too_soon_says_that_nothing_can_be_said_yet() {
    let folder = Folder::new("soon", L);
    let ran = pegline(["book", "plot4.json", "level"]).within(&folder.0).input("1412\n").run();
    let said = "A 1412: booked\n\nNothing can be said yet: too little is read\n";
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (1, said, ""));
}

#[test]
fn a_drop_is_numbered_from_one() {
    let mut book = Book::open(read(r#"{"plan": "4000x3000"}"#).unwrap(), "drop").unwrap();
    book.line("50");
    for typed in ["drop 0=2398", "drop -1=2398", "drop x=2398"] {
        let reply = book.line(typed);
        assert!(!reply.changed && reply.lines[0].contains("is not a place"), "{typed}: {reply:?}");
    }
    assert_eq!(book.line("drop 1=2398").lines, ["drop 1 2398: the wall head is 2348 mm up"]);
}

#[test]
fn levels_strings_and_drops_are_booked_the_same_way() {
    let job = r#"{"plan": "7800x6000-3000x2400", "packs": {"packers": ["1", "2", "3", "5", "10"]}}"#;
    let folder = Folder::new("others", job);
    let book = |what: &[&str], typed: &str| {
        let ran = pegline([&["book", "plot4.json"], what].concat()).within(&folder.0).input(typed).run();
        assert_eq!(ran.err, "", "{what:?}");
        ran.out.lines().take_while(|line| !line.is_empty()).map(str::to_owned).collect::<Vec<_>>()
    };
    let said = book(&["level"], "1412\n1409\n1405\n1411\n1415\n1410\n");
    assert_eq!(said[0], "A 1412: booked");
    assert_eq!(said[3], "D 1411: 6 mm under C: 5 + 1");
    let said = book(&["level", "again"], "0\n-3\n+2\n");
    assert_eq!(said, ["A 0: booked", "B -3: 3 mm under A: 3", "C +2: the highest so far"]);
    let said = book(&["string", "EF"], "20\n20\n25\n2400 22\n");
    assert_eq!(said[0], "block 20: booked");
    assert_eq!(said[1], "0 20: in line");
    assert_eq!(said[2], "1200 25: 5.0 mm too far from the string");
    assert_eq!(said[3], "2400 22: 2.0 mm too far from the string");
    let said = book(&["drop"], "50\n2398\n2399\n2499\n");
    assert_eq!(said[1], "drop 1 2398: the wall head is 2348 mm up");
    assert!(said[3].ends_with("away from the others: again; Enter keeps it"), "{}", said[3]);
    let bookings = folder.file().bookings.unwrap();
    let names: Vec<&str> = bookings.iter().map(|booking| booking.name.as_str()).collect();
    assert_eq!(names, ["level", "level again", "string EF", "drop"]);
    let packs = bookings[1].packs.as_ref().unwrap();
    assert_eq!((packs.staff.is_none(), packs.heights.as_ref().map(Vec::len)), (true, Some(1)));
}

/// A level alone is no question, and is looked at all the same; a place along a string is named with its unit.
#[test]
fn in_feet_the_first_level_has_its_unit_and_a_string_is_read_every_four_feet() {
    let folder = Folder::new("feet", r#"{"plan": "26ft4inx20ft-10ft2-1/2inx7ft9in"}"#);
    let book = |what: &[&str], typed: &str| {
        let ran = pegline([&["book", "plot4.json"], what].concat()).within(&folder.0).input(typed).run();
        ran.out.lines().take_while(|line| !line.is_empty()).map(str::to_owned).collect::<Vec<_>>()
    };
    let said = book(&["level"], "55\n55in\n54 1/4in\n4'6\n");
    let level = [
        "A: not booked: `55` has no unit: write 55in",
        "A 55in: booked",
        "B 54 1/4in: the highest so far",
        "C 4'6: the highest so far",
    ];
    assert_eq!(said, level);
    let said = book(&["string", "CD"], "3/4in\n3/4in\n13/16\n8' 1/2in\n");
    let string = [
        "block 3/4in: booked",
        "0in 3/4in: in line",
        "4ft 13/16: 1/16\" too far from the string",
        "8ft 1/2in: 1/4\" too near the string",
    ];
    assert_eq!(said, string);
}

#[test]
fn the_last_booking_counts_and_another_is_named() {
    let job = r#"{"plan": "4000x3000", "bookings": [
        {"name": "brick", "readings": {"masonry": true, "read": ["AB=4010", "BC=3000", "CD=4010", "DA=3000", "AC=5008", "BD=5008"]}},
        {"name": "plate", "readings": {"read": ["AB=4000", "BC=3000", "CD=4000", "DA=3000", "AC=5000", "BD=5000"]}}]}"#;
    let folder = Folder::new("names", job);
    let ran = |words: &[&str]| {
        pegline([&["readings", "plot4.json", "--json"], words].concat()).within(&folder.0).run()
    };
    let read = |words: &[&str]| {
        let json: serde_json::Value = serde_json::from_str(&ran(words).out).unwrap();
        json["result"]["readings"][0]["read"].as_f64()
    };
    assert_eq!(
        (read(&[]), read(&["--of", "BRICK"]), read(&["--of", "plate"])),
        (Some(4000.0), Some(4010.0), Some(4000.0))
    );
    let refused = ran(&["--of", "roof"]).err;
    assert_eq!(refused, "error: there is no booking `roof`: write brick or plate\n");
    let refused = ran(&["AB=4001", "--keep"]).err;
    assert!(
        refused.starts_with("error: --keep: the readings of this job stand in its bookings"),
        "{refused}"
    );
}

#[test]
fn killed_between_lines_it_keeps_every_line_that_was_answered() {
    use std::io::{BufRead, BufReader};

    let folder = Folder::new("killed", L);
    let lines = ["AB", "BC", "CD", "DE", "EF", "FA", "AD", "BE"];
    let mut state = 7_u32;
    for round in 0..100 {
        fs::write(folder.0.join("plot4.json"), L).unwrap();
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let answered = usize::try_from(state >> 24).unwrap() % lines.len();
        let mut child = Command::new(assert_cmd::cargo::cargo_bin!("pegline"))
            .args(["book", "plot4.json", "plate"])
            .current_dir(&folder.0)
            .env_clear()
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        for (place, name) in lines.iter().enumerate().take(answered) {
            writeln!(input, "{name} {}", 3000 + place).unwrap();
            let mut said = String::new();
            output.read_line(&mut said).unwrap();
            assert!(said.starts_with(&format!("{name} {}", 3000 + place)), "{said}");
        }
        // One more is on its way when it is killed: it is in the file or not, and the file is whole.
        writeln!(input, "CE 3842").unwrap();
        child.kill().unwrap();
        child.wait().unwrap();
        let (read, _) = folder.booked("plate");
        let expected: Vec<String> =
            lines.iter().enumerate().take(answered).map(|(i, name)| format!("{name}={}", 3000 + i)).collect();
        let known = read.iter().filter(|entry| !entry.starts_with("CE=")).cloned().collect::<Vec<_>>();
        assert_eq!(known, expected, "round {round}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn on_a_terminal_it_asks_and_ends_with_the_verdict() {
    let folder = Folder::new("terminal", r#"{"plan": "4000x3000"}"#);
    let terminal =
        Terminal { typed: "4000 3000 4000 3000 5000 5000", folder: &folder.0, ..Terminal::default() };
    let Some(seen) = terminal.shows("book plot4.json plate") else { return };
    assert!(seen.starts_with("Booking plate: 4 sides, then AC, then BD. Enter passes over"), "{seen}");
    for asked in ["AB? ", "BC? ", "CD? ", "DA? ", "AC? "] {
        assert!(seen.contains(asked), "{asked}: {seen}");
    }
    assert!(seen.contains("Square"), "{seen}");
    // On a narrow one no word is broken, and a minus is a plain one where that is asked for.
    let folder = Folder::new("narrow", r#"{"plan": "4000x3000"}"#);
    let narrow = Terminal { columns: 40, typed: "4101 3999", folder: &folder.0, enough: "BC? " };
    let seen = narrow.shows("book plot4.json plate --ascii").unwrap();
    assert!(
        seen.contains("AB 4101: 101 mm long: the 100 held on\nwas not taken off? Again; Enter keeps it\n"),
        "{seen}"
    );
    assert!(seen.contains("AB 3999: -1 mm (4101 struck out)\n"), "{seen}");
}
