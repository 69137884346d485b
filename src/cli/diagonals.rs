//! `pegline diagonals`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::DiagonalsSection;

use super::args::{OutputArgs, PlanArgs, TapeArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct DiagonalsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: TapeArgs,
    /// How many diagonals to choose beyond the proof set, to show up a misread [default: 2].
    #[arg(long, value_name = "N", value_parser = whole_number)]
    spares: Option<usize>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl DiagonalsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        if let Some(spares) = self.spares {
            given.options.push(("diagonals.spares", "--spares"));
            given.over.diagonals = Some(DiagonalsSection { spares: Some(spares) });
        }
        ask(Question::Diagonals, given, source.as_deref(), output, self.working)
    }
}

fn whole_number(text: &str) -> Result<usize, &'static str> {
    text.trim().parse().map_err(|_| "write a whole number, 0 or more")
}
