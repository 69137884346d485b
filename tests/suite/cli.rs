//! The program as it is typed: what it prints, where, and with which exit code.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use approx::assert_abs_diff_eq;
use insta::assert_snapshot;
use serde_json::Value;

use crate::outlines::{Random, footprint, outlines, outlines_of, walk_text};
use crate::program::pegline;

const L: &str = "7800x6000-3000x2400";
/// With its units, so that others can be asked for.
const L_MM: &str = "7800mmx6000mm-3000mmx2400mm";
const L_WALK: &str = "7800 R 3600 R 3000 L 2400 R 4800 R 6000";

fn diagonal(answer: &Value, name: &str) -> Value {
    let all = answer["result"]["diagonals"].as_array().unwrap();
    all.iter().find(|d| d["name"] == name).unwrap().clone()
}

/// Plain arithmetic for the lengths; the proof set and its worst corner as surveyed (see the bracing tests).
#[test]
fn diagonals_of_an_l_as_a_page() {
    assert_snapshot!(pegline(["diagonals", L]).answer(), @r#"
        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800, BC 3600, CD 3000, DE 2400, EF 4800, FA 6000

        Tape these
        All the sides, then the proof set: AD 6000, BE 6708, DF 5367
          With the sides these fix the shape; the worst corner is good to ±1.27 mm (one
          standard deviation, class II tape, read to ±1.0 mm).
        Then, to show up a misread: BF 9841, CE 3842
          With these no single misread of more than 22.4 mm can hide.

        Check diagonals
         Line   Across mm   Down mm   Exact mm   Tape mm   Lies      Use     At end ×
        ──────────────────────────────────────────────────────────────────────────────
         AC          7800      3600   8590.693      8591   inside                2.39
         AD          4800      3600   6000.000      6000   inside    proof       1.67
         AE          4800      6000   7683.749      7684   inside                1.60
         BD          3000      3600   4686.150      4686   inside                1.56
         BE          3000      6000   6708.204      6708   outside   proof       2.24
         BF          7800      6000   9840.732      9841   inside    spare       1.64
         CE          3000      2400   3841.875      3842   outside   spare       1.60
         CF          7800      2400   8160.882      8161   outside               3.40
         DF          4800      2400   5366.563      5367   inside    proof       2.24

        Rectangles, two right triangles each
         No   Across mm   Down mm   Diagonal mm   Corners
        ────────────────────────────────────────────────────────────────────
          1        7800      3600          8591   A, B, C, 2400 mm along FA
          2        4800      2400          5367   2400 mm along FA, D, E, F

        Note: At end ×: 1 mm on the diagonal is so many mm at the far end of its longer
          leg; small is sharp

        Caution: check for buried services before driving pegs
        "#);
}

#[test]
fn diagonals_of_an_l_as_json() {
    let answer = pegline(["diagonals", L, "--json"]).json();
    assert_eq!(answer["pegline"]["schema"], 1);
    assert_eq!(answer["pegline"]["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!(
        (&answer["command"], &answer["units"]),
        (&"diagonals".into(), &"mm".into())
    );
    assert_eq!(answer["job"], Value::Null);
    let plan = &answer["plan"];
    assert_eq!(plan["expression"], L);
    assert_eq!(
        plan["corners"][3],
        serde_json::json!({"name": "D", "x": 4800, "y": 3600})
    );
    assert_eq!(
        plan["sides"][5],
        serde_json::json!({"name": "FA", "length": 6000, "house": false})
    );
    assert_eq!(
        (&plan["area_m2"], &plan["perimeter"]),
        (&39.6.into(), &27600.into())
    );
    let result = &answer["result"];
    assert_eq!(result["rectangles"][0]["across"], 7800);
    assert_eq!(result["rectangles"][1]["down"], 2400);
    assert_abs_diff_eq!(
        result["rectangles"][1]["diagonal"].as_f64().unwrap(),
        5366.563,
        epsilon = 1e-9
    );
    assert_eq!(result["triangles"].as_array().unwrap().len(), 4);
    assert_eq!(
        (&result["triangles"][0]["a"], &result["triangles"][0]["b"]),
        (&7800.into(), &3600.into())
    );
    assert_abs_diff_eq!(
        diagonal(&answer, "BF")["length"].as_f64().unwrap(),
        9840.732,
        epsilon = 1e-9
    );
    let ad = diagonal(&answer, "AD");
    for (field, value) in [
        ("from", Value::from("A")),
        ("to", "D".into()),
        ("across", 4800.into()),
        ("down", 3600.into()),
        ("length", 6000.into()),
        ("tape", 6000.into()),
        ("lies", "inside".into()),
        ("proof", true.into()),
        ("spare", false.into()),
    ] {
        assert_eq!(ad[field], value, "{field}");
    }
    assert_abs_diff_eq!(
        diagonal(&answer, "AC")["length"].as_f64().unwrap(),
        8590.693,
        epsilon = 1e-9
    );
    assert_eq!(diagonal(&answer, "AC")["tape"], 8591);
    for name in ["BE", "CE", "CF"] {
        assert_eq!(diagonal(&answer, name)["lies"], "outside", "{name}");
    }
    assert_eq!(result["straight_checks"], serde_json::json!([]));
    let proof = &result["proof"];
    assert_eq!(proof["names"], serde_json::json!(["AD", "BE", "DF"]));
    assert_eq!(proof["redundancy"], 0);
    assert_abs_diff_eq!(proof["worst_corner_sd"].as_f64().unwrap(), 1.27, epsilon = 0.005);
    assert!(answer["notes"].is_array());
    assert_eq!(
        answer["cautions"],
        serde_json::json!(["check for buried services before driving pegs"])
    );
    assert_eq!(
        pegline(["--json", "diagonals", L]).answer(),
        pegline(["diagonals", L, "--format", "json"]).answer()
    );
}

#[test]
fn a_blocked_line_and_a_straight_check_as_json() {
    let answer = pegline(["diagonals", "9000x3000+3600x2400", "--house", "gh, AB", "--json"]).json();
    assert_eq!(diagonal(&answer, "AF")["lies"], "blocked");
    assert_eq!(answer["plan"]["sides"][6]["house"], true);
    let straight = answer["result"]["straight_checks"].as_array().unwrap();
    let names: Vec<&str> = straight.iter().map(|s| s["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["CG", "CH", "DG", "DH"]);
    assert_eq!(straight[1]["length"], 9000);
}

#[test]
fn the_walk_gives_the_same_corners_as_the_expression() {
    let expression = pegline(["diagonals", L, "--json"]).json();
    let walk = pegline(["diagonals", "--walk", L_WALK, "--json"]).json();
    assert_eq!(walk["plan"]["corners"], expression["plan"]["corners"]);
    assert_eq!(walk["result"], expression["result"]);
}

#[test]
fn a_drawing_that_does_not_close_is_refused() {
    assert_snapshot!(
        pegline(["diagonals", "--walk", "7800 R 3600 R 3000 L 2400 R 4850 R 6000"]).refusal(),
        @"error: --walk: the walk doesn't close: it ends 50 mm too far to the left of A (across); any one of these would close it: AB 7800 -> 7850, CD 3000 -> 2950, EF 4850 -> 4800"
    );
}

#[test]
fn the_working_in_feet_and_inches_comes_to_twenty_feet_exactly() {
    let out = pegline(["diagonals", "26'x20'-10'x8'", "--working"]).answer();
    let start = out.find("AD: from A").unwrap();
    let end = start + out[start..].find("\n\n").unwrap();
    assert_snapshot!(&out[start..end], @r#"
        AD: from A 16ft to the right, then 12ft down to D
          1  a, across = EF = 16ft = 192 in
          2  b, down = BC = 12ft = 144 in
          3  a² = 192 × 192 = 36864 in²
          4  b² = 144 × 144 = 20736 in²
          5  a² + b² = 36864 + 20736 = 57600 in²
          6  c = √57600 = 240.000 in
          7  on the tape, to the nearest 1/16 in: 20ft
        "#);
}

#[test]
fn the_working_in_millimetres() {
    let out = pegline(["diagonals", L, "--working"]).answer();
    let start = out.find("BE: from B").unwrap();
    let end = start + out[start..].find("\n\n").unwrap();
    assert_snapshot!(&out[start..end], @r#"
        BE: from B 3000 mm to the left, then 6000 mm down to E
          1  a, across = CD = 3000 mm
          2  b, down = FA = 6000 mm
          3  a² = 3000 × 3000 = 9000000 mm²
          4  b² = 6000 × 6000 = 36000000 mm²
          5  a² + b² = 9000000 + 36000000 = 45000000 mm²
          6  c = √45000000 = 6708.204 mm
          7  on the tape, to the nearest 1 mm: 6708 mm
        "#);
}

#[test]
fn corners_of_an_l_with_a_short_tape() {
    assert_snapshot!(pegline(["corners", L, "--tape-length", "8m"]).answer(), @r#"
        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800, BC 3600, CD 3000, DE 2400, EF 4800, FA 6000

        The biggest neat triangle at each corner, both legs from the corner
         Corner   Triple    Side   Along mm   Side   Along mm   Between mm   At end ×
        ──────────────────────────────────────────────────────────────────────────────
         A        3-4-5     FA         4800   AB         6400         8000       2.03
         B        3-4-5     AB         4800   BC         3600         6000       2.71
         C        3-4-5     BC         3600   CD         2700         4500       1.67
         D        3-4-5     CD         2800   DE         2100         3500       1.79
         E        8-15-17   DE         2400   EF         4500         5100       2.27
           or     3-4-5     DE         2400   EF         3200         4000       2.50
         F        3-4-5     EF         4500   FA         6000         7500       1.67

        3-4-5 and its multiples
         Multiple mm      3      4      5
        ──────────────────────────────────
                 200    600    800   1000
                 400   1200   1600   2000
                 600   1800   2400   3000
                 800   2400   3200   4000
                1000   3000   4000   5000
                1200   3600   4800   6000
                1400   4200   5600   7000
                1600   4800   6400   8000

        Note: At end ×: 1 mm between the marks is so many mm at the end of the corner's
          longer side; small is sharp

        Caution: check for buried services before driving pegs
        "#);
}

#[test]
fn corners_as_json() {
    let answer = pegline(["corners", L, "--tape-length", "8m", "--json"]).json();
    assert_eq!(answer["command"], "corners");
    let e = &answer["result"]["corners"][4];
    for (field, value) in [
        ("name", Value::from("E")),
        ("triple", "8-15-17".into()),
        ("multiple", 300.into()),
        ("first", serde_json::json!({"side": "DE", "length": 2400})),
        ("second", serde_json::json!({"side": "EF", "length": 4500})),
        ("diagonal", 5100.into()),
    ] {
        assert_eq!(e[field], value, "{field}");
    }
    // dθ = c·dc/(ab) over the longer side: 5100/(2400 × 4500) × 4800.
    assert_abs_diff_eq!(e["mm_at_end_per_mm"].as_f64().unwrap(), 2.266_667, epsilon = 1e-6);
}

/// Source: a US remodelling performance standard: 12 × 16 ft, 20 ft ± 1/2 in.
#[test]
fn a_corner_as_found_is_judged_by_the_limit_given() {
    let over = pegline(["corners", "--tapes", "12ft,16ft,20ft1/2in", "--limit", "1/2in"]).run();
    assert_eq!(over.code, 1, "{}", over.err);
    assert_eq!(over.err, "");
    let first: Vec<&str> = over.out.lines().take(3).collect();
    assert_snapshot!(first.join("\n"), @r#"
        Over the limit of 0.50 in: The corner is 90.249° and open (over a right angle):
        the end at 16ft is 0.83 in too far out; bring it in
        "#);
    let within = pegline(["corners", "--tapes", "12ft,16ft,20ft1/2in", "--limit", "1in"]).run();
    assert_eq!(within.code, 0);
    let unjudged = pegline(["corners", L, "--tapes", "3m,4m,5.02m", "--corner", "c"]).run();
    assert_eq!(unjudged.code, 0);
    let json = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "5", "--json"]).run();
    assert_eq!(json.code, 1);
    let answer: Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(answer["result"]["found"]["within"], false);
    assert_eq!(answer["result"]["found"]["opening"], "open");
}

#[test]
fn what_is_not_json_is_told_in_one_line() {
    let said = pegline(["diagonals", "--job", "-"]).input("not json\n").refusal();
    assert_eq!(said.lines().count(), 1, "{said}");
}

/// Each wrong use from one short command.
#[test]
fn wrong_use_exits_2_and_says_what_to_write() {
    let said = |arguments: &[&str]| pegline(arguments).refusal();
    assert_snapshot!(said(&["diagonals"]), @"error: there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or --job FILE");
    assert_snapshot!(said(&["diagonals", L, "--walk", L_WALK]), @r#"
        error: the argument '[PLAN]' cannot be used with '--walk <SIDES>'

        Usage: pegline diagonals <PLAN>

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagonals", "78OOx6000"]), @"error: PLAN: `OOx6000` after `78`: write x and the depth, as in 7800x6000");
    assert_snapshot!(said(&["diagonals", "7800", "x", "6000"]), @r#"
        error: unexpected argument 'x' found

        Usage: pegline diagonals [OPTIONS] [PLAN]

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagonals", L, "--house", "AC"]), @"error: --house: there is no side `AC`: the sides are AB, BC, CD, DE, EF, FA");
    assert_snapshot!(said(&["diagonals", L, "--tape-class", "IV"]), @"error: --tape-class: no tape class `IV`: write I, II or III (on the tape's blade), or US");
    assert_snapshot!(said(&["diagonals", L, "--tape-length", "8yd"]), @"error: --tape-length: `8yd` has the unit `yd`: write mm, m, ft or in (6435, 6.435m, 21ft1-3/8in)");
    assert_snapshot!(said(&["diagonals", L, "--tape-length", "0"]), @"error: --tape-length: `0` must be more than zero");
    assert_snapshot!(said(&["diagonals", L, "--tape-reading=-1"]), @"error: --tape-reading: it can't be less than zero");
    assert_snapshot!(said(&["diagonals", L, "--units", "cm"]), @"error: --units: no units `cm`: write mm, m or ft-in");
    assert_snapshot!(said(&["diagonals", L, "--spares", "99"]), @"error: --spares: 99 is too many: 0 to 20");
    assert_snapshot!(said(&["diagonals", L, "--spares", "x"]), @r#"
        error: invalid value 'x' for '--spares <N>': write a whole number, 0 or more

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagonals", L, "--format", "xml"]), @r#"
        error: invalid value 'xml' for '--format <FORMAT>'
          [possible values: table, json, csv]

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagonals", L, "--jsno"]), @r#"
        error: unexpected argument '--jsno' found

          tip: a similar argument exists: '--json'

        Usage: pegline diagonals --json <PLAN>

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagnals", L]), @r#"
        error: unrecognized subcommand 'diagnals'

          tip: a similar subcommand exists: 'diagonals'

        Usage: pegline [OPTIONS] <COMMAND>

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["corners", "--tapes", "3m,4m"]), @"error: --tapes: 2 tapes are given: write three, along one side, along the other and between their ends");
    assert_snapshot!(said(&["corners", "--tapes", "3m,4m,9m"]), @"error: tapes of 3.000 m, 4.000 m and 9.000 m make no triangle: the longest must be shorter than the other two together; read them again");
    assert_snapshot!(said(&["corners", "--tapes", "12ft,16ft,30ft"]), @"error: tapes of 12ft, 16ft and 30ft make no triangle: the longest must be shorter than the other two together; read them again");
    assert_snapshot!(said(&["corners", L, "--corner", "Q", "--tapes", "3m,4m,5m"]), @"error: --corner: there is no corner `Q`: the corners are A to F");
    assert_snapshot!(said(&["job", "new", "hexagon"]), @"error: there is no starter for `hexagon`: write rectangle, L, T or U");
    assert_snapshot!(said(&["job", "new", "--force"]), @r#"
        error: the following required arguments were not provided:
          --output <FILE>

        Usage: pegline job new --output <FILE> --force [SHAPE]

        For more information, try '--help'.
        "#);
    assert_snapshot!(said(&["diagonals", "--job", "nowhere.json"]), @"error: reading the job from nowhere.json: No such file or directory (os error 2)");
}

#[test]
fn help_is_an_answer_and_no_arguments_at_all_is_not() {
    assert!(pegline(["--help"]).answer().contains("Exit code: 0"));
    assert!(
        pegline(["diagonals", "--help"])
            .answer()
            .contains("Example: pegline diagonals")
    );
    assert_eq!(
        pegline(["--version"]).answer(),
        format!("pegline {}\n", env!("CARGO_PKG_VERSION"))
    );
    let none = pegline([""; 0]).run();
    assert_eq!((none.code, none.out.as_str()), (2, ""));
    for command in ["diagonals", "corners", "job"] {
        let help = pegline([command, "--help"]).answer();
        for line in help.lines() {
            assert!(line.chars().count() <= 80, "{command}: {line}");
        }
    }
}

#[test]
fn csv_reads_back_with_the_lengths_of_the_json() {
    let printed = pegline(["diagonals", L_MM, "--format", "csv", "--units", "ft-in"]).answer();
    let json = pegline(["diagonals", L_MM, "--json", "--units", "ft-in"]).json();
    let mut reader = csv::Reader::from_reader(printed.as_bytes());
    let header = reader.headers().unwrap().clone();
    assert_eq!(
        header.iter().collect::<Vec<_>>(),
        [
            "line",
            "from",
            "to",
            "across_mm",
            "down_mm",
            "length_mm",
            "tape_mm",
            "lies",
            "proof",
            "spare",
            "mm_at_end_per_mm"
        ]
    );
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 9);
    for row in &rows {
        let expected = diagonal(&json, &row[0]);
        for (i, field) in [
            (3, "across"),
            (4, "down"),
            (5, "length"),
            (6, "tape"),
            (10, "mm_at_end_per_mm"),
        ] {
            let figure: f64 = row[i].parse().unwrap();
            assert_abs_diff_eq!(figure, expected[field].as_f64().unwrap(), epsilon = 1e-9);
        }
        for (i, field) in [(7, "lies"), (8, "proof"), (9, "spare")] {
            assert_eq!(
                row[i].trim_matches('"'),
                expected[field].to_string().trim_matches('"')
            );
        }
    }
    let corners = pegline(["corners", L, "--format", "csv"]).answer();
    let mut reader = csv::Reader::from_reader(corners.as_bytes());
    for row in reader.records() {
        let row = row.unwrap();
        let figure = |i: usize| row[i].parse::<f64>().unwrap();
        assert_abs_diff_eq!(figure(4).hypot(figure(6)), figure(7), epsilon = 1e-6);
    }
}

/// Plans of all kinds, for what must hold on every page: the widest figures and the most corners among them.
fn many_pages() -> Vec<Vec<String>> {
    let mut plans: Vec<String> = outlines(41).take(25).map(|o| walk_text(&footprint(&o))).collect();
    plans.extend(outlines_of(26, 42).take(2).map(|o| walk_text(&footprint(&o))));
    plans.push("900000x999999-300.125x2400.875".to_owned());
    plans.push("1x1".to_owned());
    plans.push("999ft11-15/16inx999ft11-15/16in-333ft10-11/16inx222ft10-13/16in".to_owned());
    plans.push(format!("{}20000x6000-1000x1500@bl-1500x1500@br-700x800@tl-900x900@tr+2000x1000@1000+2100x1200@5000.5+1900x1300@9000", ""));
    let mut pages = vec![];
    for plan in &plans {
        for units in ["mm", "m", "ft-in"] {
            let source = if plan.contains('R') || plan.contains('L') {
                "--walk"
            } else {
                ""
            };
            // Bare numbers are millimetres, so say so before other units are asked for.
            let plan = if source.is_empty() || units == "mm" {
                plan.clone()
            } else {
                plan.split(' ')
                    .map(|w| {
                        if w.parse::<f64>().is_ok() {
                            format!("{w}mm")
                        } else {
                            w.to_owned()
                        }
                    })
                    .collect::<Vec<_>>()
                    .join(" ")
            };
            let units = if plan.contains("mm") || plan.contains("ft") || units == "mm" {
                units
            } else {
                "mm"
            };
            for command in ["diagonals", "corners"] {
                let mut page = vec![command.to_owned()];
                page.extend((!source.is_empty()).then(|| source.to_owned()));
                page.extend([plan.clone(), "--units".to_owned(), units.to_owned()]);
                pages.push(page);
            }
        }
    }
    pages
}

#[test]
fn no_line_of_a_page_is_over_80_columns_or_has_escape_codes() {
    for page in many_pages() {
        let out = pegline(&page).answer();
        for line in out.lines() {
            assert!(line.chars().count() <= 80, "{page:?}:\n{line}");
            assert!(!line.contains(char::is_control), "{page:?}:\n{line}");
        }
    }
    let long = pegline(["diagonals", L_MM, "--working", "--units", "ft-in"]).answer();
    assert!(long.lines().all(|line| line.chars().count() <= 80));
}

/// A figure broken over two lines inside its inches, 4-1 above 3/16in, would be read as another.
#[test]
fn a_figure_is_never_broken_inside_its_inches() {
    let out = pegline([
        "diagonals",
        "36ft10-3/16inx30ft11-5/16in-10ft10-7/16inx8ft9-1/16in",
    ])
    .answer();
    for word in out.split_whitespace() {
        let start = word.starts_with('/') || word.ends_with('-') || word.ends_with('/');
        assert!(!start || word == "-", "{word} in\n{out}");
    }
}

#[test]
fn ascii_is_ascii_alone() {
    for page in many_pages().into_iter().step_by(7) {
        let out = pegline(page.iter().map(String::as_str).chain(["--ascii", "--working"])).answer();
        assert!(out.is_ascii(), "{page:?}:\n{out}");
        assert!(!out.contains('?'), "{page:?}: a sign without a spelling:\n{out}");
    }
    let asked = pegline(["diagonals", L, "--ascii"]).answer();
    for (name, locale) in [
        ("LANG", "C"),
        ("LC_ALL", "POSIX"),
        ("LC_CTYPE", "de_DE.ISO-8859-1"),
    ] {
        assert_eq!(
            pegline(["diagonals", L]).env(name, locale).answer(),
            asked,
            "{name}={locale}"
        );
    }
    assert!(
        !pegline(["diagonals", L])
            .env("LC_ALL", "en_GB.utf8")
            .answer()
            .is_ascii()
    );
    let refused = pegline(["diagonals", "6000×4000−1000×7000", "--ascii"]).refusal();
    assert!(!refused.is_empty());
}

#[test]
fn no_escape_codes_go_into_a_pipe_nor_under_no_color() {
    for (name, value) in [
        ("TERM", "xterm-256color"),
        ("NO_COLOR", "1"),
        ("COLORTERM", "truecolor"),
    ] {
        let out = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "1"])
            .env(name, value)
            .run();
        assert!(
            !out.out.contains('\u{1b}') && !out.err.contains('\u{1b}'),
            "{name}: {out:?}"
        );
        let err = pegline(["diagonals", "--nonsense"]).env(name, value).refusal();
        assert!(!err.contains('\u{1b}'), "{name}: {err:?}");
    }
    let forced = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "1"])
        .env("CLICOLOR_FORCE", "1")
        .env("NO_COLOR", "1")
        .run();
    assert!(!forced.out.contains('\u{1b}'), "{}", forced.out);
}

#[test]
fn a_name_or_plan_with_control_characters_cannot_steer_the_terminal() {
    let job = "{\"name\": \"a\\nb\\u001b[31mred\\u0007\", \"plan\": \"6000x4000\"}";
    let out = pegline(["diagonals", "--job", "-"]).input(job).answer();
    assert!(!out.replace('\n', "").contains(char::is_control), "{out:?}");
    let err = pegline(["diagonals", "78\n00x\u{1b}[31m6"]).refusal();
    assert_eq!(err.lines().count(), 1, "{err:?}");
    assert!(!err.trim_end().contains(char::is_control), "{err:?}");
    let err = pegline(["diagonals", "--job", "no\nsuch\u{1b}[31m"]).refusal();
    assert!(
        err.lines().count() == 1 && !err.trim_end().contains(char::is_control),
        "{err:?}"
    );
}

fn directory(name: &str) -> PathBuf {
    let directory = std::env::temp_dir().join(format!("pegline-cli-{name}-{}", std::process::id()));
    fs::create_dir_all(&directory).unwrap();
    directory
}

fn plain(arguments: &[&str]) -> Command {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("pegline"));
    command.env_clear().env("LANG", "C.UTF-8").args(arguments);
    command
}

#[test]
fn a_reader_that_goes_away_ends_the_run_quietly() {
    let mut child = plain(&["diagonals", L, "--working"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_in_one_line_with_exit_2() {
    for arguments in [
        vec!["diagonals", L],
        vec!["diagonals", L, "--json"],
        vec!["job", "schema"],
        vec!["job", "new"],
    ] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = plain(&arguments)
            .stdout(full)
            .stderr(Stdio::piped())
            .output()
            .unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(
            said.starts_with("error: writing to standard output: No space left"),
            "{said}"
        );
    }
}

#[test]
fn a_file_is_written_whole_or_not_at_all_and_never_over_another_without_force() {
    let directory = directory("output");
    let file = directory.join("job.json");
    assert_eq!(
        pegline(["job", "new", "T", "-o", "job.json"])
            .within(&directory)
            .answer(),
        ""
    );
    let written = fs::read_to_string(&file).unwrap();
    assert_eq!(written, pegline(["job", "new", "T"]).answer());
    let said = pegline(["job", "new", "L", "-o", "job.json"])
        .within(&directory)
        .refusal();
    assert_snapshot!(said, @"error: -o job.json: the file exists: add --force to replace it, or name another");
    assert_eq!(fs::read_to_string(&file).unwrap(), written, "kept as it was");
    pegline(["job", "new", "L", "-o", "job.json", "--force"])
        .within(&directory)
        .answer();
    assert_eq!(
        fs::read_to_string(&file).unwrap(),
        pegline(["job", "new", "L"]).answer()
    );
    let said = pegline(["job", "new", "-o", "no/such/place.json"])
        .within(&directory)
        .refusal();
    assert_snapshot!(said, @"error: writing no/such/place.json: No such file or directory (os error 2)");
    fs::create_dir(directory.join("taken")).unwrap();
    let said = pegline(["job", "new", "-o", "taken", "--force"])
        .within(&directory)
        .refusal();
    assert_snapshot!(said, @"error: writing taken: Is a directory (os error 21)");
    let mut left: Vec<String> = fs::read_dir(&directory)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    left.sort();
    assert_eq!(left, ["job.json", "taken"], "no part files are left");
    fs::remove_dir_all(directory).unwrap();
}

#[test]
fn a_job_file_is_checked_and_answered_and_options_override_it() {
    let directory = directory("job");
    pegline(["job", "new", "L", "-o", "job.json"])
        .within(&directory)
        .answer();
    assert_snapshot!(pegline(["job", "check", "job.json"]).within(&directory).answer(), @r#"
        job.json: nothing wrong

        Job: Rear extension
        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800 (house), BC 3600, CD 3000, DE 2400, EF 4800, FA 6000
        "#);
    let from_file = pegline(["diagonals", "--job", "job.json", "--json"])
        .within(&directory)
        .json();
    assert_eq!(from_file["job"], "Rear extension");
    assert_eq!(from_file["plan"]["sides"][0]["house"], true);
    let text = fs::read_to_string(directory.join("job.json")).unwrap();
    let piped = pegline(["diagonals", "--job", "-", "--json"]).input(text).json();
    assert_eq!(piped, from_file);
    let other = pegline([
        "diagonals",
        "6000x4000",
        "--job",
        "job.json",
        "--house",
        "CD",
        "--json",
    ])
    .within(&directory)
    .json();
    assert_eq!(other["plan"]["expression"], "6000x4000");
    assert_eq!(other["plan"]["sides"][0]["house"], false);
    assert_eq!(other["plan"]["sides"][2]["house"], true);
    fs::remove_dir_all(directory).unwrap();
}

#[test]
fn the_job_files_schema_is_the_committed_one() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/job.schema.json");
    let committed = fs::read_to_string(path).unwrap_or_default();
    let printed = pegline(["job", "schema"]).answer();
    assert!(
        committed == printed,
        "fixtures/job.schema.json is not what `pegline job schema` prints. If the change of the job file is meant, \
         refresh it:\n    cargo run -- job schema > fixtures/job.schema.json"
    );
}

/// Some hundred through the program; thousands go through the library in the length, plan and job tests.
#[test]
fn bad_input_of_every_kind_exits_2_with_a_clear_line() {
    let mut random = Random::new(51);
    let pieces = [
        "7800",
        "x",
        "6000",
        "-",
        "+",
        "@",
        "br",
        "tl",
        "0",
        "-5",
        "NaN",
        "inf",
        "1e300",
        "٣",
        "'",
        "\"",
        "ft",
        "m",
        "R",
        "L",
        ",",
        ".",
        "1/2in",
        " ",
        "\u{0301}",
        "999999999999",
        "AB",
        "é",
    ];
    for _ in 0..300 {
        let text: String = (0..1 + random.below(8)).map(|_| random.pick(&pieces)).collect();
        let option = random.pick(&["plan", "walk", "house", "tape-length", "tapes", "limit"]);
        let arguments: Vec<String> = match option {
            "plan" => vec!["diagonals".into(), "--".into(), text.clone()],
            "walk" => vec!["diagonals".into(), format!("--walk={text}")],
            "house" => vec!["diagonals".into(), L.into(), format!("--house={text}")],
            "tape-length" => vec!["corners".into(), L.into(), format!("--tape-length={text}")],
            "tapes" => vec!["corners".into(), format!("--tapes={text},4m,5m")],
            _ => vec![
                "corners".into(),
                "--tapes=3m,4m,5m".into(),
                format!("--limit={text}"),
            ],
        };
        let ran = pegline(&arguments).run();
        match ran.code {
            0 | 1 => assert_eq!(ran.err, "", "{arguments:?}"),
            2 => {
                assert_eq!(ran.out, "", "{arguments:?}");
                assert!(
                    ran.err.lines().all(|line| line.starts_with("error: ")) && !ran.err.is_empty(),
                    "{arguments:?}: {}",
                    ran.err
                );
            }
            code => panic!("{arguments:?}: exit {code}: {}", ran.err),
        }
    }
}
