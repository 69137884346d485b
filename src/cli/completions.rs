//! `pegline completions`: a script that teaches a shell the commands and their options.

use clap::{Args, Command};
use clap_complete::Shell;

use super::args::{Format, OutputArgs};
use super::failure::{Exit, Failure};
use super::output::write_out;

#[derive(Debug, Args)]
pub(super) struct CompletionsArgs {
    /// The shell.
    #[arg(value_name = "SHELL", value_enum)]
    shell: Shell,
}

impl CompletionsArgs {
    pub(super) fn run(self, mut program: Command, out: &OutputArgs) -> Result<Exit, Failure> {
        out.only("completions", Format::Table)?;
        let mut script = vec![];
        clap_complete::generate(self.shell, &mut program, "pegline", &mut script);
        let script = String::from_utf8_lossy(&script);
        write_out(&script, out, &[])?;
        Ok(Exit::Good)
    }
}
