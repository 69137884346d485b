//! Several set-ups tied by the places that two of them read.

use pegline::geometry::Mm;
use pegline::levels::{LevelsError, Readings};

use super::{STAFF, pack, packing, set_up, station};

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
    let answer = pack(&packing(vec![first, second])).unwrap();
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
    // The second line of sight is 101 higher than the first, which is 1405.5 over C, the datum.
    let sights: Vec<f64> = answer.set_ups.iter().map(|s| s.sight.0).collect();
    assert!(
        (sights[0] - 1405.5).abs() < 1e-9 && (sights[1] - 1506.5).abs() < 1e-9,
        "{sights:?}"
    );
    // First set-up: C −1405.5, A −1412; second: D −1511 + 101 = −1410.
    assert!((station(&answer, "A").pack.0 - 6.5).abs() < 1e-9);
    assert!((station(&answer, "D").pack.0 - 4.5).abs() < 1e-9);
}

#[test]
fn set_ups_that_close_agree_with_one_set_up() {
    let once = pack(&packing(vec![set_up(Readings::Staff, &STAFF)])).unwrap();
    let second: Vec<(&str, f64)> = STAFF[2..].iter().map(|(n, r)| (*n, r + 333.0)).collect();
    let twice = pack(&packing(vec![
        set_up(Readings::Staff, &STAFF[..4]),
        set_up(Readings::Staff, &second),
    ]))
    .unwrap();
    assert_eq!(once.stations, twice.stations);
    assert_eq!(twice.closure.unwrap().worst, Mm(0.0));
}

#[test]
fn a_set_up_tied_to_nothing_is_refused() {
    let error = pack(&packing(vec![
        set_up(Readings::Staff, &STAFF[..3]),
        set_up(Readings::Staff, &STAFF[3..]),
    ]));
    assert_eq!(error, Err(LevelsError::NotTied { set_up: 2 }));
}
