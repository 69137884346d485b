//! Choosing the handing of the corners that serves the cut.

use super::error::PlatesError;
use super::handing::{Corners, Handing, plate_corners};
use super::lay::{Value, lay};
use super::lines::{Layer, lines};
use super::options::Options;
use crate::cutting::{self, Effort};
use crate::plan::Footprint;

/// So many handings are all tried; with more corners than that gives, one corner is turned at a time.
const ALL_OF: u64 = 64;
/// Steps of search for one handing on trial.
const TRIAL_STEPS: u64 = 400_000;

/// The handing taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Chosen {
    pub(super) handing: Handing,
    /// How many were tried.
    pub(super) tried: usize,
    /// How many there are.
    pub(super) of: u64,
}

/// The handing that the options ask for.
pub(super) fn choose(
    footprint: &Footprint,
    options: &Options,
    effort: Effort,
) -> Result<Chosen, PlatesError> {
    let fixed = |handing| Chosen { handing, tried: 1, of: 1 };
    match options.corners {
        Corners::Alternate => Ok(fixed(Handing::alternate(footprint))),
        Corners::Follow => Ok(fixed(Handing::follow(footprint))),
        Corners::Best => best(footprint, options, effort),
    }
}

fn best(footprint: &Footprint, options: &Options, effort: Effort) -> Result<Chosen, PlatesError> {
    let free = plate_corners(footprint);
    let mut trial = Trial { footprint, options, effort, spent: 0, tried: 0 };
    let start = Handing::alternate(footprint);
    // If the first can't be laid any other is better; if none can, that is the error to tell.
    let (first, trouble) = match trial.value(&start) {
        Ok(value) => (value, None),
        Err(PlatesError::Cutting(error)) => ((i64::MAX, i64::MAX), Some(error)),
        Err(error) => return Err(error),
    };
    let mut best = (first, start);
    let ways = 1_u64 << free.len().min(63);
    if ways <= ALL_OF {
        let base = best.1.clone();
        for code in 1..ways {
            let handing = free
                .iter()
                .enumerate()
                .filter(|(bit, _)| code & (1 << bit) != 0)
                .fold(base.clone(), |handing, (_, &corner)| handing.flipped(corner));
            if !trial.keep_better(&mut best, handing)? {
                break;
            }
        }
    } else {
        trial.keep_better(&mut best, Handing::follow(footprint))?;
        loop {
            let before = best.0;
            for &corner in &free {
                let handing = best.1.flipped(corner);
                if !trial.keep_better(&mut best, handing)? {
                    break;
                }
            }
            if best.0 >= before || trial.is_spent() {
                break;
            }
        }
    }
    if let Some(trouble) = trouble.filter(|_| best.0.0 == i64::MAX) {
        return Err(trouble.into());
    }
    Ok(Chosen { handing: best.1, tried: trial.tried, of: ways })
}

/// Handings laid on trial, until half the effort is spent.
struct Trial<'a> {
    footprint: &'a Footprint,
    options: &'a Options,
    effort: Effort,
    spent: u64,
    tried: usize,
}

impl Trial<'_> {
    /// Steps for one handing.
    fn steps(&self) -> u64 {
        TRIAL_STEPS.min(self.effort.steps)
    }

    fn is_spent(&self) -> bool {
        self.spent >= self.effort.steps / 2
    }

    /// Tries a handing and keeps it if it is better; false when no more are to be tried. What can't be laid that way
    /// is passed over.
    fn keep_better(&mut self, best: &mut (Value, Handing), handing: Handing) -> Result<bool, PlatesError> {
        if self.is_spent() {
            return Ok(false);
        }
        match self.value(&handing) {
            Ok(value) if value < best.0 => *best = (value, handing),
            // How long it took to find no list is not told: as long as it may, at most.
            Err(PlatesError::Cutting(cutting::Error::StockRunsOut)) => self.spent += self.steps(),
            Ok(_) | Err(PlatesError::Cutting(_)) => {}
            Err(error) => return Err(error),
        }
        Ok(true)
    }

    /// What the layers come to when each is laid by itself: near enough to choose by.
    fn value(&mut self, handing: &Handing) -> Result<Value, PlatesError> {
        let layers: &[Layer] =
            if self.options.binder { &[Layer::Plate, Layer::Binder] } else { &[Layer::Plate] };
        let effort = Effort { steps: self.steps(), ..self.effort };
        let mut sum = (0, 0);
        self.tried += 1;
        for &layer in layers {
            let lines = lines(self.footprint, self.options, handing, layer)?;
            let laid = lay(&lines, self.options, self.options.favour, effort)?;
            self.spent += laid.layout.steps;
            let value = laid.value();
            sum = (sum.0 + value.0, sum.1 + value.1);
        }
        Ok(sum)
    }
}
