//! From the distances to the misreads and the figure that the rest make, by the odds.

use crate::geometry::Point;
use crate::network::{self, neighbours};

use super::cause;
use super::finding::{Finding, SettledBy, Suspect};
use crate::readings::case::Case;
use crate::readings::judge::odds::{CLEAR, Odds, SURE, Why};
use crate::readings::network::adjust::{Adjustment, adjust, distances, solve};
use crate::readings::network::chi_square::CRITICAL;
use crate::readings::network::observation::Datum;

/// What was found among the readings.
#[derive(Debug, Default)]
pub(in crate::readings) struct Found {
    pub(in crate::readings) findings: Vec<Finding>,
    /// The observations that make the figure: all but those named as misread.
    pub(in crate::readings) kept: Vec<usize>,
    /// The figure, unless it is loose.
    pub(in crate::readings) figure: Option<Adjustment>,
    /// The observations that no other checks, all taken together; empty when they make no figure.
    pub(in crate::readings) unchecked: Vec<usize>,
    /// The figure is fixed by count, but so weakly that the corners are nearly loose: these are.
    pub(in crate::readings) weak: Vec<usize>,
    /// Corners of the figure that are folded over.
    pub(in crate::readings) folded: Vec<usize>,
    /// What is on every reading of a tape, or of all of them, mm, if that explains them.
    pub(in crate::readings) constant: Option<(Option<usize>, f64)>,
    /// All that may explain the readings.
    pub(in crate::readings) odds: Odds,
}

impl Found {
    /// Whether the figure can be relied on: every misread named.
    pub(in crate::readings) fn is_sure(&self) -> bool {
        self.figure.is_some()
            && self.constant.is_none()
            && self.findings.iter().all(|f| f.chosen.is_some())
            && self.folded.is_empty()
            && self.weak.is_empty()
    }
}

/// Looks for misreads by the odds of all that may explain the readings.
pub(in crate::readings) fn search(case: &Case<'_>, odds: Odds) -> Found {
    // All readings together: what each one's residual says, and how well the others check it.
    let all = adjust(case.plan(), &case.observations, Datum::Free).ok();
    let constant = match odds.named().map(|weighed| &weighed.why) {
        Some(Why::Constant { tape, length }) => Some((*tape, *length)),
        _ => None,
    };
    let nothing_wrong = constant.is_some() || (odds.explained && odds.nothing() >= CLEAR);
    let findings = if nothing_wrong { Vec::new() } else { findings(case, &odds, all.as_ref()) };
    let redundancy = all.iter().flat_map(|all| &all.redundancy).enumerate();
    let unchecked = redundancy.filter(|(_, r)| **r == 0.0).map(|(i, _)| i).collect();
    settle(case, findings, Found { unchecked, constant, odds, ..Found::default() })
}

/// The most that a slip may be off a usual size and still be put down to it, mm.
const USUAL: f64 = 5.0;
/// The most that are listed together.
const MOST_LISTED: usize = 12;
/// Readings less likely to be wrong than this are not listed.
const LISTED: f64 = 0.02;

/// One finding for each reading that is as good as sure to be wrong, and one for those among which the odds are open.
fn findings(case: &Case<'_>, odds: &Odds, all: Option<&Adjustment>) -> Vec<Finding> {
    let mut each: Vec<(f64, (f64, f64))> = vec![(0.0, (0.0, 1.0)); case.observations.len()];
    for weighed in &odds.all {
        for (index, off) in weighed.why.wrong().iter().zip(&weighed.off) {
            // The explanations come best first: how far off it is stands by the best.
            if each[*index].0 == 0.0 {
                each[*index].1 = *off;
            }
            each[*index].0 += weighed.odds;
        }
    }
    let suspect = |index: usize| {
        let (slip, slip_sd) = each[index].1;
        let tolerance = (CRITICAL * slip_sd).min(slip.abs() / 3.0).min(USUAL);
        Suspect {
            index,
            slip,
            slip_sd,
            w: all.map_or(Some(-slip / slip_sd), |all| all.w[index]),
            redundancy: all.map_or(0.0, |all| all.redundancy[index]),
            cause: cause::likely(slip, tolerance, case.clues[index]),
        }
    };
    let finding = |suspects: Vec<Suspect>, settled_by: SettledBy| Finding {
        w: suspects.iter().filter_map(|s| s.w).fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a }),
        chosen: (settled_by != SettledBy::Nothing).then_some(0),
        suspects,
        settled_by,
    };
    let mut findings = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for (index, (likely, _)) in each.iter().enumerate() {
        if *likely >= SURE && odds.explained {
            let one = suspect(index);
            let by = if one.redundancy == 0.0 { SettledBy::Plan } else { SettledBy::Residuals };
            findings.push(finding(vec![one], by));
        } else if *likely >= LISTED {
            open.push(index);
        }
    }
    findings.sort_by(|a, b| b.w.abs().total_cmp(&a.w.abs()));
    // What is still open, unless it is as good as sure that no more is wrong.
    let more: f64 = open.iter().map(|index| each[*index].0).sum();
    if more > 1.0 - CLEAR {
        open.sort_by(|a, b| each[*b].0.total_cmp(&each[*a].0));
        open.truncate(MOST_LISTED);
        findings.push(finding(open.into_iter().map(suspect).collect(), SettledBy::Nothing));
    }
    findings
}

/// A corner known this many times worse than the coarsest reading is nearly loose: a lucky count of lines does not fix it.
const WEAK: f64 = 10.0;

/// Adjusts what is left once the readings named are left out; a tie that stands leaves out nothing.
fn settle(case: &Case<'_>, findings: Vec<Finding>, found: Found) -> Found {
    let out: Vec<usize> = findings.iter().filter(|f| f.chosen.is_some()).map(Finding::left_out).collect();
    let kept: Vec<usize> = (0..case.observations.len()).filter(|i| !out.contains(i)).collect();
    let observations = case.pick(&kept);
    let fixed = network::rank(case.plan(), &distances(&observations)) >= network::needed(case.plan().len());
    let figure = fixed.then(|| solve(case.plan(), &observations, Datum::Free).ok()).flatten();
    let folded = figure.as_ref().map(|f| folded(case.plan(), &f.points)).unwrap_or_default();
    let coarsest = observations.iter().map(|o| o.sd).fold(0.0, f64::max);
    let weak = figure
        .iter()
        .flat_map(|f| (0..f.points.len()).map(|i| (i, network::ellipse(&f.covariance, i).major)))
        .filter(|(_, sd)| *sd > WEAK * coarsest)
        .map(|(i, _)| i)
        .collect();
    Found { findings, kept, figure, weak, folded, ..found }
}

/// Corners whose turn is the other way than on the plan: a figure fits distances as well as its mirror image does.
fn folded(plan: &[Point], points: &[Point]) -> Vec<usize> {
    let turn = |points: &[Point], corner: usize| {
        let (before, after) = neighbours(corner, points.len());
        let (p, a, b) = (points[corner], points[before], points[after]);
        (a.x - p.x) * (b.y - p.y) - (a.y - p.y) * (b.x - p.x)
    };
    (0..plan.len()).filter(|corner| turn(plan, *corner) * turn(points, *corner) < 0.0).collect()
}
