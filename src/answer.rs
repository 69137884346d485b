//! From a checked job and a question to an answer, and the JSON envelope that every answer travels in.
//!
//! ```
//! use pegline::answer::{Answer, Question};
//! use pegline::job::{Job, read};
//!
//! let file = read(r#"{"plan": "7800x6000-3000x2400"}"#)?;
//! let job = Job::check(&file).expect("nothing is wrong with it");
//! let Ok(Answer::Diagonals(checks)) = job.answer(Question::Diagonals) else { panic!("no check sizes") };
//! assert_eq!(checks.proof.names, ["AD", "BE", "DF"]);
//! assert!(job.answer(Question::Plates).is_err_and(|error| error.is_missing_input()));
//! # Ok::<(), pegline::job::JobFileError>(())
//! ```

mod envelope;
mod error;
mod headline;
mod needs;
mod question;
mod schema;
mod sheet;
mod sketch;

use serde::Serialize;

pub use envelope::{BlankLine, Envelope, ErrorLine, LineFault, PlanEcho, Program};
pub use error::AnswerError;
pub(crate) use headline::packs_headline;
pub use question::Question;
pub use schema::schema;
pub use sheet::{Missing, Part, Sheet};
pub use sketch::Sketch;

use crate::cuts::{Cuts, cuts};
use crate::heights::{Heights, WallHead, heights};
use crate::job::Job;
use crate::lines::{Lines, LinesQuestion, Straight, lines, straight};
use crate::order::Order;
use crate::packing::{Packing, Packs, packs};
use crate::plan::Footprint;
use crate::plates::{Plates, plates};
use crate::readings::{self, Readings};
use crate::square::{Corners, CornersQuestion, Diagonals, Options, corners, diagonals};

/// The answer to a [`Question`].
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Answer {
    /// Every check size.
    Diagonals(Diagonals),
    /// The triangles at the corners, and a corner as found.
    Corners(Corners),
    /// The plates' cut list.
    Plates(Box<Plates>),
    /// The cut of a list of pieces.
    Cuts(Cuts),
    /// Packing the plate level.
    Packs(Packs),
    /// The wall head, panel and ceiling heights.
    Heights(Heights),
    /// Lines, profiles and nails.
    Lines(Box<Lines>),
    /// Offset-block readings.
    Straight(Straight),
    /// Whether the taped readings are square, who misread, what to move.
    Readings(Box<Readings>),
    /// The plan drawn.
    Sketch(Box<Sketch>),
    /// The whole job.
    Sheet(Box<Sheet>),
    /// Quantities and prices.
    Order(Box<Order>),
}

impl Answer {
    /// Whether all is well, as far as the question asks for a verdict.
    #[must_use]
    pub fn good(&self) -> bool {
        match self {
            Self::Corners(answer) => answer.good(),
            Self::Packs(answer) => answer.verdict.good(),
            Self::Heights(answer) => answer.verdict.good(),
            Self::Straight(answer) => answer.good(),
            Self::Readings(answer) => answer.verdict.good(),
            Self::Sheet(answer) => answer.good(),
            Self::Diagonals(_)
            | Self::Plates(_)
            | Self::Cuts(_)
            | Self::Lines(_)
            | Self::Sketch(_)
            | Self::Order(_) => true,
        }
    }
}

impl Job {
    /// Answers a question.
    pub fn answer(&self, question: Question) -> Result<Answer, AnswerError> {
        self.answer_knowing(question, &[])
    }

    /// Answers a question, taking the answers that it builds on from `known` where they are there.
    fn answer_knowing(&self, question: Question, known: &[Part]) -> Result<Answer, AnswerError> {
        match question {
            Question::Diagonals => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                Ok(Answer::Diagonals(self.diagonals(footprint)?))
            }
            Question::Corners => {
                if self.footprint.is_none() && self.angle.is_none() {
                    return Err(AnswerError::NoPlan);
                }
                let question = CornersQuestion {
                    footprint: self.footprint.as_ref(),
                    tape: self.tape,
                    units: self.units,
                    tapes: self.angle.map(|angle| angle.tapes),
                    corner: self.angle.and_then(|angle| angle.corner),
                    limit: self.angle.and_then(|angle| angle.limit),
                };
                corners(&question)
                    .map(Answer::Corners)
                    .map_err(|error| AnswerError::Angle { error, units: self.units })
            }
            Question::Packs => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let packing = self.packs.as_ref().ok_or(AnswerError::NoReadings)?;
                Ok(Answer::Packs(packs(footprint, packing)?))
            }
            Question::Heights => {
                let given =
                    self.heights.as_ref().filter(|head| !head.drops.is_empty() || head.ceiling.is_some());
                let given = given.ok_or(AnswerError::NoHeights)?;
                Ok(Answer::Heights(heights(&self.on_packs(given)?)?))
            }
            Question::Lines => {
                let question = LinesQuestion {
                    footprint: self.footprint.as_ref().ok_or(AnswerError::NoPlan)?,
                    setback: self.lines.setback,
                    wall: &self.lines.wall,
                    string: self.lines.string,
                    offset: self.lines.offset,
                    marks: self.lines.marks.as_ref(),
                    units: self.units,
                };
                Ok(Answer::Lines(Box::new(lines(&question)?)))
            }
            Question::Straight => {
                let question = self.straight.as_ref().ok_or(AnswerError::NoBlockReadings)?;
                let answer = straight(question).map_err(AnswerError::Straight)?;
                Ok(Answer::Straight(answer.ok_or(AnswerError::NoBlockReadings)?))
            }
            Question::Plates => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let options = self.plates.as_ref().ok_or(AnswerError::NoWidth)?;
                if !self.has_timber {
                    return Err(AnswerError::NoStock);
                }
                plates(footprint, options)
                    .map(|answer| Answer::Plates(Box::new(answer)))
                    .map_err(|error| AnswerError::Plates { error, units: self.units })
            }
            Question::Cuts => {
                let question = self.cuts.as_ref().ok_or(AnswerError::NoPieces)?;
                if !self.has_timber {
                    return Err(AnswerError::NoStock);
                }
                Ok(Answer::Cuts(cuts(question)?))
            }
            Question::Readings => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let taped = self.readings.as_ref().ok_or(AnswerError::NothingTaped)?;
                let answer = readings::readings(&taped.input(footprint, self.units))?;
                Ok(Answer::Readings(Box::new(answer)))
            }
            Question::Sketch => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let drawn = sketch::sketch(self, footprint, &self.diagonals(footprint)?, known)?;
                Ok(Answer::Sketch(Box::new(drawn)))
            }
            Question::Sheet => Ok(Answer::Sheet(Box::new(sheet::sheet(self)?))),
            Question::Order => Ok(Answer::Order(Box::new(needs::order(self, known)?))),
        }
    }

    /// The wall head with the pack at each drop's place, where the job has it.
    fn on_packs(&self, head: &WallHead) -> Result<WallHead, AnswerError> {
        let mut head = head.clone();
        let placed = head.drops.iter().any(|drop| drop.place.is_some());
        if let (true, Some(footprint), Some(packing)) = (placed, &self.footprint, &self.packs) {
            let gaps = packs(footprint, &Packing { packers: vec![], ..packing.clone() })?;
            for drop in &mut head.drops {
                let mut all = gaps.stations.iter().chain(&gaps.studs);
                let there = all.find(|station| Some(&station.name) == drop.place.as_ref());
                drop.pack = there.map(|station| station.pack.0);
            }
        }
        Ok(head)
    }

    fn diagonals(&self, footprint: &Footprint) -> Result<Diagonals, AnswerError> {
        let options = Options { tape: self.tape, units: self.units, spares: self.spares };
        Ok(diagonals(footprint, &options)?)
    }
}
