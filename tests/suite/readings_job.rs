//! Whole jobs on an L of 7800 × 6000 with 3000 × 2400 cut out, 100 held on: what is wrong, and what to do about it.

use approx::assert_abs_diff_eq as close;
use pegline::readings::{
    Call, Datum, FitKind, Input, Limit, Masonry, Reading, Readings, Reason, Verdict, adjust, line_name,
    readings,
};

use crate::readings_support::{ell, held_on, judge_ell, line, read};

const SIDES: &str = "AB=7900,BC=3700,CD=3100,DE=2500,EF=4900,FA=6100";

fn with(diagonals: &str) -> Readings {
    judge_ell(&format!("{SIDES},{diagonals}"))
}

fn next(answer: &Readings, reason: Reason) -> Vec<&str> {
    answer
        .tape_next
        .iter()
        .filter(|n| n.reason == reason)
        .map(|n| n.name.as_str())
        .collect()
}

/// Invented readings: true lengths to the millimetre, BF read 100 short. |w| 43.98 and slip −99.87 (linear estimate)
/// worked out independently.
#[test]
fn with_three_spare_the_reading_that_is_100_short_is_named_alone() {
    let answer = with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9841");
    assert_eq!(
        (answer.verdict, answer.rest),
        (Verdict::Misread, Some(Verdict::Square))
    );
    assert_eq!(answer.misreads.len(), 1);
    let misread = &answer.misreads[0];
    assert_eq!(misread.name.as_deref(), Some("BF"));
    assert_eq!(misread.tied.len(), 1);
    assert!(misread.rivals.is_empty());
    close!(misread.w.0.abs(), 43.98, epsilon = 0.0051);
    close!(misread.tied[0].slip.0, -99.87, epsilon = 0.05);
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

/// Invented readings; |w| 42.80 for all three, linear slips −99.99, +112.75 and +467.6, worked out independently.
#[test]
fn with_two_spare_three_readings_tie_and_only_one_slip_is_usual() {
    let answer = with("AC=8691,AD=6100,BD=4786,DF=5467,BF=9841");
    assert_eq!(
        (answer.verdict, answer.rest),
        (Verdict::Misread, Some(Verdict::Square))
    );
    let misread = &answer.misreads[0];
    let tied: Vec<&str> = misread.tied.iter().map(|t| t.name.as_str()).collect();
    assert_eq!(tied, ["BF", "DF", "FA"]);
    assert_eq!(
        (misread.name.as_deref(), misread.settled_by),
        (Some("BF"), "usual slip")
    );
    close!(misread.w.0.abs(), 42.80, epsilon = 0.0051);
    close!(misread.tied[0].slip.0, -99.99, epsilon = 0.05);
    assert!(misread.tied[1].likely.is_none() && misread.tied[2].likely.is_none());
    assert!(misread.tied.iter().all(|t| t.passes));
    // AE (or CE) would settle it, and check what nothing checks.
    assert_eq!(next(&answer, Reason::Settles), ["AE", "CE"]);
    for name in ["DE", "EF"] {
        assert!(answer.unchecked.iter().any(|n| n == name));
    }
    // The linear figures, from all readings adjusted together.
    let corners = ell();
    let observations: Vec<_> = answer
        .readings
        .iter()
        .map(|r| {
            let (from, to) = line(&r.name);
            pegline::readings::Observation {
                from,
                to,
                value: r.used.0,
                sd: r.sd.0,
            }
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
    close!(misread.tied[0].slip.0, -99.80, epsilon = 0.1);
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
    assert_eq!(answer.verdict, Verdict::NotFixed);
    assert_eq!(answer.against_plan.suspects.len(), 1);
    assert_eq!(answer.against_plan.tape_again, ["EF"]);
    close!(answer.against_plan.suspects[0].slip.0, -100.0, epsilon = 1.0);
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
        assert!(
            fixed.worst_corner_sd.unwrap().0 >= best.worst_corner_sd.unwrap().0 - 0.02,
            "{other}"
        );
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
    assert_eq!((slipped.verdict, slipped.rest), (Verdict::Misread, None));
    assert!(slipped.misreads.is_empty() && slipped.moves.is_empty());
    assert_eq!(slipped.against_plan.tape_again, ["DF"]);
    // Taped twice and the same each time, it is built so.
    let confirmed = with("AD=6100,BE=6808,DF=5567,DF=5567");
    assert_eq!(confirmed.verdict, Verdict::Out);
    assert!(!confirmed.moves.is_empty());
}

/// With one to spare every test is as large as every other.
#[test]
fn with_one_spare_all_tie() {
    let answer = with("AC=8691,AD=6100,AE=7784,DF=5337");
    let misread = &answer.misreads[0];
    assert!(misread.tied.len() > 3);
    // 130 short is no usual slip; the plan alone names it.
    assert_eq!(
        (misread.name.as_deref(), misread.settled_by),
        (Some("DF"), "plan")
    );
}

#[test]
fn two_slips_are_found_together_where_the_redundancy_allows() {
    let answer = with("AC=8791,AD=6100,AE=7784,BD=4786,BE=6808,BF=9841,CE=3942,CF=8261,DF=5467");
    let mut names: Vec<_> = answer.misreads.iter().map(|m| m.name.clone().unwrap()).collect();
    names.sort();
    assert_eq!(names, ["AC", "BF"]);
    assert!(answer.other_pairs.is_empty());
    assert_eq!(
        (answer.verdict, answer.rest),
        (Verdict::Misread, Some(Verdict::Square))
    );
}

#[test]
fn two_slips_with_two_to_spare_are_placed_by_the_plan_or_not_at_all() {
    let answer = with("AC=8791,AD=6100,BD=4786,DF=5467,BF=9841");
    assert_eq!(answer.verdict, Verdict::Misread);
    let mut names: Vec<_> = answer.misreads.iter().map(|m| m.name.clone().unwrap()).collect();
    names.sort();
    assert_eq!(names, ["AC", "BF"]);
    assert!(answer.misreads.iter().all(|m| m.settled_by == "plan"));
    // Told that the outline may be anywhere within a metre, the plan has nothing to say, and none is named.
    let (corners, tapes) = (ell(), held_on(100.0));
    let taken = read(&format!("{SIDES},AC=8791,AD=6100,BD=4786,DF=5467,BF=9841"));
    let unknown = readings(&Input {
        built_within: 1000.0,
        ..Input::new(&corners, &taken, &tapes)
    })
    .unwrap();
    assert_eq!((unknown.verdict, unknown.rest), (Verdict::Misread, None));
    assert!(unknown.misreads.iter().all(|m| m.name.is_none()));
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
    assert_eq!(
        dropped.misreads[0].tied[0].likely.as_deref(),
        Some("1000 dropped")
    );
    assert_eq!(dropped.misreads.len(), 1);
}

/// Every line of an outline whose corners are where they are, to a tenth of a millimetre.
fn all_lines(built: &[(f64, f64)]) -> Vec<Reading> {
    let mut taken = Vec::new();
    for i in 0..built.len() {
        for j in i + 1..built.len() {
            let length = (built[j].0 - built[i].0).hypot(built[j].1 - built[i].1);
            taken.push(Reading::new(i, j, (length * 10.0).round() / 10.0));
        }
    }
    taken
}

const BUILT: [(f64, f64); 6] = [
    (0.0, 0.0),
    (7800.0, 0.0),
    (7800.0, 3600.0),
    (4800.0, 3600.0),
    (4800.0, 6000.0),
    (0.0, 6000.0),
];

fn judge(taken: &[Reading], change: impl FnOnce(&mut Input<'_>)) -> Readings {
    let (corners, tapes) = (ell(), held_on(0.0));
    let mut input = Input {
        house: &[0],
        ..Input::new(&corners, taken, &tapes)
    };
    change(&mut input);
    readings(&input).unwrap()
}

#[test]
fn one_corner_out_moves_alone_and_a_whole_side_moves_together() {
    // C built 6 short of its place along BC.
    let mut built = BUILT;
    built[2].1 -= 6.0;
    let answer = judge(&all_lines(&built), |_| ());
    let c = &answer.moves[2];
    assert_eq!(
        (c.words.as_str(), c.toward.as_str()),
        ("C: 6 mm away from B", "away from B")
    );
    close!(c.distance.0, 6.0, epsilon = 0.2);
    assert_eq!(
        (c.components[0].side.as_str(), c.components[1].side.as_str()),
        ("BC", "CD")
    );
    // EF and its corners built 9 too low: the side moves in, as a whole.
    let mut built = BUILT;
    built[4].1 += 9.0;
    built[5].1 += 9.0;
    let answer = judge(&all_lines(&built), |_| ());
    assert_eq!(answer.side_moves.len(), 1);
    assert_eq!(answer.side_moves[0].words, "side EF: 9 mm in, both ends");
    assert_eq!(answer.moves[4].words, "E: with side EF");
    assert_eq!(answer.moves[4].toward, "toward D");
    assert_eq!(answer.verdict, Verdict::Square);
    let ef = answer.sides.iter().find(|s| s.name == "FA").unwrap();
    close!(ef.difference.0, 9.0, epsilon = 0.1);
}

/// B and C shifted 12 down the page while AB stays 7800 long: A closes by 12/7800, B opens by as much.
#[test]
fn out_of_square_is_told_at_the_end_of_the_sides_with_its_way() {
    let mut built = BUILT;
    built[1].1 += 12.0;
    built[2].1 += 12.0;
    let answer = judge(&all_lines(&built), |_| ());
    assert_eq!(answer.verdict, Verdict::Out);
    let a = &answer.angles[0];
    assert_eq!((a.sense, a.call), (pegline::readings::Sense::Closed, Call::Out));
    close!(a.ends[1].out.0, -12.0, epsilon = 0.1);
    close!(a.ends[0].out.0, -12.0 * 6000.0 / 7800.0, epsilon = 0.1);
    assert_eq!((a.ends[0].side.as_str(), a.ends[1].side.as_str()), ("FA", "AB"));
    close!(answer.angles[1].ends[0].out.0, 12.0, epsilon = 0.1);
}

/// A limit of 5 with the corner out by 4 or by 6: within the tape's uncertainty either way, so another tape is named.
#[test]
fn a_limit_within_the_uncertainty_is_too_close_to_call() {
    let diagonals = ["AC", "AD", "AE", "BD", "DF", "BF"];
    for (out, verdict) in [(0.0, Verdict::Square), (6.0, Verdict::Out), (20.0, Verdict::Out)] {
        let mut built = BUILT;
        built[1].1 += out;
        built[2].1 += out;
        let taken: Vec<Reading> = all_lines(&built)
            .into_iter()
            .filter(|r| {
                let name = line_name(r.from, r.to, 6);
                diagonals.contains(&name.as_str()) || SIDES.contains(&name)
            })
            .collect();
        let answer = judge(&taken, |input| input.limit = Some(Limit::Fixed(5.0)));
        assert_eq!(answer.verdict, verdict, "{out}");
        let a = &answer.angles[0];
        close!(a.ends[1].limit.unwrap().0, 5.0);
        match out {
            6.0 => {
                assert!(answer.too_close.contains(&"A".to_owned()));
                assert_eq!(a.call, Call::TooClose);
                assert!(!next(&answer, Reason::Sharpens).is_empty());
            }
            20.0 => assert_eq!(a.call, Call::Out),
            _ => (),
        }
    }
}

fn pro_rata(length: f64) -> f64 {
    8.0 * length / 5000.0
}

#[test]
fn a_published_tolerance_is_taken_as_a_function_of_the_side() {
    let answer = judge(&all_lines(&BUILT), |input| {
        input.limit = Some(Limit::ByLength(&pro_rata));
    });
    let a = &answer.angles[0];
    close!(a.ends[0].limit.unwrap().0, 9.6, epsilon = 1e-9);
    close!(a.ends[1].limit.unwrap().0, 12.48, epsilon = 1e-9);
    assert_eq!((answer.verdict, a.call), (Verdict::Square, Call::Square));
}

#[test]
fn masonry_shows_each_sides_overhang_at_both_ends() {
    // The wall under EF is 14 low at F only; the wall BC stands 8 out.
    let mut built = BUILT;
    built[5].1 += 14.0;
    built[1].0 += 8.0;
    built[2].0 += 8.0;
    let mut answers = [10.0, 20.0].map(|limit| {
        judge(&all_lines(&built), |input| {
            input.masonry = Some(Masonry { limit: Some(limit) });
        })
    });
    let [strict, loose] = &mut answers;
    assert_eq!((strict.verdict, loose.verdict), (Verdict::Out, Verdict::Square));
    let side =
        |answer: &Readings, name: &str| answer.overhangs.iter().find(|o| o.side == name).unwrap().clone();
    let (bc, ef) = (side(strict, "BC"), side(strict, "EF"));
    // The true plate stands back from masonry that is too far out.
    close!(bc.start.0, -8.0, epsilon = 0.2);
    close!(bc.end.0, -8.0, epsilon = 0.2);
    close!(ef.start.0, 0.0, epsilon = 0.2);
    close!(ef.end.0, -14.0, epsilon = 0.2);
    assert_eq!(strict.masonry.as_ref().unwrap().over, ["EF"]);
    close!(strict.masonry.as_ref().unwrap().setback.0, 14.0, epsilon = 0.2);
    // Laid least-worst, the largest is smaller than held on AB.
    let shared = judge(&all_lines(&built), |input| {
        input.masonry = Some(Masonry { limit: Some(10.0) });
        input.fit = Some(FitKind::LeastWorst);
    });
    assert!(shared.fit.unwrap().worst_overhang.0 < 8.0);
    assert_eq!(shared.verdict, Verdict::Square);
}

#[test]
fn lines_that_cannot_be_taped_are_never_suggested() {
    let (corners, taken, mut tapes) = (ell(), read(SIDES), held_on(100.0));
    tapes[0].tape.length = Some(8000.0);
    let answer = readings(&Input {
        blocked: &[(4, 1), (0, 3)],
        ..Input::new(&corners, &taken, &tapes)
    })
    .unwrap();
    let lines = next(&answer, Reason::Fixes);
    assert_eq!(lines.len(), 3);
    // BE and AD are blocked; AC, BF and CF are longer than the tape.
    for line in ["BE", "AD", "AC", "BF", "CF"] {
        assert!(!lines.contains(&line));
    }
}

#[test]
fn the_answer_is_written_with_the_keys_that_others_read() {
    let json = serde_json::to_value(with("AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9841")).unwrap();
    assert_eq!(json["verdict"], "misread");
    for key in [
        "degrees_of_freedom",
        "sigma0",
        "moves",
        "overhangs",
        "tape_next",
        "corners",
        "readings",
    ] {
        assert!(!json[key].is_null(), "{key}");
    }
    for key in [
        "name",
        "read",
        "used",
        "sd",
        "residual",
        "redundancy",
        "w",
        "suspect",
        "slip",
        "likely",
        "hides",
    ] {
        assert!(!json["readings"][11][key].is_null(), "{key}");
    }
    for key in ["corner", "distance", "toward", "words"] {
        assert!(!json["moves"][0][key].is_null(), "{key}");
    }
    for key in ["name", "x", "y", "sd_x", "sd_y"] {
        assert!(!json["corners"][0][key].is_null(), "{key}");
    }
    for key in ["side", "start", "end"] {
        assert!(!json["overhangs"][0][key].is_null(), "{key}");
    }
}
