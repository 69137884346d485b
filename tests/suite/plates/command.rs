//! `pegline plates` as it is typed.

use serde_json::Value;

use crate::program;

const STOCK: &str = "3.6m:10.80,4.8m:15.60,6.0m:21.60";
const L: &str = "7800x6000-3000x2400";

/// Exit code, standard output and standard error of the program.
pub(super) fn pegline(arguments: &[&str], input: &str) -> (i32, String, String) {
    let ran = program::pegline(arguments).input(input).run();
    (ran.code, ran.out, ran.err)
}

/// The `result` of a JSON answer.
pub(super) fn result(arguments: &[&str]) -> Value {
    let (code, out, err) = pegline(&[arguments, &["--json"]].concat(), "");
    assert_eq!((code, err.as_str()), (0, ""), "{arguments:?}");
    let mut answer: Value = serde_json::from_str(&out).unwrap();
    answer["result"].take()
}

fn plates(more: &[&str]) -> Value {
    result(&[&["plates", L, "--house", "AB", "--width", "140", "--stock", STOCK], more].concat())
}

fn refusal(arguments: &[&str]) -> String {
    let (code, out, err) = pegline(arguments, "");
    assert_eq!((code, out.as_str()), (2, ""), "{arguments:?}: {err}");
    err
}

/// By hand: five runs of 19 520 mm in all. With no splice the best that three lengths can do is two of 6.0 m (5860, and
/// 3460 with 2260), one of 4.8 m (4800) and one of 3.6 m (3140): 69.60. With splices 19 520 mm needs 20.4 m of timber; at
/// 3.00 a metre for 3.6 m bars against 3.25 and 3.60, six bars of 3.6 m (64.80) or five and one shorter are the cheapest.
#[test]
fn the_l_of_the_readme_is_proven_and_its_two_ends_told() {
    let answer = plates(&[]);
    assert_eq!(answer["splices"], 0);
    assert_eq!(answer["cost"], 69.6);
    assert_eq!((&answer["bound"], &answer["proven"]), (&answer["cost"], &Value::Bool(true)));
    assert_eq!(answer["ends"]["fewest_splices"]["cost"], 69.6);
    let cheapest = plates(&["--favour", "cost"]);
    assert_eq!(cheapest["cost"], answer["ends"]["cheapest"]["cost"]);
    assert_eq!(cheapest["splices"], answer["ends"]["cheapest"]["splices"]);
    assert!(cheapest["cost"].as_f64().unwrap() < 69.6);
    let length: f64 =
        answer["runs"].as_array().unwrap().iter().map(|run| run["length"].as_f64().unwrap()).sum();
    // Without AB: 19 800 less two widths, since three outward corners and one inward have two plates.
    assert!((length - (27_600.0 - 7800.0 - 2.0 * 140.0)).abs() < 1e-9);
}

/// By hand: from two bars of 6000 mm every run on a line of 11 800 is spliced 5660 to 6140 from the corner, whichever way round
/// it goes (the first piece ends within 140 and 6000 of the corner, the last begins within 6000 of the other end). Two splices
/// there can't be 600 apart, so the plate and the binder of each long side have three at least between them.
#[test]
fn splices_that_can_not_keep_apart_are_one_more_and_proven_to_be_the_fewest() {
    let answer = result(&["plates", "11800x4100", "--binder", "--width", "140", "--stock", "6m:21.60"]);
    assert_eq!((&answer["splices"], &answer["bound_splices"]), (&6.into(), &6.into()));
}

#[test]
fn a_splice_with_a_price_is_proven_with_the_binder_on() {
    let answer = plates(&["--binder", "--favour", "4"]);
    assert_eq!(answer["proven"], true);
    assert_eq!(answer["bound"], answer["cost"]);
    let layers: Vec<&str> =
        answer["runs"].as_array().unwrap().iter().map(|run| run["layer"].as_str().unwrap()).collect();
    assert_eq!(layers.iter().filter(|layer| **layer == "binder").count(), 5);
}

#[test]
fn timber_in_the_van_is_used_at_no_cost() {
    let answer = plates(&["--have", "2x6m,4.8m,3.6m"]);
    assert_eq!((answer["cost"].as_f64(), answer["splices"].as_i64()), (Some(0.0), Some(0)));
    assert_eq!(answer["buy"].as_array().unwrap().len(), 0);
    assert_eq!(answer["from_van"].as_array().unwrap().len(), 3);
}

#[test]
fn without_prices_the_least_timber_is_bought() {
    let priced =
        result(&["plates", "6000x4000", "--width", "100", "--stock", "3m:3,4m:4,6m:6", "--favour", "cost"]);
    let bare = result(&["plates", "6000x4000", "--width", "100", "--stock", "3m,4m,6m", "--favour", "cost"]);
    assert_eq!(bare["cost"].as_f64(), priced["cost"].as_f64());
    assert_eq!((&bare["priced"], &priced["priced"]), (&Value::Bool(false), &Value::Bool(true)));
    assert_eq!(bare["buy"][0]["amount"], Value::Null);
}

#[test]
fn an_opening_is_kept_whole_or_cut_out_and_never_spliced() {
    let opening = ["--opening", "EF@1200:900"];
    let kept = plates(&[&opening[..], &["--favour", "cost"]].concat());
    let cut = plates(&[&opening[..], &["--favour", "cost", "--openings", "cut"]].concat());
    assert_eq!(kept["runs"].as_array().unwrap().len(), 5);
    let sides: Vec<&Value> =
        cut["runs"].as_array().unwrap().iter().filter(|run| run["side"] == "EF").collect();
    assert_eq!((&sides[0]["end"], &sides[1]["start"]), (&"opening".into(), &"opening".into()));
    let from = |run: &Value| run["from_corner"].as_f64().unwrap();
    assert!((from(sides[0]) + sides[0]["length"].as_f64().unwrap() - 1200.0).abs() < 1e-9);
    assert!((from(sides[1]) - 2100.0).abs() < 1e-9);
    for run in kept["runs"].as_array().unwrap().iter().filter(|run| run["side"] == "EF") {
        for piece in run["pieces"].as_array().unwrap().iter().skip(1) {
            let at = piece["from"].as_f64().unwrap() + from(run);
            assert!(at <= 1050.0 || at >= 2250.0, "{at}");
        }
    }
}

/// Anchors of the plate that stays when the door is cut out later: each part has its own two at least, none in the opening.
#[test]
fn anchors_keep_clear_of_openings_and_studs() {
    let answer = plates(&["--opening", "EF@1800:900", "--anchors", "us", "--studs", "600"]);
    let anchors = answer["anchors"].as_array().unwrap();
    let run = answer["runs"].as_array().unwrap().iter().find(|run| run["side"] == "EF").unwrap();
    let origin = run["from_corner"].as_f64().unwrap();
    let on_ef: Vec<f64> =
        anchors.iter().filter(|a| a["side"] == "EF").map(|a| a["at"].as_f64().unwrap() + origin).collect();
    assert!(on_ef.iter().filter(|at| **at < 1800.0).count() >= 2);
    assert!(on_ef.iter().filter(|at| **at > 2700.0).count() >= 2);
    assert!(on_ef.iter().all(|at| *at <= 1800.0 - 88.9 || *at >= 2700.0 + 88.9));
    for anchor in anchors {
        let along = anchor["at"].as_f64().unwrap() % 600.0;
        assert!((50.0..=550.0).contains(&along), "{anchor}");
    }
    let pieces = answer["runs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|run| run["pieces"].as_array().unwrap().len())
        .sum::<usize>();
    assert!(anchors.len() >= 2 * pieces);
}

#[test]
fn a_page_is_80_columns_at_most_whatever_is_asked() {
    for more in [
        &[
            "--binder",
            "--favour",
            "cost",
            "--panels",
            "1200",
            "--anchors",
            "nz",
            "--studs",
            "600",
            "--fix-every",
            "900",
        ][..],
        &["--dpc-roll", "20m", "--run", "P1:3200", "--run", "P2:2100", "--have", "2x3.6m", "--working"],
        &["--units", "ft-in", "--anchors", "us", "--favour", "2.50"],
        &["--units", "m", "--binder", "--trim", "10mm", "--working"],
    ] {
        let arguments =
            [&["plates", L, "--house", "AB", "--width", "140mm", "--stock", STOCK], more].concat();
        let plan = arguments
            .iter()
            .map(|word| if *word == L && more.contains(&"ft-in") { "26'x20'-10'x8'" } else { word });
        let plan: Vec<&str> =
            plan.map(|word| if *word == *L && more.contains(&"m") { "7.8x6-3x2.4" } else { word }).collect();
        let (code, out, err) = pegline(&plan, "");
        assert_eq!((code, err.as_str()), (0, ""), "{plan:?}");
        for line in out.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
        let (_, ascii, _) = pegline(&[&plan[..], &["--ascii"]].concat(), "");
        assert!(ascii.is_ascii() && !ascii.contains('?'), "{ascii}");
    }
}

#[test]
fn csv_has_a_row_for_each_piece() {
    let arguments = ["plates", L, "--house", "AB", "--width", "140", "--stock", STOCK, "--format", "csv"];
    let (code, out, _) = pegline(&arguments, "");
    assert_eq!(code, 0);
    let lines: Vec<&str> = out.lines().collect();
    assert_eq!(
        lines[0],
        "layer,run,start,end,run_mm,piece,from_mm,to_mm,cut_mm,bar,stock_mm,buy,rate,amount"
    );
    assert_eq!(lines.len(), 9);
    assert!(lines[1].starts_with("plate,BC,house,"));
    assert_eq!(lines[8], ",,,,,,,,,,6000,2,21.60,43.20");
}

#[test]
fn what_is_wrong_is_told_by_its_option_with_what_to_write() {
    let base = ["plates", L, "--house", "AB"];
    for (more, option, remedy) in [
        (&["--width", "140"][..], "", "--stock"),
        (&["--stock", STOCK], "", "--width 140"),
        (&["--width", "0", "--stock", STOCK], "--width: ", "more than zero"),
        (&["--width", "140", "--stock", "3.6m:10.80,4.8m"], "--stock: ", "leave all prices out"),
        (&["--width", "140", "--stock", "3.6m:abc"], "--stock: ", "10.80"),
        (&["--width", "140", "--stock", "3.6m,3600"], "--stock: ", "once"),
        (&["--width", "140", "--stock", STOCK, "--opening", "AE@100:900"], "--opening: ", "AB"),
        (
            &["--width", "140", "--stock", STOCK, "--opening", "BC@3000:900"],
            "--opening: ",
            "only 3600 mm long",
        ),
        (
            &["--width", "140", "--stock", STOCK, "--corners", "left"],
            "--corners: ",
            "alternate, follow or best",
        ),
        (&["--width", "140", "--stock", STOCK, "--favour", "cheap"], "--favour: ", "splices, cost"),
        (&["--width", "140", "--stock", "3.6m", "--favour", "4"], "--favour: ", "prices"),
        (&["--width", "140", "--stock", STOCK, "--anchors", "uk"], "--anchors: ", "us or nz"),
        (&["--width", "140", "--stock", STOCK, "--anchor-end", "300"], "", "--anchor-spacing"),
        (&["--width", "140", "--stock", STOCK, "--run", "AB:900"], "--run: ", "a name that no side can have"),
        (&["--width", "140", "--stock", STOCK, "--seconds", "-1"], "", "--seconds"),
        (&["--width", "140", "--stock", "3.6m:1e9"], "--stock: ", "10.80"),
        (&["--width", "5000", "--stock", STOCK], "--width: ", "a plate's width is 20 mm to 600 mm"),
        (&["--width", "140", "--stock", "0.5m:3", "--least-piece", "600"], "", "longer stock"),
    ] {
        let err = refusal(&[&base[..], more].concat());
        assert!(err.starts_with(&format!("error: {option}")), "{more:?}: {err}");
        assert!(err.contains(remedy), "{more:?}: {err}");
    }
}

#[test]
fn a_slip_in_a_job_file_is_shown_in_its_place() {
    let job = "{\"plan\": \"6000x4000\",\n \"plates\": {\"widht\": 140}}";
    let (code, _, err) = pegline(&["plates", "--job", "-"], job);
    assert_eq!(code, 2);
    assert!(err.contains("standard input:2:13: plates.widht"), "{err}");
    assert!(err.contains("did you mean `width`?"), "{err}");
    let job = "{\"plan\": \"6000x4000\",\n \"plates\": {\"width\": 140},\n \"stock\": {\"lengths\": [{\"length\": \"6m\", \"price\": -3}]}}";
    let (code, _, err) = pegline(&["plates", "--job", "-"], job);
    assert_eq!(code, 2);
    assert!(err.contains("standard input:3:50: stock.lengths[0].price: `-3` is no price"), "{err}");
}

#[test]
fn a_job_file_says_the_same_as_the_options() {
    let job = r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "plates": {"width": 140, "binder": true, "panels": 1200},
        "openings": [{"side": "FE", "at": 2700, "width": 900}, {"side": "CD", "at": 900, "width": 1200, "window": true}],
        "partitions": [{"name": "P1", "length": 3200}, {"side": "FA", "at": 3000, "width": 90}],
        "stock": {"lengths": [{"length": "3.6m", "price": 10.80}, {"length": "6m", "price": "21.60"}], "have": [{"length": 4800}]}}"#;
    let (code, from_file, err) = pegline(&["plates", "--job", "-", "--json"], job);
    assert_eq!((code, err.as_str()), (0, ""));
    let from_file: Value = serde_json::from_str(&from_file).unwrap();
    let mut typed = result(&[
        "plates",
        L,
        "--house",
        "AB",
        "--width",
        "140",
        "--binder",
        "--panels",
        "1200",
        "--opening",
        "EF@1200:900",
        "--run",
        "P1:3200",
        "--stock",
        "3.6m:10.80,6m:21.60",
        "--have",
        "4.8m",
    ]);
    // EF is 4800 mm long: 2700 mm from F is 1200 mm from E. What can differ is where FA may be spliced.
    let names = |runs: &Value| -> Vec<(String, f64)> {
        runs.as_array()
            .unwrap()
            .iter()
            .map(|run| (run["side"].to_string(), run["length"].as_f64().unwrap()))
            .collect()
    };
    assert_eq!(names(&from_file["result"]["runs"]), names(&typed["runs"].take()));
}

/// 26 corners with a binder on top are too many to prove in a blink: the answer comes all the same, with what is not known.
#[test]
fn an_outline_too_big_to_prove_answers_with_its_gap() {
    let plan = "26000x9000-1700x1310@tl-1900x1170@tr-2100x1230@bl-2300x1410@br";
    let stock = "2.4m:6.10,3.0m:7.73,3.6m:9.41,4.2m:11.17,4.8m:13.03,5.4m:14.89";
    let mut ask = vec!["plates", plan, "--width", "140", "--stock", stock, "--binder", "--favour", "cost"];
    ask.extend(["--panels", "1200", "--seconds", "0.05"]);
    let answer = result(&ask);
    assert_eq!(answer["proven"], false);
    let gap = answer["gap"]["cost"].as_f64().unwrap_or_else(|| panic!("{}", answer["gap"]));
    let (_, page, _) = pegline(&ask, "");
    let said = page.split("\n\n").next().unwrap().replace('\n', " ");
    assert!(said.contains(&format!("the best list may cost up to {gap:.2} less")), "{said}");
    assert!(answer["bound"].as_f64().unwrap() <= answer["cost"].as_f64().unwrap());
}

#[test]
fn the_same_input_gives_the_same_list() {
    let once = plates(&["--binder", "--panels", "1200", "--favour", "cost"]);
    assert_eq!(once, plates(&["--binder", "--panels", "1200", "--favour", "cost"]));
}

/// The door on CD ends 3860 mm along: a splice at 4050 would leave 190 mm of plate beside it once it is cut out, with its two
/// bolts 12 mm apart.
#[test]
fn no_stub_is_left_beside_a_door_that_is_cut_out_later() {
    let answer = result(&[
        "plates",
        "7900x4000",
        "--house",
        "AB",
        "--width",
        "140",
        "--stock",
        "4.05m:12.60",
        "--opening",
        "CD:900@2960",
        "--anchors",
        "us",
    ]);
    let (from, to) = (2960.0, 3860.0);
    let side = answer["runs"].as_array().unwrap().iter().find(|run| run["side"] == "CD").unwrap();
    let origin = side["from_corner"].as_f64().unwrap();
    for piece in side["pieces"].as_array().unwrap().iter().skip(1) {
        let splice = piece["from"].as_f64().unwrap() + origin;
        assert!(splice <= from - 600.0 || splice >= to + 600.0, "spliced at {splice}");
    }
    assert_eq!(answer["anchor_troubles"].as_array().unwrap().len(), 0);
    let anchors: Vec<f64> = answer["anchors"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|anchor| anchor["side"] == "CD")
        .map(|anchor| anchor["at"].as_f64().unwrap())
        .collect();
    assert!(anchors.windows(2).all(|pair| pair[1] - pair[0] >= 50.0), "{anchors:?}");
    let wider = ["plates", "7900x4000", "--house", "AB", "--width", "140", "--stock", "4.8m:12.60"];
    let asked = [&wider[..], &["--anchors", "nz", "--anchor-apart", "400"]].concat();
    let (code, _, told) = pegline(&asked, "");
    assert_eq!(code, 2);
    assert!(
        told.contains("--anchor-apart") && told.contains("more than a third of the most, 900 mm"),
        "{told}"
    );
}

/// A door interrupts the plate, its anchors and its damp-proof course; a window does none of it.
#[test]
fn a_window_leaves_plate_anchors_and_course_as_they_are_without_it() {
    let told = |opening: &[&str]| {
        let base = ["plates", L, "--house", "AB", "--width", "140", "--stock", STOCK, "--anchors", "us"];
        result(&[&base[..], opening].concat())
    };
    let none = told(&[]);
    assert_eq!(told(&["--opening", "kitchen window=EF:1800@1500"]), none);
    let door = told(&["--opening", "EF:1800@1500"]);
    assert_ne!(door["anchors"], none["anchors"]);
}
