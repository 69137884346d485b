//! Whatever is read: no panic, and the same packing for the same bed.

use pegline::length::Units;
use pegline::packers::Packer;
use pegline::packing::{Limit, Packing, Readings, SetUp, packs};
use pegline::plan::Spot;
use pegline::rules::SHIMS_AND_GROUT;
use proptest::prelude::*;

use super::{outline, pack, packing, set_up};

fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => -50.0..50.0_f64,
        1 => prop::sample::select(vec![0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300, 1e-300, 1e7]),
    ]
}

proptest! {
    #[test]
    fn no_reading_is_a_panic_and_every_answer_can_be_written(
        readings in prop::collection::vec((0_usize..7, wild(), prop::option::of(wild())), 0..12),
        split in 0_usize..12,
        studs in prop::option::of(wild()),
        limit in prop::option::of(wild()),
        tolerance in wild(),
        house in prop::option::of(0_usize..6),
    ) {
        let footprint = outline().with_house(house.as_slice());
        // The seventh corner is on no such plan.
        let read: Vec<(Spot, f64)> = readings
            .into_iter()
            .filter_map(|(i, value, distance)| {
                let place = match distance {
                    None => Spot::corner(i),
                    Some(d) => Spot::along(&footprint, i, d).ok()?,
                };
                Some((place, value))
            })
            .collect();
        let (first, second) = read.split_at(split.min(read.len()));
        let mut input = packing(vec![
            SetUp { kind: Readings::Heights, readings: first.to_vec() },
            SetUp { kind: Readings::Staff, readings: second.to_vec() },
        ]);
        (input.studs, input.limit, input.tolerance) = (studs, limit.map(Limit::Own), tolerance);
        if let Ok(answer) = packs(&footprint, &input) {
            prop_assert!(serde_json::to_string(&answer).is_ok());
        }
    }

    #[test]
    fn no_text_for_a_place_is_a_panic(text in "\\PC{0,12}|[A-G]{1,3}@?-?[0-9.]{0,6}") {
        if let Ok(place) = Spot::parse(&text, &outline(), Units::Mm) {
            prop_assert!(place.side() < 6 && place.distance() >= 0.0);
        }
    }

    /// In sixteenths of an inch, whatever was read between them: the stack is as thick as the gap is printed.
    #[test]
    fn in_feet_what_is_packed_is_what_is_printed(heights in prop::array::uniform6(-80_i32..80)) {
        let sixteenth = 25.4 / 16.0;
        let names = ["A", "B", "C", "D", "E", "F"];
        let read: Vec<(&str, f64)> =
            names.into_iter().zip(heights.map(|h| f64::from(h) * sixteenth / 2.0)).collect();
        let packers = [1.0, 2.0, 4.0, 8.0].map(|n| Packer { thickness: n * sixteenth, count: None });
        let input = Packing {
            packers: packers.to_vec(),
            tolerance: sixteenth,
            filling: SHIMS_AND_GROUT,
            units: Units::FeetInches,
            ..packing(vec![set_up(Readings::Heights, &read)])
        };
        let answer = pack(&input).unwrap();
        // Nothing is packed where one place is to be read again first.
        for station in answer.stations.iter().filter(|_| answer.read_again.is_none()) {
            let thick: f64 = station.packers.iter().map(|packer| packer.0).sum();
            let printed = [station.pack.0, thick].map(|mm| Units::FeetInches.figure(mm));
            prop_assert_eq!(&printed[0], &printed[1]);
        }
    }

    /// Whatever the datum's name, a bed raised as a whole packs the same.
    #[test]
    fn raising_the_whole_bed_changes_no_pack(heights in prop::array::uniform6(-20_i32..20), lift in -500_i32..500) {
        let read = |by: i32| {
            let names = ["A", "B", "C", "D", "E", "F"];
            let all: Vec<(&str, f64)> = names.into_iter().zip(heights.map(|h| f64::from(h + by))).collect();
            pack(&packing(vec![set_up(Readings::Heights, &all)])).unwrap()
        };
        let (low, high) = (read(0), read(lift));
        prop_assert_eq!(low.totals, high.totals);
        for (a, b) in low.stations.iter().zip(&high.stations) {
            prop_assert_eq!((a.pack, &a.packers), (b.pack, &b.packers));
            prop_assert!(a.pack.0 >= 0.0 && a.remainder.0 == 0.0);
        }
    }
}
