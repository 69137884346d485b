//! A command that asks a question of a job: the one way from arguments to output.

use pegline::answer::{Envelope, Question};
use pegline::report::page;
use pegline::working::working;

use super::args::{Given, OutputArgs};
use super::failure::{Exit, Failure};
use super::{output, source};

/// Answers `question` on the job given and prints the answer.
pub(super) fn ask(
    question: Question,
    given: Given,
    file: Option<&str>,
    out: &OutputArgs,
    with_working: bool,
) -> Result<Exit, Failure> {
    let job = source::job(given, file)?;
    let answer = job.answer(question).map_err(Failure::input)?;
    let steps = if with_working {
        working(&answer, &job)
    } else {
        vec![]
    };
    let page = page(&answer, &job, &steps);
    let envelope = Envelope::new(question, &job, &answer, &steps, &page);
    output::print(&page, &envelope, out)?;
    Ok(match &page.verdict {
        Some(verdict) if !verdict.good => Exit::Bad,
        _ => Exit::Good,
    })
}
