//! The argument layer: words in, pages or JSON out, and the exit code. Nothing below it knows clap or a terminal.

mod along;
mod args;
mod ask;
mod batch;
mod book;
mod command_line;
mod completions;
mod corners;
mod cuts;
mod day;
mod diagonals;
mod encoding;
mod examples;
mod failure;
mod file;
mod heights;
mod job;
mod joists;
mod lines;
mod manual;
mod order;
mod output;
mod packs;
mod plates;
mod practice;
mod progress;
mod readings;
mod sheet;
mod sketch;
mod source;
mod straight;
mod typed;
mod usage;
mod words;
mod write;

use std::env;
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};

use args::OutputArgs;
use failure::Failure;

/// Setting-out calculator for timber-framed extensions.
///
/// From the drawing's dimensions to check diagonals, pegs and lines, plates, packing, heights and the order.
/// A bare number is millimetres; 6.435m and 21ft1-3/8in are taken too.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80, after_help = examples::PROGRAM)]
#[command(infer_subcommands = false, subcommand_required = true, arg_required_else_help = true)]
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
    /// Where the day stands: the plan, what to tape, each part of the job, what to type next.
    #[command(after_help = examples::DAY)]
    Day(day::DayArgs),
    /// The field book: readings as they are called out, each saved at once.
    #[command(after_help = examples::BOOK)]
    Book(book::BookArgs),
    /// Rectangles, right triangles, every check diagonal, and which ones prove the shape.
    #[command(after_help = examples::DIAGONALS)]
    Diagonals(diagonals::DiagonalsArgs),
    /// The biggest 3-4-5 (or sharper triple) at each corner; a corner's angle from three tapes.
    #[command(after_help = examples::CORNERS)]
    Corners(corners::CornersArgs),
    /// Profiles, nails and strings; the outline held off by a distance; running marks.
    #[command(after_help = examples::LINES)]
    Lines(Box<lines::LinesArgs>),
    /// Whether a side is straight, from readings between a string and the plate.
    #[command(after_help = examples::STRAIGHT)]
    Straight(straight::StraightArgs),
    /// The plates' runs, pieces and splices, cut from the best stock, with the proof; anchors and damp-proof course.
    #[command(after_help = examples::PLATES)]
    Plates(Box<plates::PlatesArgs>),
    /// The best cut of any list of pieces from any stock, with the proof.
    #[command(after_help = examples::CUTS)]
    Cuts(cuts::CutsArgs),
    /// Taped sides and diagonals back in: square or not, who misread the tape, what to move.
    #[command(after_help = examples::READINGS)]
    Readings(Box<readings::ReadingsArgs>),
    /// Levels round the plate to packers, by place and under each stud.
    #[command(after_help = examples::PACKS)]
    Packs(packs::PacksArgs),
    /// The existing wall head to panel, stud and ceiling heights; joists on two supports.
    #[command(after_help = examples::HEIGHTS)]
    Heights(heights::HeightsArgs),
    /// Joists between two supports: marks, lengths, hangers, what goes under each.
    #[command(after_help = examples::JOISTS)]
    Joists(Box<joists::JoistsArgs>),
    /// Quantities from every part of a job, with your own prices: lines for a quote.
    #[command(after_help = examples::ORDER)]
    Order(order::OrderArgs),
    /// The labelled plan to scale, in the terminal or as SVG on an A4 sheet.
    #[command(after_help = examples::SKETCH)]
    Sketch(sketch::SketchArgs),
    /// The whole job on one sheet: every part that it has inputs for, in the order of the day, with the drawing.
    #[command(after_help = examples::SHEET)]
    Sheet(sheet::SheetArgs),
    /// A job file a line in, an answer a line out as JSON, in order.
    #[command(after_help = examples::BATCH)]
    Batch(batch::BatchArgs),
    /// Question sheets for training, their answers with working, and marking.
    #[command(after_help = examples::PRACTICE)]
    Practice(practice::PracticeArgs),
    /// Start a job file, check one, or print its JSON Schema.
    #[command(after_help = examples::JOB)]
    Job(job::JobArgs),
    /// A script that lets a shell complete the commands and options.
    #[command(after_help = examples::COMPLETIONS)]
    Completions(completions::CompletionsArgs),
    /// The manual page of the program, or of one command.
    #[command(after_help = examples::MAN)]
    Man(manual::ManArgs),
}

/// Runs the program on the process's own arguments.
pub(crate) fn run() -> ExitCode {
    let cli = match Cli::try_parse_from(words::arranged(env::args_os(), Cli::command)) {
        Ok(cli) => cli,
        Err(error) => return Failure::Usage(error).report(),
    };
    let result = match cli.command {
        Command::Day(args) => args.run(&cli.output),
        Command::Book(args) => args.run(&cli.output),
        Command::Diagonals(args) => args.run(&cli.output),
        Command::Corners(args) => args.run(&cli.output),
        Command::Lines(args) => args.run(&cli.output),
        Command::Straight(args) => args.run(&cli.output),
        Command::Plates(args) => args.run(&cli.output),
        Command::Cuts(args) => args.run(&cli.output),
        Command::Readings(args) => args.run(&cli.output),
        Command::Packs(args) => args.run(&cli.output),
        Command::Heights(args) => args.run(&cli.output),
        Command::Joists(args) => args.run(&cli.output),
        Command::Order(args) => args.run(&cli.output),
        Command::Sketch(args) => args.run(&cli.output),
        Command::Sheet(args) => args.run(&cli.output),
        Command::Batch(args) => args.run(&cli.output),
        Command::Practice(args) => args.run(&cli.output),
        Command::Job(args) => args.run(&cli.output),
        Command::Completions(args) => args.run(Cli::command(), &cli.output),
        Command::Man(args) => args.run(Cli::command(), &cli.output),
    };
    match result {
        Ok(exit) => exit.into(),
        Err(failure) => failure.report(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_argument_definitions_are_sound() {
        Cli::command().debug_assert();
    }
}
