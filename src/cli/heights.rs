//! `pegline heights`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{HeightsSection, JobFile};

use super::args::{FileArgs, OutputArgs};
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
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl HeightsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.source.given();
        let over = JobFile { heights: Some(self.heights.0), ..given };
        ask(Question::Heights, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
