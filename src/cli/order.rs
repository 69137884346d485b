//! `pegline order`.

use std::path::Path;

use clap::Args;
use pegline::answer::{Answer, Answered, Question, order_of_plots};
use pegline::job::{Job, JobFile, OrderSection};

use super::args::{OutputArgs, PlanArgs};
use super::ask::{ask, exit, printed, told_as};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::write_out;
use super::source::Source;
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct OrderArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// The price list, CSV or JSON; - is standard input. It replaces the job file's.
    ///
    /// CSV: a first line of `item,size,unit,pack,rate`, with `waste_percent,markup_percent,tax_percent,available` where wanted, then a price a line; only item and rate must be there.
    /// JSON: a list of objects with these fields. `unit` is each, m or ft, or your own; `pack` is how many of it are in one
    /// pack, or how long a roll is; `available` is how many the merchant has of a length that the cut chooses from. The items: wall plate, head binder, timber, joist, joist hanger, bearer, bearer bolt,
    /// DPC, packer, anchor, strap, temporary screw, line, peg, masonry nail, profile board, and the extras of the job file.
    #[arg(long, id = "order.prices", value_name = "FILE", help_heading = "Prices")]
    prices: Option<String>,
    #[command(flatten)]
    order: Typed<OrderSection>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl OrderArgs {
    pub(super) fn run(mut self, output: &OutputArgs) -> Result<Exit, Failure> {
        let plots = self.plan.take_jobs();
        let (given, under) = self.plan.given();
        if self.prices.as_deref() == Some("-") && under.file.as_deref() == Some("-") {
            return Err(Failure::input(
                "--prices -: the job is read from standard input already: name a file for one of them",
            ));
        }
        if !plots.is_empty() && (under.file.is_some() || under.keep) {
            return Err(Failure::input(
                "--job, --keep: they are for one job, and several stand after the command: leave them out",
            ));
        }
        let together = self.order.0.cut_together.is_some();
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
        if plots.is_empty() {
            if together {
                return Err(Failure::input(
                    "--cut-together: it is for several jobs: write their files after the command, without --job",
                ));
            }
            return ask(Question::Order, &given, output, self.working);
        }
        of_plots(&plots, &given, output, self.working)
    }
}

/// One order for the jobs of these files.
fn of_plots(
    files: &[String],
    given: &CommandLine,
    output: &OutputArgs,
    with_working: bool,
) -> Result<Exit, Failure> {
    let format = output.format()?;
    let ordered = jobs(files, given).and_then(|plots| order_of_plots(&plots).map_err(Failure::input));
    let (job, order) = told_as(format, output, ordered)?;
    let answer = Answer::Order(Box::new(order));
    let steps = if with_working { answer.steps(&job) } else { vec![] };
    let inputs: Vec<&str> = files.iter().map(String::as_str).chain(given.inputs()).collect();
    write_out(&printed(Question::Order, &job, &answer, &steps, format, output)?, output, &inputs)?;
    Ok(exit(&answer))
}

/// The jobs of these files, each with its plot's name: the job's, or the file's where that is taken or there is none.
fn jobs(files: &[String], given: &CommandLine) -> Result<Vec<(String, Job)>, Failure> {
    let mut plots: Vec<(String, Job)> = vec![];
    for file in files {
        for (place, source) in Source::open(file)?.jobs().iter().enumerate() {
            let job = given.job_of(Some(source))?;
            let stem = Path::new(file).file_stem().map_or_else(|| file.into(), |stem| stem.to_string_lossy());
            let named = job.name.clone().filter(|name| plots.iter().all(|(plot, _)| plot != name));
            let name = named.unwrap_or_else(|| match place {
                0 => stem.into_owned(),
                more => format!("{stem} {}", more + 1),
            });
            plots.push((name, job));
        }
    }
    Ok(plots)
}
