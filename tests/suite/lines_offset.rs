//! Offset outlines against an independent construction: the cells inside the outline (or, inward, those outside it),
//! each grown by the offset, and whatever they cover.

use approx::assert_relative_eq;
use geo::{Area, LineString, Polygon};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::lines::{OffsetError, offset_limit, offset_outline};
use pegline::plan::{Footprint, Grid, Turn, parse_expression};
use proptest::prelude::*;

use crate::lines_random::{outlines, outlines_with_house, sorted_sides, trace};

/// The outline of everything within `by` of the footprint, measured square to the sides; inward, of all that is further
/// than that from the outside.
fn grown(footprint: &Footprint, by: f64) -> Option<Vec<Point>> {
    let grid = Grid::new(footprint);
    let far = 1e5;
    let wide = |cuts: &[f64]| {
        let mut cuts = cuts.to_vec();
        cuts.insert(0, -far);
        cuts.push(far);
        cuts
    };
    let (xs, ys) = (wide(&grid.xs), wide(&grid.ys));
    let inside = |c: usize, r: usize| {
        (1..=grid.columns()).contains(&c) && (1..=grid.rows()).contains(&r) && grid.is_inside(c - 1, r - 1)
    };
    let mut boxes = vec![];
    for c in 0..xs.len() - 1 {
        for r in 0..ys.len() - 1 {
            if inside(c, r) == (by > 0.0) {
                let d = by.abs();
                boxes.push([xs[c] - d, xs[c + 1] + d, ys[r] - d, ys[r + 1] + d]);
            }
        }
    }
    let cuts = |pick: [usize; 2]| {
        let mut all: Vec<f64> = boxes.iter().flat_map(|b| pick.map(|i| b[i])).collect();
        all.sort_by(f64::total_cmp);
        all.dedup_by(|b, a| (*b - *a).abs() < 1e-9);
        all
    };
    let (xs, ys) = (cuts([0, 1]), cuts([2, 3]));
    trace(&xs, &ys, |c, r| {
        let (x, y) = (f64::midpoint(xs[c], xs[c + 1]), f64::midpoint(ys[r], ys[r + 1]));
        let covered = boxes.iter().any(|b| b[0] < x && x < b[1] && b[2] < y && y < b[3]);
        covered == (by > 0.0)
    })
}

fn polygon(points: &[Point]) -> Polygon<f64> {
    let ring: LineString<f64> = points.iter().map(|p| (p.x, p.y)).collect();
    Polygon::new(ring, vec![])
}

fn points(footprint: &Footprint, by: f64) -> Vec<Point> {
    let offset = offset_outline(footprint, by, Units::Mm).unwrap();
    offset.corners.iter().map(|corner| Point::new(corner.x.0, corner.y.0)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn an_offset_outline_is_what_the_cells_grown_by_it_cover(
        footprint in outlines(), by in prop_oneof![-900.0..-0.5, 0.5..2500.0]
    ) {
        let traced = grown(&footprint, by);
        match offset_outline(&footprint, by, Units::Mm) {
            Ok(offset) => {
                let traced = traced.unwrap();
                prop_assert_eq!(traced.len(), footprint.len());
                let mut lengths: Vec<f64> = offset.sides.iter().map(|side| side.length.0).collect();
                lengths.sort_by(f64::total_cmp);
                for (told, found) in lengths.iter().zip(sorted_sides(&traced)) {
                    assert_relative_eq!(*told, found, epsilon = 1e-6);
                }
                let area = polygon(&traced).unsigned_area() / 1e6;
                assert_relative_eq!(offset.area_m2.0, area, max_relative = 1e-9, epsilon = 1e-9);
                // Every side moved by d, and the corners' squares, four more outward than inward.
                let closed = footprint.area() + footprint.perimeter() * by + 4.0 * by * by;
                assert_relative_eq!(offset.area_m2.0, closed / 1e6, max_relative = 1e-9, epsilon = 1e-9);
            }
            Err(OffsetError::TooFar { .. }) => {
                prop_assert!(traced.is_none_or(|traced| traced.len() != footprint.len()));
            }
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    #[test]
    fn an_offset_works_up_to_its_limit_and_not_beyond(footprint in outlines(), outward: bool) {
        let sign = if outward { 1.0 } else { -1.0 };
        let Some(limit) = offset_limit(&footprint, outward) else {
            // Only an outline without inward corners can be held out as far as anyone likes.
            prop_assert!(outward);
            return Ok(());
        };
        let just_under = limit.less_than - 0.01;
        let traced = grown(&footprint, sign * just_under).unwrap();
        prop_assert_eq!(traced.len(), footprint.len());
        prop_assert!(offset_outline(&footprint, sign * just_under, Units::Mm).is_ok());
        let just_over = limit.less_than + 0.01;
        prop_assert!(grown(&footprint, sign * just_over).is_none_or(|traced| traced.len() != footprint.len()));
        let refused = offset_outline(&footprint, sign * just_over, Units::Mm);
        let Err(OffsetError::TooFar { largest, .. }) = refused else {
            return Err(TestCaseError::fail("it should be refused"));
        };
        if let Some(largest) = largest {
            prop_assert!(offset_outline(&footprint, sign * largest, Units::Mm).is_ok());
            prop_assert!(offset_outline(&footprint, sign * (largest + 1.0), Units::Mm).is_err());
        } else {
            prop_assert!(limit.less_than <= 1.0 + 1e-6);
        }
    }

    #[test]
    fn every_diagonal_of_an_offset_outline_is_the_distance_between_its_corners(
        footprint in outlines(), by in 1.0..90.0_f64
    ) {
        for by in [by, -by] {
            let Ok(offset) = offset_outline(&footprint, by, Units::Mm) else { continue };
            let n = footprint.len();
            prop_assert_eq!(offset.diagonals.len() + offset.straight_checks.len(), n * (n - 3) / 2);
            let corner = |name: &str| {
                let corner = offset.corners.iter().find(|corner| corner.name == name).unwrap();
                Point::new(corner.x.0, corner.y.0)
            };
            for d in offset.diagonals.iter().chain(&offset.straight_checks) {
                let (a, b) = (corner(&d.name[..1]), corner(&d.name[1..]));
                let squared = (a.x - b.x).powi(2) + (a.y - b.y).powi(2);
                assert_relative_eq!(d.length.0 * d.length.0, squared, max_relative = 1e-9);
            }
        }
    }

    #[test]
    fn house_sides_stay_and_every_other_side_moves_by_the_offset(footprint in outlines_with_house(), by in 1.0..90.0_f64) {
        for by in [by, -by] {
            if offset_outline(&footprint, by, Units::Mm).is_err() {
                continue;
            }
            let moved = points(&footprint, by);
            for side in footprint.sides() {
                let (before, after) = (footprint.corners()[side.from].at, moved[side.from]);
                let (ox, oy) = side.heading.outward();
                let out = (after.x - before.x) * ox + (after.y - before.y) * oy;
                assert_relative_eq!(out, if side.house { 0.0 } else { by }, epsilon = 1e-9);
            }
        }
    }
}

/// The rule for a side's change: 2d between two outward corners, 0 between an outward and an inward one, −2d between
/// two inward ones. Plain geometry, checked by hand for the L and the U.
#[test]
fn sides_change_by_their_corners() {
    for (plan, by) in [("7800x6000-3000x2400", 1000.0), ("9000x3000+2400x2100@0+2400x2100@6600", 500.0)] {
        let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
        let offset = offset_outline(&footprint, by, Units::Mm).unwrap();
        for (told, side) in offset.sides.iter().zip(footprint.sides()) {
            let outward = [side.from, side.to]
                .iter()
                .filter(|corner| footprint.corners()[**corner].turn == Turn::Outward)
                .count();
            let change = [-2.0, 0.0, 2.0][outward] * by;
            assert_relative_eq!(told.change.0, change, epsilon = 1e-9);
        }
    }
}

/// By hand: A (0, 0) goes to (−1000, −1000) and D (4800, 3600), inward, to (5800, 4600); √(6800² + 5600²).
#[test]
fn the_l_held_out_by_a_metre_has_its_ad_of_8809() {
    let (footprint, _) = parse_expression("7800x6000-3000x2400", Units::Mm).unwrap();
    let offset = offset_outline(&footprint, 1000.0, Units::Mm).unwrap();
    let ad = offset.diagonals.iter().find(|d| d.name == "AD").unwrap();
    assert_relative_eq!(ad.length.0, 8809.086, epsilon = 5e-4);
    let (a, d) = (points(&footprint, 1000.0)[0], points(&footprint, 1000.0)[3]);
    assert_eq!((a, d), (Point::new(-1000.0, -1000.0), Point::new(5800.0, 4600.0)));
}

#[test]
fn an_offset_too_far_is_refused_with_the_largest_that_works() {
    // The 1000 mm gap between the legs closes at 500 mm.
    let (footprint, _) = parse_expression("3000x1000+1000x1000@0+1000x1000@2000", Units::Mm).unwrap();
    let refused = offset_outline(&footprint, 500.0, Units::Mm).unwrap_err();
    let said = refused.to_string();
    assert!(said.contains("499mm"), "{said}");
    assert!(offset_outline(&footprint, 499.0, Units::Mm).is_ok());
    assert!(offset_outline(&footprint, 0.0, Units::Mm).is_err());
}
