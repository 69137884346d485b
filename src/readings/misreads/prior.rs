//! The plan as a weak prior for misreads: what it makes of the readings, on its own and together with them.
//!
//! It never places a corner, and it cannot tell a misread from masonry built wrong.

use super::cause::Clue;
use super::examine::{Network, gross as gross_finding};
use super::finding::{Finding, Snooping};
use super::snoop::snoop;
use crate::readings::case::Case;
use crate::readings::network::adjust::NotAdjusted;
use crate::readings::network::chi_square::CRITICAL;
use crate::readings::network::observation::Datum;

/// What the plan, as a weak prior, makes of the readings.
pub(super) struct PlanView {
    pub(super) findings: Vec<Finding>,
    /// The observations that agree with it.
    pub(super) kept: Vec<usize>,
}

/// Snoops with the plan as a weak prior. Readings so far off that no figure fits them are first left out by their plain
/// difference from the plan, the grossest first.
pub(super) fn against_plan(case: &Case<'_>, all: &[usize]) -> PlanView {
    let datum = Datum::Plan { corners: case.plan(), sd: case.input.built_within };
    let off = |index: usize| {
        let o = case.observations[index];
        let sd = o.sd.hypot(case.input.built_within * std::f64::consts::SQRT_2);
        (o.value - case.plan()[o.from].distance(case.plan()[o.to]), sd)
    };
    let mut view = PlanView { findings: Vec::new(), kept: all.to_vec() };
    for limit in [f64::INFINITY, GROSS, CRITICAL] {
        let (pool, gross): (Vec<usize>, Vec<usize>) = all.iter().partition(|i| {
            let (slip, sd) = off(**i);
            slip.abs() <= limit * sd
        });
        view.findings = gross
            .into_iter()
            .map(|index| {
                let (slip, sd) = off(index);
                gross_finding(index, slip, sd, case.clues[index])
            })
            .collect();
        view.kept.clone_from(&pool);
        if let Ok(snooping) = snoop_among(case, &pool, datum, &[]) {
            view.findings.extend(snooping.findings);
            view.kept = snooping.kept;
            break;
        }
    }
    view
}

/// A reading this many standard deviations off the plan is no figure's side.
const GROSS: f64 = 30.0;

/// Snoops among the observations of `pool`; the answer is in terms of all observations.
pub(super) fn snoop_among(
    case: &Case<'_>,
    pool: &[usize],
    datum: Datum<'_>,
    against: &[usize],
) -> Result<Snooping, NotAdjusted> {
    let clues: Vec<Clue> = pool.iter().map(|i| case.clues[*i]).collect();
    let against: Vec<usize> = (0..pool.len()).filter(|i| against.contains(&pool[*i])).collect();
    let mut snooping = snoop(&Network {
        start: case.plan(),
        observations: &case.pick(pool),
        clues: &clues,
        datum,
        against_plan: &against,
    })?;
    for finding in &mut snooping.findings {
        for suspect in &mut finding.suspects {
            suspect.index = pool[suspect.index];
        }
        for rival in &mut finding.rivals {
            *rival = pool[*rival];
        }
    }
    for pair in &mut snooping.other_pairs {
        *pair = (pool[pair.0], pool[pair.1]);
    }
    for index in &mut snooping.kept {
        *index = pool[*index];
    }
    Ok(snooping)
}
