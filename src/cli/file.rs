//! The `-o FILE` of commands that write a text of their own.

use std::path::PathBuf;

use clap::Args;

use super::failure::Failure;
use super::output::write_out;
use super::write::write_file;

#[derive(Debug, Args)]
pub(super) struct FileArgs {
    /// Write to this file instead of standard output.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replace the file if it exists.
    #[arg(long, requires = "output")]
    force: bool,
}

impl FileArgs {
    /// Whether a file was named.
    pub(super) const fn named(&self) -> bool {
        self.output.is_some()
    }

    /// Writes `text` to the file named, or to standard output.
    pub(super) fn write(&self, text: &str) -> Result<(), Failure> {
        match &self.output {
            Some(path) => write_file(path, text, self.force),
            None => write_out(text),
        }
    }
}
