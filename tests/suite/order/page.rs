//! The page of an order, and its lines as other programs read them.

use crate::program::pegline;

use super::{hundredths, rows};

const ORDER: [&str; 5] =
    ["order", "--job", "fixtures/order/job.json", "--prices", "fixtures/order/prices.csv"];

#[test]
fn the_page_of_the_quote_summed_by_hand_is_this() {
    insta::assert_snapshot!(pegline(ORDER).answer());
}

#[test]
fn the_csv_adds_up_to_the_total_in_hundredths() {
    let csv = pegline([&ORDER[..], &["--format", "csv"]].concat()).answer();
    let json = pegline([&ORDER[..], &["--json"]].concat()).json();
    let sum: i128 =
        rows(&csv).iter().filter(|row| !row["amount"].is_empty()).map(|row| hundredths(&row["amount"])).sum();
    assert_eq!(sum, hundredths(&json["result"]["net"].to_string()));
    let taxed = sum + hundredths(&json["result"]["tax"].to_string());
    assert_eq!(taxed, hundredths(&json["result"]["total"].to_string()));
}

#[test]
fn an_order_without_prices_lists_every_line_and_says_so() {
    let answer = pegline(["order", "--job", "fixtures/order/job.json", "--json"]).json();
    let lines = answer["result"]["lines"].as_array().unwrap();
    let unpriced: Vec<&str> = lines
        .iter()
        .filter(|line| line["rate"].is_null())
        .map(|line| line["item"].as_str().unwrap())
        .collect();
    for item in ["DPC", "packer", "anchor", "strap", "temporary screw", "line", "peg", "profile board"] {
        assert!(unpriced.contains(&item), "{item} in {unpriced:?}");
    }
    assert_eq!(answer["result"]["unpriced"], unpriced.len());
    let page = pegline(["order", "--job", "fixtures/order/job.json"]).answer();
    assert!(page.lines().next().unwrap().contains("without"), "{page}");
}

#[test]
fn a_part_that_can_t_be_answered_is_named() {
    let job = r#"{"plan": "6000x4000", "plates": {"width": 100}, "stock": {"lengths": [{"length": 300}]}}"#;
    let refusal = pegline(["order", "--job", "-"]).input(job).refusal();
    assert!(refusal.starts_with("error: plates: "), "{refusal}");
    let refusal = pegline(["order", "6000x4000"]).refusal();
    assert!(refusal.starts_with("error: there is nothing to order: "), "{refusal}");
}
