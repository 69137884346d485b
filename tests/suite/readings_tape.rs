//! From what the tape read to a distance: holding on, corrections, repeats, a second tape.

use approx::assert_abs_diff_eq as close;
use pegline::readings::{
    Conditions, Error, Input, Reading, Sag, TapeUse, Tension, readings, sag, slope, temperature, tension,
};
use pegline::tape::{Tape, TapeClass};

use crate::readings_support::{held_on, plan, read};

const FOOT: f64 = 304.8;
const POUND: f64 = 4.448_221_615_260_5;

/// Source: a published worked example: 318 m at 47.92 °C → 318.103 m.
#[test]
fn heat_lengthens_the_published_distance() {
    close!(318_000.0 + temperature(318_000.0, 47.92), 318_103.0, epsilon = 0.5);
    // US tables: 0.00065 ft per °F per 100 ft; the standard 68 °F is 20 °C.
    let fahrenheit = temperature(100.0 * FOOT, 20.0 + 5.0 / 9.0) / FOOT;
    close!(fahrenheit, 0.000_65, epsilon = 6e-6);
}

/// Source: slope correction h²/(2S) + h⁴/(8S³), the series in surveying handbooks; exact by a 3-4-5 triangle.
#[test]
fn slope_is_taken_off_by_pythagoras() {
    close!(slope(5000.0, 3000.0), -1000.0, epsilon = 1e-9);
    let (s, h) = (7800.0_f64, 150.0_f64);
    let series = h * h / (2.0 * s) + h.powi(4) / (8.0 * s.powi(3));
    close!(slope(s, h), -series, epsilon = 1e-6);
    close!(slope(s, -h), slope(s, h));
}

/// A 100 ft steel tape: its mass and stretch as they fit its certificate.
fn certified(pull: f64, spans: u32) -> f64 {
    let length = 100.0 * FOOT;
    let grams_per_metre = 0.012_747 * 453.592_37 / 0.3048;
    // L/AE = 9.3474e-4 ft/lb for L = 100 ft.
    let stiffness = 100.0 / 9.3474e-4 * POUND;
    let stretch = tension(length, Tension { pull: pull * POUND, standard: 10.0 * POUND, stiffness });
    let hang =
        if spans == 0 { 0.0 } else { sag(length, Sag { mass: grams_per_metre, pull: pull * POUND, spans }) };
    // The certificate's own error of the tape lying flat at 10 lb, 68 °F: +0.0045 ft.
    100.0045 + (stretch + hang) / FOOT
}

/// Source: NIST calibration of a 100 ft steel tape (1991), as quoted: flat at 10 lb 100.0045 ft; held at both ends at 10,
/// 15, 20 and 25 lb 99.9368, 99.9791, 99.9969, 100.0077 ft; and the pulls at which it is 100.000 ft long.
#[test]
fn sag_and_pull_give_the_calibration_certificate() {
    for (pull, printed) in [(10.0, 99.9368), (15.0, 99.9791), (20.0, 99.9969), (25.0, 100.0077)] {
        close!(certified(pull, 1), printed, epsilon = 7e-5);
    }
    for (spans, printed) in [(1, 21.23), (2, 14.18), (3, 11.39), (4, 9.85), (0, 5.20)] {
        // The pull for exactly 100 ft, by halving: the longer the pull, the longer the tape.
        let (mut low, mut high) = (2.0, 40.0);
        for _ in 0..100 {
            let middle = f64::midpoint(low, high);
            if certified(middle, spans) < 100.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        close!(low, printed, epsilon = 0.016);
    }
}

fn judge(taken: &[Reading], tapes: &[TapeUse]) -> Vec<pegline::readings::ReadingLine> {
    let plan = plan(&[]);
    readings(&Input::new(&plan, taken, tapes)).unwrap().readings
}

#[test]
fn nothing_is_corrected_unless_asked_and_each_correction_is_shown() {
    let plain = &judge(&read("AB=7802"), &held_on(0.0))[0];
    assert_eq!((plain.read.0, plain.used.0), (7802.0, 7802.0));
    assert_eq!(plain.corrections, pegline::readings::Corrections::default());

    let used = TapeUse {
        held_on: 100.0,
        conditions: Conditions {
            temperature: Some(30.0),
            sag: Some(Sag { mass: 19.0, pull: 50.0, spans: 1 }),
            tension: Some(Tension { pull: 60.0, standard: 50.0, stiffness: 4e5 }),
        },
        ..TapeUse::default()
    };
    let sloping = Reading { rise: 100.0, ..Reading::new(0, 1, 7900.0) };
    let line = &judge(&[sloping], &[used])[0];
    let c = line.corrections;
    close!(c.held_on.unwrap().0, -100.0);
    // By hand: 11.6e-6 × 7800 × 10; 100²/15600; (19 g/m × 9.80665)² × 7.8³/(24 × 50²) m; 10 × 7800/4e5.
    close!(c.temperature.unwrap().0, 0.9048, epsilon = 1e-9);
    close!(c.slope.unwrap().0, -0.6411, epsilon = 1e-4);
    close!(c.sag.unwrap().0, -0.2746, epsilon = 1e-4);
    close!(c.tension.unwrap().0, 0.195, epsilon = 1e-9);
    close!(line.used.0, 7800.0 + 0.9048 - 0.6411 - 0.2746 + 0.195, epsilon = 3e-4);
}

/// (MPE/√3)² is common to readings of one tape, so only the reading error is shared out: for class II over 8 m, MPE 1.9.
#[test]
fn repeats_that_agree_are_averaged_with_their_spread() {
    let own = 1.9 * 1.9 / 3.0;
    let line = &judge(&read("AB=7801,AB=7802,BA=7803"), &held_on(0.0))[0];
    assert_eq!((line.used.0, line.count), (7802.0, 3));
    close!(line.spread.unwrap().0, 1.0, epsilon = 1e-12);
    close!(line.sd.0, (own + 1.0 / 3.0_f64).sqrt(), epsilon = 1e-9);
    // A wider spread counts, pooled with what the tape promises: two readings have one degree of freedom, the promise four.
    let wide = &judge(&read("AB=7800,AB=7803"), &held_on(0.0))[0];
    close!(wide.sd.0, (own + (4.0 * 1.0 + 4.5) / 5.0 / 2.0_f64).sqrt(), epsilon = 1e-9);
    let single = &judge(&read("AB=7800"), &held_on(0.0))[0];
    assert!(wide.sd.0 < single.sd.0, "two readings 3 apart are worth more than one");
    // A luckily small one does not make the tape better than it is.
    let lucky = &judge(&read("AB=7802,AB=7802"), &held_on(0.0))[0];
    close!(lucky.sd.0, (own + 1.0 / 2.0_f64).sqrt(), epsilon = 1e-9);
}

/// The studentised range that so many readings pass once in 1,000 is 4.65, 5.06 and 5.31 for 2, 3 and 4 of them (printed
/// tables, from memory); the tape is read to 1 mm.
#[test]
fn a_chain_of_repeats_is_held_to_its_range() {
    let names = |text: &str| -> Vec<String> {
        judge(&read(text), &held_on(0.0)).iter().map(|line| line.name.clone()).collect()
    };
    assert_eq!(names("AB=7800.0,AB=7804.6"), ["AB"]);
    assert_eq!(names("AB=7800.0,AB=7804.7"), ["AB (7800)", "AB (7804.7)"]);
    assert_eq!(names("AB=7800,AB=7803,AB=7805"), ["AB"]);
    assert_eq!(names("AB=7800,AB=7803,AB=7805.2"), ["AB (7800)", "AB (7804.1)"]);
    assert_eq!(names("AB=7800,AB=7804,AB=7808,AB=7812"), ["AB (7802)", "AB (7810)"]);
}

#[test]
fn repeats_that_disagree_stand_apart_and_the_wrong_one_is_named() {
    let answer = crate::readings_support::judge_ell(
        "AB=7900,AB=8000,BC=3700,CD=3100,DE=2500,EF=4900,FA=6100,AC=8691,AD=6100,AE=7784,BD=4786,DF=5467",
    );
    let names: Vec<&str> = answer.readings[..2].iter().map(|r| r.name.as_str()).collect();
    assert_eq!(names, ["AB (7900)", "AB (8000)"]);
    let misread = &answer.misreads[0];
    assert_eq!(misread.name.as_deref(), Some("AB (8000)"));
    assert_eq!(misread.tied.len(), 1);
    close!(misread.tied[0].slip.0, 100.0, epsilon = 1.0);
}

#[test]
fn a_second_tape_counts_with_its_own_class_and_its_own_held_on_length() {
    let tapes = [
        held_on(100.0)[0],
        TapeUse { tape: Tape { class: TapeClass::I, ..Tape::default() }, ..TapeUse::default() },
    ];
    let mut taken = read("AB=7902");
    taken.push(Reading { tape: 1, ..Reading::new(0, 1, 7802.0) });
    let lines = judge(&taken, &tapes);
    assert_eq!(lines[0].name, "AB");
    assert_eq!(lines[1].name, "AB (tape 2)");
    assert_eq!((lines[0].used.0, lines[1].used.0), (7802.0, 7802.0));
    close!(lines[0].sd.0, (1.9 * 1.9 / 3.0 + 1.0_f64).sqrt(), epsilon = 1e-9);
    close!(lines[1].sd.0, (0.9 * 0.9 / 3.0 + 1.0_f64).sqrt(), epsilon = 1e-9);
}

#[test]
fn what_cannot_be_read_is_refused_by_name() {
    let plan = plan(&[]);
    let refuse =
        |taken: &[Reading], tapes: &[TapeUse]| readings(&Input::new(&plan, taken, tapes)).unwrap_err();
    let tapes = held_on(100.0);
    let far = |value: f64| refuse(&[Reading::new(0, 5, value)], &tapes);
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -5.0, 1e300] {
        let error = far(value);
        assert!(matches!(&error, Error::NotALength { line, .. } if line == "FA"), "{error}");
    }
    assert_eq!(
        far(60.0).to_string(),
        "reading FA: 60 mm leaves −40 mm after what is taken off: check the reading and the length held on"
    );
    assert_eq!(
        refuse(&[Reading::new(0, 9, 5000.0)], &tapes).to_string(),
        "reading 1: corner 9 is not on the plan, whose corners are A to F"
    );
    assert_eq!(
        refuse(&[Reading::new(2, 2, 5000.0)], &tapes).to_string(),
        "reading 1: from C to C is no distance: name two corners"
    );
    assert_eq!(
        refuse(&[Reading { tape: 3, ..Reading::new(0, 1, 5000.0) }], &tapes).to_string(),
        "reading AB: tape 4 was not described; there are 1"
    );
    assert_eq!(refuse(&[], &tapes), Error::NoReadings);
    assert_eq!(refuse(&read("AB=7900"), &[]), Error::NoTape);
    // A slope steeper than the tape is long leaves no length.
    let steep = Reading { rise: 9000.0, ..Reading::new(0, 1, 7900.0) };
    assert!(matches!(refuse(&[steep], &tapes), Error::NothingLeft { .. }));
}
