//! The slips a hand makes with a tape, and which of them an estimated slip looks like.

use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units};

/// What is known of a reading besides its length: enough to guess how it went wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clue {
    /// What the tape read, mm.
    pub read: f64,
    /// The length held on, mm.
    pub held_on: f64,
    /// The units on the blade: whose round figures are dropped and added.
    pub units: Units,
}

/// What was probably done, from a slip (reading − true length) of a usual size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cause {
    /// The tape was held on although nobody said so, and the held-on length was not taken off: long by it.
    NotTakenOff(f64),
    /// Held on at twice the length that was taken off: long by it.
    HeldTwice(f64),
    /// The held-on length was taken off although the tape was read from its end: short by it.
    TakenOffTwice(f64),
    /// A round figure (10, 100, 1000) dropped: short by it.
    Dropped(f64),
    /// A round figure added: long by it.
    Added(f64),
    /// Two neighbouring digits swapped; what the tape probably read, mm.
    Swapped(f64),
}

impl Cause {
    /// The slip that this cause makes, mm, in a tape read as `read`.
    #[must_use]
    pub fn slip(&self, read: f64) -> f64 {
        match self {
            Self::NotTakenOff(size) | Self::HeldTwice(size) | Self::Added(size) => *size,
            Self::TakenOffTwice(size) | Self::Dropped(size) => -size,
            Self::Swapped(meant) => read.round() - meant,
        }
    }
}

/// What is usually held on when nothing was said to be, mm: a reader who did so anyway reads long by it.
const fn usual_hold(units: Units) -> f64 {
    match units {
        Units::Mm | Units::M => 100.0,
        Units::FeetInches => MM_PER_INCH,
    }
}

/// The round figures that are dropped or added, mm.
const fn round_figures(units: Units) -> [f64; 3] {
    match units {
        Units::Mm | Units::M => [10.0, 100.0, 1000.0],
        Units::FeetInches => [MM_PER_INCH, MM_PER_FOOT, 10.0 * MM_PER_FOOT],
    }
}

/// A slip in words: `about 100 mm short`.
pub(crate) fn off_words(slip: f64, units: Units) -> String {
    let way = if slip < 0.0 { "short" } else { "long" };
    format!("about {} {way}", units.short(slip.abs()))
}

/// A figure as it stands on the blade: whole millimetres without their unit, feet and inches with theirs.
fn on_the_blade(units: Units, mm: f64) -> String {
    match units {
        Units::Mm | Units::M => mm.to_string(),
        Units::FeetInches => units.with_unit(mm),
    }
}

impl Cause {
    /// The cause in plain words, figures as on a blade in `units`.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        let blade = |mm: f64| on_the_blade(units, mm);
        match self {
            Self::NotTakenOff(size) => format!("the {} held on was not taken off", blade(*size)),
            Self::HeldTwice(size) => format!("held on at {} instead of {}", blade(2.0 * size), blade(*size)),
            Self::TakenOffTwice(size) => {
                format!("the {} was taken off twice, or read from the tape's end", blade(*size))
            }
            Self::Dropped(size) => format!("{} dropped", blade(*size)),
            Self::Added(size) => format!("{} added", blade(*size)),
            Self::Swapped(meant) => format!("two digits swapped: it may have read {}", blade(*meant)),
        }
    }
}

/// The usual cause nearest to `slip` mm, if one lies within `tolerance` mm.
///
/// Of two causes equally near, the one about holding on is named before a round figure, and a round figure before
/// swapped digits. On a blade in feet and inches nothing is said of digits.
#[must_use]
pub fn likely(slip: f64, tolerance: f64, clue: Clue) -> Option<Cause> {
    let mut causes = Vec::new();
    if clue.held_on > 0.0 {
        causes.push(Cause::TakenOffTwice(clue.held_on));
        causes.push(Cause::HeldTwice(clue.held_on));
    } else {
        causes.push(Cause::NotTakenOff(usual_hold(clue.units)));
    }
    for size in round_figures(clue.units) {
        causes.push(Cause::Dropped(size));
        causes.push(Cause::Added(size));
    }
    if clue.units != Units::FeetInches {
        causes.extend(swaps(clue.read).into_iter().map(Cause::Swapped));
    }
    let mut best: Option<(f64, Cause)> = None;
    for cause in causes {
        let miss = (cause.slip(clue.read) - slip).abs();
        // A later cause has to be nearer by more than the last digit of the arithmetic.
        if miss <= tolerance && best.is_none_or(|(nearest, _)| miss < nearest - 1e-6) {
            best = Some((miss, cause));
        }
    }
    best.map(|(_, cause)| cause)
}

/// What the tape would have read with each pair of unlike neighbouring digits swapped back, whole mm.
pub(in crate::readings) fn swaps(read: f64) -> Vec<f64> {
    let digits = format!("{:.0}", read.round());
    (1..digits.len())
        .filter_map(|i| {
            let mut swapped = digits.clone().into_bytes();
            swapped.swap(i - 1, i);
            // A leading zero would be a digit dropped, not swapped.
            if swapped[0] == b'0' {
                return None;
            }
            let text: String = swapped.into_iter().map(char::from).collect();
            (text != digits).then(|| text.parse().ok()).flatten()
        })
        .collect()
}
