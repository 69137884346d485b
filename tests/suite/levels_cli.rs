//! `packs` and `heights` as they are typed: answers, exit codes, refusals, and pages that fit a terminal.

mod refusals;

use serde_json::{Value, json};

use crate::program::{Ran, pegline};

const PACKS: &str = "packs 7800x6000-3000x2400 --staff A=1412,B=1409,C=1405,D=1411,E=1415,F=1410 \
    --packers 1,2,3,5,10 --studs 600 --limit 10";
const HEIGHTS: &str = "heights --drop 2398,2396,2397 --level-depth 50 \
    --stack plate=38,binder=38,floor=75,lining=28 --ceiling 2400";

/// Runs the program on words separated by spaces, with `input` on standard input.
fn run_with(words: &str, input: &str) -> Ran {
    pegline(words.split_whitespace()).input(input).run()
}

fn run(words: &str) -> Ran {
    run_with(words, "")
}

/// What is printed, and the exit code, of a run that answers.
fn answered(words: &str) -> (String, i32) {
    let output = run(&format!("{words} --full"));
    assert_eq!(output.err, "", "{words}");
    (output.out, output.code)
}

fn json_of(words: &str) -> Value {
    serde_json::from_str(&answered(&format!("{words} --json")).0).unwrap()
}

/// Ours, by hand: each pack is its reading less C's 1405; 10 mm at E is just the limit.
#[test]
fn the_worst_gap_on_its_limit_passes_with_every_flag_said() {
    let (page, code) = answered(PACKS);
    assert_eq!(code, 0);
    assert_eq!(page.lines().next().unwrap(), "Pack up to 10 mm; level with C; within the limit of 10 mm");
    for row in [
        " A              −7         7   5 + 2        ask the designer",
        " B              −4         4   3 + 1        solid packers only",
        " E             −10        10   10           ask the designer",
    ] {
        assert!(page.lines().any(|line| line == row), "{row}\n{page}");
    }
    // Half way along FA from F (5) to A (7) is 6: a 5 and a 1, as at the studs either side.
    assert!(page.contains("1800 to 4200       5   5.6 to 6.4   5 + 1"));
    assert!(page.contains("at A, D, E and F and under 27 studs: 5 mm and deeper; ask the designer"));
    assert_eq!(page.matches("Caution:").count(), 1);
    let over = PACKS.replace("--limit 10", "--limit 9");
    assert_eq!(answered(&over).1, 1);
}

#[test]
fn packs_in_json_have_the_fields_that_other_programs_read() {
    let answer = json_of(PACKS);
    assert_eq!(answer["command"], "packs");
    assert_eq!(answer["plan"]["perimeter"], 27600);
    let result = &answer["result"];
    assert_eq!((&result["worst"], &result["verdict"]), (&json!(10), &json!("pack")));
    let stations = result["stations"].as_array().unwrap();
    let packs: Vec<&Value> = stations.iter().map(|s| &s["pack"]).collect();
    assert_eq!(packs, [7, 4, 0, 6, 10, 5]);
    assert_eq!(stations[0]["name"], "A");
    assert_eq!(stations[0]["packers"], json!([5, 2]));
    assert_eq!(stations[0]["height"], -7);
    assert_eq!(result["studs"].as_array().unwrap().len(), 40);
    // What is taken from the van is what lies under the stations and the studs.
    let laid: f64 = ["stations", "studs"]
        .iter()
        .flat_map(|list| result[list].as_array().unwrap())
        .flat_map(|s| s["packers"].as_array().unwrap())
        .map(|thickness| thickness.as_f64().unwrap())
        .sum();
    let taken: f64 = result["totals"]
        .as_array()
        .unwrap()
        .iter()
        .map(|t| t["thickness"].as_f64().unwrap() * t["count"].as_f64().unwrap())
        .sum();
    assert!(laid > 0.0 && (laid - taken).abs() < 1e-9);
    assert_eq!(answer["cautions"].as_array().unwrap().len(), 1);
}

/// Ours, plain arithmetic: 2398 − 50 = 2348; − 76 = 2272; 2348 − 103 = 2245; 2400 − 2245 = 155.
#[test]
fn a_wall_head_that_misses_the_ceiling_says_by_how_much_and_what_it_needs() {
    let (page, code) = answered(HEIGHTS);
    assert_eq!(code, 1);
    let mut lines = page.lines();
    assert_eq!(lines.next().unwrap(), "Panels 2272 mm high; the ceiling is 155 mm short of 2400 mm");
    assert!(page.contains("panels 2427 mm high and the wall head at 2503 mm"));
    assert!(page.contains(" Panel                              2272        2427"));
    assert!(page.contains("│ panel        2272 │"));
    let result = &json_of(HEIGHTS)["result"];
    for (key, value) in
        [("kit_height", 2348), ("panel_height", 2272), ("ceiling_height", 2245), ("spread", 2)]
    {
        assert_eq!(result[key], value, "{key}");
    }
    assert_eq!((&result["verdict"], &result["stud_length"]), (&json!("low"), &Value::Null));
    let met = HEIGHTS.replace("--ceiling 2400", "--ceiling 2245");
    let (page, code) = answered(&met);
    assert!(page.starts_with("Panels 2272 mm high; the ceiling is 2245 mm, as wanted\n"), "{page}");
    assert_eq!(code, 0);
}

#[test]
fn the_drawing_shows_every_layer_and_the_levels_between_them() {
    let (page, _) = answered(&HEIGHTS.replace("lining=28", "lining=28,rail=38,rail=38"));
    let (_, drawing) = page.split_once("above datum").unwrap();
    for (name, figure) in [
        ("binder", "38"),
        ("panel", "2272"),
        ("plate", "38"),
        ("stud", "2196"),
        ("rail", "38"),
        ("floor", "75"),
        ("room", "2245"),
        ("lining", "28"),
    ] {
        let shown = |cell: &str| cell.trim_start().starts_with(name) && cell.trim_end().ends_with(figure);
        assert!(drawing.lines().any(|line| line.split('│').any(shown)), "{name} {figure}\n{drawing}");
    }
    for level in ["2348", "2320", "2310", "2272", "76", "75", "38", "0"] {
        assert!(drawing.lines().any(|line| line.trim_start().starts_with(level)), "{level}\n{drawing}");
    }
}

#[test]
fn a_ceiling_alone_is_solved_the_other_way() {
    let words = "heights --ceiling 2400 --stack plate=38,binder=38,rail=38,rail=38,floor=75,lining=28";
    let (page, code) = answered(words);
    assert_eq!(code, 0);
    assert!(
        page.starts_with("Panels 2427 mm high, for a ceiling of 2400 mm; the wall head at 2503 mm\n"),
        "{page}"
    );
    assert_eq!(json_of(words)["result"]["stud_length"], 2427 - 76);
}

/// Source: BS 6229 as quoted: a 3.6 m run falls 90 mm at 1:40, 45 mm at 1:80.
#[test]
fn joists_are_packed_to_a_flat_roofs_fall() {
    let words = "heights --drop 2398 --level-depth 50 --hanger 2438 --run 3600 --fall";
    let (page, _) = answered(&format!("{words} design"));
    assert!(page.contains("Wanted: a fall of 90 mm to the wall\nPack: nothing: it is right"), "{page}");
    assert!(page.contains("from memory"));
    let (page, _) = answered(&format!("{words} 1:80"));
    assert!(page.contains("Pack: 45 mm under the bearing on the wall"), "{page}");
}

/// 3 in over a run of 12 ft is 1/4 in in each foot, 1:48.
#[test]
fn a_fall_of_so_much_in_a_foot_is_taken_as_it_is_written_where_feet_are() {
    let given = "heights --drop 8ft --level-depth 2-1/2in --stack plate=1-1/2in --hanger 7ft9-1/2in --run 12ft --full --fall";
    let words = |fall| given.split(' ').chain([fall]).collect::<Vec<&str>>();
    for fall in ["1/4in", "1/4\"", "1/4:12", "1/4in:12", "1/4 in 12", "0.25:12", "irc", "1:48"] {
        let page = pegline(words(fall)).answer();
        assert!(
            page.contains("Wanted: a fall of 3\" to the wall\nPack: 3\" up at the hanger"),
            "{fall}: {page}"
        );
        assert!(page.contains("International Residential Code R905.9.1; from memory)"), "{page}");
    }
    let refusal = pegline(words("1/4")).refusal();
    let both = "`1/4` can be read two ways: write 1:4, or 1/4in for that much in a foot\n";
    assert_eq!(refusal, format!("error: --fall: {both}"));
}

#[test]
fn a_level_bed_has_nothing_to_pack_and_a_lone_high_point_is_named_with_both_ways_out() {
    let (page, code) = answered("packs 4000x3000 --heights A=12,B=12,C=12,D=12");
    assert!(page.starts_with("Nothing to pack\n") && code == 0, "{page}");
    let (page, _) = answered("packs 7800x6000-3000x2400 --heights A=0,B=1,C=8,D=0,E=1,F=0 --packers 1,2,5");
    let said = "The high point C is the odd one out: bring it down or lift everything by 7 mm\n";
    assert!(page.contains(said), "{page}");
}

#[test]
fn two_set_ups_show_what_they_are_out_by() {
    let words = "packs 7800x6000 --staff A=1412,B=1409,C=1405 --staff C=1507,D=1511,A=1512";
    let (page, code) = answered(words);
    assert_eq!(code, 0);
    assert!(page.contains("Set-up 2, staff: C 1507, D 1511, A 1512"), "{page}");
    assert!(page.contains("The levels close to 2 mm, shared out by least squares"), "{page}");
    let closings = &json_of(words)["result"]["closure"]["closings"];
    assert_eq!(closings, &json!([{"name": "A", "set_up": 2, "misclosure": 2}]));
}

#[test]
fn readings_and_figures_keep_to_feet_and_inches() {
    let words =
        "packs 12'x9' --heights A=0,B=-1/4in,C=-1/2in,D=-1/16in,AB@6ft=-1/8in --packers 1/16in,1/8in,1/4in";
    let (page, code) = answered(words);
    assert_eq!(code, 0);
    assert!(page.contains(" AB@6ft    −1/8\"    1/8\"   1/8\""), "{page}");
    assert!(page.contains(" C         −1/2\"    1/2\"   2×1/4\""), "{page}");
    let (page, _) =
        answered("heights --drop 7ft10-3/8in --level-depth 2in --stack plate=1-1/2in,binder=1-1/2in");
    assert!(page.starts_with("Panels 7' 5-3/8\" high; the ceiling comes to 7' 8-3/8\""), "{page}");
}

#[test]
fn the_working_goes_from_reading_to_packers_and_from_tape_to_ceiling() {
    let (page, _) = answered(&format!("{PACKS} --working"));
    for step in [
        "  2  A: 1412 − 1405 = 7 mm",
        "  1  A: 5 + 2 = 7 mm",
        "  4  the gap there: 7 + (−0.231) = 6.769 mm",
        "  5  packers: 5 + 2 = 7 mm, 0.231 mm over the gap",
    ] {
        assert!(page.lines().any(|line| line == step), "{step}\n{page}");
    }
    let (page, _) = answered(&format!("{HEIGHTS} --working"));
    for step in [
        "  1  drop 1: 2398 − 50 = 2348 mm",
        "  5  highest less lowest, the spread: 2348 − 2346 = 2 mm",
        "  4  less binder: 2310 − 38 = 2272 mm",
        "  3  less lining: 2273 − 28 = 2245 mm",
        "  5  wall head found less needed: 2348 − 2503 = −155 mm",
    ] {
        assert!(page.lines().any(|line| line == step), "{step}\n{page}");
    }
}

#[test]
fn no_line_is_over_eighty_columns_and_ascii_is_ascii() {
    for words in [
        PACKS,
        HEIGHTS,
        "packs 7800x6000 --staff A=1412,B=1409,C=1405 --staff C=1507,D=1511 --preset labc --datum A --packers 3x2",
        "packs 25ft7-1/2inx19ft8-3/4in --units ft-in --heights A=0.01ft,B=0.02ft,C=0.05ft,D=0 --studs 16in --packers 1/16in",
        "heights --drop 2.398 --level-depth 50mm --stack plate=38mm,floor:screed=65mm,rail=38mm --hanger 2.4 --run 3.6 --units m",
    ] {
        for working in ["", " --working"] {
            let (page, _) = answered(&format!("{words}{working}"));
            let widest = page.lines().max_by_key(|line| line.chars().count()).unwrap();
            assert!(widest.chars().count() <= 80, "{words}{working}: {widest}");
            let (plain, _) = answered(&format!("{words}{working} --ascii"));
            assert!(plain.is_ascii() && !plain.contains('?'), "{plain}");
        }
    }
}

#[test]
fn csv_has_a_row_for_every_place_and_every_height() {
    let (csv, _) = answered(&format!("{PACKS} --format csv"));
    let mut lines = csv.lines();
    assert_eq!(
        lines.next().unwrap(),
        "place,side,along_mm,under,height_mm,pack_mm,packers_mm,remainder_mm,mind"
    );
    assert_eq!(lines.next().unwrap(), "A,AB,0,reading,-7,7,5+2,0,ask the designer");
    assert_eq!(lines.count(), 5 + 40);
    let (csv, _) = answered(&format!("{HEIGHTS} --format csv"));
    assert!(csv.lines().any(|line| line == "panel_height,2272,2427"), "{csv}");
}

#[test]
fn a_batch_packs_a_job_a_line() {
    let job = |reads: u32| {
        format!(r#"{{"plan": "3mx3m", "packs": {{"staff": [["A=1400", "B={reads}"]], "limit": 5}}}}"#)
    };
    let output = run_with("batch packs", &format!("{}\n{}\n", job(1404), job(1406)));
    let printed = output.out;
    let answers: Vec<Value> = printed.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let verdicts: Vec<&Value> = answers.iter().map(|answer| &answer["result"]["verdict"]).collect();
    assert_eq!(verdicts, ["pack", "over the limit"]);
    assert_eq!(output.code, 1);
}

#[test]
fn a_job_file_holds_the_same_and_options_override_it() {
    let job = r#"{"plan": "7800x6000",
        "packs": {"staff": [["A=1412", "B=1409", "C=1405", "D=1411"]], "packers": [1, "2x2", 5], "limit": 7},
        "heights": {"drops": [2398], "level_depth": 50, "stack": ["plate=38", "rail=38", "rail=38"], "ceiling": "2.3m"}}"#;
    let output = run_with("packs --job - --limit 6 --json", job);
    assert_eq!(output.code, 1);
    let result: Value = serde_json::from_str(&output.out).unwrap();
    assert_eq!(result["result"]["verdict"], "over the limit");
    // 7, 4 and 6 mm would take three 2s if there were as many.
    let totals = &result["result"]["totals"];
    assert!(totals.as_array().unwrap().contains(&json!({"thickness": 2, "count": 2})), "{totals}");
    // A preset given here takes the place of the file's own limit, and heights that of its staff readings.
    let output = run_with("packs --job - --preset labc --heights A=0,B=1 --json", job);
    let result: Value = serde_json::from_str(&output.out).unwrap();
    assert_eq!(result["result"]["bed"]["check"]["against"]["published"]["key"], "labc");
    assert_eq!(result["result"]["stations"].as_array().unwrap().len(), 2);
    let output = run_with("heights --job - --format csv", job);
    assert!(output.out.contains("stud_length,2234,"));
}

/// Ours: what a first line says, and the exit code with it, for packing that other orders of the van got wrong.
#[test]
fn packs_say_first_what_to_do_and_are_made_up_where_they_can_be() {
    let plot = "packs 7800x6000-3000x2400 --house AB";
    for (words, first, code) in [
        // Places made up come first: two ones under two gaps of 2 make both up, within 1.
        (
            "packs 4000x3000 --heights A=0,B=-2,C=-2,D=0 --packers 2x1".to_owned(),
            "Pack up to 2 mm; level with A",
            0,
        ),
        // 1s, 2s and 3s don't run out, so every gap is made up, whatever becomes of the twelve 5s.
        (
            format!("{plot} --studs 600 --heights A=-22,B=-6,C=-8,D=-1,E=0,F=-30 --packers 1,2,3,12x5"),
            "Pack up to 30 mm; level with E",
            0,
        ),
        // A and B are 6 apart, 3 m through the house but 15 m along the new walls: 8 mm in 5 m, 12 mm over 5 m.
        (
            "packs 3000x6000 --house AB --heights A=0,B=-6,C=-6,D=-3 --packers 1,2,5 --preset nhbc"
                .to_owned(),
            "Pack up to 6 mm; level with A; the bed is within nhbc",
            0,
        ),
        (
            "packs 3000x6000 --house CD --heights A=0,B=-6,C=-6,D=-3 --packers 1,2,5 --preset nhbc"
                .to_owned(),
            "Out of level: 6 mm between A and B, over the limit of 4.8 mm",
            1,
        ),
        // 10, 5 and 5 want four 5s.
        (
            "packs 4000x3000 --heights A=0,B=-10,C=-5,D=-5 --packers 2x5".to_owned(),
            "Short of packers: 2 more of 5 mm make all 3 places up",
            1,
        ),
        // A staff misread by 100.
        (
            format!("{plot} --staff A=1412,B=1409,C=1405,D=1411,E=1509,F=1410 --packers 1,2,3,5,10"),
            "Read E again before anything is packed: it lies 97 mm below all the others,",
            1,
        ),
        // Six places far too deep for what is in the van: six are named, not all thirty.
        (
            format!("{plot} --studs 600 --heights A=-22,B=-6,C=-8,D=-1,E=0,F=-30 --packers 5x10"),
            "The packers named don't make up the gap at A, B, C, BC@600, BC@1200 and 23 more",
            1,
        ),
    ] {
        let (page, exit) = answered(&words);
        assert_eq!((page.lines().next().unwrap(), exit), (first, code), "{words}");
    }
}

/// Ours: half millimetres are read back as they were typed, and sides without readings are told.
#[test]
fn readings_are_read_back_to_the_half_and_studs_without_them_are_told() {
    let (page, _) = answered(
        "packs 7800x6000-3000x2400 --house AB --heights A=-2,B=-6,C=-8.5 --packers 1,2,5 --studs 600",
    );
    assert!(page.contains("Heights: A −2, B −6, C −8.5 (up is +)"), "{page}");
    let one_line = page.replace('\n', " ");
    assert!(
        one_line.contains("No studs are worked out where only one end is read: CD from 0 mm to 3000 mm,"),
        "{page}"
    );
}

/// Ours: a drop taped to the masonry at C has the 7 mm pack there come off; the plan gives C its meaning.
#[test]
fn a_drop_at_a_place_is_taped_to_the_masonry_there() {
    let job = json!({
        "plan": "4000x3000",
        "packs": {"staff": [["A=1405", "B=1409", "C=1412", "D=1411"]], "packers": ["1", "2", "5"]},
        "heights": {"drops": ["C=2405", 2398], "level_depth": 50, "stack": ["plate=38", "binder=38"]},
    });
    let ran = run_with("heights --job - --full", &job.to_string());
    assert_eq!(
        (ran.code, ran.out.lines().next().unwrap()),
        (0, "Panels 2272 mm high; the ceiling comes to 2348 mm")
    );
    assert!(ran.out.contains("Packs there, which come off: C 7 mm"), "{}", ran.out);
    let apart = run("heights --drop 2398,2498,2397 --level-depth 50 --stack plate=38,binder=38");
    assert!(
        apart.out.starts_with("Read the drop 2498 mm (drop 2) again:") && apart.code == 1,
        "{}",
        apart.out
    );
    let bare = run("heights --drop 2398 --level-depth 50 --ceiling 2400");
    assert!(
        bare.out.starts_with("2348 mm for the panels, and plate and binder still to come off;"),
        "{}",
        bare.out
    );
}

/// By hand: with two packers of 1 the two gaps of 2 are made up to within 1 mm each; with no packers nothing is said.
#[test]
fn a_place_made_up_to_within_a_millimetre_says_how_far_off_it_is() {
    let heights = ["packs", "4000x3000", "--heights", "A=0,B=-2,C=-2,D=0"];
    let notes = |more: &[&str]| -> String {
        pegline([&heights[..], more].concat()).answer().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(
        notes(&["--packers", "2x1"]).contains("as near as the van allows: B 1 mm short and C 1 mm short")
    );
    assert!(!notes(&["--packers", "2,1"]).contains("as near as"));
    assert!(!notes(&[]).contains("as near as"));
    // A and D stand 2 mm above the datum B: there is nothing there to make up.
    let above = pegline([&heights[..], &["--datum", "B", "--packers", "2,1"]].concat()).run();
    assert!(
        above.out.starts_with("A and D above the datum B") && !above.out.contains("as near as"),
        "{}",
        above.out
    );
}
