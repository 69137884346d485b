//! `pegline cuts`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{CutsSection, JobFile, StockSection};

use super::args::{FileArgs, OutputArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct CutsArgs {
    #[command(flatten)]
    cuts: Typed<CutsSection>,
    #[command(flatten)]
    stock: Typed<StockSection>,
    #[command(flatten)]
    source: FileArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl CutsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.source.given();
        let over = JobFile { cuts: Some(self.cuts.0), stock: Some(self.stock.0), ..given };
        ask(Question::Cuts, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
