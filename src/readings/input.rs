//! What is handed in: the plan, the tapes and what they read, and how to judge it.

use crate::length::Units;
use crate::plan::{Footprint, corner_name};
use crate::tape::Tape;

use super::correct::Conditions;
use super::error::Error;
use super::limit::{FARTHEST, Limit};

const MOST_READINGS: usize = 700;

/// How well an outline is taken to be built unless it is said, one standard deviation, mm. Common practice, no source.
pub const BUILT_WITHIN: f64 = 10.0;

/// How roughly the tape's two ends are held together on masonry unless it is said, one standard deviation, mm: a brick corner is
/// vague by 2 mm or so. Common practice, no source; `tests/suite/readings_trials.rs` counts what it does.
pub const MASONRY_ENDS: f64 = 2.8;

/// One reading of a tape between two corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Index of the first corner; 0 is A.
    pub from: usize,
    /// Index of the second corner.
    pub to: usize,
    /// What the tape read, mm, held-on length and all.
    pub value: f64,
    /// Which tape, an index into [`Input::tapes`].
    pub tape: usize,
    /// Difference in level between the two ends, mm; 0 for level.
    pub rise: f64,
}

impl Reading {
    /// A level reading of the first tape.
    #[must_use]
    pub const fn new(from: usize, to: usize, value: f64) -> Self {
        Self { from, to, value, tape: 0, rise: 0.0 }
    }
}

/// A tape, and how it was used that day.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TapeUse {
    /// The tape.
    pub tape: Tape,
    /// The mark held on the first corner, mm; taken off every reading.
    pub held_on: f64,
    /// Corrections asked for.
    pub conditions: Conditions,
}

/// How the true outline is laid on what was built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FitKind {
    /// Held on a side (its index; 0 is AB): its first corner and its direction.
    Held(usize),
    /// Shifted and turned to the least sum of squared moves.
    Free,
    /// Shifted and turned to the smallest largest distance of a corner from a wall line.
    LeastWorst,
    /// Held on a house side and slid along it, free without one, so that the fewest parts have to move.
    Fewest,
}

/// The readings are of the masonry, and the plate is to be laid true on it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Masonry {
    /// The largest overhang or setback the user allows, mm; `None` to print them only.
    pub limit: Option<f64>,
    /// How far the plate may stand off the house, mm, where that makes it overhang or stand back less.
    pub stand_off: f64,
}

/// Everything that is needed to judge a set of readings.
#[derive(Debug, Clone, Copy)]
pub struct Input<'a> {
    /// The plan. Its house sides can't be taped through.
    pub footprint: &'a Footprint,
    /// The readings, in the order given.
    pub readings: &'a [Reading],
    /// The tapes; the first is the one that would tape a further line.
    pub tapes: &'a [TapeUse],
    /// How well the outline was built to the plan, one standard deviation in x and in y, mm. It serves to judge
    /// misreads only, never to place the corners.
    pub built_within: f64,
    /// How to lay the true outline on what was built; `None` for [`FitKind::Fewest`], of masonry for the least overhang.
    pub fit: Option<FitKind>,
    /// How far out of square is too far; `None` to judge by what the tape can tell.
    pub limit: Option<Limit>,
    /// The most that a side may be long or short, mm; `None` for what `limit` says of sizes.
    pub size_limit: Option<f64>,
    /// Set when the readings are of the masonry.
    pub masonry: Option<Masonry>,
    /// Lines named beforehand to show up a misread, by their corners: of all that check what nothing checks they come first.
    pub spares: &'a [(usize, usize)],
    /// The units that moves are told in, and whose round figures are the usual slips.
    pub units: Units,
}

impl<'a> Input<'a> {
    /// Readings by these tapes on this plan, with everything else at its default: built within 10 mm, no limit.
    #[must_use]
    pub const fn new(footprint: &'a Footprint, readings: &'a [Reading], tapes: &'a [TapeUse]) -> Self {
        Self {
            footprint,
            readings,
            tapes,
            built_within: BUILT_WITHIN,
            fit: None,
            limit: None,
            size_limit: None,
            masonry: None,
            spares: &[],
            units: Units::Mm,
        }
    }

    /// Checks all that can be checked before anything is worked out.
    pub(super) fn check(&self) -> Result<(), Error> {
        self.check_plan()?;
        self.check_settings()?;
        if self.tapes.is_empty() {
            return Err(Error::NoTape);
        }
        for tape in self.tapes {
            check_tape(tape)?;
        }
        if self.readings.is_empty() {
            return Err(Error::NoReadings);
        }
        if self.readings.len() > MOST_READINGS {
            return Err(Error::TooMany(self.readings.len()));
        }
        self.readings
            .iter()
            .enumerate()
            .try_for_each(|(position, reading)| self.check_reading(position + 1, reading))
    }

    fn check_plan(&self) -> Result<(), Error> {
        let corners = self.footprint.corners();
        for (i, corner) in corners.iter().enumerate() {
            let (x, y) = (corner.at.x, corner.at.y);
            let crowded = || corners[..i].iter().any(|other| other.at.distance(corner.at) < 1.0);
            if x.abs() > FARTHEST || y.abs() > FARTHEST || crowded() {
                return Err(Error::Corner { corner: corner.name, x, y });
            }
        }
        match self.fit {
            Some(FitKind::Held(side)) if side >= corners.len() => {
                Err(Error::UnknownSide { side: side.saturating_add(1), count: corners.len() })
            }
            _ => Ok(()),
        }
    }

    fn check_settings(&self) -> Result<(), Error> {
        within("built within", self.built_within, 0.1, 1e4, "0.1 to 10000 mm")?;
        if let Some(Limit::Own(limit)) = self.limit {
            within("the limit", limit, 0.0, FARTHEST, "0 mm or more")?;
        }
        if let Some(limit) = self.size_limit {
            within("the limit on sizes", limit, 0.0, FARTHEST, "0 mm or more")?;
        }
        if let Some(Masonry { stand_off, .. }) = self.masonry {
            within("the distance off the house", stand_off, 0.0, FARTHEST, "0 mm or more")?;
        }
        if let Some(Masonry { limit: Some(limit), .. }) = self.masonry {
            within("the overhang limit", limit, 0.0, FARTHEST, "0 mm or more")?;
        }
        Ok(())
    }

    fn check_reading(&self, position: usize, reading: &Reading) -> Result<(), Error> {
        let count = self.footprint.len();
        for corner in [reading.from, reading.to] {
            if corner >= count {
                return Err(Error::UnknownCorner { position, corner, last: corner_name(count - 1) });
            }
        }
        if reading.from == reading.to {
            return Err(Error::SameCorner { position, corner: corner_name(reading.from) });
        }
        let line = || self.footprint.line_name(reading.from, reading.to);
        if reading.tape >= self.tapes.len() {
            return Err(Error::UnknownTape {
                line: line(),
                tape: reading.tape.saturating_add(1),
                count: self.tapes.len(),
            });
        }
        if !(reading.value > 0.0 && reading.value <= FARTHEST) {
            return Err(Error::NotALength { line: line(), value: reading.value });
        }
        within("the difference in level", reading.rise, -FARTHEST, FARTHEST, "millimetres")
    }
}

fn check_tape(used: &TapeUse) -> Result<(), Error> {
    used.tape.check()?;
    within("the length held on", used.held_on, 0.0, 1e4, "0 to 10000 mm")?;
    if let Some(t) = used.conditions.temperature {
        within("the temperature", t, -60.0, 80.0, "-60 to 80 °C")?;
    }
    if let Some(sag) = used.conditions.sag {
        within("the tape's mass", sag.mass, 0.0, 1e3, "0 to 1000 g per metre")?;
        within("the pull", sag.pull, 1.0, 1e3, "1 to 1000 N")?;
        within("the number of spans", f64::from(sag.spans), 1.0, 1e3, "1 to 1000")?;
    }
    if let Some(tension) = used.conditions.tension {
        within("the pull", tension.pull, 0.0, 1e3, "0 to 1000 N")?;
        within("the standard pull", tension.standard, 0.0, 1e3, "0 to 1000 N")?;
        within("the tape's stiffness", tension.stiffness, 1e3, 1e9, "1000 N or more")?;
    }
    Ok(())
}

fn within(what: &'static str, value: f64, low: f64, high: f64, allowed: &'static str) -> Result<(), Error> {
    if value >= low && value <= high { Ok(()) } else { Err(Error::Setting { what, value, allowed }) }
}
