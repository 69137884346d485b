//! Where a job or a price list comes from: a file or standard input; faults shown in their place.

use std::fs::File;
use std::io::{self, IsTerminal, Read};

use pegline::job::{Fault, JobFile, JobFileError, LARGEST_FILE, Place, PriceFile, locate, read, read_prices};
use pegline::words::one_line;

use super::args::is_stream;
use super::encoding::text_of;
use super::failure::Failure;

/// A job file's or a price list's name and text.
#[derive(Debug)]
pub(super) struct Source {
    /// The name as it was given, - for standard input.
    given: String,
    /// The name as it is told.
    name: String,
    text: String,
}

impl Source {
    /// Reads the job file `name`, or standard input for `-`.
    pub(super) fn open(name: &str) -> Result<Self, Failure> {
        Self::open_as(
            name,
            "job",
            "--job -: standard input is a terminal: pipe a job file in, or name one (`pegline job new 7800x6000 -o plot.json` writes one)",
            "a job file is JSON",
        )
    }

    /// Reads a file of what `what` names; `terminal` is said where nothing is piped in, `kind` where it is no text.
    pub(super) fn open_as(name: &str, what: &str, terminal: &str, kind: &str) -> Result<Self, Failure> {
        let shown = &if name == "-" { "standard input".to_owned() } else { one_line(name) };
        let bytes = bytes_of(
            name,
            format!("reading the {what} from {shown}"),
            &format!("no file is named for the {what}: write its name, or - for standard input"),
            terminal,
        )?;
        let text = text_of(bytes, &format!("this is not text (UTF-8): {kind}"))
            .map_err(|problem| Failure::input(format!("{shown}: {problem}")))?;
        Ok(Self { given: name.to_owned(), name: shown.to_owned(), text })
    }

    /// The job of each line, where the file has one a line: `.jsonl`; else the whole as it is.
    pub(super) fn jobs(self) -> Vec<Self> {
        if !is_stream(&self.given) {
            return vec![self];
        }
        let lines = self.text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
        let job = |(i, line): (usize, &str)| Self {
            given: self.given.clone(),
            name: format!("{} line {}", self.name, i + 1),
            text: line.to_owned(),
        };
        lines.map(job).collect()
    }

    /// The file's name as it was given.
    pub(super) fn given(&self) -> &str {
        &self.given
    }

    /// What it is called in a message.
    pub(super) fn name(&self) -> &str {
        &self.name
    }

    /// What is in it.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// Reads the text as a job file.
    pub(super) fn job_file(&self) -> Result<JobFile, Failure> {
        read(&self.text).map_err(|error| self.failure(&error))
    }

    /// Reads the text as a price list.
    pub(super) fn price_file(&self) -> Result<PriceFile, Failure> {
        read_prices(&self.text).map_err(|error| self.failure(&error))
    }

    fn failure(&self, error: &JobFileError) -> Failure {
        let faults = error.faults.iter().map(|(fault, place)| self.message(fault, place));
        Failure::faults(faults, error.faults.more())
    }

    /// A fault of a field, in the field's place, which may be in a booking: the one called `of`, or the last.
    pub(super) fn message_at_field(&self, fault: &Fault, of: Option<&str>) -> String {
        let field = match self.job_file() {
            Ok(file) => file.standing(&fault.field, of),
            Err(_) => fault.field.clone(),
        };
        let place = locate(&self.text, &field);
        self.message(&Fault { field, ..fault.clone() }, &place)
    }

    /// A fault in its place: file, line and column, then the line with a caret.
    pub(super) fn message(&self, fault: &Fault, place: &Place) -> String {
        let head = format!("{}:{}:{}: {fault}", self.name, place.line, place.column);
        if place.excerpt.is_empty() { head } else { format!("{head}\n{}", place.echo()) }
    }
}

/// The bytes of the file `name`, or of standard input for `-`, and one more than is taken where there are more, so that a file
/// that is too large is seen without reading it all. `unnamed` is said of an empty name, `terminal` where nothing is piped in.
pub(super) fn bytes_of(name: &str, doing: String, unnamed: &str, terminal: &str) -> Result<Vec<u8>, Failure> {
    if name.is_empty() {
        return Err(Failure::input(unnamed));
    }
    let mut bytes = vec![];
    let limit = u64::try_from(LARGEST_FILE).unwrap_or(u64::MAX).saturating_add(1);
    let read = if name == "-" {
        if io::stdin().is_terminal() {
            return Err(Failure::input(terminal));
        }
        io::stdin().lock().take(limit).read_to_end(&mut bytes)
    } else {
        File::open(name).and_then(|file| file.take(limit).read_to_end(&mut bytes))
    };
    read.map_err(|error| Failure::Io { doing, error })?;
    Ok(bytes)
}
