//! Packing a plate level.

use pegline::geometry::{Mm, Point};
use pegline::levels::{
    CLOSE_ENOUGH, Corner, Datum, Flag, LevelsError, Limit, PackVerdict, Packer, Packing, Packs, Place,
    PlateLine, Readings, SetUp, Side, Station, packs,
};
use pegline::rules::{BED_JOINTS, LEVEL, find};
use proptest::prelude::*;

/// An L of 7.8 × 6.0 m with 3.0 × 2.4 m cut out of its bottom right (invented).
fn outline() -> PlateLine {
    let at = [
        ("A", 0.0, 0.0),
        ("B", 7800.0, 0.0),
        ("C", 7800.0, 3600.0),
        ("D", 4800.0, 3600.0),
        ("E", 4800.0, 6000.0),
        ("F", 0.0, 6000.0),
    ];
    let lengths = [7800.0, 3600.0, 3000.0, 2400.0, 4800.0, 6000.0];
    let names = ["AB", "BC", "CD", "DE", "EF", "FA"];
    PlateLine {
        corners: at
            .map(|(name, x, y)| Corner {
                name: name.to_owned(),
                at: Point::new(x, y),
            })
            .to_vec(),
        sides: names
            .into_iter()
            .zip(lengths)
            .map(|(name, length)| Side {
                name: name.to_owned(),
                length,
                house: false,
            })
            .collect(),
    }
}

fn corner(name: &str) -> Place {
    Place::Corner(name.to_owned())
}

fn along(side: &str, distance: f64) -> Place {
    Place::Along {
        side: side.to_owned(),
        distance,
    }
}

fn set_up(kind: Readings, readings: &[(&str, f64)]) -> SetUp {
    SetUp {
        kind,
        readings: readings.iter().map(|(n, r)| (corner(n), *r)).collect(),
    }
}

fn packing(set_ups: Vec<SetUp>) -> Packing {
    Packing {
        line: outline(),
        set_ups,
        datum: Datum::Highest,
        packers: [1.0, 2.0, 3.0, 5.0, 10.0]
            .map(|thickness| Packer {
                thickness,
                count: None,
            })
            .to_vec(),
        studs: None,
        limit: None,
        tolerance: CLOSE_ENOUGH,
        solid: None,
    }
}

const STAFF: [(&str, f64); 6] = [
    ("A", 1412.0),
    ("B", 1409.0),
    ("C", 1405.0),
    ("D", 1411.0),
    ("E", 1415.0),
    ("F", 1410.0),
];

fn station<'a>(answer: &'a Packs, name: &str) -> &'a Station {
    let mut all = answer.stations.iter().chain(&answer.studs);
    all.find(|s| s.name == name).unwrap()
}

fn stack(answer: &Packs, name: &str) -> Vec<f64> {
    station(answer, name).packers.iter().map(|t| t.0).collect()
}

/// Ours, by hand from the readings: C reads least, so it is the highest; each pack is its reading less 1405.
#[test]
fn six_staff_readings_are_packed_up_to_the_highest_corner() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.studs = Some(600.0);
    input.limit = Some(Limit::Own(10.0));
    let answer = packs(&input).unwrap();
    assert_eq!((answer.datum.name.as_str(), answer.datum.rule), ("C", "highest"));
    let gaps: Vec<f64> = answer.stations.iter().map(|s| s.pack.0).collect();
    assert_eq!(gaps, [7.0, 4.0, 0.0, 6.0, 10.0, 5.0]);
    assert_eq!(stack(&answer, "A"), [5.0, 2.0]);
    assert_eq!(stack(&answer, "B"), [3.0, 1.0]);
    assert_eq!(stack(&answer, "C"), [0.0; 0]);
    assert_eq!(stack(&answer, "D"), [5.0, 1.0]);
    assert_eq!(stack(&answer, "E"), [10.0]);
    assert_eq!(stack(&answer, "F"), [5.0]);
    // Just on the limit is within it.
    assert_eq!(answer.verdict, PackVerdict::Pack);
    assert_eq!(answer.worst, Mm(10.0));
    assert!(answer.bed.check.as_ref().unwrap().within);
    assert_eq!(answer.odd_one_out, None);
    // 12 studs within AB (600 to 7200), 5 in BC, 4 in CD, 3 in DE, 7 in EF, 9 in FA.
    assert_eq!(answer.studs.len(), 12 + 5 + 4 + 3 + 7 + 9);
    // Half way along FA from F (5) to A (7): 6 mm.
    assert!((station(&answer, "FA@3000").pack.0 - 6.0).abs() < 1e-9);
    assert_eq!(stack(&answer, "FA@3000"), [5.0, 1.0]);
    // AB falls from 7 at A to 4 at B over 7800: at 2600 it would be 6, at 600 it is 7 − 3 × 600/7800.
    assert!((station(&answer, "AB@600").pack.0 - (7.0 - 1800.0 / 7800.0)).abs() < 1e-9);
    assert!(answer.unread.is_empty());
    let json = serde_json::to_value(&answer).unwrap();
    assert_eq!(json["verdict"], "pack");
    assert_eq!(
        json["stations"][0],
        serde_json::json!({
            "name": "A", "height": -7, "pack": 7, "packers": [5, 2], "remainder": 0, "flags": ["ask the designer"]
        })
    );
}

#[test]
fn heights_and_staff_readings_of_one_bed_pack_alike() {
    let by_staff = packs(&packing(vec![set_up(Readings::Staff, &STAFF)])).unwrap();
    let heights = STAFF.map(|(name, reading)| (name, 3000.0 - reading));
    let by_height = packs(&packing(vec![set_up(Readings::Heights, &heights)])).unwrap();
    for (a, b) in by_staff.stations.iter().zip(&by_height.stations) {
        assert_eq!((a.pack, &a.packers), (b.pack, &b.packers));
    }
    // Heights keep the zero they were given in; staff readings have the datum for zero.
    assert_eq!(station(&by_height, "A").height, Mm(1588.0));
    assert_eq!(station(&by_staff, "A").height, Mm(-7.0));
}

#[test]
fn a_level_bed_has_nothing_to_pack() {
    let answer = packs(&packing(vec![set_up(
        Readings::Heights,
        &STAFF.map(|(n, _)| (n, 12.0)),
    )]))
    .unwrap();
    assert_eq!(answer.verdict, PackVerdict::Level);
    assert_eq!(answer.pieces, 0);
    assert_eq!(answer.says(&|mm| format!("{mm:.0}"))[0], "nothing to pack");
}

/// Ours: five corners within 1 mm of each other and one 7 mm over the next highest.
#[test]
fn a_high_point_that_stands_alone_is_named_with_both_ways_out() {
    let read = [
        ("A", 0.0),
        ("B", 1.0),
        ("C", 8.0),
        ("D", 0.0),
        ("E", 1.0),
        ("F", 0.0),
    ];
    let answer = packs(&packing(vec![set_up(Readings::Heights, &read)])).unwrap();
    let odd = answer.odd_one_out.as_ref().unwrap();
    assert_eq!((odd.name.as_str(), odd.by.0, odd.worst_after.0), ("C", 7.0, 1.0));
    let says = answer.says(&|mm| format!("{mm:.0} mm"));
    assert!(
        says.iter()
            .any(|s| s == "the high point C is the odd one out: bring it down or lift everything by 7 mm")
    );
    // The same 7 mm in a bed that wanders by 8 mm anyway is nothing odd.
    let wander = [
        ("A", 0.0),
        ("B", 8.0),
        ("C", 15.0),
        ("D", 3.0),
        ("E", 1.0),
        ("F", 5.0),
    ];
    assert_eq!(
        packs(&packing(vec![set_up(Readings::Heights, &wander)]))
            .unwrap()
            .odd_one_out,
        None
    );
}

#[test]
fn a_named_datum_under_the_highest_point_says_what_stands_above_it() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.datum = Datum::Named(corner("b"));
    let answer = packs(&input).unwrap();
    assert_eq!(answer.verdict, PackVerdict::AboveDatum);
    assert_eq!(station(&answer, "C").flags, [Flag::AboveDatum]);
    assert_eq!(station(&answer, "C").pack, Mm(-4.0));
    assert_eq!(station(&answer, "A").pack, Mm(3.0));
    input.datum = Datum::Named(along("AB", 100.0));
    assert!(matches!(packs(&input), Err(LevelsError::DatumNotRead { .. })));
}

/// Ours, by hand. The second set-up stands 100 higher; it reads C and F again, C 2 mm lower than carried. Shared out
/// by least squares over two common places: the set-ups differ by 101, so C and F are each out by half of 2 mm, and
/// each of their two readings takes half of that.
#[test]
fn two_set_ups_are_tied_and_their_misclosure_shared_out() {
    let first = set_up(
        Readings::Staff,
        &[("F", 1410.0), ("A", 1412.0), ("B", 1409.0), ("C", 1405.0)],
    );
    let second = set_up(
        Readings::Staff,
        &[("F", 1510.0), ("C", 1507.0), ("D", 1511.0), ("E", 1515.0)],
    );
    let answer = packs(&packing(vec![first, second])).unwrap();
    let closure = answer.closure.as_ref().unwrap();
    assert_eq!(closure.closings.len(), 1);
    assert_eq!(
        (closure.closings[0].name.as_str(), closure.closings[0].set_up),
        ("C", 2)
    );
    assert!((closure.closings[0].misclosure.0 + 2.0).abs() < 1e-9);
    assert!((closure.worst.0 - 2.0).abs() < 1e-9);
    assert_eq!(closure.corrections.len(), 4);
    for correction in &closure.corrections {
        assert!(
            (correction.correction.0.abs() - 0.5).abs() < 1e-9,
            "{correction:?}"
        );
    }
    // First set-up: C −1405.5, A −1412; second: D −1511 + 101 = −1410.
    assert!((station(&answer, "A").pack.0 - 6.5).abs() < 1e-9);
    assert!((station(&answer, "D").pack.0 - 4.5).abs() < 1e-9);
}

#[test]
fn set_ups_that_close_agree_with_one_set_up() {
    let once = packs(&packing(vec![set_up(Readings::Staff, &STAFF)])).unwrap();
    let second: Vec<(&str, f64)> = STAFF[2..].iter().map(|(n, r)| (*n, r + 333.0)).collect();
    let twice = packs(&packing(vec![
        set_up(Readings::Staff, &STAFF[..4]),
        set_up(Readings::Staff, &second),
    ]))
    .unwrap();
    assert_eq!(once.stations, twice.stations);
    assert_eq!(twice.closure.unwrap().worst, Mm(0.0));
}

#[test]
fn a_set_up_tied_to_nothing_is_refused() {
    let error = packs(&packing(vec![
        set_up(Readings::Staff, &STAFF[..3]),
        set_up(Readings::Staff, &STAFF[3..]),
    ]));
    assert_eq!(error, Err(LevelsError::NotTied { set_up: 2 }));
}

/// Ours: AB's middle reads 4 mm lower than the line between its ends, so studs follow it down and up again.
#[test]
fn studs_follow_the_readings_along_a_side_and_are_left_out_where_there_are_none() {
    let mut input = packing(vec![SetUp {
        kind: Readings::Heights,
        readings: vec![
            (corner("A"), 10.0),
            (along("AB", 3900.0), 6.0),
            (corner("B"), 10.0),
            (along("CB", 600.0), 10.0),
        ],
    }]);
    input.studs = Some(1300.0);
    let answer = packs(&input).unwrap();
    let packs: Vec<(&str, f64)> = answer.studs.iter().map(|s| (s.name.as_str(), s.pack.0)).collect();
    let expected = [
        ("AB@1300", 4.0 / 3.0),
        ("AB@2600", 8.0 / 3.0),
        ("AB@5200", 8.0 / 3.0),
        ("AB@6500", 4.0 / 3.0),
        ("BC@1300", 0.0),
        ("BC@2600", 0.0),
    ];
    assert_eq!(packs.len(), expected.len());
    for ((name, pack), (wanted, by_hand)) in packs.iter().zip(expected) {
        assert_eq!(*name, wanted);
        assert!((pack - by_hand).abs() < 1e-9);
    }
    // CB@600 is 3000 along BC; past it, and on the other sides, nothing is known.
    let unread: Vec<(&str, f64, f64)> = answer
        .unread
        .iter()
        .map(|u| (u.side.as_str(), u.from.0, u.to.0))
        .collect();
    assert_eq!(unread[0], ("BC", 3000.0, 3600.0));
    assert_eq!(unread.len(), 5);
}

#[test]
fn no_studs_stand_on_a_house_side() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.studs = Some(600.0);
    input.line.sides[0].house = true;
    let answer = packs(&input).unwrap();
    assert!(answer.studs.iter().all(|s| !s.name.starts_with("AB")));
    assert!(!answer.studs.is_empty());
}

/// Source: NHBC Standards (official page), ±8 mm per 5 m pro rata, 12 over. Ours: C to D is 3 m of wall, so
/// 4.8 mm; they differ by 6. C and E differ by 10, but with 5.4 m of wall between them.
#[test]
fn a_published_limit_is_taken_over_the_distance_between_two_places() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.limit = Some(Limit::AlongWall(find(BED_JOINTS, "bed joints", "nhbc").unwrap()));
    let answer = packs(&input).unwrap();
    let check = answer.bed.check.as_ref().unwrap();
    assert_eq!(check.between, ["C".to_owned(), "D".to_owned()]);
    assert!((check.limit.0 - 4.8).abs() < 1e-9 && !check.within);
    assert_eq!(answer.verdict, PackVerdict::OverLimit);
    let json = serde_json::to_value(&answer).unwrap();
    assert_eq!(json["bed"]["check"]["against"]["published"]["key"], "nhbc");
    // LABC Warranty allows 10 mm per 5 m: 6 mm over those 3 m, which is just within.
    input.limit = Some(Limit::AlongWall(find(BED_JOINTS, "bed joints", "labc").unwrap()));
    assert_eq!(packs(&input).unwrap().verdict, PackVerdict::Pack);
    // The remodelling standard stops at 20 ft: longer pairs are counted, not judged.
    input.limit = Some(Limit::Across(find(LEVEL, "level", "us-remodelling").unwrap()));
    let check = packs(&input).unwrap().bed.check.unwrap();
    assert!(check.within && check.not_covered > 0);
}

#[test]
fn gaps_are_flagged_against_the_guidance_or_the_users_own_figure() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    let answer = packs(&input).unwrap();
    assert_eq!(station(&answer, "B").flags, [Flag::SolidOnly], "4 mm");
    assert_eq!(
        station(&answer, "F").flags,
        [Flag::AskDesigner],
        "5 mm is no longer under 5"
    );
    assert_eq!(station(&answer, "C").flags, [], "no gap");
    assert!(answer.solid_source.is_some());
    input.solid = Some(9.0);
    input.limit = Some(Limit::Own(6.0));
    let answer = packs(&input).unwrap();
    assert_eq!(station(&answer, "F").flags, []);
    assert_eq!(station(&answer, "E").flags, [Flag::OverLimit, Flag::AskDesigner]);
    assert_eq!(
        (answer.verdict, answer.solid_source),
        (PackVerdict::OverLimit, None)
    );
}

#[test]
fn a_van_without_the_packers_says_where_it_falls_short() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.packers = vec![Packer {
        thickness: 5.0,
        count: Some(6),
    }];
    let answer = packs(&input).unwrap();
    assert_eq!(answer.verdict, PackVerdict::Short);
    // 4 by a 5 and 6 by a 5 are 1 mm out, which is near enough; 7 by a 5 is not.
    assert_eq!(station(&answer, "A").remainder, Mm(2.0));
    assert!(station(&answer, "A").flags.contains(&Flag::NotMadeUp));
    assert!(!station(&answer, "D").flags.contains(&Flag::NotMadeUp));
    assert_eq!(answer.totals[0].count, 6);
}

#[test]
fn what_cannot_be_read_is_refused_with_the_place() {
    let refused = |readings: Vec<(Place, f64)>| {
        packs(&packing(vec![SetUp {
            kind: Readings::Staff,
            readings,
        }]))
        .unwrap_err()
        .to_string()
    };
    assert!(refused(vec![(corner("Z"), 1.0)]).contains("its corners are A, B, C, D, E, F"));
    assert!(refused(vec![(along("AC", 1.0), 1.0)]).contains("its sides are AB, BC"));
    assert!(refused(vec![(along("AB", 7801.0), 1.0)]).contains("AB@7801"));
    assert!(refused(vec![(corner("A"), f64::NAN)]).contains("reading at A"));
    assert!(refused(vec![(corner("A"), 1.0)]).contains("no readings"));
    assert!(refused(vec![(corner("A"), 1.0), (corner("B"), 2000.0)]).contains("check the reading"));
    let mut tiny = packing(vec![set_up(Readings::Staff, &STAFF)]);
    tiny.studs = Some(1e-9);
    assert!(matches!(packs(&tiny), Err(LevelsError::TooMany { .. })));
    assert!(packs(&packing(vec![])).is_err());
}

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
        lengths in prop::option::of(prop::array::uniform6(wild())),
    ) {
        let names = ["A", "B", "C", "D", "E", "F", "G"];
        let read: Vec<(Place, f64)> = readings
            .into_iter()
            .map(|(i, value, distance)| {
                let side = format!("{}{}", names[i], names[(i + 1) % 6]);
                (distance.map_or_else(|| corner(names[i]), |d| along(&side, d)), value)
            })
            .collect();
        let (first, second) = read.split_at(split.min(read.len()));
        let mut input = packing(vec![
            SetUp { kind: Readings::Heights, readings: first.to_vec() },
            SetUp { kind: Readings::Staff, readings: second.to_vec() },
        ]);
        (input.studs, input.limit, input.tolerance) = (studs, limit.map(Limit::Own), tolerance);
        if let Some(lengths) = lengths {
            for (side, length) in input.line.sides.iter_mut().zip(lengths) {
                side.length = length;
            }
        }
        if let Ok(answer) = packs(&input) {
            prop_assert!(serde_json::to_string(&answer).is_ok());
            let _ = answer.says(&|mm| format!("{mm}"));
        }
    }

    /// Whatever the datum's name, a bed raised as a whole packs the same.
    #[test]
    fn raising_the_whole_bed_changes_no_pack(heights in prop::array::uniform6(-20_i32..20), lift in -500_i32..500) {
        let read = |by: i32| {
            let names = ["A", "B", "C", "D", "E", "F"];
            let all: Vec<(&str, f64)> = names.into_iter().zip(heights.map(|h| f64::from(h + by))).collect();
            packs(&packing(vec![set_up(Readings::Heights, &all)])).unwrap()
        };
        let (low, high) = (read(0), read(lift));
        prop_assert_eq!(low.totals, high.totals);
        for (a, b) in low.stations.iter().zip(&high.stations) {
            prop_assert_eq!((a.pack, &a.packers), (b.pack, &b.packers));
            prop_assert!(a.pack.0 >= 0.0 && a.remainder.0 == 0.0);
        }
    }
}
