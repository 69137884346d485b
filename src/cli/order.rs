//! `pegline order`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, OrderSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::ask;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::source::Source;
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct OrderArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// The price list, CSV or JSON; - is standard input. It replaces the job file's.
    ///
    /// CSV: a first line of `item,size,unit,pack,rate,waste_percent`, then a price a line; only item and rate must be there.
    /// JSON: a list of objects with these fields. `unit` is each, m or ft, or your own; `pack` is how many of it are in one
    /// pack, or how long a roll is. The items: wall plate, head binder, timber, joist, joist hanger, bearer, bearer bolt,
    /// DPC, packer, anchor, strap, temporary screw, line, peg, profile board, and the extras of the job file.
    #[arg(long, id = "order.prices", value_name = "FILE", help_heading = "Prices")]
    prices: Option<String>,
    #[command(flatten)]
    order: Typed<OrderSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl OrderArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let (given, under) = self.plan.given();
        if self.prices.as_deref() == Some("-") && under.file.as_deref() == Some("-") {
            return Err(Failure::input(
                "--prices -: the job is read from standard input already: name a file for one of them",
            ));
        }
        let over = JobFile { order: Some(self.order.0), ..given };
        let mut given = CommandLine::of::<Self>(over, under);
        if let Some(name) = &self.prices {
            let source = Source::open_as(
                name,
                "prices",
                "--prices -: standard input is a terminal: pipe a price list in, or name its file",
                "save the price list as CSV in UTF-8, or write JSON",
            )?;
            let prices = source.price_file()?;
            given = given.with_prices(source, prices);
        }
        ask(Question::Order, &given, output, self.working)
    }
}
