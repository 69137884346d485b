//! The worked quotes of `fixtures/order/`: invented jobs and price lists, worked out by hand with the sums written out: a job
//! in millimetres, one in feet and inches with markup, contingency and tax, and three plots together.

use super::{hundredths, rows};
use crate::program::pegline;

const JOB: &str = "fixtures/order/job.json";
const PRICES: &str = "fixtures/order/prices.csv";

/// How each quote is asked for, and the file that it is worked out in.
const QUOTES: [(&str, &str); 3] = [
    ("order --job fixtures/order/job.json --prices fixtures/order/prices.csv", "by_hand.csv"),
    ("order --job fixtures/order/feet.json --prices fixtures/order/feet_prices.csv", "feet_by_hand.csv"),
    (
        "order examples/plot1.json examples/plot2.json examples/plot3.json --prices examples/merchant.csv --markup 7.5 \
         --contingency 2.5 --tax 20",
        "plots_by_hand.csv",
    ),
];

fn by_hand(file: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    rows(&std::fs::read_to_string(format!("fixtures/order/{file}")).unwrap())
}

#[test]
fn the_quotes_come_out_as_worked_by_hand() {
    for (command, file) in QUOTES {
        let printed = rows(&pegline(command.split_whitespace().chain(["--format", "csv"])).answer());
        let by_hand = by_hand(file);
        let lines: Vec<_> =
            by_hand.iter().filter(|row| !["net", "tax", "total"].contains(&row["item"].as_str())).collect();
        assert_eq!(printed.len(), lines.len(), "{file}");
        for (printed, by_hand) in printed.iter().zip(lines) {
            for column in ["item", "size", "quantity", "unit", "rate", "amount", "markup"] {
                let worked = by_hand.get(column);
                assert!(worked.is_none_or(|worked| *worked == printed[column]), "{column} of {by_hand:?}");
            }
        }
    }
}

#[test]
fn net_tax_and_total_are_those_worked_by_hand_and_the_sum_of_the_rows() {
    for (command, file) in QUOTES {
        let result = &pegline(command.split_whitespace().chain(["--json"])).json()["result"];
        for name in ["net", "tax", "total"] {
            let by_hand = by_hand(file);
            let row = by_hand.iter().find(|row| row["item"] == name).unwrap();
            assert_eq!(hundredths(&result[name].to_string()), hundredths(&row["amount"]), "{name} of {file}");
        }
        // The spreadsheet's own sum, in integers.
        let csv = rows(&pegline(command.split_whitespace().chain(["--format", "csv"])).answer());
        let cells =
            csv.iter().flat_map(|row| [&row["amount"], &row["markup"]]).filter(|cell| !cell.is_empty());
        let sum: i128 = cells.map(|cell| hundredths(cell)).sum();
        assert_eq!(sum, hundredths(&result["net"].to_string()), "{file}");
    }
}

#[test]
fn the_json_lines_hold_what_the_contract_names() {
    let result = &pegline(["order", "--job", JOB, "--prices", PRICES, "--json"]).json()["result"];
    let lines = result["lines"].as_array().unwrap();
    for line in lines {
        for key in ["item", "size", "quantity", "unit", "rate", "amount"] {
            assert!(line.get(key).is_some(), "{key} of {line}");
        }
    }
    let line = |item: &str| lines.iter().find(|line| line["item"] == item).unwrap();
    assert_eq!(
        (&line("wall plate")["size"], &line("line")["size"]),
        (&4200.into(), &serde_json::Value::Null)
    );
    let unpriced = lines.iter().find(|line| line["size"] == 1).unwrap();
    assert_eq!(
        (&unpriced["item"], &unpriced["rate"], &unpriced["amount"]),
        (&"packer".into(), &serde_json::Value::Null, &serde_json::Value::Null)
    );
}

#[test]
fn the_working_ends_each_sum_with_its_rounding() {
    let out = pegline(["order", "--job", JOB, "--prices", PRICES, "--working"]).answer();
    for steps in [
        "line\n  1  needed: 18 m\n  2  with 5 % waste: 18 × 1.05 = 18.9 m\n  3  amount: 18.9 × 0.09 = 1.701\n  4  rounded to 0.01: 1.70\n",
        "anchor M10 x 150\n  1  needed: 14\n  2  with 10 % waste: 14 × 1.1 = 15.4\n  3  whole ones: 16\n  4  in packs: 16 / 10 = 1.6, so 2\n  5  amount: 2 × 12.95 = 25.90\n",
        "DPC 100 mm\n  1  needed: 14 m\n  2  rolls, a lap less at each joint: (14 − 0.1) / (8 − 0.1) = 1.7595, so 2\n  3  amount: 2 × 6.35 = 12.70\n",
        "profile board 600 mm\n  1  needed: 2.4 m\n  2  whole lengths: 4\n  3  they come to 2.4 m\n  4  amount: 2.4 × 1.99 = 4.776\n  5  rounded to 0.01: 4.78\n",
        "  2  tax: 485.65 × 17.5 / 100 = 84.98875\n  3  rounded to 0.01: 84.99\n  4  total: 485.65 + 84.99 = 570.64\n",
    ] {
        assert!(out.contains(steps), "{steps}\nin\n{out}");
    }
}

#[test]
fn the_plates_and_their_order_tell_the_same_timber_and_rolls() {
    let job = std::fs::read_to_string(JOB)
        .unwrap()
        .replace("\"width\": 100", "\"dpc_roll\": \"8m\", \"width\": 100");
    let plates = &pegline(["plates", "--job", "-", "--json"]).input(job.clone()).json()["result"];
    let order = &pegline(["order", "--job", "-", "--json"]).input(job).json()["result"];
    let lines = order["lines"].as_array().unwrap();
    let timber: f64 = lines
        .iter()
        .filter(|line| ["wall plate", "head binder"].contains(&line["item"].as_str().unwrap()))
        .map(|line| line["amount"].as_f64().unwrap())
        .sum();
    assert!((timber - plates["cost"].as_f64().unwrap()).abs() < 1e-9);
    let dpc = lines.iter().find(|line| line["item"] == "DPC").unwrap();
    assert_eq!(dpc["quantity"], plates["dpc"]["rolls"]);
    assert_eq!((&dpc["unit"], &dpc["rate"]), (&"roll of 8 m".into(), &serde_json::Value::Null));
    let straps = lines.iter().find(|line| line["item"] == "strap").unwrap();
    assert_eq!(straps["quantity"], plates["straps"]["count"]);
}
