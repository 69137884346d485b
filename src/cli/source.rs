//! Where a job comes from: a file or standard input, with the command line laid over it; faults shown in their place.

use std::fs::File;
use std::io::{self, IsTerminal, Read};

use pegline::job::{Fault, Job, JobFile, LARGEST_FILE, Place, PriceFile, locate, read, read_prices};

use super::args::Given;
use super::encoding::text_of;
use super::failure::{Failure, one_line};
use super::usage::is_file_name;

/// A job file's or a price list's name and text.
#[derive(Debug)]
pub(super) struct Source {
    name: String,
    text: String,
}

impl Source {
    /// Reads the job file `name`, or standard input for `-`.
    pub(super) fn open(name: &str) -> Result<Self, Failure> {
        Self::open_as(
            name,
            "job",
            "--job -: standard input is a terminal: pipe a job file in, or name one (`pegline job new L` writes one)",
            "a job file is JSON",
        )
    }

    /// Reads a file of what `what` names; `terminal` is said where nothing is piped in, `kind` where it is no text.
    pub(super) fn open_as(name: &str, what: &str, terminal: &str, kind: &str) -> Result<Self, Failure> {
        let shown = &if name == "-" {
            "standard input".to_owned()
        } else {
            one_line(name)
        };
        if name.is_empty() {
            return Err(Failure::input(format!(
                "no file is named for the {what}: write its name, or - for standard input"
            )));
        }
        let doing = || format!("reading the {what} from {shown}");
        let mut bytes = vec![];
        // One byte more than is taken, so that a file that is too large is seen without reading it all.
        let limit = u64::try_from(LARGEST_FILE).unwrap_or(u64::MAX).saturating_add(1);
        let read = if name == "-" {
            if io::stdin().is_terminal() {
                return Err(Failure::input(terminal));
            }
            io::stdin().lock().take(limit).read_to_end(&mut bytes)
        } else {
            File::open(name).and_then(|file| file.take(limit).read_to_end(&mut bytes))
        };
        read.map_err(|error| Failure::Io {
            doing: doing(),
            error,
        })?;
        let text = text_of(bytes, &format!("this is not text (UTF-8): {kind}"))
            .map_err(|problem| Failure::input(format!("{shown}: {problem}")))?;
        Ok(Self {
            name: shown.to_owned(),
            text,
        })
    }

    /// Reads the text as a job file.
    pub(super) fn job_file(&self) -> Result<JobFile, Failure> {
        read(&self.text).map_err(|error| {
            let faults = error.faults.iter();
            Failure::Input(faults.map(|(fault, place)| self.shown(fault, place)).collect())
        })
    }

    /// Reads the text as a price list.
    pub(super) fn price_file(&self) -> Result<PriceFile, Failure> {
        read_prices(&self.text).map_err(|error| {
            let faults = error.faults.iter();
            Failure::Input(faults.map(|(fault, place)| self.shown(fault, place)).collect())
        })
    }

    /// A fault in its place: file, line and column, then the line with a caret.
    fn shown(&self, fault: &Fault, place: &Place) -> String {
        let head = format!("{}:{}:{}: {fault}", self.name, place.line, place.column);
        if place.text.is_empty() {
            head
        } else {
            format!("{head}\n{}", place.shown())
        }
    }
}

/// The checked job of a command: the file's, with the command line laid over it.
pub(super) fn job(mut given: Given, file: Option<&str>) -> Result<Job, Failure> {
    let source = file.map(Source::open).transpose()?;
    let over = std::mem::take(&mut given.over);
    let whole = match &source {
        Some(source) => source.job_file()?.overlaid(over),
        None => over,
    };
    check(&whole, &given, source.as_ref())
}

/// Checks a job file; each fault is told by its option, by its place in the file, or by its field.
pub(super) fn check(file: &JobFile, given: &Given, source: Option<&Source>) -> Result<Job, Failure> {
    // A file's name where the plan belongs can be no plan.
    let name = file
        .plan
        .as_deref()
        .and_then(|plan| plan.split_whitespace().last());
    let name = name.filter(|name| is_file_name(name));
    Job::check(file).map_err(|faults| {
        let told = faults
            .iter()
            .map(|fault| match (given.option(&fault.field), source) {
                _ if given.prices.is_some() && fault.field.starts_with(PRICES) => in_price_list(fault, given),
                (Some("PLAN"), _) if let Some(name) = name => format!(
                    "PLAN: `{}` is a file's name: write its option before it, --job for a job, --prices for a price list, -o for what is written",
                    one_line(name)
                ),
                (Some(option), _) => format!("{option}: {}", fault.message),
                (None, Some(source)) => source.shown(fault, &locate(&source.text, &fault.field)),
                (None, None) => fault.to_string(),
            });
        Failure::Input(told.collect())
    })
}

/// Where a price list's entries go in a job file.
const PRICES: &str = "order.prices[";

/// A fault of a price, in its place in the price list's own file.
fn in_price_list(fault: &Fault, given: &Given) -> String {
    let Some((source, prices)) = &given.prices else {
        return fault.to_string();
    };
    let below = fault.field.strip_prefix("order.prices").unwrap_or_default();
    let (place, column) = prices.place(below);
    let below = column.unwrap_or_else(|| below.rsplit('.').next().unwrap_or_default().to_owned());
    source.shown(&Fault::new(below, &fault.message), &place)
}
