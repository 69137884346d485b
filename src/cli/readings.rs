//! `pegline readings`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, ReadingsSection, TapeSection};
use pegline::report::{moved, page};

use super::args::{BookingArgs, Format, OutputArgs, PlanArgs, Under};
use super::ask::{ask, exit};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::{page_text, write_out};
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
    out.only("readings --since", Format::Table)?;
    let then = given.job_since(name)?.answer(Question::Readings).map_err(Failure::input)?;
    let job = given.job()?;
    let now = job.answer(Question::Readings).map_err(Failure::input)?;
    let mut page = page(&now, &job, out.detail(), &[]);
    moved(&mut page, name, (&then, &now), job.units);
    write_out(&page_text(&page, out), out, &given.inputs())?;
    given.keep()?;
    Ok(exit(&now))
}
