//! Published cutting-stock examples with known optimum.

use pegline::cutting::{CutList, Effort, PieceList, Rules, Stock, Wanted, cut_pieces};
use pegline::exact::{Pence, Tenths};

/// Lengths in any unit, kept whole; prices likewise.
fn cut(stock: &[(i64, i64)], pieces: &[(i64, usize)]) -> CutList {
    let list = PieceList {
        pieces: pieces.iter().map(|&(length, count)| Wanted { length: Tenths(length), count }).collect(),
        stock: stock
            .iter()
            .map(|&(length, price)| Stock { length: Tenths(length), price: Pence(price), count: None })
            .collect(),
        rules: Rules::default(),
        effort: Effort::default(),
    };
    let answer = cut_pieces(&list).unwrap();
    super::checker::check_pieces(&list, &answer);
    answer
}

/// Source: the encyclopaedia article on the cutting stock problem, 13 widths from 5600: 73 rolls.
#[test]
fn the_encyclopaedia_example_takes_73_bars() {
    let answer = cut(
        &[(5600, 1)],
        &[
            (1380, 22),
            (1520, 25),
            (1560, 12),
            (1710, 14),
            (1820, 18),
            (1880, 18),
            (1930, 20),
            (2000, 10),
            (2050, 12),
            (2100, 14),
            (2140, 16),
            (2150, 18),
            (2200, 20),
        ],
    );
    assert_eq!((answer.cost, answer.proven), (Pence(73), true));
}

/// Source: Gilmore and Gomory 1961, as a teaching notebook attributes it: stock 5, 6, 9 at 6, 7, 10; cost 170.
#[test]
fn gilmore_and_gomorys_three_stock_lengths_cost_170() {
    let answer = cut(&[(5, 6), (6, 7), (9, 10)], &[(2, 20), (3, 10), (4, 20)]);
    assert_eq!((answer.cost, answer.proven), (Pence(170), true));
}

/// Source: a teaching notebook, 15 m and 10 m at a price equal to the length: 60, without waste.
#[test]
fn the_teaching_notebooks_two_stocks_leave_no_waste() {
    let answer = cut(&[(15, 15), (10, 10)], &[(7, 3), (6, 2), (4, 6), (3, 1)]);
    assert_eq!((answer.cost, answer.proven, answer.waste), (Pence(60), true, Tenths(0)));
}

/// Source: Chvátal, Linear Programming (1983); demand and optimum from memory, proved again with a MIP solver.
#[test]
fn chvatals_example_takes_453_rolls() {
    let answer = cut(&[(100, 1)], &[(45, 97), (36, 610), (31, 395), (14, 211)]);
    assert_eq!((answer.cost, answer.proven), (Pence(453), true));
}

/// Source: a modelling language's textbook, rolls of 110; from memory, proved again with a MIP solver.
#[test]
fn the_modelling_textbooks_example_takes_47_rolls() {
    let answer = cut(&[(110, 1)], &[(20, 48), (45, 35), (50, 24), (55, 10), (75, 8)]);
    assert_eq!((answer.cost, answer.proven), (Pence(47), true));
}

/// Source: Winston, Operations Research, the 17 ft board example; the optimum is ours, proved with a MIP solver.
#[test]
fn winstons_boards_take_19() {
    let answer = cut(&[(17, 1)], &[(3, 25), (5, 20), (9, 15)]);
    assert_eq!((answer.cost, answer.proven), (Pence(19), true));
}

/// Invented: 40 ft logs; the optimum is ours, proved with a MIP solver.
#[test]
fn forty_foot_logs_take_89() {
    let answer = cut(&[(40, 1)], &[(8, 90), (12, 111), (16, 55), (20, 30)]);
    assert_eq!((answer.cost, answer.proven), (Pence(89), true));
}
