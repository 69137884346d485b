//! `pegline plates`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, LengthEntry, PlatesSection, StockSection, StretchEntry};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct PlatesArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    stock: Typed<StockSection>,
    #[command(flatten)]
    plates: Typed<PlatesSection>,
    /// An opening: the side, its width, and how far along the side from its first letter, such as CD:900@1200. A door,
    /// unless it has the word window in its name: window=EF:1800@1500.
    #[arg(
        id = "openings",
        long = "opening",
        value_name = "SIDE:WIDTH@AT",
        value_delimiter = ',',
        help_heading = "Runs"
    )]
    openings: Option<Vec<StretchEntry>>,
    /// One more run, such as a partition. May be given again.
    #[arg(id = "partitions", long = "run", value_name = "NAME:LENGTH", value_parser = StretchEntry::run, help_heading = "Runs")]
    runs: Option<Vec<StretchEntry>>,
    /// The distance between studs, from the corner, which anchors keep clear of.
    #[arg(long, value_name = "LENGTH", help_heading = "Anchors, damp-proof course, fixings, straps")]
    studs: Option<LengthEntry>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl PlatesArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        let over = JobFile {
            openings: self.openings,
            partitions: self.runs,
            studs: self.studs,
            stock: Some(self.stock.0),
            plates: Some(self.plates.0),
            ..given
        };
        ask(Question::Plates, &CommandLine::of::<Self>(over, under), output, self.working)
    }
}
