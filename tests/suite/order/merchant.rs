//! The price list as the merchant: what the timber is cut from, rates of four decimals, spare lengths, several plots.

use serde_json::{Value, json};

use super::{hundredths, rows};
use crate::program::pegline;

const PLOTS: [&str; 3] = ["examples/plot1.json", "examples/plot2.json", "examples/plot3.json"];

/// A decimal text with at most four places in ten-thousandths, by the digits alone.
fn ten_thousandths(text: &str) -> i128 {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    assert!(part.len() <= 4, "{text}");
    format!("{whole}{part:0<4}").parse().unwrap()
}

/// The order of a job at a price list, the list being on standard input.
fn at(job: &Value, list: &str, more: &[&str]) -> crate::program::Ran {
    let name = format!("pegline-merchant-{}-{:?}.json", std::process::id(), std::thread::current().id());
    let file = std::env::temp_dir().join(name);
    std::fs::write(&file, job.to_string()).unwrap();
    let command = ["order", "--job", file.to_str().unwrap(), "--prices", "-"];
    let ran = pegline(command.iter().chain(more)).input(list).run();
    std::fs::remove_file(&file).unwrap();
    ran
}

fn json_at(job: &Value, list: &str, more: &[&str]) -> Value {
    let ran = at(job, list, &[more, &["--json"]].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    serde_json::from_str(&ran.out).unwrap()
}

/// Item, size, quantity and amount of each line.
fn lines(answer: &Value) -> Vec<(String, Value, Value, Value)> {
    let lines = answer["result"]["lines"].as_array().unwrap();
    let line = |line: &Value| {
        let item = line["item"].as_str().unwrap().to_owned();
        (item, line["size"].clone(), line["quantity"].clone(), line["amount"].clone())
    };
    lines.iter().map(line).collect()
}

/// Runs of 3900 or 4000, twice, and 5800 or 6000: three lengths whatever is for sale up to 6 m.
fn plate() -> Value {
    json!({"plan": "6000x4000", "house": ["AB"], "plates": {"width": 100, "corners": "alternate"},
        "stock": {"lengths": [{"length": "6m", "price": 9}]}})
}

const WALL_PLATE: &str = "item,size,rate\nwall plate,4.2m,9.99\nwall plate,6m,20.00\nDPC,,0\n";

#[test]
fn the_lists_lengths_are_what_the_plates_are_cut_from_at_its_prices() {
    // 2 × 9.99 + 20.00 = 39.98; of the stock's it would have been 3 × 9.00.
    let answer = json_at(&plate(), &WALL_PLATE.replace("DPC,,0", "DPC,,1"), &[]);
    let timber: Vec<_> = lines(&answer).into_iter().filter(|line| line.0 == "wall plate").collect();
    let line = |size: i64, quantity: i64, amount: f64| {
        ("wall plate".to_owned(), json!(size), json!(quantity), json!(amount))
    };
    assert_eq!(timber, [line(4200, 2, 19.98), line(6000, 1, 20.0)]);
    assert!(answer["result"]["unused_prices"].as_array().unwrap().is_empty());
}

#[test]
fn a_price_in_a_job_file_may_be_a_short_text() {
    let order = |prices: Value| {
        let mut job = plate();
        job["order"] = json!({"prices": prices});
        pegline(["order", "--job", "-", "--json"]).input(job.to_string()).json()["result"].take()
    };
    let short = order(json!(["wall plate 4.2m:9.99", "wall plate 6m @ 20", "DPC: 1"]));
    let long = order(json!([{"item": "wall plate", "size": "4.2m", "rate": "9.99"},
        {"item": "wall plate", "size": "6m", "rate": 20}, {"item": "DPC", "rate": 1}]));
    assert_eq!(short, long);
    assert_eq!(short["unpriced"], 0);
}

#[test]
fn the_lists_price_by_the_metre_is_put_on_the_lengths_for_sale() {
    let answer = json_at(&plate(), "item,unit,rate\nwall plate,m,2.345\n", &[]);
    // 3 × 6 m × 2.345 = 42.21.
    assert_eq!(lines(&answer)[0], ("wall plate".to_owned(), json!(6000), json!(18), json!(42.21)));
}

#[test]
fn the_waste_of_timber_is_the_shortest_spare_that_is_as_long() {
    let quantities = |waste: &str| -> Vec<Value> {
        let waste = format!("wall plate={waste}");
        let answer = json_at(&plate(), WALL_PLATE, &["--waste", &waste]);
        lines(&answer).into_iter().filter(|line| line.0 == "wall plate").map(|line| line.2).collect()
    };
    // Bought are 2 × 4.2 and 6.0, 14.4 m: 10 % is 1.44 m, 30 % 4.32 m, 50 % 7.2 m, a 6.0 and 1.2 m more.
    assert_eq!(quantities("0"), [json!(2), json!(1)]);
    assert_eq!(quantities("10"), [json!(3), json!(1)]);
    assert_eq!(quantities("30"), [json!(2), json!(2)]);
    assert_eq!(quantities("50"), [json!(3), json!(2)]);
}

#[test]
fn an_extras_own_rate_is_of_that_extra_alone() {
    let job = json!({"plan": "6000x4000", "house": ["AB"], "lines": {},
        "order": {"extras": [{"item": "peg", "quantity": 2, "rate": 9}]}});
    let answer = json_at(&job, "item,rate\npeg,0.64\n", &[]);
    let pegs: Vec<_> = lines(&answer).into_iter().filter(|line| line.0 == "peg").collect();
    let line = |quantity: i64, amount: f64| ("peg".to_owned(), Value::Null, json!(quantity), json!(amount));
    assert_eq!(pegs, [line(8, 5.12), line(2, 18.0)]);
}

#[test]
fn rates_have_four_decimals_and_a_list_with_semicolons_decimal_commas() {
    let job = json!({"order": {"extras": [{"item": "screw", "quantity": 250}, {"item": "sealant", "quantity": 3}]}});
    let answer = json_at(&job, "item;rate;waste_percent\nscrew;0,0499;2,5 %\nsealant;4,25;\n", &[]);
    // 250 × 1.025 = 256.25, 257 × 0.0499 = 12.8243.
    let line = |item: &str, quantity: i64, amount: f64| {
        (item.to_owned(), Value::Null, json!(quantity), json!(amount))
    };
    assert_eq!(lines(&answer), [line("screw", 257, 12.82), line("sealant", 3, 12.75)]);
    assert_eq!(answer["result"]["lines"][0]["rate"], json!(0.0499));
    let five = at(&job, "item,rate\nscrew,0.04999\n", &[]);
    assert_eq!(five.code, 2);
    assert!(five.err.contains("at most four decimals"), "{}", five.err);
}

#[test]
fn markup_contingency_and_tax_are_of_the_line_that_has_its_own_and_else_of_all() {
    // 10 × 5.00 = 50.00 and 10 % of it 5.00; labour 8 × 30.00 = 240.00 at no markup and 5 % tax; skip 1 × 65.45 and 10 %
    // of it 6.545, up to 6.55. Lines 55.00 + 240.00 + 72.00 = 367.00; 4 % of it 14.68; net 381.68.
    // Tax: 20 % of 55.00 + 72.00 + 14.68 = 141.68, 28.336; 5 % of 240.00, 12.00. Total 381.68 + 40.34.
    let job = json!({"order": {"markup_percent": 10, "contingency_percent": "4 %", "tax_percent": 20, "extras": [
        {"item": "sealant", "quantity": 10}, {"item": "labour", "quantity": 8, "unit": "hour"},
        {"item": "skip hire", "quantity": 1, "rate": "65.45"}]}});
    let list = "item,rate,unit,markup_percent,tax_percent\nsealant,5,,,\nlabour,30,hour,0,5\n";
    let answer = json_at(&job, list, &[]);
    let result = &answer["result"];
    let markups: Vec<&Value> =
        result["lines"].as_array().unwrap().iter().map(|line| &line["markup"]).collect();
    assert_eq!(markups, [&json!(5.0), &json!(0.0), &json!(6.55)]);
    for (key, figure) in
        [("markup", 1155), ("contingency", 1468), ("net", 38_168), ("tax", 4034), ("total", 42_202)]
    {
        assert_eq!(hundredths(&result[key].to_string()), figure, "{key}");
    }
    assert_eq!(
        result["taxes"],
        json!([{"percent": 20, "net": 141.68, "tax": 28.34}, {"percent": 5, "net": 240.0, "tax": 12.0}])
    );
    let csv = rows(&at(&job, list, &["--format", "csv"]).out);
    let last = csv.last().unwrap();
    assert_eq!((last["item"].as_str(), last["amount"].as_str()), ("contingency", "14.68"));
    let sums = csv.iter().flat_map(|row| [&row["amount"], &row["markup"]]).filter(|cell| !cell.is_empty());
    assert_eq!(sums.map(|cell| hundredths(cell)).sum::<i128>(), 38_168);
    let page = at(&job, list, &["--working"]).out;
    assert!(page.starts_with("Total 422.02: net 381.68 and tax 40.34\n"), "{page}");
    for step in [
        "markup: 65.45 × 10 / 100 = 6.545",
        "rounded to 0.01: 6.55",
        "at 20 %: 55.00 + 72.00 + 14.68 = 141.68",
    ] {
        assert!(page.contains(step), "{step}: {page}");
    }
}

#[test]
fn what_the_prices_are_in_stands_in_the_head_of_every_column_of_money() {
    let job = json!({"order": {"markup_percent": 10, "extras": [{"item": "sealant", "quantity": 3}]}});
    let page = at(&job, "item,rate\nsealant,5\n", &["--money", "EUR"]).out;
    for head in ["Rate EUR", "Amount EUR", "Markup %", "With it EUR", "Tax %"] {
        assert!(page.contains(head), "{head}: {page}");
    }
    let csv = rows(&at(&job, "item,rate\nsealant,5\n", &["--money", "EUR", "--format", "csv"]).out);
    assert_eq!((csv[0]["amount"].as_str(), csv[0]["money"].as_str()), ("15.00", "EUR"));
    let plain = at(&job, "item,rate\nsealant,5\n", &[]).out;
    assert!(plain.contains("Rate   Amount\n"), "{plain}");
}

#[test]
fn an_extras_markup_without_its_rate_is_refused() {
    let job = json!({"order": {"extras": [{"item": "sealant", "quantity": 1, "markup_percent": 5}]}});
    let ran = at(&job, "item,rate\nsealant,5\n", &[]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("has a markup or a tax and no rate"), "{}", ran.err);
}

#[test]
fn the_nails_of_the_house_wall_are_ordered_and_no_damp_proof_course_for_a_threshold() {
    let order = |openings: &Value| {
        let mut job = plate();
        job["lines"] = json!({"layers": [{"name": "skin", "width": 100}, {"name": "plate", "width": 100}]});
        job["openings"] = openings.clone();
        json_at(&job, WALL_PLATE, &[])
    };
    let needed = |answer: &Value, item: &str| {
        let lines = answer["result"]["lines"].as_array().unwrap();
        lines.iter().find(|line| line["item"] == item).unwrap()["needed"].as_f64().unwrap()
    };
    let (plain, door) =
        (order(&json!([])), order(&json!([{"name": "door", "side": "CD", "at": 1000, "width": 900}])));
    // BC and DA end at the house, whose wall ends with them: a nail each for the plate's two faces, and none for the
    // skin's outer face, which is past the wall.
    assert!((needed(&plain, "masonry nail") - 4.0).abs() < 1e-9);
    assert!((needed(&plain, "DPC") - needed(&door, "DPC") - 0.9).abs() < 1e-9);
}

#[test]
fn an_order_that_is_to_be_complete_is_not_good_while_a_price_is_missing() {
    let job =
        json!({"order": {"extras": [{"item": "screw", "quantity": 1}, {"item": "sealant", "quantity": 1}]}});
    let some = at(&job, "item,rate\nscrew,1\n", &["--complete", "--json"]);
    let answer: Value = serde_json::from_str(&some.out).unwrap();
    assert_eq!((some.code, &answer["result"]["complete"]), (1, &json!(false)));
    assert_eq!(at(&job, "item,rate\nscrew,1\n", &[]).code, 0);
    let all = at(&job, "item,rate\nscrew,1\nsealant,2\n", &["--complete", "--json"]);
    let answer: Value = serde_json::from_str(&all.out).unwrap();
    assert_eq!((all.code, &answer["result"]["complete"]), (0, &json!(true)));
}

#[test]
fn a_job_that_cannot_be_ordered_says_so_in_json_where_json_was_asked_for() {
    for files in [&["order", "--job", "nowhere.json"][..], &["order", PLOTS[0], "nowhere.json"]] {
        let ran = pegline(files.iter().chain(&["--json"])).run();
        let answer: Value = serde_json::from_str(&ran.out).unwrap();
        assert_eq!(ran.code, 2);
        let message = answer["error"]["message"].as_str().unwrap();
        assert_eq!(ran.err, format!("error: {message}\n"));
        assert!(message.contains("nowhere.json"), "{message}");
        assert_eq!(pegline(files).run().out, "");
    }
}

#[test]
fn a_size_near_one_without_a_price_is_asked_about() {
    let answer = json_at(&plate(), "item,size,rate\nwall plate,6,20\nDPC,101,1\n", &[]);
    let notes = answer["notes"].to_string();
    assert!(
        notes.contains("the price of DPC 101 mm is used by no line: did you mean DPC 100 mm?"),
        "{notes}"
    );
    // Two in a hundred away is near, three is another size.
    let asked_about = |mm: u32| {
        let answer = json_at(&plate(), &format!("item,size,rate\nDPC,{mm},1\n"), &[]);
        answer["notes"].to_string().contains("did you mean DPC 100 mm?")
    };
    assert_eq!([97, 98, 102, 103].map(asked_about), [false, true, true, false]);
    // Six metres written without their unit.
    assert!(
        notes.contains("the price of wall plate 6 mm is used by no line: did you mean wall plate 6000 mm?")
    );
}

#[test]
fn three_plots_share_packs_and_rolls_and_come_to_the_sum_of_their_needs() {
    let ordered = |files: &[&str]| -> Value {
        let command = ["order", "--prices", "examples/merchant.csv", "--json"];
        pegline(command.iter().chain(files)).json()["result"].take()
    };
    let together = ordered(&PLOTS);
    let alone = PLOTS.map(|plot| ordered(&[plot]));
    let key = |line: &Value| format!("{} {}", line["item"], line["size"]);
    let needed = |order: &Value, wanted: &str| -> i128 {
        let lines = order["lines"].as_array().unwrap();
        let of = lines.iter().filter(|line| key(line) == wanted);
        of.map(|line| hundredths(&line["needed"].to_string())).sum()
    };
    let mut net = 0;
    for line in together["lines"].as_array().unwrap() {
        let all: Vec<i128> = alone.iter().map(|order| needed(order, &key(line))).collect();
        // Rounded up to a hundredth plot by plot and in all.
        let sum: i128 = all.iter().sum();
        assert!((0..=2).contains(&(sum - hundredths(&line["needed"].to_string()))), "{line}");
        let told =
            line["plots"].as_array().unwrap().iter().map(|plot| hundredths(&plot["needed"].to_string()));
        assert_eq!(
            told.collect::<Vec<_>>(),
            all.into_iter().filter(|n| *n > 0).collect::<Vec<_>>(),
            "{line}"
        );
        let parts = ten_thousandths(&line["rate"].to_string()) * hundredths(&line["quantity"].to_string());
        let amount = hundredths(&line["amount"].to_string());
        assert!((-5_000..5_000).contains(&(parts - amount * 10_000)), "{line}");
        net += amount;
    }
    assert_eq!(hundredths(&together["net"].to_string()), net);
    // Pegs by hand: three boards' pairs a plot and the house nails none, 8 × 3 = 24, one pack of 25 and not three.
    let pegs = together["lines"].as_array().unwrap().iter().find(|line| line["item"] == "peg").unwrap();
    assert_eq!((&pegs["needed"], &pegs["quantity"], &pegs["amount"]), (&json!(24), &json!(1), &json!(11.25)));
    assert_eq!(together["plots"], json!(["Plot 1", "Plot 2", "Plot 3"]));
}

/// Two plots whose list of pieces is one of 1400 mm each, from 3000 mm: apart two lengths, together one.
fn halves(more: &Value) -> [std::path::PathBuf; 2] {
    ["West", "East"].map(|name| {
        let mut job = json!({"name": name, "cuts": {"pieces": [{"length": 1400, "count": 1}]},
            "stock": {"lengths": [{"length": "3m", "price": "8.00"}]}});
        job["order"] = more.clone();
        let unique = format!("{}-{:?}", std::process::id(), std::thread::current().id());
        let file = std::env::temp_dir().join(format!("pegline-{name}-{unique}.json"));
        std::fs::write(&file, job.to_string()).unwrap();
        file
    })
}

#[test]
fn timber_of_two_plots_is_cut_by_plot_or_together_as_asked() {
    let files = halves(&json!({}));
    let order = |more: &[&str]| -> Value {
        let files = files.iter().map(|file| file.to_str().unwrap());
        pegline(["order"].into_iter().chain(files).chain(more.iter().copied()).chain(["--json"])).json()["result"]
            .take()
    };
    let (apart, together) = (order(&[]), order(&["--cut-together"]));
    assert_eq!((&apart["lines"][0]["quantity"], &apart["net"]), (&json!(2), &json!(16.0)));
    assert_eq!((&together["lines"][0]["quantity"], &together["net"]), (&json!(1), &json!(8.0)));
    assert_eq!(apart["cut_together"], Value::Null);
    let cut = &together["cut_together"][0];
    assert_eq!((&cut["from"], &cut["saved"]), (&json!("cuts"), &json!(8.0)));
    let pieces = cut["bars"][0]["pieces"].as_array().unwrap();
    let plots: Vec<&Value> = pieces.iter().map(|piece| &piece["plot"]).collect();
    assert_eq!(plots, [&json!("West"), &json!("East")]);
    let page =
        pegline(["order", files[0].to_str().unwrap(), files[1].to_str().unwrap(), "--cut-together"]).answer();
    assert!(page.contains("West 1400; East 1400") && page.contains("Less than plot by plot: 8.00"), "{page}");
    let alone = pegline(["order", "--job", files[0].to_str().unwrap(), "--cut-together"]).refusal();
    assert!(alone.contains("--cut-together: it is for several jobs"), "{alone}");
    for file in files {
        std::fs::remove_file(file).unwrap();
    }
}

/// The plates of three plots, cut together from 8.4 m: every piece that the plots need lies on one length, and nothing else.
/// By hand: 6000 thrice, 3900 four times and 4400 twice; plot by plot 2 + 2 + 3 lengths, together 4400 + 3900 twice and
/// 3900 + 3900, 6 lengths.
#[test]
fn plates_cut_together_are_the_plots_pieces_on_no_dearer_lengths() {
    let list = "item,size,rate\nwall plate,8.4m,29.40\n";
    let command = ["order", "--prices", "-", "--json"].into_iter().chain(PLOTS);
    let apart = pegline(command.clone()).input(list).json();
    let together = pegline(command.chain(["--cut-together"])).input(list).json();
    let bought = |answer: &Value| answer["result"]["lines"][0]["quantity"].clone();
    assert_eq!((bought(&apart), bought(&together)), (json!(7), json!(6)));
    assert_eq!(together["result"]["cut_together"][0]["saved"], json!(29.4));
    let mut wanted: Vec<String> = PLOTS
        .iter()
        .flat_map(|file| {
            let mut plot: Value = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
            plot["stock"] = json!({"lengths": [{"length": "8.4m", "price": "29.40"}]});
            let plates = pegline(["plates", "--job", "-", "--json"]).input(plot.to_string()).json();
            let runs = plates["result"]["runs"].as_array().unwrap().clone();
            let pieces = runs.into_iter().flat_map(|run| run["pieces"].as_array().unwrap().clone());
            pieces
                .map(|piece| format!("{} {} {}", plot["name"], piece["name"], piece["length"]))
                .collect::<Vec<_>>()
        })
        .collect();
    let bars = together["result"]["cut_together"][0]["bars"].as_array().unwrap();
    let mut cut: Vec<String> = bars
        .iter()
        .flat_map(|bar| bar["pieces"].as_array().unwrap())
        .map(|piece| format!("{} {} {}", piece["plot"], piece["name"], piece["length"]))
        .collect();
    wanted.sort();
    cut.sort();
    assert_eq!(cut, wanted);
}

/// Lengths of which no two pieces come out of one: there is nothing to be saved, and the page says so.
#[test]
fn plots_whose_timber_saves_nothing_together_are_cut_by_themselves() {
    let command = ["order", "--prices", "examples/merchant.csv"].into_iter().chain(PLOTS);
    let together: Vec<&str> = command.clone().chain(["--cut-together"]).collect();
    let page = pegline(&together).answer();
    assert!(page.contains("It costs no less, so each plot's are cut by themselves."), "{page}");
    let lines = |answer: Value| answer["result"]["lines"].clone();
    let json = |args: Vec<&str>| lines(pegline(args.into_iter().chain(["--json"])).json());
    assert_eq!(json(together), json(command.collect()));
}

#[test]
fn what_the_merchant_has_of_a_length_is_all_that_is_cut_from_for_all_plots_together() {
    // Two plots need a 3.0 m each; of the one there is the first has it, and the other a 3.6 m.
    let list = "item,size,rate,available\ntimber,3m,8,1\ntimber,3.6m,9.60,\n";
    let files = halves(&json!({"extras": []}));
    let files = files.each_ref().map(|file| file.to_str().unwrap());
    let command = ["order", files[0], files[1], "--prices", "-", "--json"];
    let order = pegline(command).input(list).json();
    let bought: Vec<(i64, i64)> = order["result"]["lines"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| (line["size"].as_i64().unwrap(), line["quantity"].as_i64().unwrap()))
        .collect();
    assert_eq!(bought, [(3000, 1), (3600, 1)]);
    for file in files {
        std::fs::remove_file(file).unwrap();
    }
    for (list, why) in [
        ("item,rate,available\npeg,1,4\n", "only of a length of wall plate, timber or joist"),
        ("item,size,rate,available\ntimber,3m,8,1.5\n", "no whole number"),
    ] {
        let refused = at(&plate(), list, &[]);
        assert!(refused.code == 2 && refused.err.contains(why), "{}", refused.err);
    }
}

#[test]
fn a_stream_of_jobs_is_one_order_and_csv_has_the_plots_of_each_line() {
    let command =
        ["order", "examples/plot1.json", "examples/plot2.json", "--prices", "examples/merchant.csv"];
    let csv = rows(&pegline(command.iter().chain(&["--format", "csv"])).answer());
    let pegs = csv.iter().find(|row| row["item"] == "peg").unwrap();
    assert_eq!((pegs["plot"].as_str(), pegs["quantity"].as_str()), ("Plot 1: 8; Plot 2: 8", "1"));
    let lines: Vec<String> = PLOTS[..2]
        .iter()
        .map(|file| {
            serde_json::from_str::<Value>(&std::fs::read_to_string(file).unwrap()).unwrap().to_string()
        })
        .collect();
    let file = std::env::temp_dir().join(format!("pegline-merchant-{}.jsonl", std::process::id()));
    std::fs::write(&file, lines.join("\n")).unwrap();
    let stream = ["order", file.to_str().unwrap(), "--prices", "examples/merchant.csv", "--format", "csv"];
    assert_eq!(rows(&pegline(stream).answer()), csv);
    std::fs::remove_file(&file).unwrap();
}

#[test]
fn a_decimal_comma_is_in_every_number_and_semicolons_between_the_columns() {
    let command = ["order", "--job", PLOTS[0], "--prices", "examples/merchant.csv", "--format", "csv"];
    let with_point = pegline(command).answer();
    let with_comma = pegline(command.iter().chain(&["--decimal", "comma", "--bom"])).answer();
    let with_comma = with_comma.strip_prefix('\u{feff}').unwrap();
    let cells = |text: &str, delimiter: u8| -> Vec<Vec<String>> {
        let mut reader =
            csv::ReaderBuilder::new().delimiter(delimiter).has_headers(false).from_reader(text.as_bytes());
        reader.deserialize().map(Result::unwrap).collect()
    };
    let (point, comma) = (cells(&with_point, b','), cells(with_comma, b';'));
    assert_eq!(point.len(), comma.len());
    for (point, comma) in point.iter().flatten().zip(comma.iter().flatten()) {
        let number = point.parse::<f64>().is_ok();
        assert_eq!(&if number { point.replace('.', ",") } else { point.clone() }, comma);
    }
    assert!(comma.iter().flatten().any(|cell| cell == "0,0499"));
    let refused = pegline(["order", "--job", PLOTS[0], "--decimal", "comma"]).refusal();
    assert!(refused.contains("--decimal: it is for CSV alone"), "{refused}");
}
