//! `pegline joists`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, JoistsSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct JoistsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    joists: Typed<JoistsSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl JoistsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let over = JobFile { joists: Some(self.joists.0), ..given };
        ask(Question::Joists, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
