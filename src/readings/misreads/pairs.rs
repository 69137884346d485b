//! Two misreads at once. Taken one at a time, two wrong readings can hide behind a third; so when more than one
//! was found, every pair is tried together.
//!
//! Leaving out readings i and j lowers the sum of squares by zᵀR₂⁻¹z, with z their weighted residuals and R₂ their
//! block of the residuals' cofactor.

use super::examine::{Network, examine, passes};
use super::finding::Finding;
use crate::readings::network::adjust::{Adjustment, NotAdjusted};

/// Two observations, by index.
type Pair = (usize, usize);

/// Pairs adjusted exactly, the most promising first.
const TRIED: usize = 16;

/// Replaces one-at-a-time findings by the best pair, where a pair explains the readings at least as well; also lists
/// the other pairs that would do.
pub(super) fn reconsider(
    network: &Network<'_>,
    first: &Adjustment,
    findings: Vec<Finding>,
    squares: f64,
) -> Result<(Vec<Finding>, Vec<Pair>), NotAdjusted> {
    let f = first.degrees_of_freedom.saturating_sub(2);
    let passing: Vec<(Pair, f64)> = promising(first)
        .into_iter()
        .filter_map(|pair| {
            let squares = network.solve(&all_but(network, &[pair.0, pair.1])).ok()?.squares;
            passes(squares, f).then_some((pair, squares))
        })
        .collect();
    let Some(best) =
        passing.iter().copied().reduce(|a, b| if b.1 < a.1 * (1.0 - 1e-6) - 1e-9 { b } else { a })
    else {
        return Ok((findings, Vec::new()));
    };
    // Two found one at a time that explain the readings as well stand as they are.
    let findings = if findings.len() == 2 && squares <= best.1 * (1.0 + 1e-6) + 1e-9 {
        findings
    } else {
        together(network, best.0)?.unwrap_or(findings)
    };
    let named = |index: usize, finding: &Finding| finding.suspects.iter().any(|s| s.index == index);
    let others = passing
        .iter()
        .map(|(pair, _)| *pair)
        .filter(|(i, j)| {
            !(findings.len() == 2
                && ((named(*i, &findings[0]) && named(*j, &findings[1]))
                    || (named(*j, &findings[0]) && named(*i, &findings[1]))))
        })
        .collect();
    Ok((findings, others))
}

fn all_but(network: &Network<'_>, out: &[usize]) -> Vec<usize> {
    (0..network.observations.len()).filter(|i| !out.contains(i)).collect()
}

/// The pairs that lower the sum of squares most.
fn promising(first: &Adjustment) -> Vec<Pair> {
    let z: Vec<f64> = (0..first.residuals.len())
        .map(|i| first.w[i].map_or(0.0, |w| w * first.redundancy[i].sqrt()))
        .collect();
    let mut drops = Vec::new();
    for i in 0..z.len() {
        for j in i + 1..z.len() {
            let (a, b, c) = (first.redundancy[i], first.cofactor[(i, j)], first.redundancy[j]);
            let determinant = a * c - b * b;
            // Tied readings, or one that nothing checks, make no pair.
            if determinant > 1e-8 * a.max(1e-6) * c.max(1e-6) {
                drops.push((
                    (i, j),
                    (c * z[i] * z[i] - 2.0 * b * z[i] * z[j] + a * z[j] * z[j]) / determinant,
                ));
            }
        }
    }
    drops.sort_by(|a, b| b.1.total_cmp(&a.1));
    drops.truncate(TRIED);
    drops.into_iter().map(|(pair, _)| pair).collect()
}

/// The findings about two readings, each judged with the other left out; the larger |w| first.
fn together(network: &Network<'_>, pair: Pair) -> Result<Option<Vec<Finding>>, NotAdjusted> {
    let mut findings = Vec::new();
    for (one, other) in [(pair.0, pair.1), (pair.1, pair.0)] {
        let kept = all_but(network, &[other]);
        let adjustment = network.solve(&kept)?;
        match examine(network, &kept, &adjustment, Some(one)) {
            Some(finding) => findings.push(finding),
            None => return Ok(None),
        }
    }
    findings.sort_by(|a, b| b.w.abs().total_cmp(&a.w.abs()));
    // A reading may be named once only.
    Ok((findings[0].left_out() != findings[1].left_out()).then_some(findings))
}
