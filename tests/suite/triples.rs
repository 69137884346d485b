//! 3-4-5 and its kin, and the angle from three tapes.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use insta::assert_snapshot;
use pegline::geometry::angle_between;
use pegline::length::{MM_PER_FOOT, MM_PER_INCH, Units};
use pegline::plan::{Footprint, parse_expression};
use pegline::square::{
    CornerTriangle, ON_SITE, Opening, Options, THREE_FOUR_FIVE, angle_found, corner_checks, diagonals,
    multiples, primitive_triples,
};
use pegline::tape::Tape;
use proptest::prelude::*;

use crate::outlines::{any_outline, footprint};

fn plan(text: &str) -> Footprint {
    parse_expression(text, Units::Mm).unwrap().0
}

/// Source: the sixteen primitive Pythagorean triples with c < 100, as every table of them lists.
#[test]
fn the_sixteen_primitive_triples_under_a_hundred() {
    let listed = [
        "3-4-5", "5-12-13", "8-15-17", "7-24-25", "20-21-29", "12-35-37", "9-40-41", "28-45-53", "11-60-61",
        "16-63-65", "33-56-65", "48-55-73", "13-84-85", "36-77-85", "39-80-89", "65-72-97",
    ];
    let names: Vec<String> = primitive_triples(100).iter().map(|triple| triple.name()).collect();
    assert_eq!(names, listed);
}

/// By trying every pair of legs.
#[test]
fn the_primitive_triples_are_those_that_trying_every_pair_of_legs_finds() {
    fn divisor(a: u32, b: u32) -> u32 {
        (1..=a.min(b)).rev().find(|d| a.is_multiple_of(*d) && b.is_multiple_of(*d)).unwrap()
    }
    let mut found = vec![];
    for c in 1_u32..300 {
        for a in 1..c {
            for b in a..c {
                if a * a + b * b == c * c && divisor(a, b) == 1 {
                    found.push((c, a, b));
                }
            }
        }
    }
    let listed: Vec<(u32, u32, u32)> = primitive_triples(300).iter().map(|t| (t.c, t.a, t.b)).collect();
    assert_eq!(listed, found);
}

/// Source: site practice as published in feet (33-44-55 in a 44 × 40 ft building; 12-16-20) and the usual multiples
/// of 3-4-5 (6-8-10, 9-12-15, 1.5-2-2.5 m).
#[test]
fn the_site_forms_are_right_angles_and_stand_in_the_table_of_multiples() {
    for (a, b, c, unit) in [
        (33.0, 44.0, 55.0, MM_PER_FOOT),
        (12.0, 16.0, 20.0, MM_PER_FOOT),
        (6.0, 8.0, 10.0, MM_PER_FOOT),
        (9.0, 12.0, 15.0, MM_PER_FOOT),
        (6.0, 8.0, 10.0, 1000.0),
        (9.0, 12.0, 15.0, 1000.0),
        (1.5, 2.0, 2.5, 1000.0),
    ] {
        let found = angle_found(a * unit, b * unit, c * unit, None, &Tape::default()).unwrap();
        assert_abs_diff_eq!(found.angle_deg.0, 90.0, epsilon = 1e-9);
        assert_abs_diff_eq!(found.out_of_square.0, 0.0, epsilon = 1e-9);
        assert_eq!(found.opening, Opening::Square);
    }
    let feet = multiples(60.0 * MM_PER_FOOT, 24, Units::FeetInches);
    for k in [2.0, 3.0, 4.0, 11.0] {
        assert!(
            feet.iter().any(|row| (row.a.0 - 3.0 * k * MM_PER_FOOT).abs() < 1e-6
                && (row.b.0 - 4.0 * k * MM_PER_FOOT).abs() < 1e-6
                && (row.c.0 - 5.0 * k * MM_PER_FOOT).abs() < 1e-6),
            "{k}"
        );
    }
    let metres = multiples(15_000.0, 30, Units::M);
    for (a, b, c) in [(1500.0, 2000.0, 2500.0), (6000.0, 8000.0, 10_000.0), (9000.0, 12_000.0, 15_000.0)] {
        assert!(metres.iter().any(|row| (row.a.0, row.b.0, row.c.0) == (a, b, c)), "{a}-{b}-{c}");
    }
}

/// Source: site practice, a 44 × 40 ft building squared with 33-44-55 ft.
#[test]
fn a_44_by_40_foot_building_takes_33_44_55() {
    let checks = corner_checks(&plan("44'x40'"), None, Units::FeetInches);
    for check in checks {
        let triangle = check.three_four_five.or(check.best).unwrap();
        assert_eq!(triangle.triple, "3-4-5");
        let mut legs = [triangle.first.length.0, triangle.second.length.0];
        legs.sort_by(f64::total_cmp);
        assert_abs_diff_eq!(legs[0], 33.0 * MM_PER_FOOT, epsilon = 1e-6);
        assert_abs_diff_eq!(legs[1], 44.0 * MM_PER_FOOT, epsilon = 1e-6);
        assert_abs_diff_eq!(triangle.diagonal.0, 55.0 * MM_PER_FOOT, epsilon = 1e-6);
    }
}

/// Source: a US remodelling performance standard: 12 × 16 ft, diagonal 20 ft ± 1/2 in; by arithmetic that is 0.248° and
/// 5/8 in over 12 ft (some pages say 3/8 in, which is wrong).
#[test]
fn half_an_inch_on_a_20_foot_diagonal_is_a_quarter_of_a_degree() {
    for (sign, opening) in [(1.0, Opening::Open), (-1.0, Opening::Closed)] {
        let (a, b, c) =
            (12.0 * MM_PER_FOOT, 16.0 * MM_PER_FOOT, 20.0 * MM_PER_FOOT + sign * MM_PER_INCH / 2.0);
        let found = angle_found(a, b, c, Some(a), &Tape::default()).unwrap();
        assert_abs_diff_eq!((found.angle_deg.0 - 90.0) * sign, 0.248, epsilon = 0.001);
        assert_eq!(found.opening, opening);
        let sixteenths = found.out_of_square.0.abs() / MM_PER_INCH * 16.0;
        assert_abs_diff_eq!(sixteenths, 10.0, epsilon = 0.05);
    }
}

fn degrees(d: f64, m: f64, s: f64) -> f64 {
    d + m / 60.0 + s / 3600.0
}

/// Source: a printed triangle: sides AB 923.245, BC 517.328, CA 896.126; angles A 32-59-46.9, B 70-37-14.7,
/// C 76-22-58.4, last digits ±0.1″.
#[test]
fn the_printed_triangle_has_its_printed_angles() {
    let (ab, bc, ca) = (923.245, 517.328, 896.126);
    let tenth = 0.11 / 3600.0;
    for (a, b, c, printed) in [
        (ab, ca, bc, degrees(32.0, 59.0, 46.9)),
        (ab, bc, ca, degrees(70.0, 37.0, 14.7)),
        (bc, ca, ab, degrees(76.0, 22.0, 58.4)),
    ] {
        assert_abs_diff_eq!(angle_between(a, b, c).unwrap().to_degrees(), printed, epsilon = tenth);
        let found = angle_found(a, b, c, None, &Tape::default()).unwrap();
        assert_abs_diff_eq!(found.angle_deg.0, printed, epsilon = tenth);
    }
}

/// Plain arithmetic.
#[test]
fn the_plain_diagonals() {
    let only = |text: &str, units: Units| {
        let options = Options { units, ..Options::default() };
        let answer = diagonals(&plan(text), &options).unwrap();
        (answer.diagonals[0].length.0, units.figure(answer.diagonals[0].tape.0))
    };
    assert_abs_diff_eq!(only("6000x4000", Units::Mm).0, 7211.10, epsilon = 0.005);
    assert_abs_diff_eq!(only("8400x4500", Units::Mm).0, 9529.43, epsilon = 0.005);
    assert_eq!(only("24'x36'", Units::FeetInches).1, "43' 3-3/16\"");
    assert_eq!(only("44'x40'", Units::FeetInches).1, "59' 5-9/16\"");
}

/// Source: the differentials of the cosine law at 90°: dθ = c·dc/(a·b). 1 mm on 3-4-5 m is 0.4167 mrad, 2.5 mm over
/// 6 m; on 0.6-0.8-1.0 m it is 12.5 mm over 6 m. 1.5 mm on each of three tapes of 3-4-5 m is 0.884 mrad.
#[test]
fn a_small_triangle_hides_what_shows_at_the_far_end() {
    let end = |scale: f64| {
        let found =
            angle_found(3.0 * scale, 4.0 * scale, 5.0 * scale + 1.0, Some(6000.0), &Tape::default()).unwrap();
        found.out_of_square.0
    };
    assert_abs_diff_eq!(end(1000.0), 2.5, epsilon = 0.001);
    assert_abs_diff_eq!(end(200.0), 12.5, epsilon = 0.02);
    let tape = Tape { class: pegline::tape::TapeClass::I, reading: 1.5, ..Tape::default() };
    let found = angle_found(3000.0, 4000.0, 5000.0, Some(1000.0), &tape).unwrap();
    // The tape's own limit adds to the 1.5 mm reading, 0.6/√3 at the most.
    assert!((0.884..0.92).contains(&found.sd.0), "{}", found.sd.0);
}

#[test]
fn tapes_that_make_no_triangle_are_refused() {
    let refusal = |a, b, c| angle_found(a, b, c, None, &Tape::default()).unwrap_err().to_string();
    assert_snapshot!(refusal(3000.0, 4000.0, 7000.0), @"tapes of 3000 mm, 4000 mm and 7000 mm make no triangle: the longest must be shorter than the other two together; read them again");
    assert_snapshot!(refusal(3000.0, 4000.0, 0.0), @"each of the three tapes must be more than zero: two along the sides from the corner, then between their ends");
    for (a, b, c) in
        [(3., 4., 1.), (3., 4., f64::NAN), (f64::INFINITY, 4., 5.), (-3., 4., 5.), (1e308, 1e308, 1e300)]
    {
        let _either = angle_found(a, b, c, None, &Tape::default());
    }
    assert!(angle_found(3., 4., 1., None, &Tape::default()).is_err());
    assert!(angle_found(3., 4., f64::NAN, None, &Tape::default()).is_err());
}

/// The biggest neat multiple by trying every one: the largest k in any step, the coarsest step that gives one.
fn by_trial(sides: [f64; 2], triple: (f64, f64, f64), tape: f64, steps: &[f64]) -> Option<f64> {
    let (a, b, c) = triple;
    steps.iter().find_map(|step| {
        (1..1000).map(|i| f64::from(i) * step).take_while(|k| c * k <= tape + 1e-6).fold(None, |best, k| {
            let fits = |x: f64, y: f64| x * k <= sides[0] + 1e-6 && y * k <= sides[1] + 1e-6;
            if fits(a, b) || fits(b, a) { Some(k) } else { best }
        })
    })
}

proptest! {
    /// Source: the law of propagation of errors, with the answer's own change for a thousandth on each tape.
    #[test]
    fn the_deviation_of_a_corner_is_the_three_readings_carried_through(
        a in 500.0_f64..9000.0, b in 500.0_f64..9000.0, turn in 0.6_f64..2.5
    ) {
        let tape = Tape::default();
        let tapes = [a, b, (a * a + b * b - 2.0 * a * b * turn.cos()).sqrt()];
        let out = |[a, b, c]: [f64; 3]| angle_found(a, b, c, Some(5000.0), &tape).unwrap().out_of_square.0;
        let carried: f64 = (0..3)
            .map(|i| {
                let moved = |by: f64| { let mut other = tapes; other[i] += by; out(other) };
                ((moved(1e-3) - moved(-1e-3)) / 2e-3 * tape.standard_deviation(tapes[i])).powi(2)
            })
            .sum();
        let found = angle_found(a, b, tapes[2], Some(5000.0), &tape).unwrap();
        prop_assert!((found.sd.0 - carried.sqrt()).abs() < 1e-5 * found.sd.0, "{} for {}", found.sd.0, carried.sqrt());
    }

    #[test]
    fn the_angle_is_that_of_the_coordinates(a in 1.0_f64..1e5, b in 1.0_f64..1e5, turn in 0.01_f64..3.13) {
        let c = (a * a + b * b - 2.0 * a * b * turn.cos()).sqrt();
        let angle = angle_between(a, b, c).unwrap();
        // The third side itself is rounded: near a flat triangle that moves the angle by more than near a square one.
        prop_assert!((angle - turn).abs() < 1e-9 / turn.sin().powi(2), "{} for {}", angle, turn);
    }

    #[test]
    fn each_corners_triangle_fits_and_is_the_biggest_neat_one(
        outline in any_outline(),
        tape in prop_oneof![Just(None), (500.0_f64..30_000.0).prop_map(Some)],
        feet in any::<bool>(),
    ) {
        let drawn = footprint(&outline);
        let units = if feet { Units::FeetInches } else { Units::Mm };
        let steps: [f64; 3] = if feet { [152.4, 76.2, 25.4] } else { [100.0, 50.0, 10.0] };
        let reach = tape.unwrap_or(f64::INFINITY);
        for (corner, check) in corner_checks(&drawn, tape, units).iter().enumerate() {
            let (arrives, leaves) = drawn.sides_at(corner);
            let sides = [drawn.sides()[arrives].length, drawn.sides()[leaves].length];
            let each = check.best.iter().chain(&check.three_four_five);
            for CornerTriangle { triple, multiple, first, second, diagonal, mm_at_end_per_mm } in each {
                prop_assert!(first.length.0 <= sides[0] + 1e-6 && second.length.0 <= sides[1] + 1e-6);
                prop_assert!(diagonal.0 <= reach + 1e-6);
                let square = first.length.0.powi(2) + second.length.0.powi(2);
                prop_assert!((square - diagonal.0.powi(2)).abs() < 1e-9 * square);
                prop_assert_eq!(&first.side, &drawn.side_name(arrives));
                prop_assert_eq!(&second.side, &drawn.side_name(leaves));
                let known = ON_SITE.into_iter().find(|t| t.name() == *triple).unwrap();
                let numbers = (f64::from(known.a), f64::from(known.b), f64::from(known.c));
                let most = by_trial(sides, numbers, reach.min(200_000.0), &steps).unwrap();
                prop_assert!((most - multiple.0).abs() < 1e-6, "{} of {} in {:?}", multiple.0, triple, sides);
                // dθ = c·dc/(a·b), over the longer side.
                let turn = diagonal.0 / (first.length.0 * second.length.0);
                prop_assert!((turn * sides[0].max(sides[1]) - mm_at_end_per_mm.0).abs() < 1e-9 * mm_at_end_per_mm.0);
            }
            let fits = |t: pegline::square::Triple| by_trial(sides, (f64::from(t.a), f64::from(t.b), f64::from(t.c)), reach.min(200_000.0), &steps);
            prop_assert_eq!(check.best.is_some(), ON_SITE.into_iter().any(|t| fits(t).is_some()));
            // No other triple is sharper by a quarter than a 3-4-5 that comes first, nor at all than another that does.
            if let Some(best) = &check.best {
                let shows = best.mm_at_end_per_mm.0;
                for t in ON_SITE {
                    if let Some(k) = fits(t) {
                        let turn = f64::from(t.c) / (f64::from(t.a) * f64::from(t.b) * k) * sides[0].max(sides[1]);
                        let least = if best.triple == "3-4-5" { 0.75 * shows } else { shows };
                        prop_assert!(least <= turn * (1.0 + 1e-8), "{} against {}", best.triple, t.name());
                    }
                }
                if let Some(plain) = &check.three_four_five {
                    prop_assert!(shows <= 0.75 * plain.mm_at_end_per_mm.0 * (1.0 + 1e-8), "{}", best.triple);
                }
                let plain = best.triple == "3-4-5" || check.three_four_five.is_some();
                prop_assert_eq!(plain, fits(THREE_FOUR_FIVE).is_some());
            }
        }
    }
}

#[test]
fn the_table_of_multiples_stops_at_the_longest_and_never_runs_over_its_rows() {
    for (longest, rows) in
        [(0.0, 12), (499.0, 12), (500.0, 12), (8000.0, 12), (1e6, 12), (1e6, 1), (5000.0, 0)]
    {
        let table = multiples(longest, rows, Units::Mm);
        assert!(table.len() <= rows.max(1), "{longest}");
        assert!(table.iter().all(|row| row.c.0 <= longest));
        for row in &table {
            assert_relative_eq!(row.a.0.hypot(row.b.0), row.c.0, max_relative = 1e-12);
        }
    }
}
