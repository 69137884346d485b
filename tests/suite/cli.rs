//! The program as it is typed: what it prints, where, and with which exit code.

use approx::assert_abs_diff_eq;
use insta::assert_snapshot;
use serde_json::Value;

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
    assert_snapshot!(pegline(["diagonals", L, "--full"]).answer(), @r#"
        Tape all the sides, then AD 6000, BE 6708, DF 5367; BF 9841 and CE 3842 show a
        misread

        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800, BC 3600, CD 3000, DE 2400, EF 4800, FA 6000

        Tape these
        All the sides, then the proof set: AD 6000, BE 6708, DF 5367
          With the sides these fix the shape; the worst corner is good to ±1.27 mm (one
          standard deviation, class II tape, read to ±1.0 mm).
        Then, to show up a misread: BF 9841, CE 3842
          With these a misread of 22.4 mm shows four times in five, one of 34.6 mm
          practically always.

        Check diagonals
        1 shows: 1 mm on the diagonal is so many mm at the far end of its longer leg
         Line   Across mm   Down mm   Exact mm   Tape mm   Lies      Use     1 shows
        ─────────────────────────────────────────────────────────────────────────────
         AC          7800      3600   8590.693      8591   inside               2.39
         AD          4800      3600   6000.000      6000   inside    proof      1.67
         AE          4800      6000   7683.749      7684   inside               1.60
         BD          3000      3600   4686.150      4686   inside               1.56
         BE          3000      6000   6708.204      6708   outside   proof      2.24
         BF          7800      6000   9840.732      9841   inside    spare      1.64
         CE          3000      2400   3841.875      3842   outside   spare      1.60
         CF          7800      2400   8160.882      8161   outside              3.40
         DF          4800      2400   5366.563      5367   inside    proof      2.24

        Rectangles, two right triangles each
         No   Across mm   Down mm   Diagonal mm   Corners
        ────────────────────────────────────────────────────────────────────
          1        7800      3600          8591   A, B, C, 2400 mm along FA
          2        4800      2400          5367   2400 mm along FA, D, E, F

        Caution: check for buried services before driving pegs
        "#);
}

#[test]
fn diagonals_of_an_l_as_json() {
    let answer = pegline(["diagonals", L, "--json"]).json();
    assert_eq!(answer["pegline"]["schema"], 1);
    assert_eq!(answer["pegline"]["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!((&answer["command"], &answer["units"]), (&"diagonals".into(), &"mm".into()));
    assert_eq!(answer["job"], Value::Null);
    let plan = &answer["plan"];
    assert_eq!(plan["expression"], L);
    assert_eq!(plan["corners"][3], serde_json::json!({"name": "D", "x": 4800, "y": 3600}));
    assert_eq!(plan["sides"][5], serde_json::json!({"name": "FA", "length": 6000, "house": false}));
    assert_eq!((&plan["area_m2"], &plan["perimeter"]), (&39.6.into(), &27600.into()));
    let result = &answer["result"];
    assert_eq!(result["rectangles"][0]["across"], 7800);
    assert_eq!(result["rectangles"][1]["down"], 2400);
    assert_abs_diff_eq!(result["rectangles"][1]["diagonal"].as_f64().unwrap(), 5366.563, epsilon = 1e-9);
    assert_eq!(result["triangles"].as_array().unwrap().len(), 4);
    assert_eq!((&result["triangles"][0]["a"], &result["triangles"][0]["b"]), (&7800.into(), &3600.into()));
    assert_abs_diff_eq!(diagonal(&answer, "BF")["length"].as_f64().unwrap(), 9840.732, epsilon = 1e-9);
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
    assert_abs_diff_eq!(diagonal(&answer, "AC")["length"].as_f64().unwrap(), 8590.693, epsilon = 1e-9);
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
    assert_eq!(answer["cautions"], serde_json::json!(["check for buried services before driving pegs"]));
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
        @"error: --walk: the walk doesn't close: it ends 50 mm too far to the left of A (across); any one of these would close it: AB 7800 -> 7850, EF 4850 -> 4800, CD 3000 -> 2950"
    );
}

#[test]
fn the_working_in_feet_and_inches_comes_to_twenty_feet_exactly() {
    let out = pegline(["diagonals", "26'x20'-10'x8'", "--working"]).answer();
    let start = out.find("AD: from A").unwrap();
    let end = start + out[start..].find("\n\n").unwrap();
    assert_snapshot!(&out[start..end], @r"
        AD: from A 16' to the right, then 12' down to D
          1  a, across = EF = 16' = 16 ft
          2  b, down = BC = 12' = 12 ft
          3  a² = 16 × 16 = 256 ft²
          4  b² = 12 × 12 = 144 ft²
          5  a² + b² = 256 + 144 = 400 ft²
          6  c = √400 = 20 ft
          7  on the tape, to the nearest 1/16 in: AD = 20'
        ");
}

#[test]
fn the_working_in_millimetres() {
    let out = pegline(["diagonals", L, "--working"]).answer();
    let start = out.find("BE: from B").unwrap();
    let end = start + out[start..].find("\n\n").unwrap();
    assert_snapshot!(&out[start..end], @r"
        BE: from B 3000 mm to the left, then 6000 mm down to E
          1  a, across = CD = 3000 mm
          2  b, down = FA = 6000 mm
          3  a² = 3000 × 3000 = 9 000 000 mm²
          4  b² = 6000 × 6000 = 36 000 000 mm²
          5  a² + b² = 9 000 000 + 36 000 000 = 45 000 000 mm²
          6  c = √45 000 000 = 6708.204 mm
          7  on the tape, to the nearest 1 mm: BE = 6708 mm
        ");
}

#[test]
fn corners_of_an_l_with_a_short_tape() {
    assert_snapshot!(pegline(["corners", L, "--tape-length", "8m", "--full"]).answer(), @r#"
        From A mark 4800 along FA and 6400 along AB: 8000 between the marks is square

        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800, BC 3600, CD 3000, DE 2400, EF 4800, FA 6000

        The biggest neat triangle at each corner, both legs from the corner
        1 shows: 1 mm between the marks is so many mm at the longer side's end
         Corner   Triple   Side   Along mm   Side   Along mm   Between mm   1 shows
        ────────────────────────────────────────────────────────────────────────────
         A        3-4-5    FA         4800   AB         6400         8000      2.03
         B        3-4-5    AB         4800   BC         3600         6000      2.71
         C        3-4-5    BC         3600   CD         2700         4500      1.67
         D        3-4-5    CD         2800   DE         2100         3500      1.79
         E        3-4-5    DE         2400   EF         3200         4000      2.50
         F        3-4-5    EF         4500   FA         6000         7500      1.67

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
        ("triple", "3-4-5".into()),
        ("multiple", 800.into()),
        ("first", serde_json::json!({"side": "DE", "length": 2400})),
        ("second", serde_json::json!({"side": "EF", "length": 3200})),
        ("diagonal", 4000.into()),
    ] {
        assert_eq!(e[field], value, "{field}");
    }
    // dθ = c·dc/(ab) over the longer side: 4000/(2400 × 3200) × 4800.
    assert_abs_diff_eq!(e["mm_at_end_per_mm"].as_f64().unwrap(), 2.5, epsilon = 1e-6);
}

/// Source: a US remodelling performance standard: 12 × 16 ft, 20 ft ± 1/2 in.
#[test]
fn a_corner_as_found_is_judged_by_the_limit_given() {
    let over = pegline(["corners", "--tapes", "12ft,16ft,20ft1/2in", "--limit", "1/2in"]).run();
    assert_eq!(over.code, 1, "{}", over.err);
    assert_eq!(over.err, "");
    let first: Vec<&str> = over.out.lines().take(3).collect();
    assert_snapshot!(first.join("\n"), @r#"
        Over the limit of 1/2": The corner is open (90.249°): bring the end at 16' in
        13/16"
        "#);
    let within = pegline(["corners", "--tapes", "12ft,16ft,20ft1/2in", "--limit", "1in"]).run();
    assert_eq!(within.code, 0);
    let unjudged = pegline(["corners", L, "--tapes", "3m,4m,5.02m", "--corner", "c"]).run();
    assert_eq!(unjudged.code, 0);
    // 3600 × (5.02² − 3² − 4²) ⁄ (2 × 3 × 4): BC is the longer side, and its other end is B.
    assert!(unjudged.out.starts_with("Corner C is open (90.478°): bring B in 30.1 mm\n"), "{}", unjudged.out);
    let json = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "5", "--json"]).run();
    assert_eq!(json.code, 1);
    let answer: Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(answer["result"]["found"]["within"], false);
    assert_eq!(answer["result"]["found"]["opening"], "open");
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
        for (i, field) in [(3, "across"), (4, "down"), (5, "length"), (6, "tape"), (10, "mm_at_end_per_mm")] {
            let figure: f64 = row[i].parse().unwrap();
            assert_abs_diff_eq!(figure, expected[field].as_f64().unwrap(), epsilon = 1e-9);
        }
        for (i, field) in [(7, "lies"), (8, "proof"), (9, "spare")] {
            assert_eq!(row[i].trim_matches('"'), expected[field].to_string().trim_matches('"'));
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
