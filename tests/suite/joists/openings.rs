//! Openings in the roof, joists in pairs, and what they take of timber and hangers.

use pegline::joists::{Held, JoistsError, Role, RoofOpening};

use super::{marks, plan, question, set_out};

fn opening(along: f64, out: f64, width: f64, length: f64) -> RoofOpening {
    RoofOpening { name: "rooflight".to_owned(), along, out, width, length }
}

/// By hand: 4100 x 3000, joists at 150, 750, 1350, … 3750, and 3900 clear of the wall. An opening from 1500 to 2400 and from 1000 to 2000
/// out: joists beside it at 1450 and 2400; 1350 + 50 = 1400 clears the first. 1950 is cut: from 2 to 1000 - 50 - 2 = 948,
/// and from 2000 + 50 + 2 = 2052 to 2975. The trimmers fill 900 less two gaps.
#[test]
fn an_opening_is_trimmed_and_the_joists_between_are_cut() {
    let footprint = plan("4100x3000");
    let mut question = question(&footprint, "CD");
    question.openings = vec![opening(1500.0, 1000.0, 900.0, 1000.0)];
    let answer = set_out(&footprint, &question).unwrap();
    let found: Vec<(&str, Role, f64, f64)> =
        answer.joists.iter().map(|j| (j.name.as_str(), j.role, j.mark.0, j.length.0)).collect();
    assert_eq!(
        found[2..7],
        [
            ("3", Role::Joist, 1350.0, 2973.0),
            ("4", Role::Trimming, 1450.0, 2973.0),
            ("5a", Role::Cut, 1950.0, 946.0),
            ("5b", Role::Cut, 1950.0, 923.0),
            ("6", Role::Trimming, 2400.0, 2973.0),
        ]
    );
    let trimmers: Vec<(f64, f64, usize)> =
        answer.trimmers.iter().map(|t| (t.at.0, t.length.0, t.count)).collect();
    assert_eq!(trimmers, [(1000.0, 896.0, 1), (2000.0, 896.0, 1)]);
    // Each whole joist hangs at AB alone, 9 of them; the cut one at AB and on both trimmers, which hang at both ends.
    let whole = answer.joists.iter().filter(|joist| joist.role != Role::Cut).count();
    assert_eq!(answer.hangers[0].count, whole + 3 + 4);
    let cut = &answer.joists[5];
    assert_eq!((cut.from.held, cut.from.on.as_str(), cut.from.mark), (Held::Hung, "rooflight", None));
    // What stands in the opening is nothing.
    for joist in &answer.joists {
        let beside = joist.near.0 >= 2400.0 || joist.near.0 + 50.0 <= 1500.0;
        let over = joist.from.at.0 >= 2000.0 || joist.to.at.0 <= 1000.0;
        assert!(beside || over, "{joist:?}");
    }
}

/// By hand: in pairs the joists beside it stand at 1400 and 1450, 2400 and 2450, where 1350 has just room; trimmers are
/// 100 thick, so the cut ends are 50 shorter each, and hang in wide hangers.
#[test]
fn trimmers_and_trimming_joists_come_in_pairs_where_asked() {
    let footprint = plan("4100x3000");
    let mut question = question(&footprint, "CD");
    question.openings = vec![opening(1500.0, 1000.0, 900.0, 1000.0)];
    question.double_trimming = true;
    let answer = set_out(&footprint, &question).unwrap();
    let trimming: Vec<f64> =
        answer.joists.iter().filter(|j| j.role == Role::Trimming).map(|j| j.mark.0).collect();
    assert_eq!(trimming, [1400.0, 1450.0, 2400.0, 2450.0]);
    let cut: Vec<f64> = answer.joists.iter().filter(|j| j.role == Role::Cut).map(|j| j.length.0).collect();
    assert_eq!(cut, [896.0, 873.0]);
    assert_eq!(answer.trimmers[0].count, 2);
    assert!(answer.hangers.iter().any(|hangers| hangers.width.0 == 100.0));
}

/// By hand: the one at centres, 1950, runs into the one beside an opening. At 1940 that one serves for both, 590 from the
/// last; at 1960 it would be 610 from it, so one more stands tight against it, at 1910.
#[test]
fn a_joist_that_runs_into_a_trimming_joist_gives_way_or_stands_tight_against_it() {
    let footprint = plan("4100x3000");
    let mut question = question(&footprint, "CD");
    for (along, there) in [(1990.0, [1350.0, 1940.0, 2290.0]), (2010.0, [1350.0, 1910.0, 1960.0])] {
        question.openings = vec![opening(along, 1000.0, 300.0, 1000.0)];
        let answer = set_out(&footprint, &question).unwrap();
        assert_eq!(marks(&answer)[2..5], there);
        assert!(answer.widest.0 <= 600.0);
    }
}

#[test]
fn an_opening_against_the_house_has_no_trimmer_there() {
    let footprint = plan("4100x3000");
    let mut question = question(&footprint, "CD");
    question.openings = vec![opening(1500.0, 0.0, 900.0, 1000.0)];
    let answer = set_out(&footprint, &question).unwrap();
    assert_eq!(answer.trimmers.len(), 1);
    let cut: Vec<&str> =
        answer.joists.iter().filter(|j| j.role == Role::Cut).map(|j| j.name.as_str()).collect();
    assert_eq!(cut, ["5b"]);
}

#[test]
fn an_opening_that_cannot_be_trimmed_is_refused() {
    let footprint = plan("5000x4000-2000x1500");
    for (along, out, width, length) in [
        (100.0, 500.0, 900.0, 900.0),   // no joist fits between it and FA
        (2500.0, 2000.0, 900.0, 900.0), // over the corner D
        (900.0, 3500.0, 900.0, 600.0),  // over EF
        (900.0, 20.0, 900.0, 900.0),    // too near AB for a trimmer
        (900.0, 500.0, 3.0, 900.0),     // no room for the trimmer
    ] {
        let mut question = question(&footprint, "EF,CD");
        question.openings = vec![opening(along, out, width, length)];
        let refused = set_out(&footprint, &question);
        assert!(matches!(refused, Err(JoistsError::Opening { .. })), "{along}, {out}: {refused:?}");
    }
}

/// By hand: the joist nearest to 2000 is at 1950, so its second stands at 2000, in one wide hanger with it.
#[test]
fn a_joist_is_doubled_where_asked() {
    let footprint = plan("4100x3000");
    let mut question = question(&footprint, "CD");
    let single = set_out(&footprint, &question).unwrap();
    question.doubled = vec![2000.0];
    let answer = set_out(&footprint, &question).unwrap();
    let second: Vec<f64> =
        answer.joists.iter().filter(|j| j.role == Role::Second).map(|j| j.mark.0).collect();
    assert_eq!(second, [2000.0]);
    let hangers: Vec<(f64, usize)> = answer.hangers.iter().map(|h| (h.width.0, h.count)).collect();
    assert_eq!(hangers, [(50.0, single.joists.len() - 1), (100.0, 1)]);
}
