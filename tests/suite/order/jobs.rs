//! The order of whole jobs: which parts it is made of, the van, feet and inches, batch.

use serde_json::{Value, json};

use crate::program::pegline;

fn answered(job: &Value) -> Value {
    pegline(["order", "--job", "-", "--json"]).input(job.to_string()).json()
}

fn result(job: &Value) -> Value {
    answered(job)["result"].take()
}

fn notes(job: &Value) -> Vec<String> {
    serde_json::from_value(answered(job)["notes"].take()).unwrap()
}

fn refusal(job: &Value) -> String {
    pegline(["order", "--job", "-"]).input(job.to_string()).refusal()
}

/// The one line of an item.
fn line<'a>(result: &'a Value, item: &str) -> &'a Value {
    let mut lines = result["lines"].as_array().unwrap().iter().filter(|line| line["item"] == item);
    let line = lines.next().unwrap_or_else(|| panic!("no {item} in {result}"));
    assert!(lines.next().is_none(), "one line of {item}");
    line
}

#[test]
fn timber_in_the_van_is_listed_and_not_bought() {
    // By hand: BC and DA 3900 or 4000, CD 6000 or 5800, as in the worked quote, without a binder. The van's two 6.0 m carry
    // CD and one of the others; the third is a 4.2 m bought.
    let job = json!({
        "plan": "6000x4000", "house": ["AB"],
        "stock": {"lengths": [{"length": "4.2m", "price": 14.7}], "have": [{"length": "6m", "count": 2}]},
        "plates": {"width": 100}
    });
    let answer = result(&job);
    assert_eq!(
        answer["from_van"],
        json!([{"item": "wall plate", "size": 6000, "quantity": 2, "from": "plates"}])
    );
    let bought = line(&answer, "wall plate");
    assert_eq!(
        (&bought["size"], &bought["quantity"], &bought["amount"]),
        (&json!(4200), &json!(1), &json!(14.7))
    );
    assert_eq!(answer["total"], 14.7);
    let out = pegline(["order", "--job", "-", "--format", "csv"]).input(job.to_string()).answer();
    let rows = super::rows(&out);
    let van: Vec<_> = rows.iter().filter(|row| row["status"] == "in the van").collect();
    assert_eq!(van.len(), 1);
    assert_eq!((van[0]["quantity"].as_str(), van[0]["amount"].as_str()), ("2", ""));
}

#[test]
fn what_the_plates_take_from_the_van_is_gone_for_the_list_of_pieces() {
    let mut job = json!({
        "plan": "6000x4000", "house": ["AB"],
        "stock": {"lengths": [{"length": "4.2m", "price": 14.7}], "have": [{"length": "6m", "count": 2}]},
        "plates": {"width": 100},
        "cuts": {"pieces": [{"length": 4000}]}
    });
    // Alone the piece would come from the van.
    let alone = pegline(["cuts", "--job", "-", "--json"]).input(job.to_string()).json();
    assert_eq!(alone["result"]["cost"], 0.0);
    let answer = result(&job);
    assert_eq!(line(&answer, "timber")["amount"], 14.7);
    assert_eq!(answer["from_van"].as_array().unwrap().len(), 1);
    // Of four in the van, written in one entry or in several, the plates' three runs take three and leave one.
    for entries in [&[4][..], &[2, 2], &[1, 3], &[1, 1, 1, 1]] {
        job["stock"]["have"] = entries.iter().map(|count| json!({"length": "6m", "count": count})).collect();
        let answer = result(&job);
        assert!(answer["lines"].as_array().unwrap().iter().all(|line| line["item"] != "timber"));
        let taken = json!([
            {"item": "wall plate", "size": 6000, "quantity": 3, "from": "plates"},
            {"item": "timber", "size": 6000, "quantity": 1, "from": "cuts"}
        ]);
        assert_eq!(answer["from_van"], taken, "{entries:?}");
    }
}

#[test]
fn packers_counted_in_the_van_are_not_bought() {
    // C 5 = 5; D 8 = 5 + 2 + 1; B 3 = 2 + 1: two of 5, two of 2, two of 1.
    let answer = result(&json!({
        "plan": "6000x4000",
        "packs": {"heights": [["A=0", "B=-3", "C=-5", "D=-8"]], "packers": ["1", "2", "4x5"]}
    }));
    assert_eq!(answer["from_van"], json!([{"item": "packer", "size": 5, "quantity": 2, "from": "packs"}]));
    let sizes: Vec<&Value> = answer["lines"].as_array().unwrap().iter().map(|line| &line["size"]).collect();
    assert_eq!(sizes, [2, 1]);
}

#[test]
fn parts_without_inputs_are_named_and_nothing_is_invented_for_them() {
    let job = json!({"plan": "6000x4000", "lines": {}});
    let answer = result(&job);
    let items: Vec<&str> =
        answer["lines"].as_array().unwrap().iter().map(|l| l["item"].as_str().unwrap()).collect();
    assert_eq!(items, ["line", "peg", "profile board"]);
    let notes = notes(&job);
    for said in [
        "no wall plate, head binder, DPC, anchors: give `plates.width` and `stock`",
        "no packers: give levels in `packs`",
        "no timber for a list of pieces: give `cuts.pieces`",
        "no price: line, peg and profile board 600 mm; give one with --prices or in `order.prices`",
    ] {
        assert!(notes.iter().any(|note| note == said), "{said} in {notes:?}");
    }
}

#[test]
fn a_part_that_cannot_be_answered_is_named_in_the_error() {
    let plan = "6000x4000";
    for (job, said) in [
        (json!({"plan": plan, "plates": {"width": 100}}), "error: plates: there is no stock to cut from: "),
        (json!({"plan": plan, "plates": {"binder": true}}), "error: plates: there is no plate width: "),
        (
            json!({"plan": plan, "plates": {"width": 100}, "stock": {"have": [{"length": 600}]}}),
            "error: plates: ",
        ),
        (json!({"cuts": {"pieces": [{"length": 900}]}}), "error: cuts: there is no stock to cut from: "),
        (json!({"packs": {"heights": [["A=0"]]}}), "error: packs: there is no plan: "),
        (json!({"lines": {}}), "error: lines: there is no plan: "),
        (
            json!({"plan": plan, "lines": {"setback": 100}}),
            "error: standard input:1:21: lines.setback: 100 mm is too near: ",
        ),
        (json!({"plan": plan}), "error: there is nothing to order: "),
        (json!({}), "error: there is nothing to order: "),
    ] {
        let err = refusal(&job);
        assert!(err.starts_with(said), "{job}: {err}");
    }
}

#[test]
fn a_job_in_feet_and_inches_is_ordered_by_the_foot() {
    // By hand: strings BC and DA from the house to 4 ft past the corner, 16 + 4 = 20 ft each; CD 20 + 2 × 4 = 28 ft: 68 ft.
    // Boards of the shortest, 2 ft. 5 % more string is 71.4 ft, at 0.03 a foot 2.142.
    let job = json!({
        "units": "ft-in", "plan": "20'x16'", "house": ["AB"], "lines": {},
        "order": {
            "prices": [{"item": "line", "unit": "ft", "rate": 0.03, "waste_percent": 5},
                       {"item": "profile board", "size": "2ft", "rate": 1.1}],
            "extras": [{"item": "line", "quantity": 0.01, "unit": "ft"}]
        }
    });
    let answer = result(&job);
    let string = line(&answer, "line");
    // With the hundredth of a foot of the extra: 68.01 × 1.05 = 71.4105, up to 71.42; × 0.03 = 2.1426.
    assert_eq!((&string["needed"], &string["quantity"]), (&json!(68.01), &json!(71.42)));
    assert_eq!((&string["unit"], &string["amount"]), (&json!("ft"), &json!(2.14)));
    let boards = line(&answer, "profile board");
    assert_eq!(
        (&boards["size"], &boards["quantity"], &boards["amount"]),
        (&json!(609.6), &json!(4), &json!(4.4))
    );
    let page = pegline(["order", "--job", "-"]).input(job.to_string()).answer();
    assert!(page.contains(" profile board     2' "), "{page}");
}

#[test]
fn extras_join_what_the_job_needs_already_and_own_units_keep_their_decimals() {
    let answer = result(&json!({
        "plan": "6000x4000", "house": ["AB"], "lines": {},
        "order": {
            "tax_percent": "20",
            "prices": [{"item": "peg", "pack": 10, "rate": "6.40"}, {"item": "labour", "unit": "Hour", "rate": 41}],
            "extras": [
                {"item": "Peg", "quantity": 3},
                {"item": "labour", "quantity": "2.25", "unit": "hour"},
                {"item": "membrane", "size": "1.5 m wide", "quantity": 12, "unit": "m", "rate": 1.05}
            ]
        }
    }));
    // 4 boards, 8 pegs, and 3: 11, two packs.
    let pegs = line(&answer, "peg");
    assert_eq!(
        (&pegs["needed"], &pegs["quantity"], &pegs["from"]),
        (&json!(11), &json!(2), &json!("lines, extras"))
    );
    assert_eq!(line(&answer, "labour")["amount"], 92.25);
    assert_eq!(line(&answer, "membrane")["amount"], 12.6);
    // 12.80 + 92.25 + 12.60 = 117.65, a fifth of it 23.53.
    assert_eq!(
        (&answer["net"], &answer["tax"], &answer["total"]),
        (&json!(117.65), &json!(23.53), &json!(141.18))
    );
}

#[test]
fn straps_are_counted_only_when_asked_for_and_the_published_spacing_names_its_source() {
    // Source: NHBC Standards 7.2.6, straps of a roof's wall plate at most 2 m apart (secondary page).
    let job = |straps: Value| {
        json!({
            "plan": "6000x4000", "house": ["AB"],
            "stock": {"lengths": [{"length": "4.2m"}, {"length": "6m"}]},
            "plates": {"width": 100, "corners": "alternate", "binder": true, "straps": straps}
        })
    };
    // The binder's runs 5800, 4000, 4000: 4 + 3 + 3; at 1500: 5 + 4 + 4.
    assert_eq!(line(&result(&job(json!("nhbc"))), "strap")["quantity"], 10);
    assert_eq!(line(&result(&job(json!(1500))), "strap")["quantity"], 13);
    let told = |straps| notes(&job(straps)).into_iter().filter(|note| note.contains("NHBC")).count();
    assert_eq!((told(json!("nhbc")), told(json!(2000))), (1, 0));
    let without = notes(&job(Value::Null));
    assert!(without.contains(&"no straps: give `plates.straps`".to_owned()), "{without:?}");
    assert!(refusal(&job(json!(10))).contains("plates.straps: 10 mm is too close"));
}

#[test]
fn batch_answers_orders_and_goes_on_after_a_bad_one() {
    let good = json!({
        "order": {"extras": [{"item": "labour", "quantity": 2, "unit": "hour"}], "prices": [{"item": "labour", "rate": 30}]}
    });
    let bad = json!({"order": {"prices": [{"item": "peg", "rate": "x"}, {"item": "line", "unit": "kg", "rate": 1}]}});
    let ran = pegline(["batch", "order"]).input(format!("{good}\n{bad}\n{good}\n")).run();
    let lines: Vec<Value> = ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(
        (lines[0]["result"]["total"].as_f64(), lines[2]["result"]["total"].as_f64()),
        (Some(60.0), Some(60.0))
    );
    assert_eq!(lines[1]["error"]["field"], "order.prices[0].rate");
    assert!(
        lines[1]["error"]["message"]
            .as_str()
            .unwrap()
            .contains("order.prices[1].unit: line is not counted by `kg`")
    );
}

#[test]
fn a_batch_as_csv_has_one_header_and_the_line_and_job_of_each_row() {
    let good = |name: &str| json!({"name": name, "plan": "6000x4000"}).to_string();
    let input = format!("{{\"plan\": \"6000\"}}\n{}\n\n{}\n", good("Plot 1"), good("=Plot 2"));
    let ran = pegline(["batch", "diagonals", "--format", "csv", "--decimal", "comma"]).input(input).run();
    assert_eq!(ran.code, 1);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert!(lines[0].starts_with("input_line;job;line;from;"), "{}", ran.out);
    assert_eq!(lines.len(), 5, "{}", ran.out);
    assert!(lines[1].starts_with("2;Plot 1;AC;") && lines[1].contains(";7211,103;"), "{}", ran.out);
    assert!(lines[4].starts_with("4;'=Plot 2;BD;"), "{}", ran.out);
    assert!(ran.err.starts_with("error: line 1: plan"), "{}", ran.err);
}

#[test]
fn every_starter_has_an_order() {
    for shape in ["rectangle", "L", "T", "U"] {
        let job = pegline(["job", "new", shape, "--sample"]).answer();
        let answer = pegline(["order", "--job", "-", "--json"]).input(job).json();
        assert!(answer["result"]["total"].as_f64().unwrap() > 0.0, "{shape}");
        assert!(answer["result"]["unused_prices"].as_array().unwrap().is_empty(), "{shape}");
    }
}
