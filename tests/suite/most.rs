//! Every limit of the source on what is taken, at its value and one past it; a new one can't be forgotten.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use crate::program::pegline;

/// What to type, and what stands on standard input.
type Typed = (Vec<String>, String);

/// A limit: where it stands in `src`, its name, its value, its row in the table of limits, what is typed for so many, and
/// what is said to one too many.
type Limit = (&'static str, &'static str, usize, &'static str, fn(usize) -> Typed, &'static str);

const PLAN: &str = "7800x6000-3000x2400";
const JOISTS: &str = "joists 60000x3000 --house AB --from AB --to CD --centres 400 --bearing 100";

fn words(line: &str) -> Typed {
    (line.replace("PLAN", PLAN).split(' ').map(str::to_owned).collect(), String::new())
}

fn job(command: &str, job: &Value) -> Typed {
    (vec![command.to_owned(), "--job".to_owned(), "-".to_owned()], job.to_string())
}

/// Items made from their numbers, from 0.
fn list(n: usize, of: impl Fn(usize) -> Value) -> Value {
    (0..n).map(of).collect()
}

fn joined(n: usize, of: impl Fn(usize) -> String) -> String {
    (0..n).map(of).collect::<Vec<_>>().join(",")
}

fn extras(extras: &Value) -> Typed {
    job("order", &json!({ "order": { "extras": extras } }))
}

/// Hundredths as a number with two decimals.
fn hundredths(n: usize) -> String {
    format!("{}.{:02}", n / 100, n % 100)
}

/// The limits that someone can meet.
const LIMITS: [Limit; 36] = [
    (
        "cutting/cut_list.rs",
        "MAX_LENGTHS",
        200,
        "different lengths in a list of pieces | 200",
        |n| {
            words(&format!(
                "cuts --pieces {} --stock 3600 --seconds 0.01",
                joined(n, |i| (300 + i).to_string())
            ))
        },
        "201 lengths are given: 200 is the most",
    ),
    (
        "cutting/cut_list.rs",
        "MAX_PIECES",
        5_000,
        "pieces of a list | 5000",
        |n| words(&format!("cuts --pieces {n}x100 --stock 4.8m --seconds 0.01")),
        "5001 pieces are given: 5000 is the most",
    ),
    (
        "cutting/model.rs",
        "MAX_RUNS",
        60,
        "runs of plate, partitions and binder included | 60",
        |n| {
            let runs = list(n, |i| json!({ "name": format!("P{i}"), "length": 500 }));
            job("plates", &json!({ "plan": PLAN, "plates": { "width": 140 }, "partitions": runs }))
        },
        "61 have a length of plate: 60 is the most",
    ),
    (
        "cutting/model.rs",
        "MAX_STOCK",
        64,
        "lengths for sale and in the van | 64",
        |n| words(&format!("cuts --pieces 1x1200 --stock {}", joined(n, |i| (3000 + 10 * i).to_string()))),
        "65 lengths are given, those in the van among them: 64 is the most",
    ),
    (
        "exact/money.rs",
        "MAX_PRICE",
        100_000_000,
        "a price | 1000000.00",
        |n| words(&format!("cuts --pieces 1x1200 --stock 3600:{}", hundredths(n))),
        "write one from 0.00 to 1000000.00",
    ),
    (
        "heights/drops.rs",
        "MOST_DROPS",
        1_000,
        "drops to a wall head | 1000",
        |n| words(&format!("heights --level-depth 50 --drop {}", joined(n, |i| (2398 + i % 3).to_string()))),
        "1001 drops are more than the 1000 that are taken at a time",
    ),
    (
        "heights/wall_head.rs",
        "MOST_LAYERS",
        100,
        "layers of a stack | 100",
        |n| {
            words(&format!(
                "heights --ceiling 2400 --stack rail=38,{}",
                joined(n - 1, |i| format!("floor:f{i}=5"))
            ))
        },
        "101 layers are more than the 100 that are taken at a time",
    ),
    (
        "job/faults.rs",
        "MOST_TOLD",
        20,
        "faults told at once, the others counted | 20",
        |n| job("diagonals", &json!({ "plan": PLAN, "house": vec!["ZZ"; n] })),
        "and 1 more",
    ),
    (
        "job/sections/along.rs",
        "MOST_ITEMS",
        200,
        "openings, partitions and joints, each | 200",
        |n| {
            let joints = list(n, |i| json!({ "side": "AB", "at": 10 * i }));
            job("lines", &json!({ "plan": PLAN, "joints": joints }))
        },
        "201 are given: 200 is the most taken",
    ),
    (
        "job/sections/diagonals.rs",
        "MOST_SPARES",
        20,
        "spare check sizes | 20",
        |n| words(&format!("diagonals PLAN --spares {n}")),
        "21 is too many: write 0 to 20",
    ),
    (
        "job/sections/order/extras.rs",
        "MOST_EXTRAS",
        200,
        "extras of an order | 200",
        |n| extras(&list(n, |i| json!({ "item": format!("thing {i}"), "quantity": 1 }))),
        "201 are given: 200 is the most",
    ),
    (
        "job/sections/order/items.rs",
        "LONGEST_NAME",
        60,
        "characters of an item, a size or a unit | 60",
        |n| extras(&json!([{ "item": "x".repeat(n), "quantity": 1 }])),
        "is too long: write up to 60 characters",
    ),
    (
        "job/sections/order/items.rs",
        "MOST_PERCENT",
        10_000,
        "waste, tax | 100 %",
        |n| {
            job(
                "order",
                &json!({ "order": { "tax_percent": hundredths(n), "extras": [{ "item": "a", "quantity": 1 }] } }),
            )
        },
        "write one from 0 to 100, at most two decimals",
    ),
    (
        "job/sections/order/prices.rs",
        "MOST_PRICES",
        5_000,
        "prices of a list | 5000",
        |n| {
            let prices = list(n, |i| json!({ "item": format!("thing {i}"), "rate": 1 }));
            job(
                "order",
                &json!({ "order": { "prices": prices, "extras": [{ "item": "a", "quantity": 1 }] } }),
            )
        },
        "5001 prices are given: 5000 is the most",
    ),
    (
        "job/sections/plates/mod.rs",
        "LONGEST_NAME",
        12,
        "characters of a run's name | 12",
        |n| words(&format!("plates PLAN --width 140 --stock 4.8m --run {}:2400", "P".repeat(n))),
        "write a name of up to 12 characters",
    ),
    (
        "job/sections/sketch.rs",
        "LONGEST",
        24,
        "characters in a box of the drawing | 24",
        |n| words(&format!("sketch PLAN --date {}", "x".repeat(n))),
        "25 characters is too long: write 24 at most",
    ),
    (
        "joists/layout.rs",
        "MOST_JOISTS",
        1_000,
        "joists | 1000",
        |n| {
            let across = 200 + 100 * n;
            words(&format!("joists {across}x3000 --house AB --from AB --to CD --centres 100 --bearing 100"))
        },
        "1001 joists are more than the 1000 that are taken at a time",
    ),
    (
        "job/text/bulk.rs",
        "MOST_ITEMS",
        10_000,
        "items of a list in a job file | 10000",
        |n| job("diagonals", &json!({ "plan": PLAN, "house": list(n, |_| json!("AB")) })),
        "house: 10001 are given: no list takes more than 10000",
    ),
    (
        "joists/levels.rs",
        "MOST_HEIGHTS",
        1_000,
        "heights read along a support | 1000",
        |n| {
            words(&format!(
                "{JOISTS} --heights-to C=0 --heights-from {}",
                joined(n, |i| format!("AB@{}=0", 5 * i))
            ))
        },
        "1001 heights read along a support are more than the 1000 that are taken at a time",
    ),
    (
        "joists/set_out.rs",
        "MOST_OPENINGS",
        50,
        "openings between joists | 50",
        |n| {
            words(&format!(
                "{JOISTS} --openings {}",
                joined(n, |i| format!("o{i}=300x300@{}+400", 500 + 1000 * i))
            ))
        },
        "51 openings are more than the 50 that are taken at a time",
    ),
    (
        "joists/set_out.rs",
        "MOST_ROWS",
        20,
        "rows of noggings | 20",
        |n| words(&format!("{JOISTS} --noggings {n}")),
        "21 rows of noggings are more than the 20 that are taken at a time",
    ),
    (
        "length/units.rs",
        "LONGEST",
        1_000_000,
        "a length | 1000 m",
        |n| words(&format!("diagonals {n}x6000")),
        "is over 1000 m",
    ),
    (
        "lines/faces.rs",
        "MOST_LAYERS",
        12,
        "layers of a wall | 12",
        |n| {
            let layers = joined(n, |i| format!("layer{}=20", ('a'..='z').nth(i).unwrap()));
            words(&format!("lines PLAN --layers {layers}"))
        },
        "13 layers are given: 12 is the most taken",
    ),
    (
        "lines/straight.rs",
        "MOST_BLOCK_READINGS",
        200,
        "block readings along a side | 200",
        |n| words(&format!("straight --block 20 --read {}", joined(n, |i| format!("{}=20", 30 * i)))),
        "201 readings are given: 200 is the most taken",
    ),
    (
        "order/figures.rs",
        "MOST_QUANTITY",
        100_000_000,
        "a quantity to order | 1000000",
        |n| extras(&json!([{ "item": "a", "quantity": hundredths(n), "unit": "hour" }])),
        "write one from 0.01 to 1000000",
    ),
    (
        "packers/make_up.rs",
        "MOST_GAP",
        1_000,
        "a gap to pack | 1000 mm",
        |n| words(&format!("packs PLAN --heights A=0,B=-{n}")),
        "more than the 1000 mm that can be packed",
    ),
    (
        "packers/make_up.rs",
        "MOST_THICKNESSES",
        32,
        "different packers in the van | 32",
        |n| words(&format!("packs PLAN --heights A=0,B=-7 --packers {}", joined(n, |i| (i + 1).to_string()))),
        "33 packer thicknesses are more than the 32 that are taken at a time",
    ),
    (
        "packing/set_ups.rs",
        "MOST_LEVELS",
        2_000,
        "levels read round a plate | 2000",
        |n| words(&format!("packs PLAN --heights {}", joined(n, |i| format!("AB@{}=0", 3 * i)))),
        "2001 readings are more than the 2000 that are taken at a time",
    ),
    (
        "packing/set_ups.rs",
        "MOST_SET_UPS",
        100,
        "set-ups of the level | 100",
        |n| {
            job(
                "packs",
                &json!({ "plan": PLAN, "packs": { "staff": list(n, |i| json!(["A=1400", format!("AB@{}=1400", 10 + i)])) } }),
            )
        },
        "101 set-ups are more than the 100 that are taken at a time",
    ),
    (
        "packing/studs.rs",
        "MOST_STUDS",
        1_500,
        "studs to pack | 1500",
        |n| words(&format!("packs {}x6000 --studs 100 --staff A=1400,B=1400", 69_000 + 100 * (n - 1_500))),
        "are more than the 1500 that are taken at a time",
    ),
    (
        "plan/limits.rs",
        "LONGEST_TEXT",
        4_096,
        "characters of a plan | 4096",
        |n| (vec!["diagonals".to_owned(), format!("{PLAN:n$}")], String::new()),
        "4097 characters long: 4096 is the most taken",
    ),
    (
        "practice/class.rs",
        "LONGEST_NAME",
        60,
        "characters of a pupil's name | 60",
        |n| class("x".repeat(n)),
        "60",
    ),
    (
        "practice/edition.rs",
        "MOST_NAMES",
        200,
        "pupils of a class | 200",
        |n| class((0..n).map(|i| format!("Pupil {i}")).collect::<Vec<_>>().join("\n")),
        "201 names: write 1 to 200",
    ),
    (
        "practice/edition.rs",
        "MOST_QUESTIONS",
        50,
        "questions on a practice sheet | 50",
        |n| words(&format!("practice corners --count {n}")),
        "write a number from 1 to 50",
    ),
    (
        "readings/input.rs",
        "MOST_READINGS",
        700,
        "taped readings of one job | 700",
        |n| {
            let read = ["AB=7800", "BC=3600", "AC=8591"];
            words(&format!("readings PLAN --read {}", joined(n, |i| read[i % 3].to_owned())))
        },
        "701 readings: at most 700 can be judged at once",
    ),
    (
        "stock/mod.rs",
        "MOST_SECONDS",
        3_600,
        "seconds that a list is looked for | 3600",
        |n| words(&format!("cuts --pieces 1x1200 --stock 3600 --seconds {n}")),
        "3601 is no usable time: write 0 to 3600 seconds",
    ),
];

fn class(names: String) -> Typed {
    let typed = ["practice", "corners", "--count", "1", "--class", "-"];
    (typed.map(str::to_owned).into(), names)
}

/// Limits that are met in another way than by so many and one more, and have tests of their own or lie past the others.
const ELSEWHERE: [(&str, &str); 9] = [
    ("cutting/model.rs", "MAX_BARS"),
    ("cutting/model.rs", "MAX_LENGTH"),
    ("job/sections/stock.rs", "MOST_COUNTED"),
    ("job/text/read.rs", "LARGEST_FILE"),
    ("length/amount.rs", "MOST"),
    ("lines/answer.rs", "MOST_STUDS"),
    ("order/figures.rs", "MOST_MONEY"),
    ("packers/make_up.rs", "MOST_PLACES"),
    ("plan/limits.rs", "MOST_CORNERS"),
];

/// Where a search, a drawing or a page holds itself to a bound that nobody can meet.
const INNER: [&str; 18] = [
    "answer/headline.rs",
    "cli/",
    "cutting/pieces/",
    "cutting/rest.rs",
    "cutting/runs/",
    "lines/clearing.rs",
    "packers/layers.rs",
    "packers/share.rs",
    "packers/weights.rs",
    "plates/",
    "practice/sheet.rs",
    "readings/fit/",
    "readings/judge/",
    "readings/misreads/",
    "readings/network/",
    "report/",
    "sketch/",
    "tape.rs",
];

/// The constants of `src` that are called a most or a longest, with their values as they are written.
fn constants() -> BTreeMap<(String, String), String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let (mut folders, mut found) = (vec![root.clone()], BTreeMap::new());
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let file = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
            for line in fs::read_to_string(&path).unwrap().lines() {
                let Some((name, value)) =
                    line.split_once("const ").and_then(|(_, rest)| rest.split_once(':'))
                else {
                    continue;
                };
                if ["MOST", "MAX", "LARGEST", "LONGEST"].contains(&name.split('_').next().unwrap()) {
                    let value = value.split_once('=').map_or("", |(_, value)| value).replace('_', "");
                    found.insert((file.clone(), name.to_owned()), value);
                }
            }
        }
    }
    found
}

#[test]
fn each_limit_takes_what_it_says_and_not_one_more() {
    for (file, name, most, _, typed, says) in LIMITS {
        for n in [most, most + 1] {
            let (arguments, input) = typed(n);
            let ran = pegline(arguments).input(input).run();
            let refused = ran.err.contains(says);
            assert_eq!(refused, n > most, "{file} {name} at {n}: {ran:.300?}");
            assert!(!refused || ran.code == 2, "{file} {name} at {n} exits {}", ran.code);
        }
    }
}

#[test]
fn every_limit_of_the_source_is_tried() {
    let constants = constants();
    let listed = LIMITS.map(|(file, name, ..)| (file, name)).into_iter().chain(ELSEWHERE);
    let listed: BTreeSet<(String, String)> =
        listed.map(|(file, name)| (file.to_owned(), name.to_owned())).collect();
    let is_inner = |file: &str| INNER.iter().any(|inner| file.starts_with(inner));
    let missing: Vec<_> =
        constants.keys().filter(|limit| !listed.contains(*limit) && !is_inner(&limit.0)).collect();
    assert!(missing.is_empty(), "give each its row in LIMITS: {missing:?}");
    let gone: Vec<_> = listed.iter().filter(|limit| !constants.contains_key(*limit)).collect();
    assert!(gone.is_empty(), "no longer in src: {gone:?}");
    for (file, name, most, ..) in LIMITS {
        let written = &constants[&(file.to_owned(), name.to_owned())];
        let digits: String = written.chars().take_while(|c| *c != ';').filter(char::is_ascii_digit).collect();
        let exact =
            digits == most.to_string() || written.trim().trim_end_matches(';').parse() == Ok(most as f64);
        assert!(exact || digits == format!("{most}0"), "{file} {name} is {written} now, and {most} here");
    }
}

/// Rows of the table for limits that are met in another way.
const ROWS_ELSEWHERE: [&str; 2] =
    ["corners of a plan | 26", "a job file, a price list, or a line of a batch | 1 MiB"];

#[test]
fn the_table_of_what_is_taken_has_every_limit_and_no_other() {
    let office = include_str!("../../examples/office.md");
    let table = office.lines().skip_while(|line| *line != "| What | Most |").skip(2);
    let rows = table.map_while(|line| line.strip_prefix("| ")?.strip_suffix(" |"));
    let shown: BTreeSet<&str> = rows.collect();
    let limits: BTreeSet<&str> = LIMITS.iter().map(|limit| limit.3).chain(ROWS_ELSEWHERE).collect();
    assert_eq!(shown, limits, "examples/office.md, \"How much it takes\"");
    for (file, name, most, row, ..) in LIMITS {
        let figure: String =
            row.split('|').next_back().unwrap().chars().filter(char::is_ascii_digit).collect();
        // Some are counted in hundredths, and lengths in mm.
        let parts = [1, 100, 1000].map(|part| (most / part).to_string());
        assert!(
            parts.contains(&figure) || figure == most.to_string(),
            "{file} {name} is {most}, and the table has {row}"
        );
    }
}
