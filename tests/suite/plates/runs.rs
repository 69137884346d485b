//! The runs against the ring of plate that they must make.

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{Area, Buffer, LineString, Polygon};
use pegline::plan::{Footprint, Turn, parse_expression};
use pegline::plates::{End, Handing, PlatesError, Strip, plate_corners, runs, strip};
use proptest::prelude::*;

use super::shapes::{WIDTH, outlines};

const W: f64 = WIDTH as f64;

fn handing(bits: &[bool], footprint: &Footprint) -> Handing {
    Handing::new(bits.iter().copied().cycle().take(footprint.len()).collect())
}

/// The area of the ring by a geometry library: the outline less its inward offset with square corners.
fn ring_area(footprint: &Footprint) -> f64 {
    let ring: Vec<(f64, f64)> = footprint.points().iter().map(|p| (p.x, p.y)).collect();
    let outline = Polygon::new(LineString::from(ring), vec![]);
    let style = BufferStyle::new(-W).line_join(LineJoin::Miter(0.1));
    outline.unsigned_area() - outline.buffer_with_style(style).unsigned_area()
}

/// A whole number of millimetres.
#[expect(clippy::cast_possible_truncation, reason = "whole and small")]
fn whole(mm: f64) -> i64 {
    assert!(mm.fract() == 0.0, "{mm}");
    mm as i64
}

type Box4 = [i64; 4];

fn box_of(strip: Strip) -> Box4 {
    [strip.low.x, strip.low.y, strip.high.x, strip.high.y].map(whole)
}

/// Where there must be plate, from the plan alone: along each plate side inward by the width, and the square beyond each
/// inward corner where two plates meet.
fn wanted(footprint: &Footprint) -> Vec<Box4> {
    let mut boxes = vec![];
    for side in footprint.sides().iter().filter(|side| !side.house) {
        let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
        let (ox, oy) = side.heading.outward();
        let xs = [a.x, b.x, b.x - ox * W].map(whole);
        let ys = [a.y, b.y, b.y - oy * W].map(whole);
        boxes.push([
            *xs.iter().min().unwrap(),
            *ys.iter().min().unwrap(),
            *xs.iter().max().unwrap(),
            *ys.iter().max().unwrap(),
        ]);
    }
    for corner in plate_corners(footprint) {
        if footprint.corners()[corner].turn == Turn::Inward {
            let (arrives, leaves) = footprint.sides_at(corner);
            let (ax, ay) = footprint.sides()[arrives].heading.outward();
            let (bx, by) = footprint.sides()[leaves].heading.outward();
            let at = footprint.corners()[corner].at;
            let (x, y) = (whole(at.x - (ax + bx) * W), whole(at.y - (ay + by) * W));
            let (cx, cy) = (whole(at.x), whole(at.y));
            boxes.push([x.min(cx), y.min(cy), x.max(cx), y.max(cy)]);
        }
    }
    boxes
}

/// How many of the boxes cover each cell of the grid that all the boxes' edges make; areas are exact.
fn covered(boxes: &[Box4], grid: &[Box4]) -> Vec<usize> {
    let cuts = |low: usize, high: usize| {
        let mut cuts: Vec<i64> = grid.iter().flat_map(|b| [b[low], b[high]]).collect();
        cuts.sort_unstable();
        cuts.dedup();
        cuts
    };
    let (xs, ys) = (cuts(0, 2), cuts(1, 3));
    xs.windows(2)
        .flat_map(|x| ys.windows(2).map(move |y| [x[0], y[0], x[1], y[1]]))
        .map(|cell| {
            boxes
                .iter()
                .filter(|b| b[0] <= cell[0] && b[1] <= cell[1] && cell[2] <= b[2] && cell[3] <= b[3])
                .count()
        })
        .collect()
}

proptest! {
    /// Source: the geometry library's polygon offset and areas.
    #[test]
    fn the_ring_has_the_area_of_outline_less_inward_offset(footprint in outlines(), bits in prop::collection::vec(any::<bool>(), 24)) {
        let total: f64 = runs(&footprint, W, &handing(&bits, &footprint)).unwrap().iter().map(|run| run.length).sum();
        let area = ring_area(&footprint);
        prop_assert!((total * W - area).abs() < 1e-6 * area, "{} against {area}", total * W);
    }

    /// Source: plane geometry: a rectilinear outline has four more outward corners than inward ones.
    #[test]
    fn the_runs_come_to_the_perimeter_less_four_widths(footprint in outlines(), bits in prop::collection::vec(any::<bool>(), 24)) {
        let total: f64 = runs(&footprint, W, &handing(&bits, &footprint)).unwrap().iter().map(|run| run.length).sum();
        let expected = footprint.perimeter() - 4.0 * W;
        prop_assert!((total - expected).abs() < 1e-9, "{total} against {expected}");
    }

    #[test]
    fn the_runs_tile_the_ring_once_whatever_the_handing_and_the_house(
        footprint in outlines(),
        bits in prop::collection::vec(any::<bool>(), 24),
        house in prop::collection::vec(prop::bool::weighted(0.25), 24),
    ) {
        let sides: Vec<usize> = (0..footprint.len()).filter(|side| house[*side]).collect();
        let footprint = footprint.with_house(&sides);
        let handing = handing(&bits, &footprint);
        for handing in [handing.opposite(), handing, Handing::follow(&footprint), Handing::alternate(&footprint)] {
            let strips: Vec<Box4> = runs(&footprint, W, &handing)
                .unwrap()
                .iter()
                .map(|run| box_of(strip(&footprint, W, run)))
                .collect();
            let wanted = wanted(&footprint);
            let grid = [strips.clone(), wanted.clone()].concat();
            let laid = covered(&strips, &grid);
            let should: Vec<usize> = covered(&wanted, &grid).iter().map(|count| usize::from(*count > 0)).collect();
            prop_assert_eq!(laid, should);
        }
    }

    #[test]
    fn at_each_corner_of_two_plates_one_goes_through_and_the_other_butts(
        footprint in outlines(),
        bits in prop::collection::vec(any::<bool>(), 24),
    ) {
        let runs = runs(&footprint, W, &handing(&bits, &footprint)).unwrap();
        for corner in plate_corners(&footprint) {
            let (arrives, leaves) = footprint.sides_at(corner);
            let mut ends = [runs[arrives].end, runs[leaves].start].map(End::name);
            ends.sort_unstable();
            prop_assert_eq!(ends, ["butts", "through"]);
        }
    }
}

/// Hand arithmetic on the L of 7800 × 6000 less 3000 × 2400, house along AB, 140 mm plates, each run through at its
/// first end: BC 3600 − 140 (butts at C); CD 3000 + 0 (through at C, butts at D inward); DE 2400 + 140 − 140 (through past
/// D, butts at E); EF 4800 − 140; FA 6000 (through at F, house at A).
#[test]
fn the_l_followed_round_gives_its_runs_by_hand() {
    let (footprint, _) = parse_expression("7800x6000-3000x2400", pegline::length::Units::Mm).unwrap();
    let footprint = footprint.with_house(&[0]);
    let runs = runs(&footprint, W, &Handing::follow(&footprint)).unwrap();
    let told: Vec<(String, f64, &str, &str)> = runs
        .iter()
        .map(|run| (footprint.side_name(run.side), run.length, run.start.name(), run.end.name()))
        .collect();
    let expected = [
        ("BC", 3460.0, "house", "butts"),
        ("CD", 3000.0, "through", "butts"),
        ("DE", 2400.0, "through", "butts"),
        ("EF", 4660.0, "through", "butts"),
        ("FA", 6000.0, "through", "house"),
    ];
    assert_eq!(told, expected.map(|(side, length, start, end)| (side.to_owned(), length, start, end)));
}

#[test]
fn plates_that_would_lie_over_each_other_are_refused() {
    for (plan, house) in [("2000x250", vec![]), ("6000x4000-3000x3900", vec![]), ("6000x100", vec![0])] {
        let (footprint, _) = parse_expression(plan, pegline::length::Units::Mm).unwrap();
        let footprint = footprint.with_house(&house);
        let refused = runs(&footprint, W, &Handing::alternate(&footprint));
        assert!(
            matches!(refused, Err(PlatesError::Overlap { .. } | PlatesError::NoRoom { .. })),
            "{plan}: {refused:?}"
        );
    }
}
