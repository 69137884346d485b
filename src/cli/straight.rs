//! `pegline straight`: offset-block readings along a side.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, StraightSection};

use super::args::{BookingArgs, OutputArgs, PlanArgs, Under};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct StraightArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    straight: Typed<StraightSection>,
    #[command(flatten)]
    booking: BookingArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl StraightArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let under = Under { of: self.booking.of, ..under };
        let over = JobFile { straight: Some(self.straight.0), ..given };
        ask(Question::Straight, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
