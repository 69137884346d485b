//! Whatever is read: no panic, and the same packing for the same bed.

use pegline::length::Units;
use pegline::packing::{Limit, Readings, SetUp, packs};
use pegline::plan::Spot;
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
