//! The levelling book against published examples.

use pegline::levels::{Book, BookLine, LevelsError, Reduction, reduce_book};
use proptest::prelude::*;

/// Metres to mm: the published figures are in metres to a millimetre.
fn mm(metres: f64) -> f64 {
    metres * 1000.0
}

fn line(point: &str, back: Option<f64>, intermediate: Option<f64>, fore: Option<f64>) -> BookLine {
    BookLine {
        point: point.to_owned(),
        back: back.map(mm),
        intermediate: intermediate.map(mm),
        fore: fore.map(mm),
    }
}

fn near(found: f64, metres: f64) {
    assert!(
        (found - mm(metres)).abs() < 1e-6,
        "{found} mm, published {metres} m"
    );
}

fn heights(reduction: &Reduction) -> Vec<f64> {
    reduction.lines.iter().map(|l| l.height.0).collect()
}

/// Source: a teaching page on levelling with one change point, every level printed: bench mark 100.000 with back
/// sight 1.855; A 2.410 → 99.445, B 1.280 → 100.575, change point 0.995 → 100.860, C → 100.415; rises 1.415, falls
/// 1.000. The last two readings were noted as 2.165 (back) and 1.720 (fore), which would be a rise; every printed
/// level, rise and fall needs a fall of 0.445 there, so they stand here the other way round.
#[test]
fn one_change_point_gives_every_printed_level() {
    let book = Book {
        start: mm(100.0),
        known_end: None,
        lines: vec![
            line("BM", Some(1.855), None, None),
            line("A", None, Some(2.410), None),
            line("B", None, Some(1.280), None),
            line("CP1", Some(1.720), None, Some(0.995)),
            line("C", None, None, Some(2.165)),
        ],
    };
    let reduction = reduce_book(&book).unwrap();
    for (found, printed) in heights(&reduction)
        .into_iter()
        .zip([100.0, 99.445, 100.575, 100.860, 100.415])
    {
        near(found, printed);
    }
    near(reduction.rises.0, 1.415);
    near(reduction.falls.0, 1.000);
    near(reduction.difference.0, 0.415);
    assert_eq!(reduction.misclosure, None);
}

fn exam() -> Book {
    Book {
        start: mm(43.650),
        known_end: Some(mm(41.672)),
        lines: vec![
            line("A", Some(1.085), None, None),
            line("1", None, Some(2.036), None),
            line("2", None, Some(2.231), None),
            line("3", Some(0.613), None, Some(3.014)),
            line("4", None, Some(2.003), None),
            line("5", Some(1.622), None, Some(2.335)),
            line("6", None, Some(1.283), None),
            line("7", Some(1.426), None, Some(0.543)),
            line("8", None, Some(1.795), None),
            line("B", None, None, Some(0.911)),
        ],
    }
}

/// Source: a published examination question, inputs as printed; the reduction ours: back sights 4.746, fore sights
/// 6.803, B comes to 41.593 and is known to be 41.672, out by −0.079.
#[test]
fn an_examination_question_closes_seventy_nine_millimetres_low() {
    let reduction = reduce_book(&exam()).unwrap();
    near(reduction.back_sights.0, 4.746);
    near(reduction.fore_sights.0, 6.803);
    near(reduction.lines[9].height.0, 41.593);
    near(reduction.misclosure.unwrap().0, -0.079);
    near(reduction.rises.0 - reduction.falls.0, -2.057);
    assert_eq!(reduction.set_ups, 4);
}

/// Common practice, no source: equal shares a set-up, so 79/4 = 19.75 mm, 39.5, 59.25 and the whole at the end.
#[test]
fn the_closing_error_is_shared_equally_among_the_set_ups() {
    let reduction = reduce_book(&exam()).unwrap();
    let shares: Vec<f64> = reduction
        .lines
        .iter()
        .map(|l| l.adjusted.0 - l.height.0)
        .collect();
    let expected = [0.0, 19.75, 19.75, 19.75, 39.5, 39.5, 59.25, 59.25, 79.0, 79.0];
    for (share, expected) in shares.iter().zip(expected) {
        assert!((share - expected).abs() < 1e-6, "{share}, {expected}");
    }
    near(reduction.lines[9].adjusted.0, 41.672);
}

#[test]
fn a_book_that_does_not_follow_is_refused_at_its_line() {
    let problem = |change: &dyn Fn(&mut Book)| {
        let mut book = exam();
        change(&mut book);
        reduce_book(&book).unwrap_err().to_string()
    };
    assert!(problem(&|b| b.lines[0].fore = Some(1.0)).contains("line 1"));
    assert!(problem(&|b| b.lines[3].back = None).contains("line 4 of the book, `3`"));
    assert!(problem(&|b| b.lines[9].back = Some(1.0)).contains("the last line has a fore sight"));
    assert!(problem(&|b| b.lines[4].intermediate = Some(f64::NAN)).contains("reading at 4"));
    assert!(problem(&|b| b.start = 1e300).contains("start height"));
    assert_eq!(reduce_book(&Book::default()), Err(LevelsError::NoReadings));
    let one = Book {
        lines: exam().lines[..1].to_vec(),
        ..Book::default()
    };
    assert_eq!(reduce_book(&one), Err(LevelsError::NoReadings));
}

proptest! {
    /// Both customary checks hold whatever was read: Σ back − Σ fore = Σ rise − Σ fall = last − first.
    #[test]
    fn both_reductions_agree(start in -1e5..1e5_f64, set_ups in prop::collection::vec((0.0..4000.0_f64, prop::collection::vec(0.0..4000.0_f64, 0..4), 0.0..4000.0_f64), 1..6)) {
        let mut lines = Vec::new();
        let mut fore = None;
        for (back, between, next) in &set_ups {
            lines.push(BookLine { point: "p".into(), back: Some(*back), intermediate: None, fore });
            lines.extend(between.iter().map(|r| BookLine { point: "p".into(), intermediate: Some(*r), ..BookLine::default() }));
            fore = Some(*next);
        }
        lines.push(BookLine { point: "end".into(), fore, ..BookLine::default() });
        let r = reduce_book(&Book { start, known_end: None, lines }).unwrap();
        let last = r.lines.last().unwrap().height.0;
        prop_assert!((r.back_sights.0 - r.fore_sights.0 - (last - start)).abs() < 1e-6);
        prop_assert!((r.rises.0 - r.falls.0 - (last - start)).abs() < 1e-6);
        prop_assert!((r.difference.0 - (last - start)).abs() < 1e-9);
    }

    #[test]
    fn no_book_is_a_panic(start in any::<f64>(), end in any::<Option<f64>>(), lines in prop::collection::vec(any::<(Option<f64>, Option<f64>, Option<f64>)>(), 0..6)) {
        let lines = lines.into_iter().map(|(back, intermediate, fore)| BookLine { point: String::new(), back, intermediate, fore }).collect();
        if let Ok(reduction) = reduce_book(&Book { start, known_end: end, lines }) {
            prop_assert!(serde_json::to_string(&reduction).is_ok());
        }
    }
}
