//! `pegline readings`.

use clap::Args;
use pegline::answer::{Answer, Answered, Envelope, Moved, Question};
use pegline::job::{JobFile, ReadingsSection, TapeSection};
use pegline::page::Detail;
use pegline::report::{moved, moved_rows, page};

use super::args::{BookingArgs, Format, OutputArgs, PlanArgs, Under};
use super::ask::{ask, exit, told_as};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::{csv_text, json_text, page_text, width, write_out};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct ReadingsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    #[command(flatten)]
    readings: Typed<ReadingsSection>,
    /// Show what has moved since this booking.
    #[arg(long, value_name = "NAME")]
    since: Option<String>,
    #[command(flatten)]
    booking: BookingArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl ReadingsArgs {
    pub(super) fn run(mut self, output: &OutputArgs) -> Result<Exit, Failure> {
        if let Some(words) = self.plan.take_readings() {
            self.readings.0.read.get_or_insert_default().extend(words);
        }
        let (given, under) = self.plan.given();
        let under = Under { of: self.booking.of, ..under };
        let over = JobFile { tape: Some(self.tape.0), readings: Some(self.readings.0), ..given };
        let given = CommandLine::of::<Self>(over, under);
        match self.since {
            Some(name) => since(&name, &given, output),
            None => ask(Question::Readings, &given, output, self.working),
        }
    }
}

/// The readings with what has moved since the booking called `name` above the rest.
fn since(name: &str, given: &CommandLine, out: &OutputArgs) -> Result<Exit, Failure> {
    let format = out.format()?;
    let question = Question::Readings;
    let both = given.jobs_since(name).and_then(|(before, job)| {
        let then = before.answer(question).map_err(Failure::input)?;
        let now = job.answer(question).map_err(Failure::input)?;
        Ok((then, job, now))
    });
    let (then, job, now) = told_as(format, out, both)?;
    let (Answer::Readings(before), Answer::Readings(after)) = (&then, &now) else {
        return Err(Failure::input("--since: these are no readings"));
    };
    let moves = Moved::between(name, before, after);
    let text = match format {
        Format::Table => {
            let mut page = page(&now, &job, out.detail(), width(out), &[]);
            moved(&mut page, &moves, job.units, out.detail());
            page_text(&page, out)
        }
        Format::Json => {
            let remarks = now.remarks(&job, Detail::Full);
            json_text(&Envelope {
                moved: Some(&moves),
                ..Envelope::new(question, &job, &now, &[], &remarks)
            })?
        }
        Format::Csv => csv_text(moved_rows(&moves), out)?,
    };
    write_out(&text, out, &given.inputs())?;
    given.keep()?;
    Ok(exit(&now))
}
