//! What is handed in: the plan's corners, the tapes and what they read, and how to judge it.

use std::fmt;

use crate::geometry::Point;
use crate::tape::Tape;

use super::correct::Conditions;
use super::error::Error;

/// Coordinates and readings past this, mm, are slips of the keyboard: 1 km.
const FARTHEST: f64 = 1e6;
const MOST_READINGS: usize = 700;

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
        Self {
            from,
            to,
            value,
            tape: 0,
            rise: 0.0,
        }
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

/// How far out of square a corner may be.
#[derive(Clone, Copy)]
pub enum Limit<'a> {
    /// The user's own limit at the end of any side, mm.
    Fixed(f64),
    /// A published tolerance: from a side's length, mm, to the limit at its end, mm.
    ByLength(&'a dyn Fn(f64) -> f64),
}

impl Limit<'_> {
    /// The limit at the end of `length` mm, mm: never negative, nor past 1 km.
    #[must_use]
    pub fn at(&self, length: f64) -> f64 {
        let limit = match self {
            Self::Fixed(limit) => *limit,
            Self::ByLength(tolerance) => tolerance(length),
        };
        // Nothing is within a limit that is not a number.
        if limit.is_nan() {
            0.0
        } else {
            limit.clamp(0.0, FARTHEST)
        }
    }
}

impl fmt::Debug for Limit<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Fixed(limit) => f.debug_tuple("Fixed").field(limit).finish(),
            Self::ByLength(_) => f.write_str("ByLength(..)"),
        }
    }
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
}

/// The readings are of the masonry, and the plate is to be laid true on it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Masonry {
    /// The largest overhang or setback the user allows, mm; `None` to print them only.
    pub limit: Option<f64>,
}

/// Everything that is needed to judge a set of readings.
#[derive(Debug, Clone, Copy)]
pub struct Input<'a> {
    /// The plan's corners in order, mm, y down the page.
    pub corners: &'a [Point],
    /// Sides that are existing walls, by index; side 0 is AB.
    pub house: &'a [usize],
    /// Pairs of corners that cannot be taped (the house is in the way).
    pub blocked: &'a [(usize, usize)],
    /// The readings, in the order given.
    pub readings: &'a [Reading],
    /// The tapes; the first is the one that would tape a further line.
    pub tapes: &'a [TapeUse],
    /// How well the outline was built to the plan, one standard deviation in x and in y, mm. It serves to judge
    /// misreads only, never to place the corners.
    pub built_within: f64,
    /// How to lay the true outline on what was built; `None` for the first house side, or free without one.
    pub fit: Option<FitKind>,
    /// How far out of square is too far; `None` to judge by what the tape can tell.
    pub limit: Option<Limit<'a>>,
    /// Set when the readings are of the masonry.
    pub masonry: Option<Masonry>,
}

impl<'a> Input<'a> {
    /// Readings by these tapes on this plan, with everything else at its default: no house side, everything
    /// tapeable, built within 10 mm, no limit.
    #[must_use]
    pub const fn new(corners: &'a [Point], readings: &'a [Reading], tapes: &'a [TapeUse]) -> Self {
        Self {
            corners,
            house: &[],
            blocked: &[],
            readings,
            tapes,
            built_within: 10.0,
            fit: None,
            limit: None,
            masonry: None,
        }
    }

    /// The fit asked for, or the default one.
    #[must_use]
    pub fn fit_kind(&self) -> FitKind {
        self.fit
            .or_else(|| self.house.iter().min().map(|side| FitKind::Held(*side)))
            .unwrap_or(FitKind::Free)
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
        let count = self.corners.len();
        if !(3..=26).contains(&count) {
            return Err(Error::Corners(count));
        }
        for (i, corner) in self.corners.iter().enumerate() {
            let placed = corner.x.abs() <= FARTHEST && corner.y.abs() <= FARTHEST;
            if !placed
                || self.corners[..i]
                    .iter()
                    .any(|other| other.distance(*corner) < 1.0)
            {
                return Err(Error::Corner {
                    corner: letter(i),
                    x: corner.x,
                    y: corner.y,
                });
            }
        }
        let held = match self.fit {
            Some(FitKind::Held(side)) => Some(side),
            _ => None,
        };
        match self.house.iter().copied().chain(held).find(|side| *side >= count) {
            Some(side) => Err(Error::UnknownSide {
                side: side + 1,
                count,
            }),
            None => Ok(()),
        }
    }

    fn check_settings(&self) -> Result<(), Error> {
        within("built within", self.built_within, 0.1, 1e4, "0.1 to 10000 mm")?;
        if let Some(Limit::Fixed(limit)) = self.limit {
            within("the limit", limit, 0.0, FARTHEST, "0 mm or more")?;
        }
        if let Some(Masonry { limit: Some(limit) }) = self.masonry {
            within("the overhang limit", limit, 0.0, FARTHEST, "0 mm or more")?;
        }
        Ok(())
    }

    fn check_reading(&self, position: usize, reading: &Reading) -> Result<(), Error> {
        let count = self.corners.len();
        for corner in [reading.from, reading.to] {
            if corner >= count {
                return Err(Error::UnknownCorner {
                    position,
                    corner,
                    last: letter(count - 1),
                });
            }
        }
        if reading.from == reading.to {
            return Err(Error::SameCorner {
                position,
                corner: letter(reading.from),
            });
        }
        let line = || line_name(reading.from, reading.to, count);
        if reading.tape >= self.tapes.len() {
            return Err(Error::UnknownTape {
                line: line(),
                tape: reading.tape.saturating_add(1),
                count: self.tapes.len(),
            });
        }
        if !(reading.value > 0.0 && reading.value <= FARTHEST) {
            return Err(Error::NotALength {
                line: line(),
                value: reading.value,
            });
        }
        within(
            "the difference in level",
            reading.rise,
            -FARTHEST,
            FARTHEST,
            "millimetres",
        )
    }
}

fn check_tape(used: &TapeUse) -> Result<(), Error> {
    let tape = &used.tape;
    within("the tape's reading sd", tape.reading, 0.0, 1e3, "0 to 1000 mm")?;
    within("the tape's end sd", tape.ends, 0.0, 1e3, "0 to 1000 mm")?;
    if let Some(length) = tape.length {
        within("the tape's length", length, 1.0, FARTHEST, "1 mm to 1 km")?;
    }
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
        within(
            "the tape's stiffness",
            tension.stiffness,
            1e3,
            1e9,
            "1000 N or more",
        )?;
    }
    Ok(())
}

fn within(what: &'static str, value: f64, low: f64, high: f64, allowed: &'static str) -> Result<(), Error> {
    if value >= low && value <= high {
        Ok(())
    } else {
        Err(Error::Setting { what, value, allowed })
    }
}

/// The letter of corner `index`: A is 0. Past Z it stays at Z (plans stop there).
#[must_use]
pub fn letter(index: usize) -> char {
    char::from(b'A' + u8::try_from(index.min(25)).unwrap_or(25))
}

/// The name of the line between two corners of `count`: sides as the outline runs (AB … FA), others in the alphabet's order.
#[must_use]
pub fn line_name(from: usize, to: usize, count: usize) -> String {
    let (low, high) = (from.min(to), from.max(to));
    let closing = low == 0 && high + 1 == count;
    let (first, second) = if closing { (high, low) } else { (low, high) };
    [letter(first), letter(second)].into_iter().collect()
}
