//! Is it straight: a string on equal blocks at both ends, a third block as the gauge in between.

use schemars::JsonSchema;
use serde::Serialize;

use super::fit::{Fit, least_squares, narrowest};
use crate::geometry::Mm;
use crate::length::{AmountError, at_most, not_negative, positive};

/// Which side of the plate the string is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StringSide {
    /// Along the outer face.
    #[default]
    Outside,
    /// Along the inner face.
    Inside,
}

impl StringSide {
    /// The word in options and job files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
        }
    }
}

/// A reading from the string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// How far along the side, mm.
    pub at: f64,
    /// From the string to the plate, mm.
    pub reading: f64,
}

/// The most readings taken along one side.
pub const MOST_BLOCK_READINGS: usize = 200;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct StraightQuestion {
    /// The side, the corner that the stations are measured from first.
    pub side: Option<String>,
    /// The blocks' thickness, mm.
    pub block: f64,
    /// The face that the string is on.
    pub string: StringSide,
    /// The readings, in order along the side, no two at one place.
    pub readings: Vec<Reading>,
    /// The most that any station may be out of line, mm.
    pub limit: Option<f64>,
    /// What lies inward of the side: the side across the footprint, if a plan is known.
    pub inward: Option<String>,
}

impl StraightQuestion {
    /// Whether it can be answered: no more readings than [`MOST_BLOCK_READINGS`], every length one that can be.
    pub fn check(&self) -> Result<(), AmountError> {
        at_most("readings", self.readings.len(), MOST_BLOCK_READINGS)?;
        positive("the blocks' thickness", self.block)?;
        if let Some(limit) = self.limit {
            not_negative("the limit", limit)?;
        }
        for reading in &self.readings {
            not_negative("a station", reading.at)?;
            not_negative("a reading", reading.reading)?;
        }
        Ok(())
    }
}

/// Where the plate stands at a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// Too far out from the building.
    Out,
    /// Too far in.
    In,
    /// On the line.
    OnLine,
}

/// A station.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "StraightStation")]
pub struct Station {
    /// How far along the side, mm.
    pub at: Mm,
    /// From the string to the plate, mm.
    pub reading: Mm,
    /// Out of line: the reading less the block, mm. Positive where the plate stands too far from the string.
    pub out: Mm,
    /// Which way that is.
    pub stands: Stands,
    /// Out of line from the string pulled from the first station to the last, mm.
    pub from_ends: Mm,
    /// Out of line from the least-squares line, mm.
    pub from_best: Option<Mm>,
    /// Whether it is over the limit, if there is one.
    pub over: bool,
}

/// A straight line through the stations, by how far it stands from the string, mm, positive away from it.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct StraightLine {
    /// At the first station.
    pub at_first: Mm,
    /// At the last station.
    pub at_last: Mm,
    /// The largest distance of a station from it.
    pub worst: Mm,
}

/// Whether the side is straight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StraightVerdict {
    /// No station is out by more than the limit.
    Straight,
    /// At least one is.
    Out,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Straight {
    /// The side, the corner that the stations are measured from first.
    pub side: Option<String>,
    /// The blocks' thickness, mm.
    pub block: Mm,
    /// The face that the string is on.
    pub string: StringSide,
    /// The stations in order.
    pub stations: Vec<Station>,
    /// The size of the largest `out`, mm.
    pub worst: Mm,
    /// Where that is, mm along the side.
    pub worst_at: Mm,
    /// The limit, mm.
    pub limit: Option<Mm>,
    /// Whether all stations are within the limit, if there is one.
    pub verdict: Option<StraightVerdict>,
    /// The line from the first station to the last.
    pub end_to_end: StraightLine,
    /// The least-squares line; nothing for fewer than three stations.
    pub best: Option<StraightLine>,
    /// The line whose largest distance from a station is smallest; nothing for fewer than three stations.
    pub narrowest: Option<StraightLine>,
    /// What lies inward of the side, if a plan is known.
    pub inward: Option<String>,
}

impl Straight {
    /// Whether every station is within the limit; good too where there is none.
    #[must_use]
    pub fn good(&self) -> bool {
        self.verdict != Some(StraightVerdict::Out)
    }
}

/// Works out where the plate stands at every station.
///
/// `None` if there are no readings. Fails on a block, a station or a reading that can be none, and on too many.
pub fn straight(question: &StraightQuestion) -> Result<Option<Straight>, AmountError> {
    question.check()?;
    Ok(judged(question))
}

fn judged(question: &StraightQuestion) -> Option<Straight> {
    let points: Vec<(f64, f64)> =
        question.readings.iter().map(|reading| (reading.at, reading.reading - question.block)).collect();
    let (first, last) = (*points.first()?, *points.last()?);
    let ends = least_squares(&[first, last]).unwrap_or(Fit { at_zero: first.1, slope: 0.0 });
    let enough = points.len() >= 3;
    let best = least_squares(&points).filter(|_| enough);
    let narrow = narrowest(&points).filter(|_| enough);
    let line = |fit: Fit| StraightLine {
        at_first: Mm(fit.value(first.0)),
        at_last: Mm(fit.value(last.0)),
        worst: Mm(fit.worst(&points)),
    };
    let stations: Vec<Station> = points
        .iter()
        .zip(&question.readings)
        .map(|((at, out), reading)| Station {
            at: Mm(*at),
            reading: Mm(reading.reading),
            out: Mm(*out),
            stands: stands(*out, question.string),
            from_ends: Mm(out - ends.value(*at)),
            from_best: best.map(|fit| Mm(out - fit.value(*at))),
            over: question.limit.is_some_and(|limit| over(*out, limit)),
        })
        .collect();
    let worst = points
        .iter()
        .copied()
        .reduce(|worst, next| if next.1.abs() > worst.1.abs() { next } else { worst })?;
    Some(Straight {
        side: question.side.clone(),
        block: Mm(question.block),
        string: question.string,
        worst: Mm(worst.1.abs()),
        worst_at: Mm(worst.0),
        limit: question.limit.map(Mm),
        verdict: question
            .limit
            .map(|limit| if over(worst.1, limit) { StraightVerdict::Out } else { StraightVerdict::Straight }),
        end_to_end: line(ends),
        best: best.map(line),
        narrowest: narrow.map(line),
        inward: question.inward.clone(),
        stations,
    })
}

/// Over the limit by more than the last figures of a sum in binary can make.
fn over(out: f64, limit: f64) -> bool {
    out.abs() > limit + 1e-9
}

fn stands(out: f64, string: StringSide) -> Stands {
    if out.abs() <= 1e-9 {
        return Stands::OnLine;
    }
    // Further from a string on the outside is further in.
    match (out > 0.0, string) {
        (true, StringSide::Outside) | (false, StringSide::Inside) => Stands::In,
        (true, StringSide::Inside) | (false, StringSide::Outside) => Stands::Out,
    }
}
