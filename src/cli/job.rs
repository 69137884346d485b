//! `pegline job`: start a job file, check one, print its schema.

use clap::{Args, Subcommand};
use pegline::answer;
use pegline::job::{Faults, Job, JobFile, Shape, schema, starter};
use pegline::page::{Detail, Page, Verdict};
use pegline::report::{echo, echo_sizes};
use pegline::words::one_line;

use super::args::{Format, OutlineArgs, OutputArgs, Under};
use super::command_line::CommandLine;
use super::examples;
use super::failure::{Exit, Failure};
use super::output::{json_text, page_text, write_out};
use super::screen::Screen;
use super::source::Source;

#[derive(Debug, Args)]
pub(super) struct JobArgs {
    #[command(subcommand)]
    command: JobCommand,
}

#[derive(Debug, Subcommand)]
#[command(defer = true)]
enum JobCommand {
    /// Write a job file with what is typed, or a sample to learn from.
    #[command(after_help = examples::JOB_NEW)]
    New(Screen<NewArgs>),
    /// Check a job file and echo what it was understood as.
    #[command(after_help = examples::JOB_CHECK)]
    Check(Screen<CheckArgs>),
    /// Print the JSON Schema of the job file, or of the answers.
    #[command(after_help = examples::JOB_SCHEMA)]
    Schema(Screen<SchemaArgs>),
}

#[derive(Debug, Args)]
struct NewArgs {
    #[command(flatten)]
    outline: OutlineArgs,
    /// Units of bare numbers and of the figures that come back: mm, m or ft-in.
    #[arg(long, value_name = "UNITS")]
    units: Option<String>,
    /// A job to learn from instead, with invented readings: PLAN is its shape, rectangle, L, T or U [default: L].
    #[arg(long)]
    sample: bool,
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

impl NewArgs {
    /// The job file that is asked for: what was typed, or a sample.
    fn text(self) -> Result<String, Failure> {
        let plan = self.outline.plan();
        let shape = plan.as_ref().map(|plan| plan.parse::<Shape>());
        match (shape, plan) {
            (shape, _) if self.sample => {
                return Ok(starter(shape.transpose().map_err(Failure::input)?.unwrap_or(Shape::L)));
            }
            (Some(Ok(_)), Some(plan)) => {
                return Err(Failure::input(format!(
                    "PLAN: `{plan}` is a shape without sizes: write them, as in 7800x6000-3000x2400, or add --sample for an invented job to learn from"
                )));
            }
            _ => {}
        }
        let typed = self.outline.with(JobFile { units: self.units, ..JobFile::default() });
        let given = CommandLine::of::<Self>(typed, Under::default());
        if given.job()?.footprint.is_none() {
            return Err(Failure::input(
                "PLAN is missing: write the outline's sizes, as in 7800x6000-3000x2400, or add --sample for an invented job to learn from",
            ));
        }
        given.whole("{\n  \"schema\": 1\n}\n")
    }
}

impl JobArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        match self.command {
            JobCommand::New(Screen(args)) => {
                output.only("job new", Format::Json)?;
                write_out(&args.text()?, output, &[])?;
            }
            JobCommand::Check(Screen(args)) => {
                output.only("job check", Format::Table)?;
                let source = Source::open(&args.file)?;
                let faults = |faults: Faults| {
                    let messages = faults.iter().map(|fault| source.message_at_field(fault, None));
                    Failure::faults(messages, faults.more())
                };
                let job = Job::check(&source.job_file()?).map_err(faults)?;
                let mut page = Page::new();
                page.remarks.verdict =
                    Some(Verdict { good: true, words: format!("{}: nothing wrong", one_line(&args.file)) });
                echo(&mut page, &job, Detail::Full);
                echo_sizes(&mut page, &job);
                write_out(&page_text(&page, output), output, &[&args.file])?;
            }
            JobCommand::Schema(Screen(args)) => {
                output.only("job schema", Format::Json)?;
                let schema = if args.answers { answer::schema() } else { schema() };
                write_out(&json_text(&schema)?, output, &[])?;
            }
        }
        Ok(Exit::Good)
    }
}
