//! The worked example in `fixtures/`, and what a few words change of it.

use pegline::joists::{Held, Mark, Rows, Support};
use pegline::packers::Packer;
use serde_json::Value;

use super::{marks, plan, question, read, set_out};

const L: &str = "5000x4000-2000x1500";

fn example() -> Value {
    serde_json::from_str(include_str!("../../../fixtures/joists-by-hand.json")).unwrap()
}

/// Worked by hand, step by step, in the fixture.
#[test]
fn an_l_comes_out_as_it_was_worked_by_hand() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.heights_from = read(&footprint, &[("A", 0.0), ("B", -10.0)]);
    question.heights_to = read(&footprint, &[("F", -4.0), ("E", -10.0), ("D", -2.0), ("C", -7.0)]);
    question.packers = [1.0, 2.0, 3.0, 5.0].map(|thickness| Packer { thickness, count: None }).to_vec();
    let answer = set_out(&footprint, &question).unwrap();
    let example = example();
    let levels = answer.levels.as_ref().unwrap();
    assert!((levels.underside.0 - example["underside"].as_f64().unwrap()).abs() < 1e-9);
    assert_eq!((levels.joist.as_str(), levels.on.as_str()), ("7", "CD"));
    let wanted = example["joists"].as_array().unwrap();
    assert_eq!(answer.joists.len(), wanted.len());
    for (joist, wanted) in answer.joists.iter().zip(wanted) {
        let name = &joist.name;
        let near = |found: f64, key: &str| {
            let by_hand = wanted[key].as_f64().unwrap();
            assert!((found - by_hand).abs() < 1e-9, "{name}: {key} {found}, by hand {by_hand}");
        };
        assert_eq!(name, wanted["name"].as_str().unwrap());
        assert_eq!(joist.to.on, wanted["to"].as_str().unwrap());
        assert_eq!(joist.to.from_corner.unwrap().to_string(), wanted["corner"].as_str().unwrap());
        assert_eq!((joist.from.held, joist.to.held), (Held::Hung, Held::Bears));
        near(joist.mark.0, "mark");
        near(joist.to.mark.unwrap().0, "mark_there");
        near(joist.length.0, "length");
        near(joist.from.seat.as_ref().unwrap().up.0, "hanger_up");
        let seat = joist.to.seat.as_ref().unwrap();
        near(seat.up.0, "gap");
        let packers: Vec<f64> = seat.packers.iter().map(|mm| mm.0).collect();
        let by_hand: Vec<f64> =
            wanted["packers"].as_array().unwrap().iter().map(|mm| mm.as_f64().unwrap()).collect();
        assert_eq!(packers, by_hand, "{name}");
    }
    let hangers: Vec<(f64, usize)> = answer.hangers.iter().map(|h| (h.width.0, h.count)).collect();
    assert_eq!(hangers, [(50.0, 10)]);
    let spans: Vec<(f64, usize)> = answer.spans.iter().map(|span| (span.span.0, span.joists)).collect();
    assert_eq!(spans, [(3900.0, 6), (2400.0, 4)]);
}

/// By hand: a fall of 1:40 to the second support drops 3900 / 40 = 97.5 to EF and 2400 / 40 = 60 to CD, so that CD's 0 asks for
/// 60 at AB and EF's 0 for 97.5; EF rules. A joist of 3973 on plan is 3973 × √(1 + 1/1600) long.
#[test]
fn a_fall_runs_down_to_the_support_that_is_named() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.heights_to = read(&footprint, &[("F", 0.0), ("E", 0.0), ("D", 0.0), ("C", 0.0)]);
    question.fall = Some((40.0, Support::To));
    let answer = set_out(&footprint, &question).unwrap();
    let levels = answer.levels.as_ref().unwrap();
    assert!((levels.underside.0 - 97.5).abs() < 1e-9, "{levels:?}");
    let gap = |name: usize| answer.joists[name].to.seat.as_ref().unwrap().up.0;
    assert!(gap(0).abs() < 1e-9);
    assert!((gap(9) - 37.5).abs() < 1e-9);
    assert!((answer.joists[0].length.0 - 3973.0 * (1.0 + 1.0 / 1600.0_f64).sqrt()).abs() < 1e-9);
    question.fall = Some((40.0, Support::From));
    let answer = set_out(&footprint, &question).unwrap();
    let gap = |name: usize| answer.joists[name].to.seat.as_ref().unwrap().up.0;
    assert!((gap(0) - 37.5).abs() < 1e-9 && gap(9).abs() < 1e-9, "CD lies nearer to the low end");
}

#[test]
fn a_mark_is_the_line_of_the_joist_that_was_asked_for() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    let near = marks(&set_out(&footprint, &question).unwrap());
    for (mark, more) in [(Mark::Far, 50.0), (Mark::Centre, 25.0)] {
        question.mark = mark;
        let answer = set_out(&footprint, &question).unwrap();
        assert_eq!(marks(&answer), near.iter().map(|mm| mm + more).collect::<Vec<_>>());
        assert_eq!(answer.joists[6].to.mark.unwrap().0, 150.0 + more);
    }
}

/// By hand, from B: BC's 100 and 50 clear are 150, then every 600 while CD lasts (to 2100 from B); the joist clear of DE
/// begins at 2150, and the last one at 5000 - 200 = 4800.
#[test]
fn joists_are_set_out_from_the_other_end() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.backward = true;
    let answer = set_out(&footprint, &question).unwrap();
    assert_eq!(answer.set_out_from, 'B');
    assert_eq!(
        marks(&answer),
        [150.0, 750.0, 1350.0, 1950.0, 2150.0, 2550.0, 3150.0, 3750.0, 4350.0, 4800.0]
    );
    let ends: Vec<(char, f64)> =
        answer.joists.iter().map(|joist| (joist.to.from_corner.unwrap(), joist.to.mark.unwrap().0)).collect();
    assert_eq!((ends[3], ends[4]), (('C', 1950.0), ('E', 150.0)));
}

/// By hand: a joist at centres that the one at the wall would run into takes its place while that leaves no more than
/// 75 clear (4 m less 2 × 100 of wall and 50 clear: the last would begin at 3800, the eighth at centres begins at 3790).
#[test]
fn the_last_joist_gives_way_a_little_to_keep_the_centres() {
    let footprint = plan("4000x3000");
    let mut question = question(&footprint, "CD");
    question.centres = 455.0;
    let answer = set_out(&footprint, &question).unwrap();
    assert_eq!(marks(&answer).last(), Some(&3790.0));
    assert_eq!(answer.widest.0, 455.0);
    // At 452 it would be 84 clear: the one at centres stands beside the last instead.
    question.centres = 452.0;
    let found = marks(&set_out(&footprint, &question).unwrap());
    assert_eq!(found[found.len() - 2..], [3750.0, 3800.0]);
}

/// Published: no row under 2.5 m, one to 4.5 m, two over. By hand: the span to EF is 3900, so one row at 1950 of it; to
/// CD it is 2400, so none. Between joists 600 apart 550 is left, and 200 before the one clear of DE.
#[test]
fn noggings_go_by_the_span_and_fit_between_the_joists() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.rows = Rows::Published;
    let answer = set_out(&footprint, &question).unwrap();
    let rows: Vec<(&str, f64)> = answer.noggings.iter().map(|row| (row.to.as_str(), row.at.0)).collect();
    assert_eq!(rows, [("EF", 1950.0)]);
    let lengths: Vec<f64> = answer.noggings[0].lengths.iter().map(|mm| mm.0).collect();
    assert_eq!(lengths, [550.0, 550.0, 550.0, 550.0, 200.0]);
    question.rows = Rows::Count(2);
    let answer = set_out(&footprint, &question).unwrap();
    let rows: Vec<(&str, f64)> = answer.noggings.iter().map(|row| (row.to.as_str(), row.at.0)).collect();
    assert_eq!(rows, [("EF", 1300.0), ("EF", 2600.0), ("CD", 800.0), ("CD", 1600.0)]);
}

/// By hand: the bearer is 47 thick, so joists are 47 shorter; it runs from wall to wall, 5000 - 200 = 4800, and bolts at
/// most 600 apart are 8 spaces and 9 bolts.
#[test]
fn a_bearer_shortens_the_joists_and_takes_bolts() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.bearer = 47.0;
    question.bolts = Some(600.0);
    let answer = set_out(&footprint, &question).unwrap();
    assert_eq!((answer.joists[0].length.0, answer.spans[0].span.0), (3926.0, 3853.0));
    let bearer = &answer.bearers[0];
    assert_eq!((bearer.side.as_str(), bearer.length.0, bearer.bolts), ("AB", 4800.0, Some(9)));
}

#[test]
fn a_support_that_is_not_read_on_both_sides_of_a_joist_is_told() {
    let footprint = plan(L);
    let mut question = question(&footprint, "EF,CD");
    question.heights_from = read(&footprint, &[("A", 0.0), ("B", -6.0)]);
    question.heights_to = read(&footprint, &[("F", 0.0), ("EF@800", -3.0)]);
    let answer = set_out(&footprint, &question).unwrap();
    assert_eq!(answer.levels.unwrap().unread, ["EF", "CD"]);
    let read: Vec<bool> = answer.joists.iter().map(|joist| joist.to.seat.is_some()).collect();
    assert_eq!(read, [true, true, true, true, false, false, false, false, false, false]);
}
