//! Price lists that can't be read: each message says where, what, and what to write instead.

use std::fmt::Write;

use crate::program::pegline;

/// What is wrong with each, in the words of whoever would have made the slip.
const LISTS: [(&str, &str); 13] = [
    ("a column mistyped", "itm,rate\nDPC,9.5\n"),
    ("no column for the price", "item,size\nDPC,140\n"),
    ("a price with five decimals, two empty fields", "item,rate\nDPC,9.55555\npeg,\nlyne,3\n,4\n"),
    (
        "packs of nothing, waste past the whole",
        "item,rate,pack,waste_percent\nDPC,9.5,0,3\npeg,4,-2,150\npeg,nan,1,2\n",
    ),
    ("a decimal comma", "item,rate\nDPC,9,5\n"),
    ("a quotation mark that never ends", "item,rate\n\"DPC,9\n"),
    ("a price twice", "item,rate\npeg,1.00\npeg,2.00\n"),
    ("a price past counting", "item,rate\npeg,99999999999999999999\n"),
    ("nothing", ""),
    ("JSON of another kind", "{\"a\": 1}"),
    (
        "JSON with a truth value and a mistyped field",
        "[{\"item\": \"DPC\", \"rate\": true}, {\"itm\": \"peg\"}]",
    ),
    ("JSON cut off", "[{\"item\": \"DPC\""),
    ("bytes that are no text", "\u{fffd}"),
];

#[test]
fn a_price_list_that_can_t_be_read_is_refused_with_what_to_write_instead() {
    let mut told = String::new();
    for (what, list) in LISTS {
        let bytes = if what.starts_with("bytes") { vec![0xff, 0xfe] } else { list.as_bytes().to_vec() };
        let refusal =
            pegline(["order", "--job", "fixtures/order/job.json", "--prices", "-"]).input(bytes).refusal();
        write!(told, "{what}\n{refusal}\n").unwrap();
    }
    insta::assert_snapshot!(told);
}

#[test]
fn a_price_list_and_a_job_can_t_both_come_from_standard_input() {
    let refusal = pegline(["order", "--job", "-", "--prices", "-"]).input("{}").refusal();
    assert_eq!(
        refusal,
        "error: --prices -: the job is read from standard input already: name a file for one of them\n"
    );
}

#[test]
fn each_and_the_running_foot_are_read_as_merchants_shorten_them() {
    let list = |each: &str, foot: &str| format!("item,unit,rate\npeg,{each},0.64\nline,{foot},0.05\n");
    let order = |list: String| {
        pegline(["order", "--job", "fixtures/feet/job.json", "--prices", "-"]).input(list).answer()
    };
    assert_eq!(order(list("EA", "lf")), order(list("each", "ft")));
}

#[test]
fn a_mistyped_item_is_not_used_and_the_note_says_what_was_meant() {
    let answer = pegline(["order", "--job", "fixtures/order/job.json", "--prices", "-", "--json"])
        .input("item,rate\npegg,1.00\n")
        .json();
    let notes = answer["notes"].as_array().unwrap();
    assert!(notes.iter().any(|note| note.as_str().unwrap().contains("did you mean `peg`?")), "{notes:?}");
    let peg = answer["result"]["lines"].as_array().unwrap().iter().find(|line| line["item"] == "peg");
    assert!(peg.unwrap()["rate"].is_null(), "listed all the same");
}
