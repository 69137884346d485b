//! The JSON envelope that every answer travels in.

use schemars::JsonSchema;
use serde::Serialize;

use super::commands::{Answer, Question};
use super::moved::Moved;
use crate::geometry::{Mm, Ratio};
use crate::job::{Job, SCHEMA};
use crate::length::Units;
use crate::page::{Remarks, Steps};
use crate::plan::Footprint;

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
        Self { version: env!("CARGO_PKG_VERSION"), schema: SCHEMA }
    }
}

/// An answer with what it answers: the JSON that other programs read.
#[derive(Debug, JsonSchema, Serialize)]
#[schemars(rename = "Envelope")]
pub struct Envelope<'a, T> {
    /// The program.
    pub pegline: Program,
    /// The command.
    pub command: &'static str,
    /// The units of the page; lengths here are mm all the same.
    pub units: &'static str,
    /// The units of the lengths here, where the page's are others.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lengths: Option<&'static str>,
    /// The job's name.
    pub job: Option<&'a str>,
    /// The plan as understood.
    pub plan: Option<PlanEcho<'a>>,
    /// Sizes that can be and seldom are: to be looked at before the answer is believed.
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    pub doubts: &'a [String],
    /// The answer.
    #[schemars(with = "serde_json::Value")]
    pub result: &'a T,
    /// What has moved since another booking, if asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub moved: Option<&'a Moved>,
    /// The working, if asked for.
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    pub working: &'a [Steps],
    /// Remarks.
    pub notes: &'a [String],
    /// Safety lines.
    pub cautions: &'a [String],
}

impl<'a> Envelope<'a, Answer> {
    /// The envelope of `answer`, with its notes and cautions.
    #[must_use]
    pub fn new(
        question: Question,
        job: &'a Job,
        answer: &'a Answer,
        working: &'a [Steps],
        remarks: &'a Remarks,
    ) -> Self {
        let plan = job.footprint.as_ref();
        Self {
            job: job.name.as_deref(),
            plan: plan.map(|plan| PlanEcho::new(plan, job.expression.as_deref().unwrap_or(""))),
            working,
            ..Self::without_job(question.name(), job.units, answer, remarks)
        }
    }
}

impl<'a, T> Envelope<'a, T> {
    /// The envelope of what `command` answers without a job.
    #[must_use]
    pub fn without_job(command: &'static str, units: Units, result: &'a T, remarks: &'a Remarks) -> Self {
        Self {
            pegline: Program::default(),
            command,
            units: units.name(),
            lengths: (units != Units::Mm).then_some(Units::Mm.name()),
            job: None,
            plan: None,
            doubts: &remarks.doubts,
            result,
            moved: None,
            working: &[],
            notes: &remarks.notes,
            cautions: &remarks.cautions,
        }
    }
}

/// What stands in the place of a JSON answer that can't be given, of a line of a `batch` or of a command.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ErrorLine<'a> {
    /// What is wrong.
    pub error: LineFault<'a>,
}

/// What `batch` writes for a blank line, which is no job and no fault.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BlankLine {
    /// The line is blank.
    pub blank: bool,
}

impl Default for BlankLine {
    fn default() -> Self {
        Self { blank: true }
    }
}

/// What is wrong with a line, or with a command.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LineFault<'a> {
    /// The line of a batch's input, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
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
    /// How far the existing house goes back from its walls, mm; without end unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    house_depth: Option<Mm>,
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
                .map(|corner| CornerEcho { name: corner.name, x: Mm(corner.at.x), y: Mm(corner.at.y) })
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
            house_depth: footprint.house_depth().map(Mm),
            area_m2: Ratio(footprint.area() / 1e6),
            perimeter: Mm(footprint.perimeter()),
        }
    }
}
