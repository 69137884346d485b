//! How often things go wrong, before a reading is seen: one table, each figure with its reason. All are ours, no source:
//! they say what a careful hand does, not what has been counted.

use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units};
use crate::readings::misreads::cause::Clue;

/// The chance that some reading of a job is wrong: one job in ten or so.
pub(super) const SLIP: f64 = 0.1;
/// A line that was read twice alike: a slip that repeats itself (held on twice) is so much rarer.
pub(super) const REPEATED: f64 = 0.1;
/// The chance that one known length is on every reading: the tape was held on and nobody said so, or said so and didn't.
pub(super) const EVERY_READING: f64 = 0.02;

/// How roughly the tape's ends were held, mm a reading, and how often: as said; at masonry corners vague by 2 mm; by more.
pub(super) const ENDS: [(f64, f64); 3] = [(0.0, 0.5), (2.8, 0.35), (5.0, 0.15)];
/// How far from the plan it was built, in what was said (`built_within`), and how often: as said; two and a half times;
/// ten times, so that crooked masonry is no misread.
pub(super) const BUILT: [(f64, f64); 3] = [(1.0, 0.6), (2.5, 0.3), (10.0, 0.1)];

/// Of slips, the share that is of a usual size; the rest is of any size.
const USUAL: f64 = 0.6;
/// Slips of any size are from this to [`LARGEST`] mm, each doubling as likely as the next.
const SMALLEST: f64 = 8.0;
const LARGEST: f64 = 5000.0;

/// The usual sizes, mm, and their weights: the length held on, a round figure miscounted.
fn usual(clue: Clue) -> [(f64, f64); 6] {
    match clue.units {
        Units::Mm | Units::M => {
            [(100.0, 0.2), (-100.0, 0.2), (1000.0, 0.1), (-1000.0, 0.1), (10.0, 0.05), (-10.0, 0.05)]
        }
        Units::FeetInches => [
            (MM_PER_INCH, 0.25),
            (-MM_PER_INCH, 0.25),
            (MM_PER_FOOT, 0.2),
            (-MM_PER_FOOT, 0.2),
            (10.0 * MM_PER_FOOT, 0.05),
            (-10.0 * MM_PER_FOOT, 0.05),
        ],
    }
}

/// The logarithm of the density, 1/mm, of seeing a reading off by `t` mm, give or take `sd`, if it is a slip.
pub(super) fn slip(t: f64, sd: f64, clue: Clue) -> f64 {
    let mut density: f64 = usual(clue).iter().map(|(size, weight)| weight * normal(t - size, sd)).sum();
    if clue.held_on > 0.0 {
        density += 0.2 * (normal(t - clue.held_on, sd) + normal(t + clue.held_on, sd));
    }
    if clue.units != Units::FeetInches {
        let swapped = crate::readings::misreads::cause::swaps(clue.read);
        let share = 0.3 / swapped.len().max(1) as f64;
        density +=
            swapped.iter().map(|meant| share * normal(t - (clue.read.round() - meant), sd)).sum::<f64>();
    }
    let size = t.abs().max(SMALLEST);
    (USUAL * density + (1.0 - USUAL) / (2.0 * size * (LARGEST / SMALLEST).ln())).ln()
}

/// The lengths that may be on every reading, mm: held on and not taken off, or taken off and not held on.
pub(super) fn on_every_reading(clue: Clue) -> Vec<f64> {
    let usual = match clue.units {
        Units::Mm | Units::M => 100.0,
        Units::FeetInches => MM_PER_INCH,
    };
    if clue.held_on > 0.0 { vec![-clue.held_on, clue.held_on] } else { vec![usual] }
}

/// The density of the normal distribution, 1/mm.
fn normal(t: f64, sd: f64) -> f64 {
    (-0.5 * (t / sd).powi(2)).exp() / (sd * std::f64::consts::TAU.sqrt())
}

/// Its logarithm.
pub(super) fn log_normal(t: f64, sd: f64) -> f64 {
    -0.5 * (t / sd).powi(2) - sd.ln() - 0.5 * std::f64::consts::TAU.ln()
}
