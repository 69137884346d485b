//! Worked examples of the trade, reproduced step for step in value by the working printer.
//!
//! Source: right triangles that carpentry and site-practice texts lay out in feet or metres: 33-44-55 ft in a building
//! of 44 by 40 ft, 12-16-20 ft in a remodelling performance standard, 6-8-10, 9-12-15, 1.5-2-2.5 m; and, plain
//! arithmetic, the diagonals of 6000 x 4000, 8400 x 4500, 24 x 36 ft and 44 x 40 ft.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use pegline::length::Units;
use pegline::practice::{Random, Slip, by_hand};

/// The numbers after the last `=` (or the `:`) of each step, without units.
fn values(steps: &[String]) -> Vec<String> {
    steps
        .iter()
        .map(|step| {
            let end = step.rsplit('=').next().unwrap();
            let number = end.trim().chars().take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ' '));
            number.filter(|c| *c != ' ').collect()
        })
        .collect()
}

const FOOT: u32 = 192;

#[test]
fn the_site_triangles_in_feet_come_out_step_by_step() {
    // Leg, leg, their squares, the sum, the root: as a board has them.
    for (a, b, c) in [
        (33, 44, 55),
        (12, 16, 20),
        (6, 8, 10),
        (9, 12, 15),
        (3, 4, 5),
        (5, 12, 13),
        (8, 15, 17),
        (20, 21, 29),
    ] {
        let steps = by_hand(Units::FeetInches, a * FOOT, b * FOOT);
        let squares: [&str; 3] = match (a, b, c) {
            (33, ..) => ["1089", "1936", "3025"],
            (12, ..) => ["144", "256", "400"],
            (6, ..) => ["36", "64", "100"],
            (9, ..) => ["81", "144", "225"],
            (3, ..) => ["9", "16", "25"],
            (5, ..) => ["25", "144", "169"],
            (8, ..) => ["64", "225", "289"],
            _ => ["400", "441", "841"],
        };
        let [a, b, c] = [a, b, c].map(|n| n.to_string());
        let [aa, bb, cc] = squares.map(str::to_owned);
        assert_eq!(values(&steps), [a, b, aa, bb, cc, c.clone(), c], "{steps:#?}");
        for (step, unit) in steps.iter().zip(["ft", "ft", "ft²", "ft²", "ft²", "ft", "'"]) {
            assert!(step.ends_with(unit), "the unit is on the line: {step}");
        }
    }
}

#[test]
fn a_metric_site_triangle_comes_out_step_by_step() {
    let steps = by_hand(Units::Mm, 1500, 2000);
    assert_eq!(values(&steps), ["1500", "2000", "2250000", "4000000", "6250000", "2500", "2500"]);
}

#[test]
fn diagonals_that_are_no_whole_number_are_rounded_last() {
    for (units, a, b, exact, tape) in [
        (Units::Mm, 6000, 4000, "7211.103 mm", "7211 mm"),
        (Units::Mm, 8400, 4500, "9529.428 mm", "9529 mm"),
        (Units::FeetInches, 24 * FOOT, 36 * FOOT, "43.2666 ft", "43' 3-3/16\""),
        (Units::FeetInches, 44 * FOOT, 40 * FOOT, "59.4643 ft", "59' 5-9/16\""),
    ] {
        let steps = by_hand(units, a, b);
        assert!(steps[5].ends_with(exact), "{}", steps[5]);
        let last = steps.last().unwrap();
        assert!(last.ends_with(tape), "{last}");
        // In feet the inches and the sixteenths come out on lines of their own.
        assert_eq!(steps.len(), if units == Units::Mm { 7 } else { 9 });
    }
}

#[test]
fn half_inches_are_worked_in_inches() {
    // 14 ft 6-1/2 in = 174.5 in; 174.5² = 30450.25, 9 ft = 108 in, 108² = 11664; sum 42114.25; root 205.217569…
    let steps = by_hand(Units::FeetInches, 174 * 16 + 8, 9 * FOOT);
    assert_eq!(values(&steps[..6]), ["174.5", "108", "30450.25", "11664", "42114.25", "205.2176"]);
    assert_eq!(
        steps[6..],
        [
            "whole feet: 17 × 12 = 204 in",
            "over: 205.2176 − 204 = 1.2176 in",
            "sixteenths: 0.2176 × 16 = 3.4816, the nearest whole is 3",
            "on the tape, to the nearest 1/16 in: c = 17' 1-3/16\""
        ]
    );
}

/// Source: Java SE 17, `new java.util.SplittableRandom(seed).nextLong()`, run; the algorithm's own reference.
#[test]
fn the_generator_gives_the_published_algorithms_numbers() {
    for (seed, numbers) in [
        (
            0,
            [
                16_294_208_416_658_607_535,
                7_960_286_522_194_355_700,
                487_617_019_471_545_679,
                17_909_611_376_780_542_444,
                1_961_750_202_426_094_747,
            ],
        ),
        (
            1_234_567,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423,
                4_593_380_528_125_082_431,
                16_408_922_859_458_223_821,
            ],
        ),
        (
            u64::MAX,
            [
                16_490_336_266_968_443_936,
                16_834_447_057_089_888_969,
                4_048_727_598_324_417_001,
                7_862_637_804_313_477_842,
                13_015_481_187_462_834_606_u64,
            ],
        ),
    ] {
        let mut random = Random::new(seed);
        assert_eq!([0; 5].map(|_| random.bits()), numbers);
    }
}

#[test]
fn numbers_below_an_end_are_spread_evenly() {
    // 60000 throws of a die: each face 10000 ± 5 standard deviations (√(60000 · 5/36) = 91.3).
    let mut random = Random::new(7);
    let mut faces = [0_u32; 6];
    for _ in 0..60_000 {
        faces[random.below(6)] += 1;
    }
    assert!(faces.iter().all(|count| count.abs_diff(10_000) < 457), "{faces:?}");
    assert_eq!(random.below(0), 0);
}

#[test]
fn every_slip_has_a_name_of_its_own() {
    let names: std::collections::BTreeSet<&str> = Slip::ALL.iter().map(|slip| slip.name()).collect();
    assert_eq!(names.len(), Slip::ALL.len());
}
