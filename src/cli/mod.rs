//! The argument layer: words in, pages or JSON out, and the exit code. Nothing below it knows clap or a terminal.

mod along;
mod args;
mod ask;
mod failure;
mod job;
mod lines;
mod output;
mod source;
mod straight;

use std::process::ExitCode;

use clap::{Args, Parser, Subcommand};
use pegline::answer::Question;
use pegline::job::{CornersSection, DiagonalsSection};

use args::{Given, LengthWord, OutputArgs, PlanArgs, TapeArgs};
use failure::{Exit, Failure};

/// Exit codes, printed at the end of the long help.
const EXIT_CODES: &str = "\
Exit code: 0 answered, and good if a verdict was asked for; 1 answered, and the verdict is bad;
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

#[derive(Debug, Subcommand)]
enum Command {
    /// Rectangles, right triangles, every check diagonal, and which ones prove the shape.
    #[command(after_help = "Example: pegline diagonals 7800x6000-3000x2400 --house AB")]
    Diagonals(DiagonalsArgs),
    /// The biggest 3-4-5 (or sharper triple) at each corner; a corner's angle from three tapes.
    #[command(after_help = "Example: pegline corners 7800x6000-3000x2400 --tape-length 8m")]
    Corners(CornersArgs),
    /// Profiles, nails and strings; the outline held off by a distance; running marks.
    #[command(
        after_help = "Example: pegline lines 7800x6000-3000x2400 --house AB --layers skin=102,cavity=50,plate=140 --footing 600"
    )]
    Lines(Box<lines::LinesArgs>),
    /// Whether a side is straight, from readings between a string and the plate.
    #[command(
        after_help = "Example: pegline straight --side CD --block 20 --read 0=20,1200=22,2400=17,3600=20 --limit 3"
    )]
    Straight(straight::StraightArgs),
    /// Start a job file, check one, or print its JSON Schema.
    #[command(after_help = "Example: pegline job new L")]
    Job(job::JobArgs),
}

#[derive(Debug, Args)]
struct DiagonalsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: TapeArgs,
    /// How many diagonals to choose beyond the proof set, to show up a misread [default: 2].
    #[arg(long, value_name = "N")]
    spares: Option<usize>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

#[derive(Debug, Args)]
struct CornersArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: TapeArgs,
    /// A corner as found: along one side, along the other, between the two ends.
    #[arg(long, value_name = "A,B,C", value_delimiter = ',')]
    tapes: Option<Vec<LengthWord>>,
    /// The corner that --tapes were taken at.
    #[arg(long, value_name = "LETTER")]
    corner: Option<String>,
    /// The most the corner may be out of square at the end of its longer side.
    #[arg(long, value_name = "LENGTH")]
    limit: Option<LengthWord>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
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
        Command::Lines(args) => args.run(&cli.output),
        Command::Straight(args) => args.run(&cli.output),
        Command::Job(args) => args.run(&cli.output),
    };
    match result {
        Ok(exit) => exit.into(),
        Err(failure) => failure.report(),
    }
}

impl DiagonalsArgs {
    fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        if let Some(spares) = self.spares {
            given.options.push(("diagonals.spares", "--spares"));
            given.over.diagonals = Some(DiagonalsSection { spares: Some(spares) });
        }
        ask::ask(
            Question::Diagonals,
            given,
            source.as_deref(),
            output,
            self.working,
        )
    }
}

impl CornersArgs {
    fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        given.note([
            ("corners.tapes", "--tapes", self.tapes.is_some()),
            ("corners.corner", "--corner", self.corner.is_some()),
            ("corners.limit", "--limit", self.limit.is_some()),
        ]);
        given.over.corners = Some(CornersSection {
            tapes: self
                .tapes
                .map(|tapes| tapes.into_iter().map(Into::into).collect()),
            corner: self.corner,
            limit: self.limit.map(Into::into),
        });
        ask::ask(Question::Corners, given, source.as_deref(), output, self.working)
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
