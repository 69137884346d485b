//! `pegline diagonals`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{DiagonalsSection, JobFile, TapeSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct DiagonalsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    #[command(flatten)]
    diagonals: Typed<DiagonalsSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl DiagonalsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let over = JobFile { tape: Some(self.tape.0), diagonals: Some(self.diagonals.0), ..given };
        ask(Question::Diagonals, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
