//! The argument layer: words in, pages or JSON out, and the exit code. Nothing below it knows clap or a terminal.

mod args;
mod ask;
mod batch;
mod corners;
mod diagonals;
mod failure;
mod job;
mod output;
mod practice;
mod source;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

use args::OutputArgs;
use failure::Failure;

/// Exit codes, printed at the end of the long help.
const EXIT_CODES: &str = "Exit code: 0 answered, and good if a verdict was asked for; 1 answered, and the verdict is bad; \
2 not answered (wrong usage or input).";

/// Setting-out calculator for timber-framed extensions.
///
/// From the drawing's dimensions to check diagonals, pegs and lines, plates, packing and heights.
/// A bare number is millimetres; 6.435m and 21ft1-3/8in are taken too.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80, after_help = EXIT_CODES, after_long_help = EXIT_CODES)]
#[command(
    infer_subcommands = false,
    subcommand_required = true,
    arg_required_else_help = true
)]
struct Cli {
    #[command(flatten)]
    output: OutputArgs,
    #[command(subcommand)]
    command: Command,
}

// Deferred: only the command that is called has its arguments built, which keeps start-up flat as commands are added.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
enum Command {
    /// Rectangles, right triangles, every check diagonal, and which ones prove the shape.
    #[command(after_help = "Example: pegline diagonals 7800x6000-3000x2400 --house AB")]
    Diagonals(diagonals::DiagonalsArgs),
    /// The biggest 3-4-5 (or sharper triple) at each corner; a corner's angle from three tapes.
    #[command(after_help = "Example: pegline corners 7800x6000-3000x2400 --tape-length 8m")]
    Corners(corners::CornersArgs),
    /// A job file a line in, an answer a line out as JSON, in order.
    #[command(after_help = "Example: pegline batch diagonals < jobs.jsonl")]
    Batch(batch::BatchArgs),
    /// Question sheets for training, their answers with working, and marking.
    #[command(after_help = "Example: pegline practice diagonals --level 2 --seed 7 > sheet.txt")]
    Practice(practice::PracticeArgs),
    /// Start a job file, check one, or print its JSON Schema.
    #[command(after_help = "Example: pegline job new L")]
    Job(job::JobArgs),
}

/// Runs the program on the process's own arguments.
pub(crate) fn run() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return Failure::Usage(error).report(),
    };
    let result = match cli.command {
        Command::Diagonals(args) => args.run(&cli.output),
        Command::Corners(args) => args.run(&cli.output),
        Command::Batch(args) => args.run(),
        Command::Practice(args) => args.run(&cli.output),
        Command::Job(args) => args.run(&cli.output),
    };
    match result {
        Ok(exit) => exit.into(),
        Err(failure) => failure.report(),
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::Cli;

    #[test]
    fn the_argument_definitions_are_sound() {
        Cli::command().debug_assert();
    }
}
