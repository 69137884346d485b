//! What was given on the command line, laid over a job file; faults told by their option, or by their place in the file.

use pegline::job::{Fault, Job, JobFile, PriceFile};
use pegline::words::one_line;

use super::failure::Failure;
use super::source::Source;
use super::usage::is_file_name;

/// Where a price list's entries go in a job file.
const PRICES: &str = "order.prices[";

/// What was given on the command line: a job file of its own, and which option each of its fields came from.
#[derive(Debug, Default)]
pub(super) struct Given {
    /// The fields given.
    pub(super) over: JobFile,
    /// Field paths and the options that set them, for error messages.
    pub(super) options: Vec<(&'static str, &'static str)>,
    /// The price list that the fields' prices come from, with its text.
    pub(super) prices: Option<(Source, PriceFile)>,
}

impl Given {
    /// Notes the options that were given.
    pub(super) fn note<const N: usize>(&mut self, options: [(&'static str, &'static str, bool); N]) {
        let given = options.into_iter().filter(|(_, _, given)| *given);
        self.options.extend(given.map(|(field, option, _)| (field, option)));
    }

    /// The option that set `field` or what it lies in.
    pub(super) fn option(&self, field: &str) -> Option<&'static str> {
        self.options
            .iter()
            .find(|(set, _)| {
                field.strip_prefix(set).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
            })
            .map(|(_, option)| *option)
    }

    /// The checked job of a command: the file's, with the command line laid over it.
    pub(super) fn job(mut self, file: Option<&str>) -> Result<Job, Failure> {
        let source = file.map(Source::open).transpose()?;
        let over = std::mem::take(&mut self.over);
        let whole = match &source {
            Some(source) => source.job_file()?.overlaid(&over).map_err(Failure::input)?,
            None => over,
        };
        self.check(&whole, source.as_ref())
    }

    /// Checks a job file; each fault is told by its option, by its place in the file, or by its field.
    pub(super) fn check(&self, file: &JobFile, source: Option<&Source>) -> Result<Job, Failure> {
        Job::check(file).map_err(|faults| {
            // A file's name where the plan belongs can be no plan.
            let name = file
                .plan
                .as_deref()
                .and_then(|plan| plan.split_whitespace().last());
            let name = name.filter(|name| is_file_name(name));
            let told = faults
                .iter()
                .map(|fault| match (self.option(&fault.field), source) {
                    _ if let Some((source, prices)) = &self.prices
                        && fault.field.starts_with(PRICES) =>
                    {
                        in_price_list(fault, source, prices)
                    }
                    (Some("PLAN"), _) if let Some(name) = name => format!(
                        "PLAN: `{}` is a file's name: write its option before it, --job for a job, --prices for a price list, -o for what is written",
                        one_line(name)
                    ),
                    (Some(option), _) => format!("{option}: {}", fault.message),
                    (None, Some(source)) => source.shown_at_field(fault),
                    (None, None) => fault.to_string(),
                });
            Failure::Input(told.collect())
        })
    }
}

/// A fault of a price, in its place in the price list's own file.
fn in_price_list(fault: &Fault, source: &Source, prices: &PriceFile) -> String {
    let below = fault.field.strip_prefix("order.prices").unwrap_or_default();
    let (place, column) = prices.place(below);
    let below = column.unwrap_or_else(|| below.rsplit('.').next().unwrap_or_default().to_owned());
    source.shown(&Fault::new(below, &fault.message), &place)
}
