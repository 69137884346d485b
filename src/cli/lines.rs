//! `pegline lines`: profiles, nails and strings.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, LinesSection, TapeSection};

use super::along::AlongArgs;
use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct LinesArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    lines: Typed<LinesSection>,
    #[command(flatten)]
    along: Typed<AlongArgs>,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    /// Show each step of the offset outline by hand.
    #[arg(long)]
    working: bool,
}

impl LinesArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let over = JobFile { tape: Some(self.tape.0), lines: Some(self.lines.0), ..self.along.0.with(given) };
        ask(Question::Lines, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
