//! Where the day stands: the whole job asked, and the order in which its outline is taped.

use crate::answer::answered::Answered;
use crate::answer::commands::{Asked, Day, Known, Part, Sheet, Standing};
use crate::answer::error::AnswerError;
use crate::job::Job;
use crate::square::{Diagonals, taping_order};

impl Asked for Day {
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let to_tape = taping_order(footprint, &*Diagonals::part(job, known)?);
        let sheet = Sheet::asked(job, known)?;
        let standing = |part: &Part| Standing { question: part.question, good: part.result.good() };
        Ok(Self {
            to_tape: to_tape.into_iter().map(|(from, to)| footprint.line_name(from, to)).collect(),
            parts: sheet.parts.iter().map(standing).collect(),
            missing: sheet.missing.clone(),
            sheet,
        })
    }
}
