//! How a run ends: exit codes, and what goes to standard error.

use std::io::{self, Write};
use std::process::ExitCode;

use pegline::job::MOST_TOLD;
use pegline::words::{and_more, one_line};

use super::usage;

/// How a run that answered ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Exit {
    /// Answered, and good if a verdict was asked for.
    Good,
    /// Answered, and the verdict is bad.
    Bad,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        match exit {
            Exit::Good => Self::from(0),
            Exit::Bad => Self::from(1),
        }
    }
}

/// Why a run did not answer.
#[derive(Debug)]
pub(super) enum Failure {
    /// Words that clap could not take, or its help.
    Usage(clap::Error),
    /// Faults in the input, one message each.
    Input(Vec<String>),
    /// A file or stream that could not be read or written.
    Io {
        /// What was being done.
        doing: String,
        /// What went wrong.
        error: io::Error,
    },
}

/// What the system says is wrong, in plain words and with what to do about it where that is known.
fn words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder: look at its name again".to_owned(),
        io::ErrorKind::PermissionDenied => {
            "it may not be opened or written here (permission denied): choose another place".to_owned()
        }
        io::ErrorKind::IsADirectory => "it is a folder: name a file in it".to_owned(),
        io::ErrorKind::NotADirectory => {
            "part of its path is a file, not a folder: look at its name again".to_owned()
        }
        io::ErrorKind::StorageFull => "the disk is full: make room, or write somewhere else".to_owned(),
        io::ErrorKind::InvalidFilename => {
            "its name can't be one here: write a shorter or plainer one".to_owned()
        }
        io::ErrorKind::ReadOnlyFilesystem => {
            "nothing can be written on this disk: choose another place".to_owned()
        }
        _ => error.to_string(),
    }
}

impl Failure {
    /// One fault, told in one line.
    pub(super) fn input(message: impl std::fmt::Display) -> Self {
        Self::Input(vec![one_line(&message.to_string())])
    }

    /// Faults told in a line each, the first of them and how many more there are.
    pub(super) fn faults(messages: impl ExactSizeIterator<Item = String>, more: usize) -> Self {
        let more = more + messages.len().saturating_sub(MOST_TOLD);
        let mut told: Vec<String> = messages.take(MOST_TOLD).collect();
        told.extend(and_more(more));
        Self::Input(told)
    }

    /// What went wrong, where it is one of several things told.
    pub(super) fn message(&self) -> String {
        match self {
            Self::Usage(error) => one_line(&error.to_string()),
            Self::Input(messages) => messages.join("; "),
            Self::Io { doing, error } => format!("{doing}: {}", words(error)),
        }
    }

    /// Says what went wrong on standard error and gives the exit code: 2, but 0 for help that was asked for and for a
    /// reader that has gone away.
    pub(super) fn report(self) -> ExitCode {
        let mut stderr = anstream::stderr().lock();
        // Nothing is left to say it with if standard error itself is gone.
        let _said = match self {
            Self::Usage(error) => {
                let Some(words) = usage::words(&error) else {
                    let code = if error.use_stderr() { 2 } else { 0 };
                    let _printed = error.print();
                    return ExitCode::from(code);
                };
                writeln!(stderr, "error: {}", one_line(&words))
            }
            Self::Io { error, .. } if error.kind() == io::ErrorKind::BrokenPipe => return ExitCode::SUCCESS,
            Self::Io { doing, error } => writeln!(stderr, "error: {doing}: {}", words(&error)),
            Self::Input(messages) => {
                messages.iter().try_for_each(|message| writeln!(stderr, "error: {message}"))
            }
        };
        ExitCode::from(2)
    }
}
