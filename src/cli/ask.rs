//! A command that asks a question of a job: the one way from arguments to output.

use pegline::answer::{Answer, Envelope, Question};
use pegline::job::Job;
use pegline::page::{Page, Printer, Steps};
use pegline::report::{page_for, remarks};
use pegline::working::working;

use super::args::{Format, OutputArgs};
use super::failure::{Exit, Failure};
use super::given::Given;
use super::output;

/// Answers `question` on the job given and prints the answer.
pub(super) fn ask(
    question: Question,
    given: Given,
    file: Option<&str>,
    out: &OutputArgs,
    with_working: bool,
) -> Result<Exit, Failure> {
    let job = given.job(file)?;
    let answer = job.answer(question).map_err(Failure::input)?;
    let steps = if with_working { working(&answer, &job) } else { vec![] };
    let page = page_in(out.format(), &answer, &job, &steps);
    let envelope = Envelope::new(question, &job, &answer, &steps, &page);
    output::print(&page, &envelope, out)?;
    Ok(exit(&page))
}

/// The page, or what of it the format carries.
pub(super) fn page_in(format: Format, answer: &Answer, job: &Job, steps: &[Steps]) -> Page {
    match format {
        Format::Json => remarks(answer, job),
        Format::Table => page_for(Printer::Text, answer, job, steps),
        Format::Csv => page_for(Printer::Csv, answer, job, steps),
    }
}

/// Bad where the page has a verdict and it is bad.
pub(super) fn exit(page: &Page) -> Exit {
    match &page.verdict {
        Some(verdict) if !verdict.good => Exit::Bad,
        _ => Exit::Good,
    }
}
