//! Whatever is handed in, there is an answer or a refusal, never a crash, and every figure in it can be written.

use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::Footprint;
use pegline::readings::{
    Cause, Clue, Conditions, FitKind, Input, Limit, Masonry, Reading, Sag, TapeUse, Tension, Verdict, likely,
    readings,
};
use pegline::tape::{Tape, TapeClass};
use proptest::prelude::*;

use crate::readings_support::{ell, held_on, judge_ell, plan, read};

fn any_figure() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 1.0..12_000.0_f64,
        1 => prop::num::f64::ANY,
        1 => prop::sample::select(vec![0.0, -0.0, 1e300, -1e300, 1e-300, f64::NAN, f64::INFINITY, f64::NEG_INFINITY]),
    ]
}

fn sane_reading(n: usize) -> impl Strategy<Value = Reading> {
    (0..n, 1..n, 1.0..20_000.0_f64, 0_usize..2).prop_map(move |(from, step, value, tape)| Reading {
        tape,
        ..Reading::new(from, (from + step) % n, value)
    })
}

fn mad_reading() -> impl Strategy<Value = Reading> {
    (0_usize..9, 0_usize..9, any_figure(), 0_usize..4, any_figure())
        .prop_map(|(from, to, value, tape, rise)| Reading { from, to, value, tape, rise })
}

fn two_tapes() -> Vec<TapeUse> {
    vec![
        TapeUse::default(),
        TapeUse {
            tape: Tape { class: TapeClass::Us, reading: 0.0, ..Tape::default() },
            ..TapeUse::default()
        },
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_lengths_at_all_are_answered(taken in prop::collection::vec(sane_reading(6), 1..25)) {
        let (plan, tapes) = (plan(&[]), two_tapes());
        let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
        prop_assert!(serde_json::to_string(&answer).is_ok());
        // Not fixed means too few lines; lines that contradict each other are misread.
        if answer.verdict == Verdict::NotFixed {
            prop_assert!(answer.rank < answer.needed || !answer.loose.is_empty());
        } else if answer.rank < answer.needed {
            prop_assert_eq!(answer.verdict, Verdict::Misread);
        }
        // Nothing moves while a reading is likely to be wrong.
        if answer.verdict == Verdict::Misread && answer.misreads.iter().any(|m| m.name.is_none()) {
            prop_assert!(answer.moves.is_empty());
        }
        // Again, the same.
        prop_assert_eq!(&readings(&Input::new(&plan, &taken, &tapes)).unwrap(), &answer);
    }

    #[test]
    fn any_figures_at_all_are_answered_or_refused(
        taken in prop::collection::vec(mad_reading(), 0..12),
        (width, depth, cut) in (any_figure(), any_figure(), any_figure()),
        settings in prop::collection::vec(any_figure(), 12),
        which in 0_usize..5,
    ) {
        let (x, y) = (width - cut, depth - cut);
        let outline = [(0.0, 0.0), (width, 0.0), (width, y), (x, y), (x, depth), (0.0, depth)];
        let Ok(plan) = Footprint::from_points(&outline.map(|(x, y)| Point::new(x, y))) else {
            return Ok(());
        };
        let plan = plan.with_house(&[which]);
        let wild = TapeUse {
            tape: Tape {
                length: Some(settings[0]),
                reading: settings[1],
                ends: settings[2],
                ..Tape::default()
            },
            held_on: settings[3],
            conditions: Conditions {
                temperature: Some(settings[4]),
                sag: Some(Sag { mass: settings[5], pull: settings[6], spans: 0 }),
                tension: Some(Tension { pull: settings[7], standard: settings[8], stiffness: settings[9] }),
            },
        };
        let mut tapes = two_tapes();
        if which > 2 {
            tapes.push(wild);
        }
        let outcome = readings(&Input {
            built_within: if which == 1 { settings[10] } else { 10.0 },
            fit: [None, Some(FitKind::Free), Some(FitKind::Held(2 * which)), Some(FitKind::LeastWorst), None][which],
            limit: Some(Limit::Own(if which == 2 { settings[11] } else { 5.0 })),
            masonry: Some(Masonry::default()),
            ..Input::new(&plan, &taken, &tapes)
        });
        match outcome {
            Ok(answer) => prop_assert!(serde_json::to_string(&answer).is_ok()),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }

    #[test]
    fn a_clean_job_on_any_outline_is_square(
        xs in prop::collection::vec(800.0..4000.0_f64, 3),
        ys in prop::collection::vec(800.0..4000.0_f64, 3),
    ) {
        // A staircase outline of eight corners.
        let (a, b, c) = (xs[0], xs[0] + xs[1], xs[0] + xs[1] + xs[2]);
        let (d, e, f) = (ys[0], ys[0] + ys[1], ys[0] + ys[1] + ys[2]);
        let outline = [(0.0, 0.0), (c, 0.0), (c, d), (b, d), (b, e), (a, e), (a, f), (0.0, f)];
        let corners = outline.map(|(x, y)| Point::new(x, y));
        let plan = Footprint::from_points(&corners).unwrap();
        let mut taken = Vec::new();
        for i in 0..8 {
            for j in i + 1..8 {
                taken.push(Reading::new(i, j, corners[i].distance(corners[j]).round()));
            }
        }
        let tapes = held_on(0.0);
        for kind in [FitKind::Free, FitKind::LeastWorst, FitKind::Held(2)] {
            let answer = readings(&Input { fit: Some(kind), ..Input::new(&plan, &taken, &tapes) }).unwrap();
            prop_assert_eq!(answer.verdict, Verdict::Square);
            // Held on a short side, half a millimetre there swings the far corner by several.
            let most = if matches!(kind, FitKind::Held(_)) { 15.0 } else { 1.5 };
            prop_assert!(answer.fit.unwrap().worst_move.0 < most);
        }
    }
}

#[test]
fn a_reading_a_tenth_of_the_truth_is_found_although_no_figure_fits_it() {
    let answer = judge_ell(
        "AB=880,BC=3700,CD=3100,DE=2500,EF=4900,FA=6100,AC=8691,AD=6100,AE=7784,BD=4786,DF=5467,BF=9941",
    );
    assert_eq!(answer.verdict, Verdict::Misread);
    assert!(answer.misreads.iter().any(|m| m.name.as_deref() == Some("AB")), "{:?}", answer.misreads);
    assert_eq!(answer.rest, Some(Verdict::Square));
}

#[test]
fn a_figure_never_comes_out_as_its_mirror_image() {
    // Fixed from outside on both sides, E could lie on either side of DF; the plan says which.
    let answer =
        judge_ell("AB=7900,BC=3700,CD=3100,DE=2500,EF=4900,FA=6100,AC=8691,AD=6100,BD=4786,DF=5467,BF=9941");
    assert!(answer.folded.is_empty());
    assert!((answer.corners[4].y.0 - 6000.0).abs() < 10.0);
}

/// A comb of 26 corners.
fn comb() -> Vec<Point> {
    let mut corners = vec![Point::new(0.0, 0.0), Point::new(12_000.0, 0.0)];
    for step in 0..12 {
        let x = 12_000.0 - 1000.0 * f64::from(step);
        let y = if step % 2 == 0 { 5000.0 } else { 3000.0 };
        corners.push(Point::new(x, y));
        corners.push(Point::new(x - 1000.0, y));
    }
    corners
}

#[test]
fn the_largest_outline_with_every_line_read_is_answered() {
    let corners = comb();
    let plan = Footprint::from_points(&corners).unwrap();
    assert_eq!(corners.len(), 26);
    let mut taken = Vec::new();
    for i in 0..26 {
        for j in i + 1..26 {
            taken.push(Reading::new(i, j, corners[i].distance(corners[j]).round()));
        }
    }
    taken[40].value += 100.0;
    let tapes = held_on(0.0);
    let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
    assert_eq!(answer.misreads.len(), 1);
    assert!(answer.readings[40].left_out);
    assert_eq!(answer.rest, Some(Verdict::Square));
    // And with its sides alone: 23 lines to tape.
    let sides: Vec<Reading> =
        (0..26).map(|i| Reading::new(i, (i + 1) % 26, corners[i].distance(corners[(i + 1) % 26]))).collect();
    let answer = readings(&Input::new(&plan, &sides, &tapes)).unwrap();
    assert_eq!(answer.verdict, Verdict::NotFixed);
    assert_eq!(answer.tape_next.len(), 23);
    assert!(answer.tape_next[22].worst_corner_sd.is_some());
}

/// Readings of another job altogether: an answer, in a time that nobody waits for, that names none of them.
#[test]
fn the_largest_set_of_nonsense_is_answered_with_nothing_named() {
    let corners = comb();
    let plan = Footprint::from_points(&corners).unwrap();
    let mut taken = Vec::new();
    for i in 0..26 {
        for j in i + 1..26 {
            let nonsense = (i * 7919 + j * 104_729) % 900;
            taken.push(Reading::new(i, j, corners[i].distance(corners[j]) + nonsense as f64));
        }
    }
    let tapes = held_on(0.0);
    let answer = readings(&Input::new(&plan, &taken, &tapes)).unwrap();
    assert_eq!((answer.verdict, answer.rest), (Verdict::Misread, None));
    assert!(answer.misreads.iter().all(|m| m.name.is_none()) && answer.moves.is_empty());
    // One more than can be taken in.
    let taken: Vec<Reading> = taken.iter().copied().cycle().take(701).collect();
    assert!(readings(&Input::new(&plan, &taken, &tapes)).is_err());
}

#[test]
fn causes_are_named_in_the_trades_words_and_only_where_they_fit() {
    let said = |slip: f64, tolerance: f64, read: f64, held_on: f64| {
        let units = Units::Mm;
        likely(slip, tolerance, Clue { read, held_on, units })
    };
    assert_eq!(said(-99.0, 5.0, 9841.0, 100.0), Some(Cause::TakenOffTwice(100.0)));
    assert_eq!(said(101.0, 5.0, 9841.0, 100.0), Some(Cause::HeldTwice(100.0)));
    assert_eq!(said(101.0, 5.0, 9841.0, 0.0), Some(Cause::NotTakenOff(100.0)));
    assert_eq!(said(-101.0, 5.0, 9841.0, 0.0), Some(Cause::Dropped(100.0)));
    assert_eq!(said(-51.0, 5.0, 9841.0, 50.0), Some(Cause::TakenOffTwice(50.0)));
    assert_eq!(said(998.0, 5.0, 5367.0, 0.0), Some(Cause::Added(1000.0)));
    // 5467 read as 5647: 180 long, a multiple of nine.
    assert_eq!(said(179.0, 4.0, 5647.0, 0.0), Some(Cause::Swapped(5467.0)));
    assert_eq!(said(9.5, 0.2, 5367.0, 0.0), None);
    assert_eq!(said(112.5, 8.6, 5467.0, 100.0), None);
    assert_eq!(said(f64::NAN, 5.0, 5367.0, 0.0), None);
    assert_eq!(Cause::Swapped(5467.0).words(Units::Mm), "two digits swapped: it may have read 5467");
}

/// An inch is burnt and a foot is dropped where the blade shows feet and inches.
#[test]
fn causes_on_a_blade_in_feet_and_inches_are_its_own_round_figures() {
    let said = |slip: f64, held_on: f64| {
        let clue = Clue { read: 8394.7, held_on, units: Units::FeetInches };
        likely(slip, 3.0, clue).map(|cause| cause.words(clue.units))
    };
    assert_eq!(said(-25.0, 25.4).unwrap(), "the 1\" was taken off twice, or read from the tape's end");
    assert_eq!(said(25.0, 0.0).unwrap(), "the 1\" held on was not taken off");
    assert_eq!(said(-304.0, 25.4).unwrap(), "1' dropped");
    assert_eq!(said(3049.0, 0.0).unwrap(), "10' added");
    assert_eq!(said(-100.0, 25.4), None);
}

/// The smallest slip that any reading could hide, for the best set of each size; worked out independently.
#[test]
fn what_a_reading_can_hide_is_as_worked_out_elsewhere() {
    let length = |name: &str| {
        let (from, to) = crate::readings_support::line(name);
        ell()[from].distance(ell()[to])
    };
    for (diagonals, worst) in [
        ("AD,BD,CE,DF", 30.2),
        ("AC,AE,BD,BF,CE", 18.0),
        ("AD,AE,BE,BF,CE,DF", 16.7),
        ("AC,AD,AE,BD,BE,BF,CE,CF,DF", 16.6),
    ] {
        let text: Vec<String> = format!("AB,BC,CD,DE,EF,FA,{diagonals}")
            .split(',')
            // A shade under, so that a whole number of metres is not pushed over by rounding.
            .map(|name| format!("{name}={}", length(name) - 1e-6))
            .collect();
        let (plan, tapes) = (plan(&[]), held_on(0.0));
        let answer = readings(&Input::new(&plan, &read(&text.join(",")), &tapes)).unwrap();
        let hidden = answer.readings.iter().map(|r| r.hides.unwrap().0).fold(0.0, f64::max);
        assert!((hidden - worst).abs() < 0.051, "{diagonals} {hidden}");
    }
    // Best for accuracy is not best for checking.
    let text: Vec<String> =
        "AB,BC,CD,DE,EF,FA,AD,BE,CE,DF".split(',').map(|name| format!("{name}={}", length(name))).collect();
    let (plan, tapes) = (plan(&[]), held_on(0.0));
    let answer = readings(&Input::new(&plan, &read(&text.join(",")), &tapes)).unwrap();
    assert!(answer.unchecked.contains(&"DE".to_owned()));
}
