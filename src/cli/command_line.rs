//! What was given on the command line, laid over a job file; faults told by their option, or by their place in the file.

use clap::{Args, Command};
use pegline::job::{Fault, Faults, Job, JobFile, PriceFile};
use pegline::words::one_line;
use serde_json::Value;

use super::failure::Failure;
use super::source::Source;
use super::usage::is_file_name;

/// Where a price list's entries go in a job file.
const PRICES: &str = "order.prices[";

/// What was given on the command line: a job file of its own, and the arguments it was typed with. An argument that sets
/// a field has the field's path for its id.
#[derive(Debug)]
pub(super) struct CommandLine {
    /// The fields given.
    over: JobFile,
    /// The name of the job file that they are laid over.
    file: Option<String>,
    /// The price list that the fields' prices come from, with its text.
    prices: Option<(Source, PriceFile)>,
    arguments: fn(Command) -> Command,
}

impl CommandLine {
    /// The fields that were given with the arguments of `A`, and the name of the job file to lay them over.
    pub(super) fn of<A: Args>(over: JobFile, file: Option<String>) -> Self {
        Self { over, file, prices: None, arguments: A::augment_args }
    }

    /// The same with the prices of a price list.
    pub(super) fn with_prices(mut self, source: Source, prices: PriceFile) -> Self {
        self.over.order.get_or_insert_default().prices = Some(prices.entries.clone());
        self.prices = Some((source, prices));
        self
    }

    /// The names of the files that it reads; - is standard input.
    pub(super) fn inputs(&self) -> Vec<&str> {
        let prices = self.prices.as_ref().map(|(source, _)| source.given());
        self.file.as_deref().into_iter().chain(prices).collect()
    }

    /// The checked job of a command: the file's, with the command line laid over it.
    pub(super) fn job(&self) -> Result<Job, Failure> {
        let source = self.file.as_deref().map(Source::open).transpose()?;
        let laid = match &source {
            Some(source) => Some(source.job_file()?.overlaid(&self.over).map_err(Failure::input)?),
            None => None,
        };
        let whole = laid.as_ref().unwrap_or(&self.over);
        Job::check(whole).map_err(|faults| self.faults(whole, &faults, source.as_ref()))
    }

    /// Each fault told by its option, by its place in the file, or by its field.
    fn faults(&self, whole: &JobFile, faults: &Faults, source: Option<&Source>) -> Failure {
        let options = self.options(whole);
        let option = |field: &str| options.iter().find(|(set, _)| lies_in(field, set)).map(|(_, name)| name);
        // A file's name where the plan belongs can be no plan.
        let name = whole.plan.as_deref().and_then(|plan| plan.split_whitespace().last());
        let name = name.filter(|name| is_file_name(name));
        let messages = faults.iter().map(|fault| match (option(&fault.field), source) {
            _ if let Some((source, prices)) = &self.prices
                && fault.field.starts_with(PRICES) =>
            {
                in_price_list(fault, source, prices)
            }
            (Some(option), _) if let Some(name) = name && option == "PLAN" => format!(
                "PLAN: `{}` is a file's name: write its option before it, --job for a job, --prices for a price list, -o for what is written",
                one_line(name)
            ),
            (Some(option), _) if option == "PLAN"
                && let Some(stray) = whole.plan.as_deref().and_then(stray) =>
            {
                format!("PLAN: {stray}")
            }
            (Some(option), _) => format!("{option}: {}", fault.message),
            (None, Some(source)) => source.shown_at_field(fault),
            (None, None) => fault.to_string(),
        });
        Failure::faults(messages, faults.more())
    }

    /// The fields that were typed, each with its argument. A field that is missing from a section that was typed counts
    /// too: where the section is at fault for want of it, its option is what to type.
    fn options(&self, whole: &JobFile) -> Vec<(String, String)> {
        let (Ok(over), Ok(whole)) = (serde_json::to_value(&self.over), serde_json::to_value(whole)) else {
            return vec![];
        };
        let command = (self.arguments)(Command::new("pegline"));
        let named = command.get_arguments().filter_map(|argument| {
            let path = argument.get_id().as_str();
            let section = path.rsplit_once('.').map(|(section, _)| section);
            let typed = is_given(&over, path)
                || (section.is_some_and(|section| is_given(&over, section)) && !is_given(&whole, path));
            let name = match (argument.get_long(), argument.get_value_names()) {
                (Some(long), _) => format!("--{long}"),
                (None, Some([name, ..])) => name.to_string(),
                (None, _) => return None,
            };
            typed.then(|| (path.to_owned(), name))
        });
        named.collect()
    }
}

/// What is said of a word behind the plan that belongs to an option before it, as where a space stands for a comma.
fn stray(plan: &str) -> Option<String> {
    let words: Vec<&str> = plan.split_whitespace().collect();
    let is_side = |word: &str| word.len() == 2 && word.chars().all(|c| c.is_ascii_alphabetic());
    if words.len() > 1
        && words
            .iter()
            .all(|word| word.starts_with(|c: char| c.is_ascii_digit()) && !word.contains(['x', 'X']))
    {
        let list = words.join(",");
        return Some(format!(
            "`{plan}` is no plan: in a list commas stand between, without spaces: …,{list}"
        ));
    }
    let word = words.iter().find(|word| is_side(word) || word.contains(['=', ':']))?;
    let shown = one_line(word);
    Some(if is_side(word) {
        format!(
            "`{shown}` is a side: write it with its option, with = and commas and no spaces: --marks={shown}, --house=AB,CD"
        )
    } else {
        format!(
            "`{shown}` belongs to the list before it: in a list commas stand between, without spaces: …,{shown}"
        )
    })
}

/// Whether `field` is the one at `path` or lies in it.
fn lies_in(field: &str, path: &str) -> bool {
    field.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// Whether anything is given at `path`.
fn is_given(job: &Value, path: &str) -> bool {
    fn any(value: &Value) -> bool {
        value.as_object().map_or(!value.is_null(), |fields| fields.values().any(any))
    }
    path.split('.').try_fold(job, |value, key| value.get(key)).is_some_and(any)
}

/// A fault of a price, in its place in the price list's own file.
fn in_price_list(fault: &Fault, source: &Source, prices: &PriceFile) -> String {
    let below = fault.field.strip_prefix("order.prices").unwrap_or_default();
    let (place, column) = prices.place(below);
    let below = column.unwrap_or_else(|| below.rsplit('.').next().unwrap_or_default().to_owned());
    source.shown(&Fault::new(below, &fault.message), &place)
}
