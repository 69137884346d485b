//! Several set-ups tied by the places that two of them read.

use pegline::geometry::Mm;
use pegline::packing::{PackingError, Readings};

use super::{STAFF, pack, packing, set_up, station};

/// Ours, by hand. The second set-up stands 100 higher; it reads C and F again, C 2 mm lower than carried. Shared out
/// by least squares over two common places: the set-ups differ by 101, so C and F are each out by half of 2 mm, and
/// each of their two readings takes half of that.
#[test]
fn two_set_ups_are_tied_and_their_misclosure_shared_out() {
    let first = set_up(Readings::Staff, &[("F", 1410.0), ("A", 1412.0), ("B", 1409.0), ("C", 1405.0)]);
    let second = set_up(Readings::Staff, &[("F", 1510.0), ("C", 1507.0), ("D", 1511.0), ("E", 1515.0)]);
    let answer = pack(&packing(vec![first, second])).unwrap();
    let closure = answer.closure.as_ref().unwrap();
    assert_eq!(closure.closings.len(), 1);
    assert_eq!((closure.closings[0].name.as_str(), closure.closings[0].set_up), ("C", 2));
    assert!((closure.closings[0].misclosure.0 + 2.0).abs() < 1e-9);
    assert!((closure.worst.0 - 2.0).abs() < 1e-9);
    assert_eq!(closure.corrections.len(), 4);
    for correction in &closure.corrections {
        assert!((correction.correction.0.abs() - 0.5).abs() < 1e-9, "{correction:?}");
    }
    // The second line of sight is 101 higher than the first, which is 1405.5 over C, the datum.
    let sights: Vec<f64> = answer.set_ups.iter().map(|s| s.sight.0).collect();
    assert!((sights[0] - 1405.5).abs() < 1e-9 && (sights[1] - 1506.5).abs() < 1e-9, "{sights:?}");
    // First set-up: C −1405.5, A −1412; second: D −1511 + 101 = −1410.
    assert!((station(&answer, "A").pack.0 - 6.5).abs() < 1e-9);
    assert!((station(&answer, "D").pack.0 - 4.5).abs() < 1e-9);
}

#[test]
fn set_ups_that_close_agree_with_one_set_up() {
    let once = pack(&packing(vec![set_up(Readings::Staff, &STAFF)])).unwrap();
    let second: Vec<(&str, f64)> = STAFF[2..].iter().map(|(n, r)| (*n, r + 333.0)).collect();
    let twice =
        pack(&packing(vec![set_up(Readings::Staff, &STAFF[..4]), set_up(Readings::Staff, &second)])).unwrap();
    assert_eq!(once.stations, twice.stations);
    assert_eq!(twice.closure.unwrap().worst, Mm(0.0));
}

#[test]
fn a_set_up_tied_to_nothing_is_refused() {
    let error =
        pack(&packing(vec![set_up(Readings::Staff, &STAFF[..3]), set_up(Readings::Staff, &STAFF[3..])]));
    assert_eq!(error, Err(PackingError::NotTied { set_up: 2 }));
}

/// What a levelled run read in metres comes to: the height of each place over the first one's, mm. It is worked at a tenth
/// of its size, since more than a metre is no gap to pack.
fn risen(set_ups: &[&[(&str, f64)]]) -> Vec<(String, f64)> {
    let set_ups = set_ups.iter().map(|read| {
        let mm: Vec<(&str, f64)> = read.iter().map(|(place, metres)| (*place, metres * 100.0)).collect();
        set_up(Readings::Staff, &mm)
    });
    let answer = pack(&packing(set_ups.collect())).unwrap();
    let first = station(&answer, "A").height.0;
    let stations = answer.stations.iter();
    stations.map(|s| (s.name.clone(), (s.height.0 - first) * 10.0)).collect()
}

/// Source: a teaching page on levelling with one change point, every level printed: bench mark 100.000 with back
/// sight 1.855; A 2.410 → 99.445, B 1.280 → 100.575, change point 0.995 → 100.860, C → 100.415. The last two
/// readings were noted as 2.165 (back) and 1.720 (fore), which would be a rise; every printed level needs a fall of
/// 0.445 there, so they stand here the other way round. The bench mark is A here, its A to C are B, C and E, the change point D.
#[test]
fn one_change_point_gives_every_printed_level() {
    let risen =
        risen(&[&[("A", 1.855), ("B", 2.410), ("C", 1.280), ("D", 0.995)], &[("D", 1.720), ("E", 2.165)]]);
    let printed = [("A", 0.0), ("B", -555.0), ("C", 575.0), ("D", 860.0), ("E", 415.0)];
    for ((name, rise), (place, level)) in risen.iter().zip(printed) {
        assert_eq!(name, place);
        assert!((rise - level).abs() < 1e-6, "{name}: {rise}, printed {level}");
    }
}

/// Source: a published examination question, inputs as printed; the reduction ours: back sights 4.746, fore sights
/// 6.803, so the last point lies 2.057 under the first. Its ten points are A to F and four places along AB here.
#[test]
fn an_examination_questions_four_set_ups_come_to_the_fall_of_their_sums() {
    let risen = risen(&[
        &[("A", 1.085), ("B", 2.036), ("C", 2.231), ("D", 3.014)],
        &[("D", 0.613), ("E", 2.003), ("F", 2.335)],
        &[("F", 1.622), ("AB@1000", 1.283), ("AB@2000", 0.543)],
        &[("AB@2000", 1.426), ("AB@3000", 1.795), ("AB@4000", 0.911)],
    ]);
    let last = risen.iter().find(|(name, _)| name == "AB@4000").unwrap();
    assert!((last.1 + 2057.0).abs() < 1e-6, "{}", last.1);
}
