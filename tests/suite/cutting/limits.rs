//! What cannot be cut is refused with its reason.

use pegline::cutting::{
    Effort, Error, Favour, MAX_RUNS, PieceList, Problem, Rules, Run, Stock, Wanted, cut_pieces, plan_runs,
};
use pegline::exact::{Pence, Tenths};

fn run(length: i64, zones: &[(i64, i64)]) -> Run {
    Run {
        name: "AB".to_owned(),
        length: Tenths::from_mm(length),
        splices: Some(zones.iter().map(|&(a, b)| (Tenths::from_mm(a), Tenths::from_mm(b))).collect()),
    }
}

fn stock(length: i64, price: i64, count: Option<usize>) -> Stock {
    Stock { length: Tenths::from_mm(length), price: Pence(price), count }
}

fn plan(runs: Vec<Run>, stock: Vec<Stock>, rules: Rules, favour: Favour) -> String {
    let problem = Problem { runs, stock, rules, favour, effort: Effort::default() };
    plan_runs(&problem).unwrap_err().to_string()
}

fn rules() -> Rules {
    Rules { least_piece: Tenths::from_mm(600), ..Rules::default() }
}

#[test]
fn every_impossible_run_is_named_with_its_value() {
    let refused = |runs| plan(runs, vec![stock(6000, 100, None)], rules(), Favour::Splices);
    for (message, part) in [
        (refused(vec![]), "give at least one run"),
        (refused(vec![run(0, &[])]), "run AB: 0 mm is no usable length"),
        (refused(vec![run(-5, &[])]), "run AB: −5 mm"),
        (refused(vec![run(i64::MAX / 10, &[])]), "is no usable length"),
        (refused(vec![run(i64::MIN / 10, &[])]), "is no usable length"),
        (refused(vec![run(4000, &[(900, 800)])]), "900 mm to 800 mm ends before it starts"),
        (refused(vec![run(9000, &[(700, 2900)])]), "run AB: 9000 mm cannot be made up"),
        (refused(vec![run(9000, &[(200, 500)])]), "run AB: 9000 mm cannot be made up"),
        (refused(vec![run(9000, &[(i64::MIN / 10, 0), (9000, i64::MAX / 10)])]), "cannot be made up"),
        (refused(vec![run(4000, &[]); MAX_RUNS + 1]), "runs: 61 given, 60 is the most"),
        (
            refused(vec![run(900_000, &[(0, 900_000)]); 3]),
            "it takes 450 bars or more and 200 is the most: check the lengths to cut and to buy, and their units",
        ),
    ] {
        assert!(message.contains(part), "{message:?} lacks {part:?}");
    }
}

#[test]
fn every_impossible_stock_or_rule_is_named_with_its_value() {
    let six = vec![stock(6000, 100, None)];
    let from = |stock, runs| plan(vec![run(4000, &[]); runs], stock, rules(), Favour::Splices);
    let by = |rules| plan(vec![run(4000, &[])], six.clone(), rules, Favour::Splices);
    let worth = Favour::ASplice(Pence(-4));
    for (message, part) in [
        (from(vec![], 1), "give at least one stock length"),
        (from(vec![stock(0, 1, None)], 1), "stock length 1: 0 mm"),
        (from(vec![stock(6000, -1, None)], 1), "the price of stock length 1: -0.01 is no usable price"),
        (from(vec![stock(6000, i64::MAX, None)], 1), "is no usable price"),
        (from(vec![stock(6000, 1, None); 65], 1), "stock lengths: 65 given"),
        (from(vec![stock(6000, 0, Some(2))], 3), "the stock runs out"),
        (from(vec![stock(6000, 0, Some(0))], 1), "the stock runs out"),
        (by(Rules { kerf: Tenths(-1), ..rules() }), "the kerf: −0.1 mm"),
        (by(Rules { overlap: Tenths(i64::MAX), ..rules() }), "the overlap of a splice"),
        (by(Rules { trim: Tenths::from_mm(6000), ..rules() }), "the end trim of 6000 mm leaves nothing"),
        (plan(vec![run(4000, &[])], six.clone(), rules(), worth), "the worth of a splice: -0.04"),
    ] {
        assert!(message.contains(part), "{message:?} lacks {part:?}");
    }
}

#[test]
fn impossible_pieces_say_so_too() {
    let cut = |pieces: &[(i64, usize)], stock: Vec<Stock>| {
        let list = PieceList {
            pieces: pieces
                .iter()
                .map(|&(length, count)| Wanted { length: Tenths::from_mm(length), count })
                .collect(),
            stock,
            rules: Rules::default(),
            effort: Effort::default(),
        };
        cut_pieces(&list).unwrap_err()
    };
    let six = vec![stock(6000, 100, None)];
    assert_eq!(cut(&[], six.clone()), Error::Nothing("piece"));
    assert_eq!(cut(&[(100, 0)], six.clone()), Error::Nothing("piece"));
    assert_eq!(
        cut(&[(6001, 1)], six.clone()),
        Error::PieceTooLong { length: Tenths::from_mm(6001), longest: Tenths::from_mm(6000) }
    );
    assert!(matches!(cut(&[(100, 1_000_000)], six.clone()), Error::TooMany { what: "pieces", .. }));
    assert!(matches!(cut(&[(100, usize::MAX), (100, 2)], six.clone()), Error::TooMany { .. }));
    assert!(matches!(cut(&[(-100, 1)], six), Error::Length { .. }));
    assert_eq!(cut(&[(4000, 3)], vec![stock(6000, 0, Some(2))]), Error::StockRunsOut);
    assert_eq!(cut(&[(4000, 30)], vec![stock(6000, 0, Some(29))]), Error::StockRunsOut);
}

/// Invented: more counted bars than a house needs, all of them wanted.
#[test]
fn three_hundred_counted_bars_are_all_used() {
    let list = PieceList {
        pieces: vec![Wanted { length: Tenths::from_mm(2000), count: 900 }],
        stock: vec![stock(6000, 0, Some(300))],
        rules: Rules::default(),
        effort: Effort::default(),
    };
    let answer = cut_pieces(&list).unwrap();
    super::checker::check_pieces(&list, &answer);
    assert_eq!((answer.bars.len(), answer.cost, answer.proven), (300, Pence(0), true));
}

/// Invented: a short list and a full van; the van is used first.
#[test]
fn a_full_van_is_used_before_anything_is_bought() {
    let list = PieceList {
        pieces: vec![
            Wanted { length: Tenths::from_mm(2000), count: 5 },
            Wanted { length: Tenths::from_mm(4000), count: 3 },
        ],
        stock: vec![stock(6000, 1440, None), stock(4500, 0, Some(20)), stock(2500, 0, Some(2))],
        rules: Rules { kerf: Tenths::from_mm(3), ..Rules::default() },
        effort: Effort::default(),
    };
    let answer = cut_pieces(&list).unwrap();
    super::checker::check_pieces(&list, &answer);
    assert_eq!((answer.cost, answer.proven), (Pence(0), true));
}

/// Invented: at a tenth of a millimetre over a kilometre no table could be filled; the answer is the quick cutting.
#[test]
fn lists_too_fine_for_a_table_still_answer_with_their_gap() {
    let list = PieceList {
        pieces: (0..60_i64).map(|k| Wanted { length: Tenths(10_007 + 61_001 * k), count: 3 }).collect(),
        stock: vec![stock(1_000_000, 90_000, None), stock(400_000, 40_000, None)],
        rules: Rules { kerf: Tenths(31), ..Rules::default() },
        effort: Effort::default(),
    };
    let answer = cut_pieces(&list).unwrap();
    super::checker::check_pieces(&list, &answer);
    assert!(answer.bound.0 > 0);
}
