//! `pegline cuts`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::CutsSection;

use super::args::{OutputArgs, number};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;
use super::stock::{CountWord, StockArgs};

#[derive(Debug, Args)]
pub(super) struct CutsArgs {
    /// The pieces to cut: 4x1200,2x2350,3x900.
    #[arg(long, value_name = "COUNTxLENGTH", value_delimiter = ',')]
    pieces: Option<Vec<CountWord>>,
    #[command(flatten)]
    stock: StockArgs,
    /// How long to look for the best cut [default: 5].
    #[arg(long, value_name = "SECONDS", allow_negative_numbers = true, value_parser = number)]
    seconds: Option<f64>,
    /// Read the job from a file; - is standard input. Options given here override it.
    #[arg(long, value_name = "FILE")]
    job: Option<String>,
    /// Units of bare numbers and of the figures that come back: mm, m or ft-in.
    #[arg(long, value_name = "UNITS")]
    units: Option<String>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl CutsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        self.stock.lay(&mut given);
        given.note([
            ("cuts.pieces", "--pieces", self.pieces.is_some()),
            ("cuts.seconds", "--seconds", self.seconds.is_some()),
            ("units", "--units", self.units.is_some()),
        ]);
        given.over.units = self.units;
        given.over.cuts = Some(CutsSection {
            pieces: self.pieces.map(|pieces| pieces.into_iter().map(Into::into).collect()),
            seconds: self.seconds,
        });
        ask(Question::Cuts, given, self.job.as_deref(), output, self.working)
    }
}
