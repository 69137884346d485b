//! `pegline corners`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::CornersSection;

use super::args::{LengthWord, OutputArgs, PlanArgs, TapeArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct CornersArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: TapeArgs,
    /// A corner as found: along one side, along the other, between the two ends.
    #[arg(long, value_name = "A,B,C", value_delimiter = ',')]
    tapes: Option<Vec<LengthWord>>,
    /// The corner that --tapes were taken at.
    #[arg(long, value_name = "LETTER")]
    corner: Option<String>,
    /// The most the corner may be out of square at the end of its longer side.
    #[arg(long, value_name = "LENGTH")]
    limit: Option<LengthWord>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl CornersArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        given.note([
            ("corners.tapes", "--tapes", self.tapes.is_some()),
            ("corners.corner", "--corner", self.corner.is_some()),
            ("corners.limit", "--limit", self.limit.is_some()),
        ]);
        given.over.corners = Some(CornersSection {
            tapes: self.tapes.map(|tapes| tapes.into_iter().map(Into::into).collect()),
            corner: self.corner,
            limit: self.limit.map(Into::into),
        });
        ask(Question::Corners, given, source.as_deref(), output, self.working)
    }
}
