//! Bars by pattern for a general-purpose MIP solver; the bench times it beside ours.

use good_lp::{
    Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, default_solver, variable,
};
use pegline::cutting::{PieceList, Rules, Stock};

/// Every non-empty pattern of the lengths that fits, as counts.
fn patterns(lengths: &[i64], stock: Stock, rules: Rules) -> Vec<Vec<u32>> {
    let mut all = vec![(stock.length.0 - rules.trim.0 + rules.kerf.0, Vec::new())];
    for &length in lengths {
        all = all
            .into_iter()
            .flat_map(|(room, counts): (i64, Vec<u32>)| {
                let most = room.max(0) / (length + rules.kerf.0);
                (0..=most).map(move |count| {
                    let mut counts = counts.clone();
                    counts.push(u32::try_from(count).unwrap());
                    (room - count * (length + rules.kerf.0), counts)
                })
            })
            .collect();
    }
    all.into_iter().map(|(_, counts)| counts).filter(|counts| counts.iter().any(|count| *count > 0)).collect()
}

/// Bars as integer variables by pattern: what they cost, how many of each length they give, limits on counted ones.
pub(crate) struct Bars {
    pub(crate) cost: Expression,
    pub(crate) gives: Vec<Expression>,
    pub(crate) limits: Vec<(Expression, f64)>,
}

pub(crate) fn bars(vars: &mut ProblemVariables, lengths: &[i64], stock: &[Stock], rules: Rules) -> Bars {
    let mut bars = Bars {
        cost: Expression::from(0.0),
        gives: vec![Expression::from(0.0); lengths.len()],
        limits: Vec::new(),
    };
    for item in stock {
        let mut taken = Expression::from(0.0);
        for counts in patterns(lengths, *item, rules) {
            let bar: Variable = vars.add(variable().integer().min(0).max(40));
            taken += bar;
            bars.cost += f64::from(i32::try_from(item.price.0).unwrap()) * bar;
            for (gives, count) in bars.gives.iter_mut().zip(counts) {
                *gives += f64::from(count) * bar;
            }
        }
        if let Some(most) = item.count {
            bars.limits.push((taken, f64::from(u32::try_from(most).unwrap())));
        }
    }
    bars
}

/// Least value of the favour under the constraints; `None` when there is none.
pub(crate) fn least(
    vars: ProblemVariables,
    favour: &Expression,
    constraints: Vec<good_lp::Constraint>,
) -> Option<i64> {
    let mut model = vars.minimise(favour.clone()).using(default_solver);
    for constraint in constraints {
        model = model.with(constraint);
    }
    let solution = model.solve().ok()?;
    #[expect(clippy::cast_possible_truncation, reason = "a whole number of at most a few thousand")]
    Some(solution.eval(favour).round() as i64)
}

/// The least that the pieces can cost.
pub(crate) fn cheapest_pieces(list: &PieceList) -> Option<i64> {
    let mut vars = ProblemVariables::new();
    let lengths: Vec<i64> = list.pieces.iter().map(|wanted| wanted.length.0).collect();
    let bars = bars(&mut vars, &lengths, &list.stock, list.rules);
    let mut constraints: Vec<_> =
        bars.limits.into_iter().map(|(taken, most)| constraint!(taken <= most)).collect();
    for (gives, wanted) in bars.gives.into_iter().zip(&list.pieces) {
        constraints.push(constraint!(gives >= f64::from(u32::try_from(wanted.count).unwrap())));
    }
    least(vars, &bars.cost, constraints)
}
