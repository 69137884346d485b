//! Data snooping: the misread reading is the one with the largest standardised residual. One is left out at a
//! time and the rest adjusted again, since the others' residuals are only its smear
//! (Baarda 1968, *A testing procedure for use in geodetic networks*; attribution from memory).
//!
//! Readings whose tests are fully correlated cannot be told apart by any residual. They are reported as tied, and
//! only something from outside may choose among them: the *round-slip rule* (just one of the slips is a usual one
//! and leaves the rest good), or the plan as a weak prior.

use super::examine::{Network, examine};
use super::finding::{Finding, SettledBy, Snooping};
use super::pairs;
use crate::readings::network::adjust::{self, NotAdjusted};

/// With more misreads than this the readings are not of this plan, and naming them one by one is no help.
const MOST_MISREADS: usize = 12;

/// Tests every reading, leaves out the worst, and goes on until no more is found or nothing is left to check with.
///
/// Fails when the distances leave the figure loose or fit no figure near the start.
pub fn snoop(network: &Network<'_>) -> Result<Snooping, NotAdjusted> {
    if network.clues.len() != network.observations.len() {
        return Err(NotAdjusted::Foreign);
    }
    let first = adjust::adjust(network.start, network.observations, network.datum)?;
    let mut kept: Vec<usize> = (0..network.observations.len()).collect();
    let mut findings = Vec::new();
    let mut last = first.clone();
    let mut too_many = false;
    while let Some(finding) = examine(network, &kept, &last, None) {
        too_many = findings.len() == MOST_MISREADS;
        if too_many {
            break;
        }
        kept.retain(|i| *i != finding.left_out());
        findings.push(finding);
        last = network.solve(&kept)?;
    }
    let mut other_pairs = Vec::new();
    if findings.len() >= 2 && first.degrees_of_freedom >= 3 {
        (findings, other_pairs) = pairs::reconsider(network, &first, findings, last.squares)?;
        let out: Vec<usize> = findings.iter().map(Finding::left_out).collect();
        kept = (0..network.observations.len()).filter(|i| !out.contains(i)).collect();
        last = network.solve(&kept)?;
    }
    if too_many || (findings.len() >= 2 && last.degrees_of_freedom == 0) {
        // So many are wrong that none is to be trusted, or any choice of as many would leave the rest in agreement.
        for finding in &mut findings {
            finding.chosen = None;
            finding.settled_by = SettledBy::Nothing;
        }
    }
    Ok(Snooping { first, findings, kept, last, other_pairs })
}
