//! A command that asks a question of a job: the one way from arguments to output.

use pegline::answer::{Answer, Answered, Envelope, ErrorLine, LineFault, Question};
use pegline::job::Job;
use pegline::page::{Detail, Steps};
use pegline::report::page;

use super::args::{Format, OutputArgs};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::{csv_text, json_text, page_text, width, write_out};
use super::progress;

/// Answers `question` on the job given and prints the answer.
pub(super) fn ask(
    question: Question,
    given: &CommandLine,
    out: &OutputArgs,
    with_working: bool,
) -> Result<Exit, Failure> {
    let format = out.format()?;
    let answered = given.job().and_then(|job| {
        progress::tell(&job);
        let answer = job.answer(question).map_err(Failure::input)?;
        Ok((job, answer))
    });
    let (job, answer) = told_as(format, out, answered)?;
    let steps = if with_working { answer.steps(&job) } else { vec![] };
    write_out(&printed(question, &job, &answer, &steps, format, out)?, out, &given.inputs())?;
    given.keep()?;
    Ok(exit(&answer))
}

/// What was answered; where it was not and JSON was asked for, why not is printed as JSON too.
pub(super) fn told_as<T>(
    format: Format,
    out: &OutputArgs,
    answered: Result<T, Failure>,
) -> Result<T, Failure> {
    if let (Format::Json, false, Err(failure)) = (format, out.to_file(), &answered) {
        let message = &failure.message();
        write_out(&json_text(&ErrorLine { error: LineFault { line: None, field: "", message } })?, out, &[])?;
    }
    answered
}

/// An answer in `format`, and nothing made for another.
pub(super) fn printed(
    question: Question,
    job: &Job,
    answer: &Answer,
    steps: &[Steps],
    format: Format,
    out: &OutputArgs,
) -> Result<String, Failure> {
    match format {
        Format::Json => {
            json_text(&Envelope::new(question, job, answer, steps, &answer.remarks(job, Detail::Full)))
        }
        Format::Table => Ok(page_text(&page(answer, job, out.detail(), width(out), steps), out)),
        Format::Csv => csv_text(answer.rows(job.units), out),
    }
}

/// How a run ends that has answered.
pub(super) fn exit(answer: &Answer) -> Exit {
    if answer.good() { Exit::Good } else { Exit::Bad }
}
