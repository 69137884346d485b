//! Straightness: the readings' signs, and the best lines against independent conditions.

use approx::assert_relative_eq;
use nalgebra::{DMatrix, DVector};
use pegline::lines::{
    Reading, Stands, Straight, StraightQuestion, StraightVerdict, StringSide, least_squares, narrowest,
    straight,
};
use proptest::collection::btree_map;
use proptest::prelude::*;

fn asked(string: StringSide, limit: Option<f64>) -> Straight {
    let readings = [(0.0, 20.0), (1200.0, 22.0), (2400.0, 17.0), (3600.0, 20.0)];
    straight(&StraightQuestion {
        side: Some("CD".to_owned()),
        block: 20.0,
        string,
        readings: readings.map(|(at, reading)| Reading { at, reading }).to_vec(),
        limit,
        inward: None,
    })
    .unwrap()
    .unwrap()
}

#[test]
fn out_of_line_is_the_reading_less_the_block() {
    let answer = asked(StringSide::Outside, Some(3.0));
    let out: Vec<f64> = answer.stations.iter().map(|station| station.out.0).collect();
    assert_eq!(out, [0.0, 2.0, -3.0, 0.0]);
    assert_eq!((answer.worst.0, answer.worst_at.0), (3.0, 2400.0));
}

#[test]
fn the_limit_itself_is_still_straight() {
    let verdict = |limit| asked(StringSide::Outside, limit).verdict;
    assert_eq!(verdict(Some(3.0)), Some(StraightVerdict::Straight));
    assert_eq!(verdict(Some(2.9)), Some(StraightVerdict::Out));
    assert_eq!(verdict(None), None);
}

#[test]
fn too_far_from_a_string_outside_is_in_and_from_one_inside_is_out() {
    let stands = |string| {
        let answer = asked(string, None);
        [answer.stations[1].stands, answer.stations[2].stands]
    };
    assert_eq!(stands(StringSide::Outside), [Stands::In, Stands::Out]);
    assert_eq!(stands(StringSide::Inside), [Stands::Out, Stands::In]);
}

fn points() -> impl Strategy<Value = Vec<(f64, f64)>> {
    btree_map(0_u32..12_000, -200_i32..200, 3..30).prop_map(|points| {
        points.into_iter().map(|(at, out)| (f64::from(at), f64::from(out) / 10.0)).collect()
    })
}

proptest! {
    #[test]
    fn the_best_line_is_the_one_that_a_singular_value_solver_finds(points in points()) {
        let fit = least_squares(&points).unwrap();
        let matrix = DMatrix::from_fn(points.len(), 2, |i, j| if j == 0 { 1.0 } else { points[i].0 / 1000.0 });
        let right = DVector::from_iterator(points.len(), points.iter().map(|p| p.1));
        let solved = matrix.svd(true, true).solve(&right, 1e-12).unwrap();
        for at in [0.0, 12_000.0] {
            assert_relative_eq!(fit.value(at), solved[0] + solved[1] * at / 1000.0, epsilon = 1e-6);
        }
    }

    /// Chebyshev's condition: a line has the smallest largest deviation exactly if three points in a row along it are
    /// off by that much, alternating in sign.
    #[test]
    fn the_narrowest_line_is_touched_three_times_from_alternate_sides(points in points()) {
        let fit = narrowest(&points).unwrap();
        let worst = fit.worst(&points);
        let mut touches = 0;
        let mut last = 0.0;
        for (x, y) in &points {
            let off = y - fit.value(*x);
            if off.abs() >= worst - 1e-9 && off.signum() * last <= 0.0 {
                touches += 1;
                last = off.signum();
            }
        }
        prop_assert!(worst < 1e-9 || touches >= 3, "{touches} touches");
        prop_assert!(worst <= least_squares(&points).unwrap().worst(&points) + 1e-9);
    }
}
