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

mod needs;
mod schema;
mod sheet;
mod sketch;

use schemars::JsonSchema;
use serde::Serialize;

pub use schema::schema;
pub use sheet::{Missing, Part, Sheet};
pub use sketch::Sketch;

use crate::cuts::{Cuts, cuts};
use crate::cutting;
use crate::geometry::{Mm, Ratio};
use crate::job::{Job, SCHEMA};
use crate::length::Units;
use crate::levels::{Heights, LevelsError, Packs, heights, packs};
use crate::lines::{Lines, LinesError, LinesQuestion, Straight, lines, straight};
use crate::order::{Order, OrderError};
use crate::page::{Page, Steps};
use crate::plan::Footprint;
use crate::plates::{Plates, PlatesError, plates};
use crate::readings::{self, Readings};
use crate::sketch::SketchError;
use crate::square::{AngleError, Corners, CornersQuestion, Diagonals, Options, corners, diagonals};

/// What is asked of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Every check size.
    Diagonals,
    /// The triangles at the corners, and a corner as found.
    Corners,
    /// The plates' cut list.
    Plates,
    /// The cut of a list of pieces.
    Cuts,
    /// Packing the plate level.
    Packs,
    /// The wall head, panel and ceiling heights.
    Heights,
    /// Lines, profiles and nails.
    Lines,
    /// Offset-block readings.
    Straight,
    /// Whether the taped readings are square, who misread, what to move.
    Readings,
    /// The plan drawn.
    Sketch,
    /// The whole job.
    Sheet,
    /// Quantities and prices.
    Order,
}

impl Question {
    /// Every question, in the order of the day.
    pub const ALL: [Self; 12] = [
        Self::Diagonals,
        Self::Corners,
        Self::Lines,
        Self::Plates,
        Self::Cuts,
        Self::Readings,
        Self::Straight,
        Self::Packs,
        Self::Heights,
        Self::Order,
        Self::Sketch,
        Self::Sheet,
    ];

    /// The command's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Diagonals => "diagonals",
            Self::Corners => "corners",
            Self::Plates => "plates",
            Self::Cuts => "cuts",
            Self::Packs => "packs",
            Self::Heights => "heights",
            Self::Lines => "lines",
            Self::Straight => "straight",
            Self::Readings => "readings",
            Self::Sketch => "sketch",
            Self::Sheet => "sheet",
            Self::Order => "order",
        }
    }
}

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

/// A job that can't answer the question.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AnswerError {
    /// There is no plan.
    #[error(
        "there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or `plan` in a job file (--job FILE)"
    )]
    NoPlan,
    /// Three tapes make no angle.
    #[error("{}", error.words(*units))]
    Angle {
        /// Why.
        error: AngleError,
        /// The units to say it in.
        units: Units,
    },
    /// There are no levels to pack from.
    #[error(
        "there are no readings: write --staff A=1412,B=1409 (the bigger, the lower) or --heights A=0,B=-3, or `packs` in the job file"
    )]
    NoReadings,
    /// There is nothing to work heights out from.
    #[error(
        "there is no wall head and no ceiling: write --drop 2398 --level-depth 50, or --ceiling 2400, or both, or `heights` in the job file"
    )]
    NoHeights,
    /// There is no plate width.
    #[error("there is no plate width: write --width 140, or `plates.width` in the job file")]
    NoWidth,
    /// There is nothing to cut from.
    #[error(
        "there is no stock to cut from: write --stock 3.6m:10.80,4.8m:15.60 or without prices 3.6m,4.8m, or `stock.lengths` in the job file"
    )]
    NoStock,
    /// There is nothing to cut.
    #[error("there is nothing to cut: write --pieces 4x1200,2x2350, or `cuts.pieces` in the job file")]
    NoPieces,
    /// The plates can't be laid out.
    #[error(transparent)]
    Plates(#[from] PlatesError),
    /// The list can't be cut.
    #[error(transparent)]
    Cuts(#[from] cutting::Error),
    /// Levels that can't be answered.
    #[error(transparent)]
    Levels(#[from] LevelsError),
    /// The lines can't be set out.
    #[error(transparent)]
    Lines(#[from] LinesError),
    /// There are no offset-block readings.
    #[error(
        "there are no readings: write the blocks' thickness and where along the side each was taken, such as --block 20 --read 0=20,1200=22, or `straight` in the job file"
    )]
    NoBlockReadings,
    /// Nothing was taped.
    #[error(
        "there are no readings: write --read AB=7802,BC=3601,AC=8594, the line and what the tape read, or `readings.read` in the job file"
    )]
    NothingTaped,
    /// Readings that can't be judged.
    #[error(transparent)]
    Readings(#[from] readings::Error),
    /// A part of the sheet or the order that has its inputs can't be answered.
    #[error("{}: {}", question.name(), error.in_job_file())]
    Part {
        /// The part.
        question: Question,
        /// Why.
        error: Box<Self>,
    },
    /// The plan doesn't fit the sheet.
    #[error(transparent)]
    Sketch(#[from] SketchError),
    /// The job has no part that needs anything.
    #[error(
        "there is nothing to order: give `plates`, `cuts`, `packs`, `lines` or `order.extras` in the job file (`pegline job new` writes one)"
    )]
    NothingToOrder,
    /// The order can't be made out.
    #[error(transparent)]
    Order(#[from] OrderError),
}

impl AnswerError {
    /// The same said to whoever has only a job file to write in: what is missing by its field, without the options of the
    /// command that would ask for it alone.
    #[must_use]
    pub fn in_job_file(&self) -> String {
        match self {
            Self::NoPlan => "there is no plan: give `plan`, such as 7800x6000-3000x2400, or `walk` in the job file",
            Self::NoReadings => "there are no levels: give `packs.staff` or `packs.heights` in the job file",
            Self::NoHeights => {
                "there is no wall head and no ceiling: give `heights.drops` and `heights.level_depth`, or `heights.ceiling`, or all of them in the job file"
            }
            Self::NoWidth => "there is no plate width: give `plates.width` in the job file",
            Self::NoStock => "there is no stock to cut from: give `stock.lengths` in the job file",
            Self::NoPieces => "there is nothing to cut: give `cuts.pieces` in the job file",
            Self::NoBlockReadings => {
                "there are no readings: give `straight.block` and `straight.readings` in the job file"
            }
            Self::NothingTaped => {
                "there are no readings: give `readings.read`, the lines and what the tape read, in the job file"
            }
            other => return other.to_string(),
        }
        .to_owned()
    }

    /// Whether it is only that the job has no inputs for the question.
    #[must_use]
    pub fn is_missing_input(&self) -> bool {
        if let Self::Part { error, .. } = self {
            return error.is_missing_input();
        }
        matches!(
            self,
            Self::NoPlan
                | Self::NoReadings
                | Self::NoHeights
                | Self::NoWidth
                | Self::NoStock
                | Self::NoPieces
                | Self::NoBlockReadings
                | Self::NothingTaped
                | Self::NothingToOrder
        )
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
                Ok(Answer::Diagonals(self.diagonals(footprint)))
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
                    .map_err(|error| AnswerError::Angle {
                        error,
                        units: self.units,
                    })
            }
            Question::Packs => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let packing = self.packs.as_ref().ok_or(AnswerError::NoReadings)?;
                Ok(Answer::Packs(packs(footprint, packing)?))
            }
            Question::Heights => {
                let given = self
                    .heights
                    .as_ref()
                    .filter(|head| !head.drops.is_empty() || head.ceiling.is_some());
                Ok(Answer::Heights(heights(given.ok_or(AnswerError::NoHeights)?)?))
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
                let answer = self.straight.as_ref().and_then(straight);
                Ok(Answer::Straight(answer.ok_or(AnswerError::NoBlockReadings)?))
            }
            Question::Plates => {
                let footprint = self.footprint.as_ref().ok_or(AnswerError::NoPlan)?;
                let options = self.plates.as_ref().ok_or(AnswerError::NoWidth)?;
                if !self.has_timber {
                    return Err(AnswerError::NoStock);
                }
                Ok(Answer::Plates(Box::new(plates(footprint, options)?)))
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
                let drawn = sketch::sketch(self, footprint, &self.diagonals(footprint), known)?;
                Ok(Answer::Sketch(Box::new(drawn)))
            }
            Question::Sheet => Ok(Answer::Sheet(Box::new(sheet::sheet(self)?))),
            Question::Order => Ok(Answer::Order(Box::new(needs::order(self, known)?))),
        }
    }

    fn diagonals(&self, footprint: &Footprint) -> Diagonals {
        let options = Options {
            tape: self.tape,
            units: self.units,
            spares: self.spares,
        };
        diagonals(footprint, &options)
    }
}

/// What every JSON answer begins with.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Program {
    /// The program's version.
    pub version: &'static str,
    /// The schema number of its answers.
    pub schema: u32,
}

impl Default for Program {
    fn default() -> Self {
        Self {
            version: env!("CARGO_PKG_VERSION"),
            schema: SCHEMA,
        }
    }
}

/// An answer with what it answers: the JSON that other programs read.
#[derive(Debug, JsonSchema, Serialize)]
pub struct Envelope<'a> {
    /// The program.
    pub pegline: Program,
    /// The command.
    pub command: &'static str,
    /// The units of the page; lengths here are mm all the same.
    pub units: &'static str,
    /// The job's name.
    pub job: Option<&'a str>,
    /// The plan as understood.
    pub plan: Option<PlanEcho<'a>>,
    /// The answer.
    #[schemars(with = "serde_json::Value")]
    pub result: &'a Answer,
    /// The working, if asked for.
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    pub working: &'a [Steps],
    /// Remarks.
    pub notes: &'a [String],
    /// Safety lines.
    pub cautions: &'a [String],
}

impl<'a> Envelope<'a> {
    /// The envelope of `answer`, with the notes and cautions of its page.
    #[must_use]
    pub fn new(
        question: Question,
        job: &'a Job,
        answer: &'a Answer,
        working: &'a [Steps],
        page: &'a Page,
    ) -> Self {
        Self {
            pegline: Program::default(),
            command: question.name(),
            units: job.units.name(),
            job: job.name.as_deref(),
            plan: job
                .footprint
                .as_ref()
                .map(|footprint| PlanEcho::new(footprint, job.expression.as_deref().unwrap_or(""))),
            result: answer,
            working,
            notes: &page.notes,
            cautions: &page.cautions,
        }
    }
}

/// What `batch` writes in the place of an answer to a line that it can't answer.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ErrorLine<'a> {
    /// What is wrong.
    pub error: LineFault<'a>,
}

/// What is wrong with a line.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LineFault<'a> {
    /// The line of the input, from 1.
    pub line: usize,
    /// The field of its job at fault, such as `readings.AB`; empty if it is the job as a whole.
    pub field: &'a str,
    /// What is wrong, and what to write instead.
    pub message: &'a str,
}

/// The plan as understood.
#[derive(Debug, JsonSchema, Serialize)]
pub struct PlanEcho<'a> {
    /// The expression or walk as written; empty if there was none.
    expression: &'a str,
    /// The corners from A, clockwise.
    corners: Vec<CornerEcho>,
    /// The sides from AB, clockwise.
    sides: Vec<SideEcho>,
    /// The area, m².
    area_m2: Ratio,
    /// Round the outside, mm.
    perimeter: Mm,
}

/// A corner of the plan.
#[derive(Debug, JsonSchema, Serialize)]
struct CornerEcho {
    /// Its letter.
    name: char,
    /// To the right of the outline's left edge, mm.
    x: Mm,
    /// Down from the outline's top edge, mm.
    y: Mm,
}

/// A side of the plan.
#[derive(Debug, JsonSchema, Serialize)]
struct SideEcho {
    /// Its two corners.
    name: String,
    /// Its length, mm.
    length: Mm,
    /// Whether it is an existing wall.
    house: bool,
}

impl<'a> PlanEcho<'a> {
    /// The echo of a footprint that was written as `expression`.
    #[must_use]
    pub fn new(footprint: &Footprint, expression: &'a str) -> Self {
        Self {
            expression,
            corners: footprint
                .corners()
                .iter()
                .map(|corner| CornerEcho {
                    name: corner.name,
                    x: Mm(corner.at.x),
                    y: Mm(corner.at.y),
                })
                .collect(),
            sides: footprint
                .sides()
                .iter()
                .enumerate()
                .map(|(i, side)| SideEcho {
                    name: footprint.side_name(i),
                    length: Mm(side.length),
                    house: side.house,
                })
                .collect(),
            area_m2: Ratio(footprint.area() / 1e6),
            perimeter: Mm(footprint.perimeter()),
        }
    }
}
