//! Random outlines with room for a plate all round: columns side by side, each from one depth to another.

use pegline::geometry::Point;
use pegline::plan::Footprint;
use proptest::prelude::*;

/// The plate width used with these outlines, mm.
pub(super) const WIDTH: i64 = 140;

/// Rectilinear outlines of 4 to 24 corners in whole millimetres, steps at the top and at the bottom, no part narrower
/// than three plates.
pub(super) fn outlines() -> impl Strategy<Value = Footprint> {
    let columns = prop::collection::vec((450..6000_i64, 0..12_i64, 0..12_i64), 1..6);
    columns.prop_map(|columns| {
        let mut top = vec![];
        let mut bottom = vec![];
        let mut x = 0;
        for (wide, up, down) in columns {
            // All columns share the middle, so that neighbours hang together; depths are in steps of 450 mm or nothing.
            let (high, low) = (6000 - up * 450, 7000 + down * 457);
            for (points, y) in [(&mut top, high), (&mut bottom, low)] {
                if points.last() == Some(&(x, y)) {
                    points.pop();
                } else {
                    points.push((x, y));
                }
                points.push((x + wide, y));
            }
            x += wide;
        }
        let walk: Vec<Point> = top
            .into_iter()
            .chain(bottom.into_iter().rev())
            .map(|(x, y)| {
                Point::new(f64::from(i32::try_from(x).unwrap()), f64::from(i32::try_from(y).unwrap()))
            })
            .collect();
        Footprint::from_points(&walk).unwrap()
    })
}
