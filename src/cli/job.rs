//! `pegline job`: start a job file, check one, print its schema.

use clap::{Args, Subcommand};
use pegline::answer;
use pegline::job::{Faults, Job, Shape, schema, starter};
use pegline::page::{Page, Verdict};
use pegline::report::echo;
use pegline::words::one_line;

use super::args::{Format, OutputArgs};
use super::examples;
use super::failure::{Exit, Failure};
use super::output::{json_text, page_text, write_out};
use super::source::Source;

#[derive(Debug, Args)]
pub(super) struct JobArgs {
    #[command(subcommand)]
    command: JobCommand,
}

#[derive(Debug, Subcommand)]
enum JobCommand {
    /// Write a job file to start from.
    #[command(after_help = examples::JOB_NEW)]
    New(NewArgs),
    /// Check a job file and echo what it was understood as.
    #[command(after_help = examples::JOB_CHECK)]
    Check(CheckArgs),
    /// Print the JSON Schema of the job file, or of the answers.
    #[command(after_help = examples::JOB_SCHEMA)]
    Schema(SchemaArgs),
}

#[derive(Debug, Args)]
struct NewArgs {
    /// The shape: rectangle, L, T or U.
    #[arg(value_name = "SHAPE", default_value = "L")]
    shape: String,
}

#[derive(Debug, Args)]
struct CheckArgs {
    /// The job file; - is standard input.
    #[arg(value_name = "FILE")]
    file: String,
}

#[derive(Debug, Args)]
struct SchemaArgs {
    /// The schema of what the commands answer under --json, not of the job file.
    #[arg(long)]
    answers: bool,
}

impl JobArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        match self.command {
            JobCommand::New(args) => {
                output.only("job new", Format::Json)?;
                let shape: Shape = args.shape.parse().map_err(Failure::input)?;
                write_out(&starter(shape), output, &[])?;
            }
            JobCommand::Check(args) => {
                output.only("job check", Format::Table)?;
                let source = Source::open(&args.file)?;
                let faults = |faults: Faults| {
                    let messages = faults.iter().map(|fault| source.shown_at_field(fault));
                    Failure::faults(messages, faults.more())
                };
                let job = Job::check(&source.job_file()?).map_err(faults)?;
                let mut page = Page::new();
                page.remarks.verdict =
                    Some(Verdict { good: true, words: format!("{}: nothing wrong", one_line(&args.file)) });
                echo(&mut page, &job);
                write_out(&page_text(&page, output), output, &[&args.file])?;
            }
            JobCommand::Schema(args) => {
                output.only("job schema", Format::Json)?;
                let schema = if args.answers { answer::schema() } else { schema() };
                write_out(&json_text(&schema)?, output, &[])?;
            }
        }
        Ok(Exit::Good)
    }
}
