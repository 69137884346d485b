//! `pegline heights`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{HeightsSection, JobFile};

use super::args::{BookingArgs, FileArgs, OutputArgs, Under};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct HeightsArgs {
    #[command(flatten)]
    source: FileArgs,
    #[command(flatten)]
    heights: Typed<HeightsSection>,
    #[command(flatten)]
    booking: BookingArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl HeightsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.source.given();
        let under = Under { of: self.booking.of, ..under };
        let over = JobFile { heights: Some(self.heights.0), ..given };
        ask(Question::Heights, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
