//! `pegline heights`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{HeightsSection, JobFile};

use super::args::{OutputArgs, SourceArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct HeightsArgs {
    #[command(flatten)]
    source: SourceArgs,
    #[command(flatten)]
    heights: Typed<HeightsSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl HeightsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, file) = self.source.given();
        let over = JobFile { heights: Some(self.heights.0), ..given };
        ask(Question::Heights, &CommandLine::of::<Self>(over, file), output, self.working)
    }
}
