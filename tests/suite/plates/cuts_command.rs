//! `pegline cuts` as it is typed, on published examples and by hand.

use pegline::answer::{Answer, Answered, Question};
use pegline::exact::Pence;
use pegline::job::{Job, read};
use pegline::page::Detail;
use serde_json::json;

use super::command::{pegline, result};
#[cfg(target_os = "linux")]
use crate::terminal::Terminal;

/// By hand: 4 × 1200, 2 × 2350 and 3 × 900 are 12 200 mm; 12.6 m is the least that 3.0 and 4.8 m lengths make above it
/// (3 × 3.0 + 4.8 = 13.8, 2 × 4.8 + 3.0 = 12.6, 4 × 3.0 = 12.0), and it does: 2350 + 1200 + 1200 twice, 900 × 3 once.
#[test]
fn the_list_of_the_readme_is_proven() {
    let answer = result(&["cuts", "--pieces", "4x1200,2x2350,3x900", "--stock", "3000,4800"]);
    assert_eq!(
        (&answer["cost"], &answer["bound"], &answer["proven"]),
        (&12.6.into(), &12.6.into(), &true.into())
    );
    assert_eq!(answer["bars"].as_array().unwrap().len(), 3);
    assert_eq!(answer["used"], 12_200);
}

/// Source: the encyclopaedia article on the cutting stock problem, 13 widths from 5600: 73 rolls.
#[test]
fn the_encyclopaedia_example_takes_73() {
    let answer = result(&[
        "cuts",
        "--kerf",
        "0",
        "--stock",
        "5600:1",
        "--pieces",
        "22x1380,25x1520,12x1560,14x1710,18x1820,18x1880,20x1930,10x2000,12x2050,14x2100,16x2140,18x2150,20x2200",
    ]);
    assert_eq!((answer["cost"].as_f64(), answer["proven"].as_bool()), (Some(73.0), Some(true)));
}

/// Source: Gilmore and Gomory 1961, as a teaching notebook attributes it: stock 5, 6, 9 at 6, 7, 10; 170.
#[test]
fn gilmore_and_gomorys_example_costs_170() {
    let answer =
        result(&["cuts", "--kerf", "0", "--stock", "5m:6,6m:7,9m:10", "--pieces", "20x2m,10x3m,20x4m"]);
    assert_eq!((answer["cost"].as_f64(), answer["proven"].as_bool()), (Some(170.0), Some(true)));
}

/// Source: a teaching notebook on two stock lengths, 15 and 10 m priced by length: 60 m, two of 15 and three of 10, no waste.
#[test]
fn the_notebook_on_two_stock_lengths_takes_60_metres() {
    let answer = result(&["cuts", "--kerf", "0", "--stock", "15m,10m", "--pieces", "3x7m,2x6m,6x4m,3m"]);
    assert_eq!((answer["cost"].as_f64(), answer["proven"].as_bool()), (Some(60.0), Some(true)));
    assert_eq!(answer["waste_percent"], 0);
    let counts: Vec<(i64, i64)> = answer["buy"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| (line["length"].as_i64().unwrap(), line["count"].as_i64().unwrap()))
        .collect();
    assert_eq!(counts, [(15_000, 2), (10_000, 3)]);
}

/// Source: Chvátal 1983, value from memory, proved again with an integer-programming solver: 453.
#[test]
fn chvatals_example_takes_453() {
    let answer =
        result(&["cuts", "--kerf", "0", "--stock", "1m:1", "--pieces", "97x450,610x360,395x310,211x140"]);
    assert_eq!((answer["cost"].as_f64(), answer["proven"].as_bool()), (Some(453.0), Some(true)));
}

#[test]
fn a_list_too_big_to_prove_at_once_answers_with_its_gap() {
    let mut pieces = vec![];
    for i in 0..60 {
        pieces.push(format!("{}x{}", 1 + i % 7, 611 + (i * 7919) % 2003));
    }
    let text = json!({
        "cuts": {"pieces": pieces, "seconds": 0.01},
        "stock": {"lengths": ["2.4m:6.13", "3.0m:7.71", "3.6m:9.47", "4.2m:11.19", "4.8m:13.07"]},
    });
    let job = Job::check(&read(&text.to_string()).unwrap()).unwrap();
    // One answer for the figures and the words: on a slow machine the clock may stop one run before another.
    let Ok(Answer::Cuts(answer)) = job.answer(Question::Cuts) else { panic!() };
    let (cost, bound) = (answer.cost.amount(), answer.bound.amount());
    assert!(!answer.proven && bound < cost && 10 * bound > 9 * cost, "{bound} to {cost}");
    let words = answer.remarks(&job, Detail::Short).verdict.unwrap().words;
    let gap = format!("not proven: the best may cost up to {} less", Pence(cost - bound));
    assert!(words.ends_with(&gap), "{words}");
}

#[test]
fn what_is_wrong_with_a_list_is_told_by_its_option() {
    for (arguments, told) in [
        (&["cuts", "--stock", "3000"][..], "--pieces 4x1200"),
        (&["cuts", "--pieces", "4x1200"], "--stock"),
        (
            &["cuts", "--pieces", "4x5200", "--stock", "3000"],
            "--pieces: a piece of 5200 mm is longer than any stock",
        ),
        (&["cuts", "--pieces", "yx520", "--stock", "3000"], "`y` is no number of pieces"),
        (&["cuts", "--pieces", "0x520", "--stock", "3000"], "--pieces: there is nothing to cut"),
        (&["cuts", "--pieces", "2x520", "--stock", "3000", "--trim", "3000"], "--trim: it leaves nothing"),
        (&["cuts", "--pieces", "9999999x520", "--stock", "3000"], "--pieces: 9999999 pieces"),
        (&["cuts", "--pieces", "2xNaN", "--stock", "3000"], "--pieces: `NaN` is not a length"),
    ] {
        let (code, out, err) = pegline(arguments, "");
        assert_eq!((code, out.as_str()), (2, ""), "{arguments:?}");
        assert!(err.contains(told), "{arguments:?}: {err}");
    }
}

#[test]
fn a_page_of_a_long_list_is_80_columns_at_most() {
    let (code, out, _) = pegline(
        &[
            "cuts",
            "--pieces",
            "40x311,17x1203.5,9x2350,60x97",
            "--stock",
            "3000:7,4800:12",
            "--have",
            "1x2.4m",
            "--working",
        ],
        "",
    );
    assert_eq!(code, 0);
    for line in out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

/// The saw takes 3 mm to part 1000 from a length of 3000: 1997 is left, and a list of what is left must not ask for more.
#[test]
fn what_is_left_is_measured_after_the_last_saw_cut() {
    let left = |pieces: &str, stock: &str| {
        result(&["cuts", "--pieces", pieces, "--stock", stock])["bars"][0]["offcut"].clone()
    };
    assert_eq!(left("1x1000", "3000"), 1997);
    assert_eq!(left("3x1000", "3006"), 0);
    // 2 mm are over, and the saw takes them.
    assert_eq!(left("3x1000", "3008"), 0);
    assert_eq!(left("3x1000", "3010"), 1);
    let working = pegline(&["cuts", "--pieces", "2x1499", "--stock", "3002.5", "--working"], "").1;
    assert!(working.contains("saw cuts: 1 × 3 mm and 1.5 mm at the end = 4.5 mm"), "{working}");
}

/// By hand: two pieces of 2300 go into a 4800 and none into what is left. Three of 4800 cost 46.80; where the merchant has
/// two of them the fifth piece takes a 6000, 15.60 × 2 + 21.60 = 52.80.
#[test]
fn no_more_of_a_length_is_bought_than_the_merchant_has() {
    let cost = |stock: &str| result(&["cuts", "--pieces", "5x2300", "--stock", stock])["cost"].clone();
    assert_eq!(cost("4.8m:15.60,6m:21.60"), 46.8);
    assert_eq!(cost("4.8m:15.60x3,6m:21.60"), 46.8);
    assert_eq!(cost("4.8m:15.60x2,6m:21.60"), 52.8);
    let page = pegline(&["cuts", "--pieces", "5x2300", "--stock", "4.8m:15.60x2,6m:21.60"], "").1;
    assert!(page.contains("this takes all that the merchant has: 2 of 4800 mm"), "{page}");
    let page = pegline(&["cuts", "--pieces", "5x2300", "--stock", "4.8m:15.60x4,6m:21.60"], "").1;
    assert!(!page.contains("the merchant has"), "{page}");
    // Without prices too, and in a job file.
    let answer = result(&["cuts", "--pieces", "5x2300", "--stock", "4.8mx2,6m"]);
    assert_eq!(answer["buy"][0]["count"], 2);
    let job = r#"{"cuts": {"pieces": [{"length": 2300, "count": 5}]},
        "stock": {"lengths": [{"length": 4800, "price": 15.6, "count": 2}, {"length": 6000, "price": 21.6}]}}"#;
    let (code, out, err) = pegline(&["cuts", "--job", "-", "--json"], job);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("\"cost\": 52.8"), "{out}");
}

/// 1500 + 1500 and a cut are more than 3000 mm. Two pieces of 700 go with the one (1500 + 700 + 700 + 2 × 3 = 2906) and
/// 1497 is left of the other; 700 with each leaves 794 twice.
#[test]
fn the_same_bars_leave_as_long_a_rest_as_they_can_and_it_is_said_what_it_serves_for() {
    let ask = ["cuts", "--pieces", "2x1500,2x700", "--stock", "3000"];
    let answer = result(&ask);
    assert_eq!(answer["rests"].as_array().unwrap().len(), 1);
    assert_eq!(
        (&answer["rests"][0]["length"], &answer["rests"][0]["holds"]["length"]),
        (&1497.into(), &700.into())
    );
    let page = pegline(&[&ask[..], &["--full"]].concat(), "").1;
    assert!(page.contains("1497 (one more 700)"), "{page}");
    // 597 is too short to be told.
    assert_eq!(
        result(&["cuts", "--pieces", "1x2400", "--stock", "3000"])["rests"].as_array().unwrap().len(),
        0
    );
    assert_eq!(result(&["cuts", "--pieces", "1x2397", "--stock", "3000"])["rests"][0]["length"], 600);
}

#[test]
fn the_longest_are_cut_first_and_like_cuts_together() {
    let answer = result(&["cuts", "--pieces", "3x900,2x2350,4x1200", "--stock", "3000,4800"]);
    let order: Vec<(i64, usize)> = answer["cut_order"]
        .as_array()
        .unwrap()
        .iter()
        .map(|alike| (alike["length"].as_i64().unwrap(), alike["pieces"].as_array().unwrap().len()))
        .collect();
    assert_eq!(order, [(2350, 2), (1200, 4), (900, 3)]);
    for bar in answer["bars"].as_array().unwrap() {
        let lengths = bar["pieces"].as_array().unwrap().iter().map(|piece| piece["length"].as_i64().unwrap());
        assert!(lengths.is_sorted_by(|a, b| a >= b), "{bar}");
    }
}

/// Cost first, the splices of a plan with a head binder and partitions are proven late or never, so the search lasts.
#[cfg(target_os = "linux")]
#[test]
fn a_search_that_lasts_says_on_a_terminal_what_it_has() {
    let ask = "plates 8800x3100+2300x1900 --width 140 --binder --favour cost --seconds 60 \
               --stock 3.6m:10.80,4.8m:15.60,6.0m:21.60 \
               --run P0:2800 --run P1:2500 --run P2:3600 --run P3:1600 --run P4:4100 --run P5:3200";
    let terminal = Terminal { enough: "at best", ..Terminal::default() };
    let Some(seen) = terminal.shows(ask) else { return };
    assert!(seen.contains("s: looking for a ") && seen.contains(" so far, "), "{seen}");
}
