//! `pegline job`: start a job file, check one, print its schema.

use clap::{Args, Subcommand};
use pegline::job::{Shape, schema, starter};
use pegline::page::{Page, Verdict, text};
use pegline::report::echo;

use super::args::{Given, OutputArgs};
use super::failure::{Exit, Failure, one_line};
use super::output::{FileArgs, json_text, look, write_out};
use super::source::{Source, check};

#[derive(Debug, Args)]
pub(super) struct JobArgs {
    #[command(subcommand)]
    command: JobCommand,
}

#[derive(Debug, Subcommand)]
enum JobCommand {
    /// Write a job file to start from.
    #[command(after_help = "Example: pegline job new L -o job.json")]
    New(NewArgs),
    /// Check a job file and echo what it was understood as.
    #[command(after_help = "Example: pegline job check job.json")]
    Check(CheckArgs),
    /// Print the job file's JSON Schema.
    #[command(after_help = "Example: pegline job schema")]
    Schema,
}

#[derive(Debug, Args)]
struct NewArgs {
    /// The shape: rectangle, L, T or U.
    #[arg(value_name = "SHAPE", default_value = "L")]
    shape: String,
    #[command(flatten)]
    to: FileArgs,
}

#[derive(Debug, Args)]
struct CheckArgs {
    /// The job file; - is standard input.
    #[arg(value_name = "FILE")]
    file: String,
}

impl JobArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        match self.command {
            JobCommand::New(args) => {
                let shape: Shape = args.shape.parse().map_err(Failure::input)?;
                let written = json_text(&starter(shape))?;
                args.to.put(&written)?;
            }
            JobCommand::Check(args) => {
                let source = Source::open(&args.file)?;
                let job = check(&source.job_file()?, &Given::default(), Some(&source))?;
                let mut page = Page::new();
                page.verdict = Some(Verdict {
                    good: true,
                    words: format!("{}: nothing wrong", one_line(&args.file)),
                });
                echo(&mut page, &job);
                write_out(&text(&page, look(output)))?;
            }
            JobCommand::Schema => write_out(&json_text(&schema())?)?,
        }
        Ok(Exit::Good)
    }
}
