//! Where a job comes from: a file or standard input, with the command line laid over it; faults shown in their place.

use std::fs::File;
use std::io::{self, IsTerminal, Read};

use pegline::job::{Fault, Job, JobFile, LARGEST_FILE, Place, locate, read};

use super::args::Given;
use super::encoding::text_of;
use super::failure::{Failure, one_line};

/// A job file's name and text.
pub(super) struct Source {
    name: String,
    text: String,
}

impl Source {
    /// Reads `name`, or standard input for `-`.
    pub(super) fn open(name: &str) -> Result<Self, Failure> {
        let shown = &if name == "-" {
            "standard input".to_owned()
        } else {
            one_line(name)
        };
        let doing = || format!("reading the job from {shown}");
        let mut bytes = vec![];
        // One byte more than is taken, so that a file that is too large is seen without reading it all.
        let limit = u64::try_from(LARGEST_FILE).unwrap_or(u64::MAX).saturating_add(1);
        let read = if name == "-" {
            if io::stdin().is_terminal() {
                return Err(Failure::input(
                    "--job -: standard input is a terminal: pipe a job file in, or name one (`pegline job new L` writes one)",
                ));
            }
            io::stdin().lock().take(limit).read_to_end(&mut bytes)
        } else {
            File::open(name).and_then(|file| file.take(limit).read_to_end(&mut bytes))
        };
        read.map_err(|error| Failure::Io {
            doing: doing(),
            error,
        })?;
        let text = text_of(bytes, "this is not text (UTF-8): a job file is JSON")
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
    Job::check(file).map_err(|faults| {
        let told = faults
            .iter()
            .map(|fault| match (given.option(&fault.field), source) {
                (Some(option), _) => format!("{option}: {}", fault.message),
                (None, Some(source)) => source.shown(fault, &locate(&source.text, &fault.field)),
                (None, None) => fault.to_string(),
            });
        Failure::Input(told.collect())
    })
}
