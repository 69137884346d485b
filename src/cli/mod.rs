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
mod screen;
mod sheet;
mod sketch;
mod source;
mod straight;
mod typed;
mod usage;
mod words;
mod write;

use std::env;
use std::io::{self, Write};
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};

use args::OutputArgs;
use failure::Failure;
use screen::Screen;

/// Setting-out calculator for timber-framed extensions.
///
/// From the drawing's dimensions to check diagonals, pegs and lines, plates, packing, heights and the order.
/// A bare number is millimetres; 6.435m and 21ft1-3/8in are taken too.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80, after_help = examples::PROGRAM)]
#[command(infer_subcommands = false, subcommand_required = true)]
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
    Day(Screen<day::DayArgs>),
    /// The field book: readings as they are called out, each saved at once.
    #[command(after_help = examples::BOOK)]
    Book(Screen<book::BookArgs>),
    /// Rectangles, right triangles, every check diagonal, and which ones prove the shape.
    #[command(after_help = examples::DIAGONALS)]
    Diagonals(Screen<diagonals::DiagonalsArgs>),
    /// The biggest 3-4-5 (or sharper triple) at each corner; a corner's angle from three tapes.
    #[command(after_help = examples::CORNERS)]
    Corners(Screen<corners::CornersArgs>),
    /// Profiles, nails and strings; the outline held off by a distance; running marks.
    #[command(after_help = examples::LINES)]
    Lines(Screen<Box<lines::LinesArgs>>),
    /// Whether a side is straight, from readings between a string and the plate.
    #[command(after_help = examples::STRAIGHT)]
    Straight(Screen<straight::StraightArgs>),
    /// The plates' runs, pieces and splices, cut from the best stock, with the proof; anchors and damp-proof course.
    #[command(after_help = examples::PLATES)]
    Plates(Screen<Box<plates::PlatesArgs>>),
    /// The best cut of any list of pieces from any stock, with the proof.
    #[command(after_help = examples::CUTS)]
    Cuts(Screen<cuts::CutsArgs>),
    /// Taped sides and diagonals back in: square or not, who misread the tape, what to move.
    #[command(after_help = examples::READINGS)]
    Readings(Screen<Box<readings::ReadingsArgs>>),
    /// Levels round the plate to packers, by place and under each stud.
    #[command(after_help = examples::PACKS)]
    Packs(Screen<packs::PacksArgs>),
    /// The existing wall head to panel, stud and ceiling heights; joists on two supports.
    #[command(after_help = examples::HEIGHTS)]
    Heights(Screen<heights::HeightsArgs>),
    /// Joists between two supports: marks, lengths, hangers, what goes under each.
    #[command(after_help = examples::JOISTS)]
    Joists(Screen<Box<joists::JoistsArgs>>),
    /// Quantities from every part of a job, with your own prices: lines for a quote.
    #[command(after_help = examples::ORDER)]
    Order(Screen<order::OrderArgs>),
    /// The labelled plan to scale, in the terminal or as SVG on an A4 sheet.
    #[command(after_help = examples::SKETCH)]
    Sketch(Screen<sketch::SketchArgs>),
    /// The whole job on one sheet: every part that it has inputs for, in the order of the day, with the drawing.
    #[command(after_help = examples::SHEET)]
    Sheet(Screen<sheet::SheetArgs>),
    /// A job file a line in, an answer a line out as JSON, in order.
    #[command(after_help = examples::BATCH)]
    Batch(Screen<batch::BatchArgs>),
    /// Question sheets for training, their answers with working, and marking.
    #[command(after_help = examples::PRACTICE)]
    Practice(Screen<practice::PracticeArgs>),
    /// Start a job file, check one, or print its JSON Schema.
    #[command(after_help = examples::JOB)]
    Job(Screen<job::JobArgs>),
    /// A script that lets a shell complete the commands and options.
    #[command(after_help = examples::COMPLETIONS)]
    Completions(Screen<completions::CompletionsArgs>),
    /// The manual page of the program, or of one command.
    #[command(after_help = examples::MAN)]
    Man(Screen<manual::ManArgs>),
}

/// Runs the program on the process's own arguments.
pub(crate) fn run() -> ExitCode {
    if let Some(exit) = alone() {
        return exit;
    }
    let cli = match Cli::try_parse_from(words::arranged(env::args_os(), Cli::command)) {
        Ok(cli) => cli,
        Err(error) => return Failure::Usage(error).report(),
    };
    let result = match cli.command {
        Command::Day(args) => args.0.run(&cli.output),
        Command::Book(args) => args.0.run(&cli.output),
        Command::Diagonals(args) => args.0.run(&cli.output),
        Command::Corners(args) => args.0.run(&cli.output),
        Command::Lines(args) => args.0.run(&cli.output),
        Command::Straight(args) => args.0.run(&cli.output),
        Command::Plates(args) => args.0.run(&cli.output),
        Command::Cuts(args) => args.0.run(&cli.output),
        Command::Readings(args) => args.0.run(&cli.output),
        Command::Packs(args) => args.0.run(&cli.output),
        Command::Heights(args) => args.0.run(&cli.output),
        Command::Joists(args) => args.0.run(&cli.output),
        Command::Order(args) => args.0.run(&cli.output),
        Command::Sketch(args) => args.0.run(&cli.output),
        Command::Sheet(args) => args.0.run(&cli.output),
        Command::Batch(args) => args.0.run(&cli.output),
        Command::Practice(args) => args.0.run(&cli.output),
        Command::Job(args) => args.0.run(&cli.output),
        Command::Completions(args) => args.0.run(Cli::command(), &cli.output),
        Command::Man(args) => args.0.run(Cli::command(), &cli.output),
    };
    match result {
        Ok(exit) => exit.into(),
        Err(failure) => failure.report(),
    }
}

/// The program's own screen, where nothing else was asked for; without even `-h` there is a command missing.
fn alone() -> Option<ExitCode> {
    let mut words = env::args_os().skip(1);
    let printed = match (words.next(), words.next()) {
        (None, _) => write!(io::stderr(), "{}", examples::SCREEN).map(|()| ExitCode::from(2)),
        (Some(word), None) if word == "-h" => {
            write!(io::stdout(), "{}", examples::SCREEN).map(|()| ExitCode::SUCCESS)
        }
        _ => return None,
    };
    Some(printed.unwrap_or(ExitCode::SUCCESS))
}

#[cfg(test)]
mod tests {
    use pegline::job;
    use serde_json::Value;

    use super::*;

    #[test]
    fn the_argument_definitions_are_sound() {
        Cli::command().debug_assert();
    }

    /// The field that a schema of an object has by this name.
    fn field<'s>(schema: &'s Value, object: &'s Value, name: &str) -> Option<&'s Value> {
        let kinds = object["anyOf"].as_array().map_or(std::slice::from_ref(object), Vec::as_slice);
        let named = |kind: &Value| kind["$ref"].as_str().and_then(|path| schema.pointer(&path[1..]));
        kinds.iter().filter_map(named).find_map(|object| object["properties"].get(name))
    }

    /// By its id a fault finds the option that set the field, and by no other way.
    #[test]
    fn an_option_of_a_section_has_the_path_of_its_field_as_its_id() {
        let schema = job::schema().to_value();
        let mut cli = Cli::command();
        cli.build();
        let mut options = 0;
        for command in cli.get_subcommands() {
            for id in command.get_arguments().map(|argument| argument.get_id().as_str()) {
                if let Some((section, name)) = id.split_once('.') {
                    let mut at = &schema["properties"][section];
                    for name in name.split('.') {
                        at = field(&schema, at, name)
                            .unwrap_or_else(|| panic!("{}: no field {id}", command.get_name()));
                    }
                    options += 1;
                }
            }
        }
        assert!(options > 100, "{options} options of sections");
    }
}
