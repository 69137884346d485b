//! How a run ends: exit codes, and what goes to standard error.

use std::io::{self, Write};
use std::process::ExitCode;

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

/// What was typed may hold anything; told back, it must stay on its line and not steer the terminal.
pub(super) fn one_line(text: &str) -> String {
    let visible = |c: char| {
        if c.is_control() {
            char::REPLACEMENT_CHARACTER
        } else {
            c
        }
    };
    text.chars().map(visible).collect()
}

impl Failure {
    /// One fault, told in one line.
    pub(super) fn input(message: impl std::fmt::Display) -> Self {
        Self::Input(vec![one_line(&message.to_string())])
    }

    /// Says what went wrong on standard error and gives the exit code: 2, but 0 for help that was asked for and for a
    /// reader that has gone away.
    pub(super) fn report(self) -> ExitCode {
        let mut stderr = anstream::stderr().lock();
        // Nothing is left to say it with if standard error itself is gone.
        let _said = match self {
            Self::Usage(error) => {
                let code = if error.use_stderr() { 2 } else { 0 };
                let _printed = error.print();
                return ExitCode::from(code);
            }
            Self::Io { error, .. } if error.kind() == io::ErrorKind::BrokenPipe => return ExitCode::SUCCESS,
            Self::Io { doing, error } => writeln!(stderr, "error: {doing}: {error}"),
            Self::Input(messages) => messages
                .iter()
                .try_for_each(|message| writeln!(stderr, "error: {message}")),
        };
        ExitCode::from(2)
    }
}
