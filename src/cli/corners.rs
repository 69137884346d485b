//! `pegline corners`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{CornersSection, JobFile, TapeSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct CornersArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    #[command(flatten)]
    corners: Typed<CornersSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl CornersArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let corner = &self.corners.0;
        let typed = [("--limit", corner.limit.is_some()), ("--corner", corner.corner.is_some())];
        let alone = typed.into_iter().find(|(_, given)| *given).map(|(option, _)| {
            format!(
                "{option}: it goes with three tapes at a corner: give them too, as in --tapes 3000,4000,5000"
            )
        });
        let over = JobFile { tape: Some(self.tape.0), corners: Some(self.corners.0), ..given };
        let line = CommandLine::of::<Self>(over, under).needing("corners.tapes", alone);
        ask(Question::Corners, &line, output, self.working)
    }
}
