//! The whole job: every part that it has inputs for, in the order of the day, and what the others wait for.

use super::listed::listed;
use crate::answer::commands::{Asked, Missing, Part, Question, Sheet};
use crate::answer::error::{AnswerError, NO_PLAN};
use crate::job::Job;

impl Asked for Sheet {
    /// Answers every question that the job has inputs for, each once.
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let job = &listed(job);
        let mut sheet = Self { parts: vec![], missing: vec![] };
        for question in Question::ALL {
            if !question.is_part() {
                continue;
            }
            match question.asked(job, &sheet.parts) {
                Ok(result) => sheet.parts.push(Part { question, result }),
                Err(error) if error.is_missing_input() => {
                    sheet.missing.extend(question.needs().iter().map(|needs| Missing { question, needs }));
                }
                Err(error) => return Err(error.of_part(question.name())),
            }
        }
        if sheet.parts.is_empty() {
            return Err(NO_PLAN);
        }
        sheet.parts.sort_by_key(|part| part.question != Question::Sketch);
        Ok(sheet)
    }
}
