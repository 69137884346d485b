//! The argument layer: words in, pages or JSON out, and the exit code. Nothing below it knows clap or a terminal.

mod along;
mod args;
mod ask;
mod batch;
mod corners;
mod cuts;
mod diagonals;
mod failure;
mod heights;
mod job;
mod lines;
mod order;
mod output;
mod packs;
mod plates;
mod practice;
mod readings;
mod sheet;
mod sketch;
mod source;
mod stock;
mod straight;
mod usage;
mod write;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

use args::OutputArgs;
use failure::Failure;

/// Exit codes, printed at the end of the long help.
const EXIT_CODES: &str = "Exit code: 0 answered, and good if a verdict was asked for; 1 answered, and the verdict is bad; \
2 not answered (wrong usage or input).";

/// Setting-out calculator for timber-framed extensions.
///
/// From the drawing's dimensions to check diagonals, pegs and lines, plates, packing, heights and the order.
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
    /// The plates' runs, pieces and splices, cut from the best stock, with the proof; anchors and damp-proof course.
    #[command(
        after_help = "Example: pegline plates 7800x6000-3000x2400 --house AB --width 140 --stock 3.6m:10.80,4.8m:15.60,6.0m:21.60"
    )]
    Plates(Box<plates::PlatesArgs>),
    /// The best cut of any list of pieces from any stock, with the proof.
    #[command(after_help = "Example: pegline cuts --pieces 4x1200,2x2350,3x900 --stock 3000,4800")]
    Cuts(cuts::CutsArgs),
    /// Taped sides and diagonals back in: square or not, who misread the tape, what to move.
    #[command(
        after_help = "Example: pegline readings 7800x6000 --read AB=7802,BC=6001,CD=7801,DA=5999,AC=9843,BD=9840"
    )]
    Readings(Box<readings::ReadingsArgs>),
    /// Levels round the plate to packers, by place and under each stud.
    #[command(
        after_help = "Example: pegline packs 7800x6000 --staff A=1412,B=1409,C=1405,D=1411 --packers 1,2,3,5,10"
    )]
    Packs(packs::PacksArgs),
    /// The existing wall head to panel, stud and ceiling heights; joists on two supports.
    #[command(
        after_help = "Example: pegline heights --drop 2398,2396 --level-depth 50 --stack plate=38,binder=38 --ceiling 2300"
    )]
    Heights(heights::HeightsArgs),
    /// The labelled plan to scale, in the terminal or as SVG on an A4 sheet.
    #[command(after_help = "Example: pegline sketch 7800x6000-3000x2400 --house AB --svg -o plan.svg")]
    Sketch(sketch::SketchArgs),
    /// The whole job on one sheet: every part that it has inputs for, in the order of the day, with the drawing.
    #[command(after_help = "Example: pegline sheet 7800x6000-3000x2400 --house AB --html -o plot.html")]
    Sheet(sheet::SheetArgs),
    /// Quantities from every part of a job, with your own prices: lines for a quote.
    #[command(
        after_help = "Example: pegline job new L > job.json && pegline order --job job.json --prices prices.csv --tax 20"
    )]
    Order(order::OrderArgs),
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
        Command::Lines(args) => args.run(&cli.output),
        Command::Straight(args) => args.run(&cli.output),
        Command::Plates(args) => args.run(&cli.output),
        Command::Cuts(args) => args.run(&cli.output),
        Command::Readings(args) => args.run(&cli.output),
        Command::Packs(args) => args.run(&cli.output),
        Command::Heights(args) => args.run(&cli.output),
        Command::Sketch(args) => args.run(&cli.output),
        Command::Sheet(args) => args.run(&cli.output),
        Command::Order(args) => args.run(&cli.output),
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
