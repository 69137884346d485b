//! What can't be set out is refused with what to do, and nothing is a panic.

use pegline::joists::{JoistsError, Question, RoofOpening, Rows};
use pegline::length::{InUnits, Units};
use pegline::rules::{JOIST_RULES, joist_rule};
use proptest::prelude::*;

use super::{plan, question, read, set_out};

#[test]
fn supports_that_do_not_face_each_other_are_refused() {
    let footprint = plan("7800x6000-3000x2400");
    let refused = |from: &[usize], to: &[usize]| {
        let question = Question { from: from.to_vec(), to: to.to_vec(), ..question(&footprint, "EF") };
        set_out(&footprint, &question).unwrap_err().to_string()
    };
    assert!(refused(&[], &[4]).contains("a side at both ends"));
    assert!(refused(&[0, 1], &[4]).contains("AB and BC are not one support"));
    assert!(refused(&[0], &[1]).contains("no joist can run from AB to BC"));
    assert!(refused(&[0], &[0]).contains("no joist can run from AB to AB"));
    assert!(refused(&[9], &[4]).contains("a side at both ends"));
}

#[test]
fn a_bearing_longer_than_the_wall_and_joists_that_touch_are_refused() {
    let footprint = plan("4000x3000");
    let given = question(&footprint, "CD");
    let long = Question { bearing: 101.0, ..given.clone() };
    assert_eq!(
        set_out(&footprint, &long).unwrap_err().message(Units::Mm),
        "a bearing of 101 mm is more than the wall is thick, 100 mm: write a shorter one, or the wall's thickness"
    );
    let close = Question { centres: 50.0, ..given };
    assert!(matches!(set_out(&footprint, &close), Err(JoistsError::Centres { .. })));
}

#[test]
fn heights_are_read_on_their_own_support() {
    let footprint = plan("4000x3000");
    let mut question = question(&footprint, "CD");
    question.heights_to = read(&footprint, &[("A", 0.0)]);
    assert_eq!(
        set_out(&footprint, &question).unwrap_err().to_string(),
        "A is not on CD: read the support itself, at corners or along it such as CD@1200mm"
    );
}

/// Published figures, as the table of rules has them: each least and most is kept at the figure and not beyond it.
#[test]
fn bearings_and_centres_are_held_to_a_published_rule() {
    let footprint = plan("4000x3000");
    let mut question = question(&footprint, "CD");
    question.rule = Some(joist_rule("nhbc").unwrap());
    let verdict = |question: &Question| set_out(&footprint, question).unwrap().verdict.good();
    assert!(verdict(&question), "75 on timber and 600 centres are just enough");
    assert!(!verdict(&Question { bearing: 74.9, ..question.clone() }));
    assert!(!verdict(&Question { centres: 601.0, ..question.clone() }));
    assert!(!verdict(&Question { bears_on: pegline::joists::BearsOn::Masonry, ..question.clone() }));
    // A hanger that reaches 76 less the gap of 2 bears 74.
    assert!(!verdict(&Question { seat: Some(76.0), ..question.clone() }));
    assert!(verdict(&Question { seat: Some(77.0), ..question }));
    assert_eq!(JOIST_RULES.len(), 3);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn no_figure_is_a_panic(
        figures in prop::collection::vec(prop_oneof![any::<f64>(), -100.0..5000.0, Just(0.0)], 13),
        sides in prop::collection::vec(0_usize..7, 2),
        rows in 0_usize..30,
    ) {
        let footprint = plan("5000x4000-2000x1500");
        let question = Question {
            from: vec![sides[0]],
            to: vec![sides[1]],
            hung: vec![0],
            wall: figures[0],
            bearing: figures[1],
            gap: figures[2],
            bearer: figures[3],
            bolts: Some(figures[4]),
            doubled: vec![figures[5]],
            rows: Rows::Count(rows),
            openings: vec![RoofOpening { name: "o".to_owned(), along: figures[6], out: figures[7], width: figures[8], length: figures[9] }],
            ..Question::new(figures[10], figures[11], figures[12])
        };
        if let Ok(answer) = set_out(&footprint, &question) {
            prop_assert!(serde_json::to_string(&answer).is_ok());
        }
    }
}
