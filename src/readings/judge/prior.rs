//! How often things go wrong, before a reading is seen: one table, each figure with its reason. All are ours, no source:
//! they say what a careful hand does, not what has been counted.

use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units};
use crate::readings::misreads::cause::{Clue, swaps};

/// The chance that some reading of a job is wrong: one job in ten or so.
pub(super) const SLIP: f64 = 0.1;
/// Each time more that a line was read alike: a slip that repeats itself (held on twice) is so much rarer.
pub(super) const REPEATED: f64 = 0.1;
/// The chance that one known length is on every reading: the tape was held on and nobody said so, or said so and didn't. As
/// often on all the readings of one tape of two.
pub(super) const CONSTANT: f64 = 0.02;
/// The chance that two lines are written against each other's name: a slip of the pencil, rarer than one of the tape.
pub(super) const EXCHANGED: f64 = 0.01;

/// How roughly the tape's ends were held, mm a reading, and how often: as said; at masonry corners vague by 2 mm; by more.
pub(super) const ENDS: [(f64, f64); 3] = [(0.0, 0.5), (2.8, 0.35), (5.0, 0.15)];
/// Ends no rougher than was said: its place in the table.
pub(super) const AS_SAID: usize = 0;
/// How far from the plan it was built, in what was said (`built_within`), and how often: a plate that is nearly right already;
/// as said; two and a half times; ten times, so that crooked masonry is no misread.
pub(super) const BUILT: [(f64, f64); 5] = [(0.2, 0.2), (0.5, 0.25), (1.0, 0.3), (2.5, 0.15), (10.0, 0.1)];
/// The chance that one part is out beyond that: a corner along one of its sides, a whole side, the plate racked. Setting out
/// goes wrong a part at a time, at one job in four.
pub(super) const PART: f64 = 0.25;
/// By how much then, in what was said, and how often: two and a half times; eight times.
pub(super) const PARTS: [(f64, f64); 2] = [(2.5, 0.6), (8.0, 0.4)];

/// Of slips, the share that is of a usual size; the rest is of any size.
const USUAL: f64 = 0.6;
/// Slips of any size are from this to [`LARGEST`] mm, each doubling as likely as the next. What is off by less is no slip.
pub(super) const SMALLEST: f64 = 8.0;
const LARGEST: f64 = 5000.0;
/// A spike of a usual size is nothing so many standard deviations off.
const FAR: f64 = 8.0;

/// The slips that one reading may have: the usual sizes, mm, and how often each of them is meant.
pub(super) struct Slips {
    usual: Vec<(f64, f64)>,
    most: f64,
}

impl Slips {
    /// The length held on, a round figure miscounted, two digits swapped.
    pub(super) fn new(clue: Clue) -> Self {
        let round = match clue.units {
            Units::Mm | Units::M => [(100.0, 0.2), (1000.0, 0.1), (10.0, 0.05)],
            Units::FeetInches => [(MM_PER_INCH, 0.25), (MM_PER_FOOT, 0.2), (10.0 * MM_PER_FOOT, 0.05)],
        };
        let mut usual: Vec<(f64, f64)> = round.into_iter().collect();
        if clue.held_on > 0.0 {
            usual.push((clue.held_on, 0.2));
        }
        let mut usual: Vec<(f64, f64)> =
            usual.into_iter().flat_map(|(size, often)| [(size, often), (-size, often)]).collect();
        if clue.units != Units::FeetInches {
            let meant = swaps(clue.read);
            let often = 0.3 / meant.len().max(1) as f64;
            usual.extend(meant.iter().map(|meant| (clue.read.round() - meant, often)));
        }
        let all: f64 = usual.iter().map(|(_, often)| often).sum();
        for (_, often) in &mut usual {
            *often *= USUAL / all;
        }
        let most = usual.iter().map(|(_, often)| *often).fold(0.0, f64::max);
        Self { usual, most }
    }

    /// The density, 1/mm, of seeing the reading off by `t` mm, with `variance` mm², if it is a slip.
    pub(super) fn density(&self, t: f64, variance: f64) -> f64 {
        let near = |(size, _): &&(f64, f64)| (t - size).powi(2) < FAR * FAR * variance;
        let spikes: f64 = self
            .usual
            .iter()
            .filter(near)
            .map(|(size, often)| often * (-0.5 * (t - size).powi(2) / variance).exp())
            .sum();
        spikes / (variance * std::f64::consts::TAU).sqrt() + any_size(t)
    }

    /// No density is above this much of the normal density's own peak, with a standard deviation of `sd` mm.
    pub(super) fn densest(&self, sd: f64) -> f64 {
        // Two spikes may lie on one another.
        2.0 * self.most + any_size(0.0) * sd * std::f64::consts::TAU.sqrt()
    }
}

/// The density, 1/mm, of a slip of any size at `t` mm.
pub(super) fn any_size(t: f64) -> f64 {
    (1.0 - USUAL) / (2.0 * t.abs().max(SMALLEST) * (LARGEST / SMALLEST).ln())
}

/// The lengths that may be on every reading, mm: held on and not taken off, or taken off and not held on.
pub(super) fn on_every_reading(clue: Clue) -> Vec<f64> {
    let usual = match clue.units {
        Units::Mm | Units::M => 100.0,
        Units::FeetInches => MM_PER_INCH,
    };
    if clue.held_on > 0.0 { vec![-clue.held_on, clue.held_on] } else { vec![usual] }
}
