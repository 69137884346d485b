//! A general-purpose MIP solver as referee: pieces by length, bars by pattern, splices as arcs along each run.

use good_lp::{Expression, ProblemVariables, Variable, constraint, variable};
use pegline::cutting::{
    Bound, Effort, Favour, PieceList, Problem, Rules, Run, Stock, Wanted, cut_pieces, plan_runs,
};
use pegline::exact::{Pence, Tenths};

use super::checker;
use super::made::Draw;
use super::mip::{bars, cheapest_pieces, least};

/// First measure × 1000 + second measure of the best layout with splices at the given points.
fn best_layout(problem: &Problem) -> Option<i64> {
    let mut vars = ProblemVariables::new();
    let rules = problem.rules;
    let mut constraints = Vec::new();
    // One arc for each stretch between two ends or allowed points.
    let mut arcs: Vec<(i64, Variable)> = Vec::new();
    let mut pieces = Expression::from(0.0);
    for run in &problem.runs {
        let mut points = vec![0];
        points.extend(run.splices.iter().flatten().map(|zone| zone.0.0));
        points.push(run.length.0);
        points.sort_unstable();
        points.dedup();
        points.retain(|at| (0..=run.length.0).contains(at));
        let last = points.len() - 1;
        let mut flow = vec![Expression::from(0.0); points.len()];
        for i in 0..=last {
            for j in i + 1..=last {
                let face = points[j] - points[i];
                if (i, j) != (0, last) && face < rules.least_piece.0 {
                    continue;
                }
                let arc = vars.add(variable().binary());
                flow[i] += arc;
                flow[j] -= arc;
                pieces += arc;
                arcs.push((face + if j < last { rules.overlap.0 } else { 0 }, arc));
            }
        }
        for (place, flow) in flow.into_iter().enumerate() {
            let net = if place == 0 {
                1.0
            } else if place == last {
                -1.0
            } else {
                0.0
            };
            constraints.push(constraint!(flow == net));
        }
    }
    let mut lengths: Vec<i64> = arcs.iter().map(|(length, _)| *length).collect();
    lengths.sort_unstable();
    lengths.dedup();
    let bars = bars(&mut vars, &lengths, &problem.stock, rules);
    constraints.extend(bars.limits.into_iter().map(|(taken, most)| constraint!(taken <= most)));
    for (gives, length) in bars.gives.into_iter().zip(&lengths) {
        let wanted: Expression =
            arcs.iter().filter(|(of, _)| of == length).map(|(_, arc)| Expression::from(*arc)).sum();
        constraints.push(constraint!(gives >= wanted));
    }
    let runs = f64::from(u32::try_from(problem.runs.len()).unwrap());
    let splices = pieces - runs;
    let favour = match problem.favour {
        Favour::Splices => 1000.0 * splices + bars.cost,
        Favour::Cost => 1000.0 * bars.cost + splices,
        Favour::ASplice(worth) => {
            let worth = f64::from(i32::try_from(worth.0).unwrap());
            1000.0 * bars.cost + (1000.0 * worth + 1.0) * splices
        }
    };
    least(vars, &favour, constraints)
}

/// Stock of two to four lengths, one of them now and then counted and free.
fn stock(draw: &mut Draw, least: i64, most: i64) -> Vec<Stock> {
    (0..draw.from(2, 4))
        .map(|place| {
            let length = draw.from(least, most);
            let van = place > 0 && draw.from(0, 3) == 0;
            Stock {
                length: Tenths(length),
                price: Pence(if van { 0 } else { length * draw.from(8, 12) / 3 }),
                count: van.then(|| usize::try_from(draw.from(1, 2)).unwrap()),
            }
        })
        .collect()
}

#[test]
fn fixed_pieces_cost_what_a_mip_solver_finds() {
    let mut draw = Draw(1);
    let mut compared = 0;
    for _ in 0..200 {
        let list = PieceList {
            pieces: (0..draw.from(2, 5))
                .map(|place| Wanted {
                    length: Tenths(4 + 3 * place + draw.from(0, 2)),
                    count: usize::try_from(draw.from(1, 9)).unwrap(),
                })
                .collect(),
            stock: stock(&mut draw, 19, 30),
            rules: Rules { kerf: Tenths(draw.from(0, 1)), ..Rules::default() },
            effort: Effort::default(),
        };
        let answer = cut_pieces(&list).unwrap();
        checker::check_pieces(&list, &answer);
        if let Some(least) = cheapest_pieces(&list) {
            compared += 1;
            assert!(answer.bound.0 <= least, "bound above the optimum: {list:?}");
            assert!(answer.cost.0 >= least, "below the optimum: {list:?}");
            assert!(!answer.proven || answer.cost.0 == least, "not proven rightly: {list:?}");
            assert!(answer.proven, "so small a list is always proven: {list:?}");
        }
    }
    assert_eq!(compared, 200);
}

#[test]
fn runs_are_laid_as_well_as_a_mip_solver_can_with_the_same_splice_points() {
    let mut draw = Draw(2);
    let (mut compared, mut proven) = (0, 0);
    for round in 0..120 {
        let favour = match round % 3 {
            0 => Favour::Splices,
            1 => Favour::Cost,
            _ => Favour::ASplice(Pence(draw.from(0, 20))),
        };
        let problem = Problem {
            runs: (0..draw.from(2, 3))
                .map(|place| {
                    let length = draw.from(8, 26);
                    let points = (0..draw.from(1, 3)).map(|_| {
                        let at = Tenths(draw.from(3, length - 3));
                        (at, at)
                    });
                    Run { name: format!("R{place}"), length: Tenths(length), splices: Some(points.collect()) }
                })
                .collect(),
            stock: stock(&mut draw, 12, 24),
            rules: Rules {
                kerf: Tenths(draw.from(0, 1)),
                trim: Tenths(0),
                least_piece: Tenths(3),
                overlap: Tenths(draw.from(0, 1)),
            },
            favour,
            effort: Effort::default(),
        };
        let (answer, best) = (plan_runs(&problem), best_layout(&problem));
        let (Ok(layout), Some(best)) = (&answer, best) else {
            assert!(answer.is_err() && best.is_none(), "{problem:?}: {answer:?} against {best:?}");
            continue;
        };
        checker::check(&problem, layout);
        let splices = i64::try_from(layout.splices).unwrap();
        let (value, bound) = match (layout.bound, favour) {
            (Bound::FewestSplices { splices: least, cost }, _) => {
                (1000 * splices + layout.cost.0, 1000 * least + cost.0)
            }
            (Bound::Cost { cost, splices: least }, _) => {
                (1000 * layout.cost.0 + splices, 1000 * cost.0 + least)
            }
            (Bound::CostPlusPerSplice { total }, Favour::ASplice(worth)) => {
                (1000 * (layout.cost.0 + worth.0 * splices) + splices, 1000 * total.0)
            }
            other => panic!("the wrong bound: {other:?}"),
        };
        assert!(bound <= best, "bound {bound} above the optimum {best}: {problem:?}");
        assert!(value >= best, "{value} below the optimum {best}: {problem:?}");
        assert!(!layout.proven || value == best, "{value} proven, the optimum is {best}: {problem:?}");
        compared += 1;
        proven += usize::from(layout.proven);
    }
    assert!(compared > 100, "{compared} compared");
    assert!(proven * 10 > compared * 8, "only {proven} of {compared} proven");
}
