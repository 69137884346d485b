//! Gaps, packers and studs from one set-up.

use pegline::geometry::Mm;
use pegline::length::AmountError;
use pegline::packers::Packer;
use pegline::packing::{
    Datum, DatumRule, Flag, Limit, PackVerdict, PackingError, Packs, Readings, SetUp, packs,
};

use super::{STAFF, at, outline, pack, packing, set_up, stack, station};

/// Ours, by hand from the readings: C reads least, so it is the highest; each pack is its reading less 1405.
#[test]
fn six_staff_readings_are_packed_up_to_the_highest_corner() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.studs = Some(600.0);
    input.limit = Some(Limit::Own(10.0));
    let answer = pack(&input).unwrap();
    assert_eq!((answer.datum.name.as_str(), answer.datum.rule), ("C", DatumRule::Highest));
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
            "name": "A", "side": "AB", "along": 0, "height": -7, "pack": 7, "packers": [5, 2], "remainder": 0,
            "flags": ["ask the designer"]
        })
    );
}

#[test]
fn heights_and_staff_readings_of_one_bed_pack_alike() {
    let by_staff = pack(&packing(vec![set_up(Readings::Staff, &STAFF)])).unwrap();
    let heights = STAFF.map(|(name, reading)| (name, 3000.0 - reading));
    let by_height = pack(&packing(vec![set_up(Readings::Heights, &heights)])).unwrap();
    for (a, b) in by_staff.stations.iter().zip(&by_height.stations) {
        assert_eq!((a.pack, &a.packers), (b.pack, &b.packers));
    }
    // Heights keep the zero they were given in; staff readings have the datum for zero.
    assert_eq!(station(&by_height, "A").height, Mm(1588.0));
    assert_eq!(station(&by_staff, "A").height, Mm(-7.0));
}

#[test]
fn a_level_bed_has_nothing_to_pack() {
    let answer = pack(&packing(vec![set_up(Readings::Heights, &STAFF.map(|(n, _)| (n, 12.0)))])).unwrap();
    assert_eq!(answer.verdict, PackVerdict::Level);
    assert_eq!(answer.pieces, 0);
}

/// Ours: five corners within 1 mm of each other and one 7 mm over the next highest.
#[test]
fn a_high_point_that_stands_alone_is_named_with_both_ways_out() {
    let read = [("A", 0.0), ("B", 1.0), ("C", 8.0), ("D", 0.0), ("E", 1.0), ("F", 0.0)];
    let answer = pack(&packing(vec![set_up(Readings::Heights, &read)])).unwrap();
    let odd = answer.odd_one_out.as_ref().unwrap();
    assert_eq!((odd.name.as_str(), odd.by.0, odd.worst_after.0), ("C", 7.0, 1.0));
    // Three others are enough to tell, and two are not.
    let first = |count: usize| pack(&packing(vec![set_up(Readings::Heights, &read[..count])])).unwrap();
    assert_eq!([3, 4].map(|count| first(count).odd_one_out.is_some()), [false, true]);
    // The same 7 mm in a bed that wanders by 8 mm anyway is nothing odd.
    let wander = [("A", 0.0), ("B", 8.0), ("C", 15.0), ("D", 3.0), ("E", 1.0), ("F", 5.0)];
    assert_eq!(pack(&packing(vec![set_up(Readings::Heights, &wander)])).unwrap().odd_one_out, None);
}

/// The four corners of the L at the top and right, read as heights.
fn heights_of([a, b, c, d]: [f64; 4]) -> Packs {
    pack(&packing(vec![set_up(Readings::Heights, &[("A", a), ("B", b), ("C", c), ("D", d)])])).unwrap()
}

/// Ours, the rule at its values: it stands higher above the next than all the others differ (10), and by a packer (1) or more.
#[test]
fn a_high_point_is_odd_past_what_the_others_differ_and_from_the_thinnest_packer_on() {
    let odd = |heights| heights_of(heights).odd_one_out.map(|odd| odd.by.0);
    assert_eq!(odd([10.0, 0.0, -10.0, -5.0]), None);
    assert_eq!(odd([11.0, 0.0, -10.0, -5.0]), Some(11.0));
    assert_eq!(odd([1.0, 0.0, 0.0, 0.0]), Some(1.0));
    assert_eq!(odd([0.9, 0.0, 0.0, 0.0]), None);
}

/// Ours, the rule at its values: more than 30 mm beyond all the others, and more than twice what they differ, up and down.
#[test]
fn a_place_is_read_again_past_30_mm_and_past_twice_what_the_others_differ() {
    let again = |heights| heights_of(heights).read_again.map(|again| (again.name, again.beyond.0));
    let d = |beyond| Some(("D".to_owned(), beyond));
    assert_eq!(again([0.0, -3.0, -5.0, 30.0]), None);
    assert_eq!(again([0.0, -3.0, -5.0, 31.0]), d(31.0));
    assert_eq!(again([0.0, -10.0, -20.0, 40.0]), None);
    assert_eq!(again([0.0, -10.0, -20.0, 41.0]), d(41.0));
    assert_eq!(again([0.0, -3.0, -5.0, -35.0]), None);
    assert_eq!(again([0.0, -3.0, -5.0, -36.0]), d(-31.0));
    assert_eq!(again([0.0, -10.0, -20.0, -60.0]), None);
    assert_eq!(again([0.0, -10.0, -20.0, -61.0]), d(-41.0));
    // Two others are too few to tell.
    let three = [("A", 0.0), ("B", -3.0), ("C", 100.0)];
    assert_eq!(pack(&packing(vec![set_up(Readings::Heights, &three)])).unwrap().read_again, None);
}

#[test]
fn a_named_datum_under_the_highest_point_says_what_stands_above_it() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.datum = Datum::Named(at("b"));
    let answer = pack(&input).unwrap();
    assert_eq!(answer.verdict, PackVerdict::AboveDatum);
    assert_eq!(station(&answer, "C").flags, [Flag::AboveDatum]);
    assert_eq!((station(&answer, "C").pack, station(&answer, "C").remainder), (Mm(-4.0), Mm(-4.0)));
    assert_eq!(station(&answer, "A").pack, Mm(3.0));
    input.datum = Datum::Named(at("AB@100"));
    assert!(matches!(pack(&input), Err(PackingError::DatumNotRead { .. })));
}

/// Ours: AB's middle reads 4 mm lower than the line between its ends, so studs follow it down and up again.
#[test]
fn studs_follow_the_readings_along_a_side_and_are_left_out_where_there_are_none() {
    let mut input = packing(vec![SetUp {
        kind: Readings::Heights,
        readings: vec![(at("A"), 10.0), (at("AB@3900"), 6.0), (at("B"), 10.0), (at("CB@600"), 10.0)],
    }]);
    input.studs = Some(1300.0);
    let answer = pack(&input).unwrap();
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
    let unread: Vec<(&str, f64, f64)> =
        answer.unread.iter().map(|u| (u.side.as_str(), u.from.0, u.to.0)).collect();
    assert_eq!(unread[0], ("BC", 3000.0, 3600.0));
    assert_eq!(unread.len(), 5);
    // Between A and 2000 along, and not beyond.
    input.set_ups[0].readings = vec![(at("A"), 10.0), (at("AB@2000"), 6.0)];
    let under: Vec<String> = pack(&input).unwrap().studs.into_iter().map(|stud| stud.name).collect();
    assert_eq!(under, ["AB@1300"]);
}

#[test]
fn no_studs_stand_on_a_house_side() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.studs = Some(600.0);
    let extension = outline().with_house(&[0]);
    let answer = packs(&extension, &input).unwrap();
    assert!(answer.studs.iter().all(|s| !s.name.starts_with("AB")));
    assert!(!answer.studs.is_empty());
}

#[test]
fn a_van_without_the_packers_says_where_it_falls_short() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.packers = vec![Packer { thickness: 5.0, count: Some(6) }];
    let answer = pack(&input).unwrap();
    assert_eq!(answer.verdict, PackVerdict::Short);
    // 4 by a 5 and 6 by a 5 are 1 mm out, which is near enough; 7 by a 5 is not.
    assert_eq!(station(&answer, "A").remainder, Mm(2.0));
    assert!(station(&answer, "A").flags.contains(&Flag::NotMadeUp));
    assert!(!station(&answer, "D").flags.contains(&Flag::NotMadeUp));
    assert_eq!(answer.totals[0].count, 6);
}

#[test]
fn what_cannot_be_read_is_refused_with_the_place() {
    let refused = |readings: &[(&str, f64)]| {
        let input = packing(vec![set_up(Readings::Staff, readings)]);
        pack(&input).unwrap_err().to_string()
    };
    assert!(refused(&[("A", f64::NAN)]).contains("reading at A"));
    assert!(refused(&[("A", 1.0)]).contains("too few readings"));
    assert_eq!(
        refused(&[("A", 1.0), ("AB@600", 2000.0)]),
        "AB@600 lies 1999 mm below the datum: more than the 1000 mm that can be packed; check the reading and its unit"
    );
    let mut tiny = packing(vec![set_up(Readings::Staff, &STAFF)]);
    tiny.studs = Some(1e-9);
    assert!(matches!(pack(&tiny), Err(PackingError::Amount(AmountError::TooMany { .. }))));
    assert!(pack(&packing(vec![])).is_err());
}
