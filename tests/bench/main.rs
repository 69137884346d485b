//! `cargo bench`: what the day's sums cost, in process.
//!
//! Figures from one run can be compared with each other; figures from two runs can't.
#![allow(clippy::unwrap_used, reason = "a bench stops at the first surprise")]

use divan::Bencher;
use pegline::cutting::{Effort, Objective, Pence, Problem, Rules, Run, Stock, Tenths, plan_runs};
use pegline::job::{Job, read};
use pegline::length::Units;
use pegline::plan::parse_expression;
use pegline::square::{Options, diagonals};
use serde_json::Value;

fn main() {
    divan::main();
}

/// A rectangle, an L, a T, and a stepped plan of 12 corners.
const PLANS: [&str; 4] = [
    "7800x6000",
    "7800x6000-3000x2400",
    "9000x3000+3600x2400",
    "9000x6000-1500x1200@tl-1500x1200@tr-2000x1500@bl-2000x1500@br",
];

#[divan::bench(args = PLANS)]
fn check_sizes(bencher: Bencher<'_, '_>, plan: &str) {
    let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
    bencher.bench(|| diagonals(&footprint, &Options::default()));
}

#[divan::bench]
fn job_text_to_check_sizes(bencher: Bencher<'_, '_>) {
    let text = r#"{"name": "Plot 1", "plan": "7800x6000-3000x2400", "house": ["AB"]}"#;
    bencher.bench(|| {
        let job = Job::check(&read(text).unwrap()).unwrap();
        job.answer(pegline::answer::Question::Diagonals).unwrap()
    });
}

/// The nine footprints of the fixture, one after the other.
#[divan::bench(args = ["flat cheapest", "flat fewest", "graded cheapest", "graded fewest"])]
fn nine_footprints(bencher: Bencher<'_, '_>, case: &str) {
    let (prices, favour) = case.split_once(' ').unwrap();
    let objective = if favour == "cheapest" {
        Objective::Cost
    } else {
        Objective::FewestSplices
    };
    let problems = problems(prices, objective);
    bencher.bench(|| {
        let layouts: Vec<_> = problems
            .iter()
            .map(|problem| plan_runs(problem).unwrap())
            .collect();
        assert!(layouts.iter().all(|layout| layout.proven));
        layouts
    });
}

fn problems(prices: &str, objective: Objective) -> Vec<Problem> {
    let file: Value = serde_json::from_str(include_str!("../../fixtures/plates.json")).unwrap();
    let mm = |value: &Value| Tenths::from_mm(value.as_i64().unwrap());
    let list = |value: &Value| value.as_array().unwrap().clone();
    let run = |run: &Value| Run {
        name: run["name"].as_str().unwrap().to_owned(),
        length: mm(&run["length"]),
        splices: Some(
            list(&run["splice_allowed"])
                .iter()
                .map(|zone| (mm(&zone[0]), mm(&zone[1])))
                .collect(),
        ),
    };
    let stock = |stock: &Value| Stock {
        length: mm(&stock["length"]),
        price: Pence(stock["pence"].as_i64().unwrap()),
        count: None,
    };
    list(&file["footprints"])
        .iter()
        .map(|footprint| Problem {
            runs: list(&footprint["runs"]).iter().map(run).collect(),
            stock: list(&file["stock"][prices]).iter().map(stock).collect(),
            rules: Rules {
                kerf: mm(&file["kerf"]),
                least_piece: mm(&file["min_piece"]),
                ..Rules::default()
            },
            objective,
            effort: Effort::default(),
        })
        .collect()
}
