//! What was given on the command line, laid over a job file; faults told by their option, or by their place in the file.

use clap::{Args, Command};
use pegline::job::{Fault, Faults, Job, JobFile, PriceFile, read, rewritten};
use pegline::words::one_line;
use serde_json::Value;

use super::args::Under;
use super::failure::Failure;
use super::source::Source;
use super::usage::is_file_name;
use super::write::replace_file;

/// Where a price list's entries go in a job file.
const PRICES: &str = "order.prices[";

/// What was given on the command line: a job file of its own, and the arguments it was typed with. An argument that sets
/// a field has the field's path for its id.
#[derive(Debug)]
pub(super) struct CommandLine {
    /// The fields given.
    over: JobFile,
    /// The job file that they are laid over.
    under: Under,
    /// The price list that the fields' prices come from, with its text.
    prices: Option<(Source, PriceFile)>,
    /// The path of a field without which an option does nothing, and what is said where it is missing.
    needs: Option<(&'static str, String)>,
    arguments: fn(Command) -> Command,
}

impl CommandLine {
    /// The fields that were given with the arguments of `A`, and the job file to lay them over.
    pub(super) fn of<A: Args>(over: JobFile, under: Under) -> Self {
        Self { over, under, prices: None, needs: None, arguments: A::augment_args }
    }

    /// The same with the prices of a price list.
    pub(super) fn with_prices(mut self, source: Source, prices: PriceFile) -> Self {
        self.over.order.get_or_insert_default().prices = Some(prices.entries.clone());
        self.prices = Some((source, prices));
        self
    }

    /// The same, refused with `message`, if there is one, where the whole job has nothing at `path`.
    pub(super) fn needing(mut self, path: &'static str, message: Option<String>) -> Self {
        self.needs = message.map(|message| (path, message));
        self
    }

    /// The names of the files that it reads; - is standard input.
    pub(super) fn inputs(&self) -> Vec<&str> {
        let prices = self.prices.as_ref().map(|(source, _)| source.given());
        self.under.file.as_deref().into_iter().chain(prices).collect()
    }

    /// The checked job of a command: the file's, with the command line laid over it.
    pub(super) fn job(&self) -> Result<Job, Failure> {
        self.can_be_kept()?;
        self.job_of(self.source()?.as_ref())
    }

    /// The same over the job file of this source.
    pub(super) fn job_of(&self, source: Option<&Source>) -> Result<Job, Failure> {
        if let (None, Some(_)) = (source, &self.under.of) {
            return Err(Failure::input("--of: it names a booking of a job file: name the file too"));
        }
        self.booked(source, self.under.of.as_deref(), &self.over)
    }

    /// The same job twice: with what was read in the booking called `name`, and as it is now.
    pub(super) fn jobs_since(&self, name: &str) -> Result<(Job, Job), Failure> {
        self.can_be_kept()?;
        let source = self.source()?;
        if source.is_none() {
            return Err(Failure::input("--since: it names a booking of a job file: name the file too"));
        }
        let before = self.booked(source.as_ref(), Some(name), &self.over.clone().unread())?;
        Ok((before, self.job_of(source.as_ref())?))
    }

    fn source(&self) -> Result<Option<Source>, Failure> {
        self.under.file.as_deref().map(Source::open).transpose()
    }

    fn booked(&self, source: Option<&Source>, name: Option<&str>, over: &JobFile) -> Result<Job, Failure> {
        let laid = match source {
            Some(source) => {
                let file = source.job_file()?;
                self.can_go_in(&file)?;
                Some(self.laid(file.booked(name).map_err(of_booking)?, over)?)
            }
            None => None,
        };
        let whole = laid.as_ref().unwrap_or(over);
        if let Some((path, message)) = &self.needs
            && !serde_json::to_value(whole).is_ok_and(|whole| is_given(&whole, path))
        {
            return Err(Failure::input(message));
        }
        Job::check(whole).map_err(|faults| self.faults(whole, &faults, source, name))
    }

    fn laid(&self, file: JobFile, over: &JobFile) -> Result<JobFile, Failure> {
        let laid = if self.under.keep { file.added_to(over) } else { file.overlaid(over) };
        laid.map_err(Failure::input)
    }

    /// Refuses to keep where there is nothing to keep it in, or where it would say other than it says here.
    fn can_be_kept(&self) -> Result<(), Failure> {
        if !self.under.keep {
            return Ok(());
        }
        match self.under.file.as_deref() {
            None => Err(Failure::input(
                "--keep: there is no job file to write to: name one (`pegline job new 7800x6000 -o plot.json` starts one)",
            )),
            Some("-") => Err(Failure::input(
                "--keep: standard input can't be written to: name the job file instead of -",
            )),
            Some(_) if self.over.units.is_some() => Err(Failure::input(
                "--keep: --units would change what the file's own numbers mean: leave it out, and write units behind the figures",
            )),
            Some(_) => Ok(()),
        }
    }

    /// Refuses to keep readings beside those that are booked: the booked ones would be taken all the same.
    fn can_go_in(&self, file: &JobFile) -> Result<(), Failure> {
        let reads = self.over.clone().unread() != self.over;
        if self.under.keep && reads && file.bookings.is_some() {
            return Err(Failure::input(
                "--keep: the readings of this job stand in its bookings: add to one with `pegline book`",
            ));
        }
        Ok(())
    }

    /// Writes what was typed into the job file, where that is asked for.
    pub(super) fn keep(&self) -> Result<(), Failure> {
        let Some(name) = self.under.file.as_deref().filter(|_| self.under.keep) else { return Ok(()) };
        replace_file(name.as_ref(), &self.whole(Source::open(name)?.text())?)
    }

    /// A job file's `text` with what was typed in it.
    pub(super) fn whole(&self, text: &str) -> Result<String, Failure> {
        let file = read(text).map_err(Failure::input)?;
        rewritten(text, &self.laid(file, &self.over)?).map_err(Failure::input)
    }

    /// Each fault told by its option, by its place in the file, or by its field.
    fn faults(&self, whole: &JobFile, faults: &Faults, source: Option<&Source>, of: Option<&str>) -> Failure {
        let options = self.options(whole);
        let option = |field: &str| options.iter().find(|(set, _)| lies_in(field, set)).map(|(_, name)| name);
        let no_plan = whole.plan.as_deref().and_then(stray);
        let message = |fault: &Fault| {
            if let Some((source, prices)) = &self.prices
                && fault.field.starts_with(PRICES)
            {
                return in_price_list(fault, source, prices);
            }
            match (option(&fault.field), source) {
                (Some(option), _) => {
                    let said = no_plan.as_ref().filter(|_| option == "PLAN").unwrap_or(&fault.message);
                    format!("{option}: {said}")
                }
                (None, Some(source)) => source.message_at_field(fault, of),
                (None, None) => fault.to_string(),
            }
        };
        let messages = faults.iter().map(message);
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

/// What is said of words where the plan stands that are a file's name or belong to an option.
fn stray(plan: &str) -> Option<String> {
    let words: Vec<&str> = plan.split_whitespace().collect();
    if let Some(name) = words.last().filter(|word| is_file_name(word)) {
        return Some(format!(
            "`{}` is a file's name: a job file ends in .json and stands first; write --prices before a price list, -o before what is written",
            one_line(name)
        ));
    }
    let is_side = |word: &str| word.len() == 2 && word.chars().all(|c| c.is_ascii_alphabetic());
    let is_number =
        |word: &&str| word.starts_with(|c: char| c.is_ascii_digit()) && !word.contains(['x', 'X']);
    if words.len() > 1 && words.iter().all(is_number) {
        return Some(format!(
            "`{plan}` is no plan: {}write commas and no spaces in a list that stands before the plan: …,{}",
            if let [width, depth] = words[..] {
                format!("write {width}x{depth}, or ")
            } else {
                String::new()
            },
            words.join(",")
        ));
    }
    let ends_in_digit = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
    let is_length = |word: &str| {
        let digits = word.split(',').next().unwrap_or_default();
        !digits.is_empty() && digits.chars().all(|c| c.is_ascii_digit())
    };
    let reading = words.windows(2).find(|pair| ends_in_digit(pair[0]) && is_length(pair[1]));
    if let Some(pair) = reading {
        return Some(format!(
            "`{}` belongs to the option before it: a line and its reading have = between them, as in --read AB=7802,BC=6001",
            one_line(pair[1])
        ));
    }
    let word = words.iter().find(|word| is_side(word) || word.contains(['=', ':']))?;
    let quoted = one_line(word);
    Some(if is_side(word) {
        format!(
            "`{quoted}` is a side: write its option before it, as in --house {quoted} or --marks={quoted}"
        )
    } else {
        format!("`{quoted}` is no plan: write the option that it belongs to before it, as in --read AB=7802")
    })
}

/// A fault of a booking's name, behind --of or --since.
fn of_booking(fault: Fault) -> Failure {
    Failure::input(fault.message)
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
    source.message(&Fault::new(below, &fault.message), &place)
}
