//! The nine footprints with known optima.

use pegline::cutting::{Bound, Effort, Favour, Problem, Rules, Run, Stock, plan_runs};
use pegline::exact::{Pence, Tenths};
use serde_json::Value;

use super::checker;

fn mm(value: &Value) -> Tenths {
    Tenths::from_mm(value.as_i64().unwrap())
}

/// Reads one footprint of the fixture as a problem.
fn problem(file: &Value, footprint: &Value, prices: &str, favour: Favour) -> Problem {
    let zones = |run: &Value| {
        let zones = run["splice_allowed"].as_array().unwrap();
        zones.iter().map(|zone| (mm(&zone[0]), mm(&zone[1]))).collect()
    };
    Problem {
        runs: footprint["runs"]
            .as_array()
            .unwrap()
            .iter()
            .map(|run| Run {
                name: run["name"].as_str().unwrap().to_owned(),
                length: mm(&run["length"]),
                splices: Some(zones(run)),
            })
            .collect(),
        stock: file["stock"][prices]
            .as_array()
            .unwrap()
            .iter()
            .map(|stock| Stock {
                length: mm(&stock["length"]),
                price: Pence(stock["pence"].as_i64().unwrap()),
                count: None,
            })
            .collect(),
        rules: Rules { kerf: mm(&file["kerf"]), least_piece: mm(&file["min_piece"]), ..Rules::default() },
        favour,
        effort: Effort::default(),
    }
}

/// Source: fixtures/plates.json, invented footprints, optima proven by an independent route.
/// How long they take is the bench's business.
#[test]
fn the_nine_footprints_reach_their_optima_proven_for_every_objective_and_price_list() {
    let file: Value = serde_json::from_str(include_str!("../../../fixtures/plates.json")).unwrap();
    let mut met = 0;
    for footprint in file["footprints"].as_array().unwrap() {
        for prices in ["flat", "graded"] {
            for (key, favour) in [
                ("cheapest", Favour::Cost),
                ("fewest_splices", Favour::Splices),
                ("400_a_splice", Favour::ASplice(Pence(400))),
            ] {
                let problem = problem(&file, footprint, prices, favour);
                let layout = plan_runs(&problem).unwrap();
                checker::check(&problem, &layout);
                let known = &footprint["optimum"][prices][key];
                let (pence, splices) = (known["pence"].as_i64().unwrap(), known["splices"].as_i64().unwrap());
                let name = format!("{} {prices} {key}", footprint["name"]);
                assert_eq!(
                    (layout.cost.0, i64::try_from(layout.splices).unwrap()),
                    (pence, splices),
                    "{name}"
                );
                assert!(layout.proven, "{name}");
                let bound = match favour {
                    Favour::Splices => Bound::FewestSplices { splices, cost: Pence(pence) },
                    Favour::Cost => Bound::Cost { cost: Pence(pence), splices },
                    Favour::ASplice(worth) => {
                        Bound::CostPlusPerSplice { total: Pence(pence + splices * worth.0) }
                    }
                };
                assert_eq!(layout.bound, bound, "{name}");
                met += 1;
            }
        }
    }
    assert_eq!(met, 54);
}
