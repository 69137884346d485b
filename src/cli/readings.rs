//! `pegline readings`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, ReadingsSection, TapeSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct ReadingsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    #[command(flatten)]
    readings: Typed<ReadingsSection>,
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
        let over = JobFile { tape: Some(self.tape.0), readings: Some(self.readings.0), ..given };
        ask(Question::Readings, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
