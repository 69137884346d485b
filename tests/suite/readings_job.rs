//! Whole jobs on an L of 7800 × 6000 with 3000 × 2400 cut out, 100 held on: what is wrong, and what to do about it.

use approx::assert_abs_diff_eq as close;
use pegline::readings::{
    Datum, Explains, Input, Reading, Readings, Reason, SettledBy, Verdict, adjust, readings,
};

use crate::program::pegline;
use crate::readings_support::{ell, held_on, judge_ell, line, plan, read};

const SIDES: &str = "AB=7900,BC=3700,CD=3100,DE=2500,EF=4900,FA=6100";

fn with(diagonals: &str) -> Readings {
    judge_ell(&format!("{SIDES},{diagonals}"))
}

fn next(answer: &Readings, reason: Reason) -> Vec<&str> {
    answer.tape_next.iter().filter(|n| n.reason == reason).map(|n| n.name.as_str()).collect()
}

/// Invented readings: true lengths to the millimetre, BF read 100 short. |w| 43.98 and slip −99.87 (linear estimate)
/// worked out independently.
#[test]
fn with_three_spare_the_reading_that_is_100_short_is_named_alone() {
    let answer = with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9841");
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, Some(Verdict::Square)));
    assert_eq!(answer.misreads.len(), 1);
    let misread = &answer.misreads[0];
    assert_eq!(misread.name.as_deref(), Some("BF"));
    assert_eq!(misread.tied.len(), 1);
    assert!(misread.rivals.is_empty());
    close!(misread.w.0.abs(), 43.98, epsilon = 0.0051);
    close!(misread.tied[0].slip.0, -99.87, epsilon = 0.5);
    assert_eq!(
        misread.tied[0].likely.as_deref(),
        Some("the 100 was taken off twice, or read from the tape's end")
    );
    assert_eq!(answer.degrees_of_freedom, 2);
    assert_eq!(next(&answer, Reason::Again), ["BF"]);
    let bf = answer.readings.last().unwrap();
    assert!(bf.suspect && bf.left_out);
    assert!(answer.unchecked.is_empty());
}

/// Invented readings; |w| 42.80 for all three, linear slips −99.99, +112.75 and +467.6, worked out independently: no residual
/// tells BF, DF and FA apart, the odds do.
#[test]
fn with_two_spare_three_readings_tie_and_the_odds_name_the_usual_slip() {
    let answer = with("AC=8691,AD=6100,BD=4786,DF=5467,BF=9841");
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, Some(Verdict::Square)));
    let misread = &answer.misreads[0];
    let tied: Vec<&str> = misread.tied.iter().map(|t| t.name.as_str()).collect();
    assert_eq!((tied, misread.name.as_deref()), (vec!["BF"], Some("BF")));
    close!(misread.w.0.abs(), 42.80, epsilon = 0.0051);
    close!(misread.tied[0].slip.0, -100.0, epsilon = 2.0);
    assert!(answer.explanations[0].odds.0 >= 0.95 && answer.explanations[0].lines == ["BF"]);
    assert_eq!(answer.unchecked, ["DE", "EF"]);
    assert_eq!(answer.no_longer_checked, ["FA", "DF"]);
    // The linear figures, from all readings adjusted together.
    let corners = ell();
    let observations: Vec<_> = answer
        .readings
        .iter()
        .map(|r| {
            let (from, to) = line(&r.name);
            pegline::readings::Observation { from, to, value: r.used.0, sd: r.sd.0 }
        })
        .collect();
    let all = adjust(&corners, &observations, Datum::Free).unwrap();
    for (name, slip) in [("BF", -99.99), ("DF", 112.75), ("FA", 467.6)] {
        let i = answer.readings.iter().position(|r| r.name == name).unwrap();
        close!(-all.residuals[i] / all.redundancy[i], slip, epsilon = 0.051);
        close!(all.w[i].unwrap().abs(), 42.80, epsilon = 0.0051);
        close!(all.correlation(i, 10).abs(), 1.0, epsilon = 1e-9);
    }
    for name in ["DE", "EF"] {
        let i = answer.readings.iter().position(|r| r.name == name).unwrap();
        assert_eq!((all.redundancy[i], all.w[i]), (0.0, None));
    }
}

/// Invented readings; |w| 47.00 and slip −99.80 (linear) worked out independently.
#[test]
fn with_all_nine_diagonals_the_short_one_stands_out() {
    let answer = with("AC=8691,AD=6100,AE=7784,BD=4786,BE=6808,BF=9841,CE=3942,CF=8261,DF=5467");
    let misread = &answer.misreads[0];
    assert_eq!(misread.name.as_deref(), Some("BF"));
    close!(misread.w.0.abs(), 47.00, epsilon = 0.0051);
    close!(misread.tied[0].slip.0, -99.80, epsilon = 0.5);
}

#[test]
fn with_the_reading_put_right_it_is_square_and_nothing_moves() {
    let answer = with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9941");
    assert_eq!((answer.verdict, answer.rest), (Verdict::Square, None));
    assert!(answer.misreads.is_empty() && answer.against_plan.suspects.is_empty());
    assert_eq!(answer.degrees_of_freedom, 3);
    assert!(answer.global_test.unwrap().passed);
    assert!(answer.side_moves.is_empty());
    assert!(answer.moves.iter().all(|m| m.words.ends_with("stays")));
    assert_eq!(answer.moves.len(), 6);
}

/// The best three diagonals of this L, by trying all 84: AD, BE and DF, worst corner 1.27 mm; worked out independently.
#[test]
fn sides_alone_leave_it_loose_and_the_best_three_diagonals_are_named() {
    let answer = judge_ell(SIDES);
    assert_eq!((answer.verdict, answer.rest), (Verdict::NotFixed, None));
    assert_eq!(answer.loose, ["A", "B", "C", "D", "E", "F"]);
    assert_eq!((answer.rank, answer.needed), (6, 9));
    let mut lines = next(&answer, Reason::Fixes);
    lines.sort_unstable();
    assert_eq!(lines, ["AD", "BE", "DF"]);
    let worst = answer.tape_next[2].worst_corner_sd.unwrap();
    close!(worst.0, 1.27, epsilon = 0.0051);
    assert!(answer.tape_next[..2].iter().all(|n| n.worst_corner_sd.is_none()));
    // Against the plan nothing looks misread.
    assert!(answer.against_plan.suspects.is_empty());
    assert!(answer.corners.is_empty() && answer.moves.is_empty());
    assert!(answer.readings.iter().all(|r| r.residual.is_none()));
}

#[test]
fn sides_alone_with_a_100_slip_are_judged_against_the_plan() {
    let answer = judge_ell(&SIDES.replace("EF=4900", "EF=4800"));
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, Some(Verdict::NotFixed)));
    assert_eq!(answer.misreads.len(), 1);
    // Or F was built 100 too near: no line here tells the two apart.
    assert_eq!((answer.misreads[0].name.as_deref(), answer.misreads[0].tied.len()), (None, 1));
    assert_eq!(answer.misreads[0].tied[0].name, "EF");
    close!(answer.misreads[0].tied[0].slip.0, -100.0, epsilon = 1.5);
    assert_eq!(next(&answer, Reason::Again), ["EF"]);
}

#[test]
fn only_the_corners_that_hang_free_are_called_loose() {
    // A, B, C and D are braced; E and F hang on.
    let answer = with("AC=8691,AD=6100,BD=4786");
    assert_eq!(answer.loose, ["E", "F"]);
    assert_eq!(next(&answer, Reason::Fixes).len(), 1);
    // The one line that brings the worst corner down most, by trying every other.
    let best = &answer.tape_next[0];
    for other in ["AE", "BE", "BF", "CE", "CF", "DF"] {
        let (from, to) = line(other);
        let length = ell()[from].distance(ell()[to]).round() + 100.0;
        let fixed = with(&format!("AC=8691,AD=6100,BD=4786,{other}={length}"));
        assert!(fixed.worst_corner_sd.unwrap().0 >= best.worst_corner_sd.unwrap().0 - 0.02, "{other}");
    }
}

/// The worst corner of 68.8 mm was worked out independently.
#[test]
fn three_diagonals_that_count_right_but_hardly_hold_are_not_taken_for_fixed() {
    let answer = with("AD=6100,BF=9941,CE=3942");
    assert_eq!((answer.verdict, answer.rank), (Verdict::NotFixed, 9));
    assert!((60.0..75.0).contains(&answer.worst_corner_sd.unwrap().0));
    assert!(!answer.loose.is_empty() && answer.moves.is_empty());
    let best = answer.tape_next[0].worst_corner_sd.unwrap().0;
    assert!(best < 2.0, "{best}");
}

#[test]
fn without_redundancy_no_slip_shows_and_it_is_said() {
    let answer = with("AD=6100,BE=6808,DF=5467");
    assert_eq!(answer.degrees_of_freedom, 0);
    assert_eq!(answer.unchecked.len(), 9);
    assert!(answer.readings.iter().all(|r| r.hides.is_none() && r.w.is_none()));
    assert!(answer.sigma0.is_none() && answer.global_test.is_none());
    assert!(!next(&answer, Reason::Checks).is_empty());
    // A slip then silently moves a corner; only the plan speaks against it.
    let slipped = with("AD=6100,BE=6808,DF=5567");
    assert_eq!((slipped.verdict, slipped.rest), (Verdict::Misread, Some(Verdict::NotFixed)));
    assert_eq!(
        (slipped.misreads[0].name.as_deref(), slipped.misreads[0].settled_by),
        (Some("DF"), SettledBy::Plan)
    );
    assert!(slipped.moves.is_empty());
    // Taped twice and the same each time proves nothing yet: a slip of the hold repeats itself.
    let twice = with("AD=6100,BE=6808,DF=5567,DF=5567");
    assert_eq!(twice.verdict, Verdict::Misread);
    assert!(twice.moves.is_empty());
}

/// With one to spare every residual's test is as large as every other: the plan makes the odds.
#[test]
fn with_one_spare_the_plan_tells_which() {
    let answer = with("AC=8691,AD=6100,AE=7784,DF=5337");
    let misread = &answer.misreads[0];
    // 130 short is no usual slip.
    assert_eq!(misread.name.as_deref(), Some("DF"));
    assert!(misread.tied[0].likely.is_none());
}

#[test]
fn two_slips_are_found_together_where_the_redundancy_allows() {
    let answer = with("AC=8791,AD=6100,AE=7784,BD=4786,BE=6808,BF=9841,CE=3942,CF=8261,DF=5467");
    let mut names: Vec<_> = answer.misreads.iter().map(|m| m.name.clone().unwrap()).collect();
    names.sort();
    assert_eq!(names, ["AC", "BF"]);
    assert!(answer.other_pairs.is_empty());
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, Some(Verdict::Square)));
}

#[test]
fn two_slips_with_two_to_spare_are_placed_by_the_plan_or_not_at_all() {
    let answer = with("AC=8791,AD=6100,BD=4786,DF=5467,BF=9841");
    assert_eq!(answer.verdict, Verdict::Misread);
    let mut names: Vec<_> = answer.misreads.iter().map(|m| m.name.clone().unwrap()).collect();
    names.sort();
    assert_eq!(names, ["AC", "BF"]);
    // Told that the outline may be anywhere within a metre, the plan has next to nothing to say.
    let (plan, tapes) = (plan(&[]), held_on(100.0));
    let taken = read(&format!("{SIDES},AC=8791,AD=6100,BD=4786,DF=5467,BF=9841"));
    let unknown = readings(&Input { built_within: 1000.0, ..Input::new(&plan, &taken, &tapes) }).unwrap();
    assert_eq!((unknown.verdict, unknown.rest), (Verdict::Misread, None));
    // Two slips of just 100 leave the rest in step; of the rest as it stands none is named.
    assert!(
        unknown.misreads.iter().filter_map(|m| m.name.as_deref()).all(|name| ["AC", "BF"].contains(&name))
    );
    assert!(unknown.misreads.iter().any(|m| m.name.is_none()));
    assert!(unknown.moves.is_empty());
}

#[test]
fn swapped_digits_and_a_dropped_thousand_are_named() {
    let swapped = with("AC=8691,AD=6100,AE=7784,BD=4786,BE=6808,BF=9941,CE=3942,CF=8261,DF=5647");
    assert_eq!(
        swapped.misreads[0].tied[0].likely.as_deref(),
        Some("two digits swapped: it may have read 5467")
    );
    let dropped = with("AC=8691,AD=5100,AE=7784,BD=4786,BE=6808,BF=9941,CE=3942,CF=8261,DF=5467");
    assert_eq!(dropped.misreads[0].name.as_deref(), Some("AD"));
    assert_eq!(dropped.misreads[0].tied[0].likely.as_deref(), Some("1000 dropped"));
    assert_eq!(dropped.misreads.len(), 1);
}

/// Ours: the same readings with 100 on every one; with 100 held on and not said; all of them in metres.
#[test]
fn one_length_on_every_reading_is_said_and_one_unit_is_asked_for() {
    let (plan, tapes) = (plan(&[0]), held_on(0.0));
    let taken = read(&format!("{SIDES},AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9941"));
    let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, Some(Verdict::Square)));
    assert!(answer.misreads.is_empty() && answer.moves.is_empty());
    let first = &answer.explanations[0];
    assert_eq!((first.what, first.held_on.unwrap().0), (Explains::Every, 100.0));
    assert!(first.odds.0 > 0.95);
    let metres: Vec<Reading> =
        taken.iter().map(|r| Reading { value: (r.value - 100.0) / 1000.0, ..*r }).collect();
    let refused = readings(&Input::new(&plan, &metres, &tapes)).unwrap_err().to_string();
    assert!(
        refused.contains("as if they were in metres: write the unit with each, as AB=7.8m,"),
        "{refused}"
    );
}

/// Ours: a rectangle with right corners and 100 too deep is square and not to size; a limit on sizes may differ.
#[test]
fn a_plate_of_the_wrong_size_is_not_good_however_square() {
    let footprint = pegline::plan::parse_expression("6000x4200", pegline::length::Units::Mm).unwrap().0;
    let (taken, tapes) = (read("AB=6000,BC=4300,CD=6000,DA=4300,AC=7382,BD=7382"), held_on(0.0));
    let judged = |size_limit: Option<f64>| {
        let limit = Some(pegline::readings::Limit::Own(10.0));
        readings(&Input { limit, size_limit, ..Input::new(&footprint, &taken, &tapes) }).unwrap()
    };
    let answer = judged(None);
    assert_eq!((answer.verdict, answer.to_size), (Verdict::Out, Some(false)));
    assert!(answer.angles.iter().all(|angle| angle.within));
    let long: Vec<&str> = answer.sides.iter().filter(|s| !s.within).map(|s| s.name.as_str()).collect();
    assert_eq!(long, ["BC", "DA"]);
    assert_eq!((judged(Some(150.0)).verdict, judged(Some(150.0)).to_size), (Verdict::Square, Some(true)));
}

#[test]
fn lines_that_cannot_be_taped_are_never_suggested() {
    // The house stands in the cut-out.
    let (plan, taken, mut tapes) = (plan(&[3]), read(SIDES), held_on(100.0));
    tapes[0].tape.length = Some(8000.0);
    let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
    let lines = next(&answer, Reason::Fixes);
    assert_eq!(lines.len(), 3);
    // BE and CE are blocked; AC, BF and CF are longer than the tape.
    for line in ["BE", "CE", "AC", "BF", "CF"] {
        assert!(!lines.contains(&line));
    }
}

/// Ours: no line of 12 by 9 m lies within a tape of 5 m, and every one can be taped in pulls along a string.
#[test]
fn where_the_tape_reaches_no_line_the_lines_to_tape_in_pulls_are_named() {
    let ran =
        pegline(["readings", "12000x9000", "--tape-length", "5m", "--read", "AB=12001,BC=9000", "--full"])
            .run();
    assert!(ran.out.starts_with("Not fixed: 2 of the 5 distances that it takes; tape CD, "), "{}", ran.out);
    let note =
        ran.out.lines().skip_while(|line| !line.starts_with("Note: AB, BC, ")).take(2).collect::<String>();
    assert!(note.contains("are longer than the tape") && note.contains("in equal"), "{}", ran.out);
}

/// Ours: the house stands in the cut-out and the tape is of 8 m, and yet BE and BF were taped.
#[test]
fn what_was_taped_and_cannot_have_been_is_told() {
    let (plan, mut tapes) = (plan(&[3]), held_on(100.0));
    tapes[0].tape.length = Some(8000.0);
    let taken = read(&format!("{SIDES},AD=6100,BE=6808,BF=9941"));
    let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
    assert_eq!(answer.through_house, ["BE"]);
    assert_eq!(answer.past_tape, ["BF"]);
    assert!(answer.in_pulls.contains(&"BF".to_owned()));
}

/// Ours: BC is read 40 mm long, and again so. To read it a third time tells nothing: a line that was not taped does.
#[test]
fn what_was_read_twice_alike_is_settled_by_another_line() {
    let sides = "AB=7900,BC=3740,CD=3100,DE=2500,EF=4900,FA=6100";
    let once = judge_ell(&format!("{sides},AD=6100,BE=6808,DF=5467,BF=9941,CE=3942"));
    assert_eq!((once.verdict, next(&once, Reason::Again)), (Verdict::Misread, vec!["BC"]));
    let twice = judge_ell(&format!("{sides},BC=3740,AD=6100,BE=6808,DF=5467,BF=9941,CE=3942"));
    assert_eq!(twice.verdict, Verdict::Misread);
    assert_eq!(next(&twice, Reason::Again), Vec::<&str>::new());
    assert_eq!(next(&twice, Reason::Settles), ["AC", "CF"]);
    // Nothing else checks AD: what fixes the outline without it is taped.
    let alone = judge_ell(&format!("{SIDES},AD=6200,AD=6201,BE=6808,DF=5467"));
    assert_eq!((alone.verdict, next(&alone, Reason::Again)), (Verdict::Misread, vec![]));
    assert_eq!(next(&alone, Reason::Fixes), ["AC"]);
}

/// A brick corner is vague: its ends are taken as held roughly, unless that is said.
#[test]
fn on_masonry_the_ends_are_held_roughly_unless_it_is_said() {
    let sides = "AB=7800,BC=3600,CD=3000,DE=2400,EF=4800,FA=6000,AD=6000,BE=6708,DF=5367,BF=9841,CE=3842";
    let ends = |more: &[&str]| {
        let asked = ["readings", "7800x6000-3000x2400", "--json", "--read", sides];
        let json = pegline(asked.into_iter().chain(more.iter().copied())).json();
        json["result"]["tapes"][0]["ends"].to_string()
    };
    let said = [&[][..], &["--masonry"], &["--overhang", "10mm"], &["--masonry", "--tape-ends", "0"]];
    assert_eq!(said.map(ends), ["0", "2.8", "2.8", "0"]);
}

#[test]
fn the_answer_is_written_with_the_keys_that_others_read() {
    let json = serde_json::to_value(with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9841")).unwrap();
    assert_eq!(json["verdict"], "misread");
    // Nothing is moved before it is taped again.
    assert_eq!(json["moves"], serde_json::json!([]));
    for key in ["degrees_of_freedom", "sigma0", "overhangs", "tape_next", "corners", "readings"] {
        assert!(!json[key].is_null(), "{key}");
    }
    for key in
        ["name", "read", "used", "sd", "residual", "redundancy", "w", "suspect", "slip", "likely", "hides"]
    {
        assert!(!json["readings"][11][key].is_null(), "{key}");
    }
    let right = serde_json::to_value(with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9941")).unwrap();
    for key in ["corner", "distance", "toward", "words"] {
        assert!(!right["moves"][0][key].is_null(), "{key}");
    }
    for key in ["name", "x", "y", "sd_x", "sd_y"] {
        assert!(!json["corners"][0][key].is_null(), "{key}");
    }
    for key in ["side", "start", "end"] {
        assert!(!right["overhangs"][0][key].is_null(), "{key}");
    }
}
