//! From the distances to the misreads and the figure that the rest make: by the residuals, and by the odds over them.

use crate::geometry::Point;
use crate::network::{self, DETECTABLE};

use super::cause;
use super::finding::{Finding, SettledBy, Suspect};
use super::prior::{PlanView, against_plan, snoop_among};
use crate::readings::case::Case;
use crate::readings::fit::square::neighbours;
use crate::readings::judge::odds::{self, Odds, SURE, Why};
use crate::readings::network::adjust::{Adjustment, NotAdjusted, distances, solve};
use crate::readings::network::chi_square::CRITICAL;
use crate::readings::network::observation::Datum;

/// What was found among the readings.
#[derive(Debug)]
pub(in crate::readings) struct Found {
    pub(in crate::readings) findings: Vec<Finding>,
    pub(in crate::readings) other_pairs: Vec<(usize, usize)>,
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
    /// Readings that look wrong against the plan.
    pub(in crate::readings) plan_suspects: Vec<Suspect>,
    /// Others that, left out instead of one of them, would fit the plan as well.
    pub(in crate::readings) plan_rivals: Vec<usize>,
    /// Those of the suspects, by observation, that nothing else checks.
    pub(in crate::readings) tape_again: Vec<usize>,
    /// What is on every reading, mm, if that explains them.
    pub(in crate::readings) every_reading: Option<f64>,
    /// All that may explain the readings.
    pub(in crate::readings) odds: Odds,
}

impl Found {
    /// Whether the figure can be relied on: every misread named, nothing unchecked under suspicion.
    pub(in crate::readings) fn is_sure(&self) -> bool {
        self.figure.is_some()
            && self.every_reading.is_none()
            && self.findings.iter().all(|f| f.chosen.is_some())
            && self.other_pairs.is_empty()
            && self.tape_again.is_empty()
            && self.folded.is_empty()
            && self.weak.is_empty()
    }
}

/// Looks for misreads: what the residuals find, unless the odds of all that may explain the readings say otherwise.
pub(in crate::readings) fn search(case: &Case<'_>) -> Found {
    let odds = odds::weigh(case);
    let snooped = snoop_all(case);
    let mut found = match odds.named().map(|weighed| &weighed.why) {
        Some(Why::EveryReading(length)) => {
            let mut found = settle(case, Vec::new(), Vec::new());
            found.every_reading = Some(*length);
            found
        }
        Some(Why::Wrong(_)) => settle(case, findings(case, &odds), Vec::new()),
        _ if odds.explained && odds.nothing() >= CLEAR => settle(case, Vec::new(), Vec::new()),
        _ => settle(case, findings(case, &odds), Vec::new()),
    };
    found.unchecked = snooped.unchecked;
    found.odds = odds;
    found
}

/// Nothing is said to be wrong, and corners may be moved, where that is as likely as this.
const CLEAR: f64 = 0.85;
/// The most that a slip may be off a usual size and still be put down to it, mm.
const USUAL: f64 = 5.0;
/// The most that are listed together.
const MOST_LISTED: usize = 12;
/// Readings less likely to be wrong than this are not listed.
const LISTED: f64 = 0.02;

/// One finding for each reading that is as good as sure to be wrong, and one for those among which the odds are open.
fn findings(case: &Case<'_>, odds: &Odds) -> Vec<Finding> {
    let mut each: Vec<(f64, (f64, f64))> = vec![(0.0, (0.0, 1.0)); case.observations.len()];
    for weighed in &odds.all {
        let Why::Wrong(wrong) = &weighed.why else { continue };
        for (index, off) in wrong.iter().zip(&weighed.off) {
            // The explanations come best first: how far off it is stands by the best.
            if each[*index].0 == 0.0 {
                each[*index].1 = *off;
            }
            each[*index].0 += weighed.odds;
        }
    }
    // All readings together: what each one's residual says, and how well the others check it.
    let all = solve(case.plan(), &case.observations, Datum::Free).ok();
    let suspect = |index: usize| {
        let (slip, slip_sd) = each[index].1;
        let tolerance = (CRITICAL * slip_sd).min(slip.abs() / 3.0).min(USUAL);
        Suspect {
            index,
            slip,
            slip_sd,
            w: all.as_ref().map_or(Some(-slip / slip_sd), |all| all.w[index]),
            redundancy: all.as_ref().map_or(0.0, |all| all.redundancy[index]),
            cause: cause::likely(slip, tolerance, case.clues[index]),
            passes: true,
        }
    };
    let finding = |suspects: Vec<Suspect>, settled_by: SettledBy| Finding {
        w: suspects.iter().filter_map(|s| s.w).fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a }),
        chosen: (settled_by != SettledBy::Nothing).then_some(0),
        suspects,
        settled_by,
        rivals: Vec::new(),
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

/// By the residuals, first by the readings alone; where they fit no figure near the plan, by the plan first.
fn snoop_all(case: &Case<'_>) -> Found {
    let all: Vec<usize> = (0..case.observations.len()).collect();
    let plan = against_plan(case, &all);
    let named = |f: &Finding| f.suspects[f.chosen.unwrap_or(0)].clone();
    let plan_suspects: Vec<Suspect> = plan.findings.iter().map(named).collect();
    // Where another reading would explain the misfit as well, the plan names none.
    let plan_rivals: Vec<usize> = plan
        .findings
        .iter()
        .flat_map(|f| f.rivals.iter().copied().chain(f.suspects.iter().map(|s| s.index)))
        .filter(|i| plan_suspects.iter().all(|s| s.index != *i))
        .collect();
    let against: Vec<usize> =
        if plan_rivals.is_empty() { plan_suspects.iter().map(|s| s.index).collect() } else { Vec::new() };
    let mut unchecked = Vec::new();
    let mut found = match snoop_among(case, &all, Datum::Free, &against) {
        Ok(snooping) => {
            let redundancy = &snooping.first.redundancy;
            unchecked.extend((0..redundancy.len()).filter(|i| redundancy[*i] == 0.0));
            settle(case, snooping.findings, snooping.other_pairs)
        }
        Err(NotAdjusted::Loose) => settle(case, Vec::new(), Vec::new()),
        Err(NotAdjusted::Unsettled | NotAdjusted::Foreign) => by_plan(case, &plan),
    };
    let unplaced = !found.other_pairs.is_empty() || found.findings.iter().any(|f| f.chosen.is_none());
    if !against.is_empty() && (unplaced || !found.folded.is_empty()) {
        // What the readings leave open the plan may close, if what it leaves is in agreement.
        let other = by_plan(case, &plan);
        let closes = other.figure.is_some() && other.findings.iter().all(|f| f.settled_by == SettledBy::Plan);
        if closes || !found.folded.is_empty() {
            found = other;
        }
    }
    found.tape_again = unconfirmed(case, &found, &plan_suspects);
    found.plan_suspects = plan_suspects;
    found.plan_rivals = plan_rivals;
    found.unchecked = unchecked;
    found
}

/// A corner known this many times worse than the coarsest reading is nearly loose: a lucky count of lines does not fix it.
const WEAK: f64 = 10.0;

/// Leaves out what the plan speaks against, then snoops among the rest.
fn by_plan(case: &Case<'_>, plan: &PlanView) -> Found {
    let mut findings = plan.findings.clone();
    for finding in &mut findings {
        finding.chosen = Some(finding.chosen.unwrap_or(0));
        finding.settled_by = SettledBy::Plan;
    }
    let mut other_pairs = Vec::new();
    if let Ok(rest) = snoop_among(case, &plan.kept, Datum::Free, &[]) {
        findings.extend(rest.findings);
        other_pairs = rest.other_pairs;
    }
    settle(case, findings, other_pairs)
}

/// Adjusts what is left once the readings named are left out; a tie that stands leaves out nothing.
fn settle(case: &Case<'_>, findings: Vec<Finding>, other_pairs: Vec<(usize, usize)>) -> Found {
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
    Found {
        findings,
        other_pairs,
        kept,
        figure,
        unchecked: Vec::new(),
        weak,
        folded,
        plan_suspects: Vec::new(),
        plan_rivals: Vec::new(),
        tape_again: Vec::new(),
        every_reading: None,
        odds: Odds::default(),
    }
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

/// Readings the plan speaks against that nothing else confirms: not taped twice, and not checked well enough by
/// the others for a slip of that size to have shown.
fn unconfirmed(case: &Case<'_>, found: &Found, plan_suspects: &[Suspect]) -> Vec<usize> {
    plan_suspects
        .iter()
        .filter(|s| case.taped[s.index].count == 1)
        .filter(|s| found.findings.iter().all(|f| f.suspects.iter().all(|other| other.index != s.index)))
        .filter(|s| match (&found.figure, found.kept.iter().position(|i| *i == s.index)) {
            (Some(figure), Some(position)) => {
                let r = figure.redundancy[position];
                r == 0.0 || DETECTABLE * case.observations[s.index].sd / r.sqrt() > s.slip.abs()
            }
            _ => true,
        })
        .map(|s| s.index)
        .collect()
}
