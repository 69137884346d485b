//! Builders shared by the tests of the readings.

use pegline::geometry::Point;
use pegline::plan::Footprint;
use pegline::readings::{Input, Reading, Readings, TapeUse, readings};

/// The outline 7800 × 6000 with 3000 × 2400 cut out at the bottom right.
pub(crate) fn ell() -> Vec<Point> {
    [(0.0, 0.0), (7800.0, 0.0), (7800.0, 3600.0), (4800.0, 3600.0), (4800.0, 6000.0), (0.0, 6000.0)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec()
}

/// That outline as a plan, with these sides existing walls.
pub(crate) fn plan(house: &[usize]) -> Footprint {
    Footprint::from_points(&ell()).unwrap().with_house(house)
}

/// Indices of a line's corners: `AB` is 0, 1.
pub(crate) fn line(name: &str) -> (usize, usize) {
    let at = |i: usize| usize::from(name.as_bytes()[i] - b'A');
    (at(0), at(1))
}

/// `AB=7802,BC=3601` as readings of the first tape.
pub(crate) fn read(text: &str) -> Vec<Reading> {
    text.split(',')
        .map(|part| {
            let (name, value) = part.trim().split_once('=').unwrap();
            let (from, to) = line(name);
            Reading::new(from, to, value.parse().unwrap())
        })
        .collect()
}

/// A class II tape with this much held on.
pub(crate) fn held_on(length: f64) -> Vec<TapeUse> {
    vec![TapeUse { held_on: length, ..TapeUse::default() }]
}

/// Judges readings of the L, 100 held on, house side AB.
pub(crate) fn judge_ell(text: &str) -> Readings {
    let (plan, taken, tapes) = (plan(&[0]), read(text), held_on(100.0));
    readings(&Input::new(&plan, &taken, &tapes)).unwrap()
}
