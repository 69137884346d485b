//! `pegline packs`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, LengthEntry, PacksSection};

use super::args::{BookingArgs, OutputArgs, PlanArgs, Under};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct PacksArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    packs: Typed<PacksSection>,
    /// Pack under studs too, at these centres along each side from its first corner.
    #[arg(long, value_name = "CENTRES", help_heading = "Packers")]
    studs: Option<LengthEntry>,
    #[command(flatten)]
    booking: BookingArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl PacksArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let under = Under { of: self.booking.of, ..under };
        let over = JobFile { studs: self.studs, packs: Some(self.packs.0), ..given };
        ask(Question::Packs, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
