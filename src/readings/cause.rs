//! The slips a hand makes with a tape, and which of them an estimated slip looks like.

use std::fmt;

/// What was probably done, from a slip (reading − true length) of a usual size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cause {
    /// The tape was held on although nobody said so, and the held-on length was not taken off: long by it.
    NotTakenOff(f64),
    /// Held on at twice the length that was taken off: long by it.
    HeldTwice(f64),
    /// The held-on length was taken off although the tape was read from its end: short by it.
    TakenOffTwice(f64),
    /// 10, 100 or 1000 dropped: short by it.
    Dropped(f64),
    /// 10, 100 or 1000 added: long by it.
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

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotTakenOff(size) => write!(f, "the {size} held on was not taken off"),
            Self::HeldTwice(size) => write!(f, "held on at {} instead of {size}", 2.0 * size),
            Self::TakenOffTwice(size) => {
                write!(f, "the {size} was taken off twice, or read from the tape's end")
            }
            Self::Dropped(size) => write!(f, "{size} dropped"),
            Self::Added(size) => write!(f, "{size} added"),
            Self::Swapped(meant) => write!(f, "two digits swapped: it may have read {meant}"),
        }
    }
}

/// What is usually held on, mm, when nothing was said to be: a reader who did so anyway reads long by it.
const USUAL_HOLD: f64 = 100.0;

/// The usual cause nearest to `slip` mm, if one lies within `tolerance` mm.
///
/// `read` is what the tape read and `held_on` the length taken off it, mm. Of two causes equally near, the one
/// about holding on is named before a round figure, and a round figure before swapped digits.
#[must_use]
pub fn likely(slip: f64, tolerance: f64, read: f64, held_on: f64) -> Option<Cause> {
    let mut causes = Vec::new();
    if held_on > 0.0 {
        causes.push(Cause::TakenOffTwice(held_on));
        causes.push(Cause::HeldTwice(held_on));
    } else {
        causes.push(Cause::NotTakenOff(USUAL_HOLD));
    }
    for size in [10.0, 100.0, 1000.0] {
        causes.push(Cause::Dropped(size));
        causes.push(Cause::Added(size));
    }
    causes.extend(swaps(read).into_iter().map(Cause::Swapped));
    let mut best: Option<(f64, Cause)> = None;
    for cause in causes {
        let miss = (cause.slip(read) - slip).abs();
        // A later cause has to be nearer by more than the last digit of the arithmetic.
        if miss <= tolerance && best.is_none_or(|(nearest, _)| miss < nearest - 1e-6) {
            best = Some((miss, cause));
        }
    }
    best.map(|(_, cause)| cause)
}

/// What the tape would have read with each pair of unlike neighbouring digits swapped back, whole mm.
fn swaps(read: f64) -> Vec<f64> {
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
