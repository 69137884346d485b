//! Packing a plate level.

mod gaps;
mod limits;
mod packers;
mod places;
pub(crate) mod programme;
mod random;
mod set_ups;

use pegline::length::Units;
use pegline::packers::{CLOSE_ENOUGH, Packer};
use pegline::packing::{Datum, Packing, PackingError, Packs, Readings, SetUp, Station, packs};
use pegline::plan::{Footprint, Spot, parse_expression};
use pegline::rules::SOLID_PACKING;

/// An L of 7.8 × 6.0 m with 3.0 × 2.4 m cut out of its bottom right (invented).
fn outline() -> Footprint {
    parse_expression("7800x6000-3000x2400", Units::Mm).unwrap().0
}

fn at(place: &str) -> Spot {
    Spot::parse(place, &outline(), Units::Mm).unwrap()
}

fn set_up(kind: Readings, readings: &[(&str, f64)]) -> SetUp {
    SetUp { kind, readings: readings.iter().map(|(n, r)| (at(n), *r)).collect() }
}

fn packing(set_ups: Vec<SetUp>) -> Packing {
    Packing {
        set_ups,
        datum: Datum::Highest,
        packers: [1.0, 2.0, 3.0, 5.0, 10.0].map(|thickness| Packer { thickness, count: None }).to_vec(),
        studs: None,
        limit: None,
        tolerance: CLOSE_ENOUGH,
        solid: None,
        filling: SOLID_PACKING,
        units: Units::Mm,
    }
}

fn pack(input: &Packing) -> Result<Packs, PackingError> {
    packs(&outline(), input)
}

const STAFF: [(&str, f64); 6] =
    [("A", 1412.0), ("B", 1409.0), ("C", 1405.0), ("D", 1411.0), ("E", 1415.0), ("F", 1410.0)];

fn station<'a>(answer: &'a Packs, name: &str) -> &'a Station {
    let mut all = answer.stations.iter().chain(&answer.studs);
    all.find(|s| s.name == name).unwrap()
}

fn stack(answer: &Packs, name: &str) -> Vec<f64> {
    station(answer, name).packers.iter().map(|t| t.0).collect()
}
