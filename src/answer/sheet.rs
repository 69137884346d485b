//! The whole job: every part that it has inputs for, in the order of the day, and what the others wait for.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use super::{Answer, AnswerError, Question};
use crate::job::Job;

/// Every part that a job has inputs for.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "WholeJob")]
pub struct Sheet {
    /// The parts in the order of the day, the drawing first.
    pub parts: Vec<Part>,
    /// The parts of the day that have no inputs yet.
    pub missing: Vec<Missing>,
}

impl Sheet {
    /// Whether every part is.
    #[must_use]
    pub fn good(&self) -> bool {
        self.parts.iter().all(|part| part.result.good())
    }
}

/// A part of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Which command answers it.
    #[serde(rename = "command", serialize_with = "by_name")]
    pub question: Question,
    /// Its answer, as the command gives it.
    pub result: Answer,
}

impl JsonSchema for Part {
    fn schema_name() -> Cow<'static, str> {
        "SheetPart".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        super::schema::part(generator)
    }
}

/// A part that waits for its inputs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Missing {
    /// Which command would answer it.
    #[serde(rename = "command", serialize_with = "by_name")]
    #[schemars(with = "String")]
    pub question: Question,
    /// The fields of the job file that would unlock it.
    pub needs: &'static str,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde passes fields by reference")]
fn by_name<S: Serializer>(question: &Question, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(question.name())
}

impl Question {
    /// The fields of the job file without which a job can't be asked this; nothing for what isn't a part of the day by
    /// itself.
    const fn needs(self) -> Option<&'static str> {
        match self {
            Self::Diagonals | Self::Corners | Self::Lines | Self::Sketch => Some("`plan` or `walk`"),
            Self::Plates => Some("`plates.width` and `stock.lengths`"),
            Self::Readings => Some("`readings.read`: the sides and diagonals as taped"),
            Self::Straight => {
                Some("`straight.block` and `straight.readings`: readings from a string on blocks")
            }
            Self::Packs => Some("`packs.staff` or `packs.heights`: the levels round the plate"),
            Self::Heights => Some("`heights.drops` and `heights.level_depth`, or `heights.ceiling`"),
            Self::Order => Some("`plates` and `stock`, `packs`, `lines` or `order.extras`"),
            Self::Cuts | Self::Sheet => None,
        }
    }
}

/// The answer of a part, from `known` if it is there; one that can't be answered is named.
pub(super) fn part(job: &Job, question: Question, known: &[Part]) -> Result<Answer, AnswerError> {
    if let Some(part) = known.iter().find(|part| part.question == question) {
        return Ok(part.result.clone());
    }
    job.answer_knowing(question, known)
        .map_err(|error| AnswerError::Part { question, error: Box::new(error) })
}

/// Answers every question that the job has inputs for, each once.
pub(super) fn sheet(job: &Job) -> Result<Sheet, AnswerError> {
    let mut sheet = Sheet { parts: vec![], missing: vec![] };
    // The order and then the drawing come last in `ALL`: they build on the others.
    for question in Question::ALL {
        if question == Question::Sheet {
            continue;
        }
        match job.answer_knowing(question, &sheet.parts) {
            Ok(result) => sheet.parts.push(Part { question, result }),
            Err(error) if error.is_missing_input() => {
                sheet.missing.extend(question.needs().map(|needs| Missing { question, needs }));
            }
            Err(error @ AnswerError::Part { .. }) => return Err(error),
            Err(error) => {
                return Err(AnswerError::Part { question, error: Box::new(error) });
            }
        }
    }
    if sheet.parts.is_empty() {
        return Err(AnswerError::NoPlan);
    }
    sheet.parts.sort_by_key(|part| part.question != Question::Sketch);
    Ok(sheet)
}
