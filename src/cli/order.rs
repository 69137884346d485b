//! `pegline order`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{DecimalEntry, OrderSection};

use super::args::{ListWord, OutputArgs, PlanArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;
use super::source::Source;

#[derive(Debug, Args)]
pub(super) struct OrderArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// The price list, CSV or JSON; - is standard input. It replaces the job file's.
    ///
    /// CSV: a first line of `item,size,unit,pack,rate,waste_percent`, then a price a line; only item and rate must be there.
    /// JSON: a list of objects with these fields. `unit` is each, m or ft, or your own; `pack` is how many of it are in one
    /// pack, or how long a roll is. The items: wall plate, head binder, timber, DPC, packer, anchor, strap,
    /// temporary screw, line, peg, profile board, and the extras of the job file.
    #[arg(long, value_name = "FILE", help_heading = "Prices")]
    prices: Option<String>,
    /// The rate of tax on the whole, percent [default: no tax].
    #[arg(long, value_name = "PERCENT", help_heading = "Prices")]
    tax: Option<String>,
    /// Waste by item, percent, before whole units and packs; it stands before the price list's.
    #[arg(long, value_name = "line=5,DPC=3", help_heading = "Prices")]
    waste: Option<ListWord>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl OrderArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        if self.prices.as_deref() == Some("-") && source.as_deref() == Some("-") {
            return Err(Failure::input(
                "--prices -: the job is read from standard input already: name a file for one of them",
            ));
        }
        given.note([
            ("order.tax_percent", "--tax", self.tax.is_some()),
            ("order.waste", "--waste", self.waste.is_some()),
        ]);
        let mut section = OrderSection {
            tax_percent: self.tax.map(DecimalEntry::Text),
            waste: self.waste.map(Into::into),
            ..OrderSection::default()
        };
        if let Some(name) = &self.prices {
            let source = Source::open_as(
                name,
                "prices",
                "--prices -: standard input is a terminal: pipe a price list in, or name its file",
                "save the price list as CSV in UTF-8, or write JSON",
            )?;
            let prices = source.price_file()?;
            section.prices = Some(prices.entries.clone());
            given.prices = Some((source, prices));
        }
        given.over.order = Some(section);
        ask(Question::Order, given, source.as_deref(), output, self.working)
    }
}
