//! Arguments that several commands share, and how they become a job file laid over the one read.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use pegline::job::{JobFile, LengthEntry};
use pegline::page::{Detail, Spreadsheet};

use super::failure::Failure;
use super::file::{self, ending};

/// The formats an answer can be printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// A page of tables for people.
    Table,
    /// One JSON object for programs.
    Json,
    /// The main rows for a spreadsheet, lengths in mm.
    Csv,
}

impl Format {
    /// What it is called, and the ending of its files where they have one of their own.
    const fn name_and_ending(self) -> (&'static str, Option<&'static str>) {
        match self {
            Self::Table => ("text", None),
            Self::Json => ("JSON", Some("json")),
            Self::Csv => ("CSV", Some("csv")),
        }
    }
}

/// The sign before the decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Decimal {
    /// 12.5, commas between the columns.
    Point,
    /// 12,5, semicolons between the columns.
    Comma,
}

/// A format that one command alone prints.
#[derive(Debug, Clone, Copy)]
pub(super) struct Own {
    /// The option that asks for it.
    pub(super) option: &'static str,
    /// Whether it was asked for.
    pub(super) asked: bool,
    /// What it is called.
    pub(super) name: &'static str,
    /// The ending of its files.
    pub(super) ending: &'static str,
}

/// What to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// An answer in one of the formats that every command has.
    In(Format),
    /// The command's own.
    Own,
}

#[derive(Debug, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a flag on the command line, and any may stand with any"
)]
pub(super) struct OutputArgs {
    /// How to print the answer [default: table].
    #[arg(long, value_name = "FORMAT", value_enum, global = true, help_heading = "Output")]
    format: Option<Format>,
    /// Short for --format json.
    #[arg(long, global = true, conflicts_with = "format", help_heading = "Output")]
    json: bool,
    /// Print all there is: every table and note, where the page leaves out what the day's work can do without.
    #[arg(long, global = true, help_heading = "Output")]
    full: bool,
    /// The decimal sign of CSV, as the spreadsheet has it that opens it [default: point].
    #[arg(long, value_name = "SIGN", value_enum, global = true, help_heading = "Output")]
    decimal: Option<Decimal>,
    /// Begin CSV with the mark by which some spreadsheets know UTF-8.
    #[arg(long, global = true, help_heading = "Output")]
    bom: bool,
    /// Print plain ASCII only.
    #[arg(long, global = true, help_heading = "Output")]
    pub(super) ascii: bool,
    /// Write to this file; its ending chooses the format: .json, .csv, .svg, .html.
    #[arg(short, long, value_name = "FILE", global = true, help_heading = "Output")]
    pub(super) output: Option<PathBuf>,
    /// Replace the file if it exists.
    #[arg(long, global = true, help_heading = "Output")]
    pub(super) force: bool,
}

impl OutputArgs {
    /// How much of an answer a page holds.
    pub(super) const fn detail(&self) -> Detail {
        if self.full { Detail::Full } else { Detail::Short }
    }

    /// How the spreadsheet that CSV is for reads it.
    pub(super) fn spreadsheet(&self) -> Spreadsheet {
        Spreadsheet { decimal_comma: self.decimal == Some(Decimal::Comma), byte_order_mark: self.bom }
    }

    /// Refuses what is asked of CSV where none is written.
    fn of_csv_alone(&self, kind: Kind) -> Result<Kind, Failure> {
        let option = match (self.decimal, self.bom) {
            _ if kind == Kind::In(Format::Csv) => return Ok(kind),
            (Some(Decimal::Comma), _) => "--decimal",
            (_, true) => "--bom",
            (_, false) => return Ok(kind),
        };
        Err(Failure::input(format!("{option}: it is for CSV alone: write --format csv too, or leave it out")))
    }

    /// The format asked for by an option, or by the ending of the file's name.
    pub(super) fn format(&self) -> Result<Format, Failure> {
        match self.kind(None)? {
            Kind::In(format) => Ok(format),
            Kind::Own => Ok(Format::Table),
        }
    }

    /// What to print, of a command that may have a format of its `own`: what was asked for, or what the ending of the
    /// file's name says. That both are there and differ is refused, since whoever opens the file would get another kind.
    pub(super) fn kind(&self, own: Option<Own>) -> Result<Kind, Failure> {
        self.of_csv_alone(self.chosen(own)?)
    }

    fn chosen(&self, own: Option<Own>) -> Result<Kind, Failure> {
        if let Some(own) = own.filter(|own| own.asked && self.asked().is_some()) {
            let option = own.option;
            return Err(Failure::input(format!(
                "{option}: it is a format of its own: leave out --format and --json"
            )));
        }
        let (name, own_ending) = match (own.filter(|own| own.asked), self.asked()) {
            (Some(own), _) => (own.name, Some(own.ending)),
            (None, Some(asked)) => asked.name_and_ending(),
            (None, None) => ("text", None),
        };
        let path = self.output.as_deref();
        let ending = path.map(ending).transpose()?.flatten();
        let asked = match (own, self.asked()) {
            (Some(own), _) if own.asked => Some(Kind::Own),
            (_, asked) => asked.map(Kind::In),
        };
        match (asked, ending) {
            (Some(asked), None) => Ok(asked),
            (None, None) => Ok(Kind::In(Format::Table)),
            (Some(asked), Some(ending)) if own_ending == Some(ending) => Ok(asked),
            (None, Some("json")) => Ok(Kind::In(Format::Json)),
            (None, Some("csv")) => Ok(Kind::In(Format::Csv)),
            (None, Some(ending)) if own.is_some_and(|own| own.ending == ending) => Ok(Kind::Own),
            (_, Some(ending)) => {
                let instead = own_ending.or(own.map(|own| own.ending)).unwrap_or("txt");
                let shown = path.unwrap_or(Path::new("")).display();
                Err(Failure::input(format!(
                    "-o {shown}: what is written here is {name}, and .{ending} says another: name it .{instead}"
                )))
            }
        }
    }

    fn asked(&self) -> Option<Format> {
        if self.json { Some(Format::Json) } else { self.format }
    }

    /// How the spreadsheet reads it that CSV was asked for.
    pub(super) fn csv_asked(&self) -> Option<Spreadsheet> {
        (self.asked() == Some(Format::Csv)).then(|| self.spreadsheet())
    }

    /// Whether the answer goes to a file.
    pub(super) const fn to_file(&self) -> bool {
        self.output.is_some()
    }

    /// Refuses a format that `command` does not print, since it would get another.
    pub(super) fn only(&self, command: &str, format: Format) -> Result<(), Failure> {
        self.of_csv_alone(Kind::In(format))?;
        let (name, ending) = format.name_and_ending();
        if self.asked().is_some_and(|asked| asked != format) {
            let option = if self.json { "--json" } else { "--format" };
            return Err(Failure::input(format!(
                "{option}: {command} prints {name} alone: leave {option} out"
            )));
        }
        let Some(path) = &self.output else { return Ok(()) };
        match file::ending(path)? {
            Some(other) if Some(other) != ending => Err(Failure::input(format!(
                "-o {}: {command} prints {name} alone, and .{other} says another: name it .{}",
                path.display(),
                ending.unwrap_or("txt")
            ))),
            _ => Ok(()),
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct SourceArgs {
    /// Read the job from a file; - is standard input. Options given here override it.
    #[arg(long, value_name = "FILE")]
    job: Option<String>,
    /// Units of bare numbers and of the figures that come back: mm, m or ft-in.
    #[arg(long, value_name = "UNITS")]
    units: Option<String>,
    /// Write what is typed here into the job file, after the answer; lists of named things are added to.
    #[arg(long)]
    keep: bool,
}

impl SourceArgs {
    /// What was given of the job, and the job file to lay it over.
    pub(super) fn given(self) -> (JobFile, Under) {
        (
            JobFile { units: self.units, ..JobFile::default() },
            Under { file: self.job, keep: self.keep, of: None },
        )
    }
}

// What flattens into a command says of itself in comments only: its documentation would become the command's.

// Which of the job's bookings a command answers by.
#[derive(Debug, Args)]
pub(super) struct BookingArgs {
    /// Take what was read from the booking of this name, not from the last.
    #[arg(long, value_name = "NAME")]
    pub(super) of: Option<String>,
}

// The job file of a command that needs no plan.
#[derive(Debug, Args)]
pub(super) struct FileArgs {
    /// The job file; - is standard input.
    #[arg(value_name = "JOB", conflicts_with = "job", value_parser = job_file)]
    file: Option<String>,
    #[command(flatten)]
    source: SourceArgs,
}

impl FileArgs {
    /// What was given of the job, and the job file to lay it over.
    pub(super) fn given(self) -> (JobFile, Under) {
        let (given, under) = self.source.given();
        (given, Under { file: self.file.or(under.file), ..under })
    }
}

fn job_file(word: &str) -> Result<String, String> {
    if is_job_file(word) {
        Ok(word.to_owned())
    } else {
        Err(format!("`{word}` is no job file, which ends in .json, and no plan is needed here: leave it out"))
    }
}

/// The job file that what was typed is laid over.
#[derive(Debug, Default)]
pub(super) struct Under {
    /// Its name, - for standard input; none if there is none.
    pub(super) file: Option<String>,
    /// Whether what was typed is to be written into it.
    pub(super) keep: bool,
    /// The booking that the readings are taken from.
    pub(super) of: Option<String>,
}

/// Whether it is the name of a file with a job on each line.
pub(super) fn is_stream(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|ending| ending.eq_ignore_ascii_case("jsonl"))
}

/// Whether a word where the plan stands is a job file's name.
pub(super) fn is_job_file(word: &str) -> bool {
    let ending = Path::new(word).extension();
    word == "-" || ending.is_some_and(|ending| ending.eq_ignore_ascii_case("json"))
}

#[derive(Debug, Args)]
pub(super) struct OutlineArgs {
    /// The plan: 7800x6000 a rectangle, 7800x6000-3000x2400 an L, 9000x3000+3600x2400 a T.
    ///
    /// `-WxD` cuts a corner out, bottom right unless @tl, @tr, @br or @bl says so; `+WxD` adds a leg along the
    /// bottom side, in the middle unless @ and a distance say so. More terms may follow: each @ is measured from the
    /// left end of what the cut-outs before it leave of the bottom side.
    /// A is the left end of the topmost side; letters run clockwise.
    /// A shell takes ' and " away: write 26ft4in, or put the plan in double quotes: "26' x 20'".
    #[arg(value_name = "PLAN", num_args = 0..)]
    plan: Vec<String>,
    /// The plan as a walk round it from A, with the turns: "7800 R 3600 R 3000 L 2400 R 4800 R 6000".
    ///
    /// R or right turns right, L or left turns left. The last one or two sides may be left out. A walk the other way
    /// round is taken as it was walked, and lettered clockwise.
    #[arg(long, value_name = "SIDES", conflicts_with = "plan")]
    walk: Option<String>,
    /// The sides that are existing walls: AB, or AB,CD.
    #[arg(long, value_name = "SIDES", value_delimiter = ',')]
    house: Option<Vec<String>>,
    /// How far the house goes back from those walls, where a line may pass behind it [default: without end].
    #[arg(long, value_name = "LENGTH")]
    house_depth: Option<LengthEntry>,
}

impl OutlineArgs {
    /// The words that stand for the plan, as one.
    pub(super) fn plan(&self) -> Option<String> {
        // Spaces typed without quotes, as in 7800 x 6000, come in as words of their own.
        (!self.plan.is_empty()).then(|| self.plan.join(" "))
    }

    /// What was given of the job besides what is `given` already.
    pub(super) fn with(self, given: JobFile) -> JobFile {
        let sides = |sides: Vec<String>| {
            sides.iter().flat_map(|side| side.split_whitespace()).map(str::to_owned).collect()
        };
        JobFile {
            plan: self.plan(),
            walk: self.walk,
            house: self.house.map(sides),
            house_depth: self.house_depth,
            ..given
        }
    }
}

// A plan and the job file that it may be in: a file's name stands where the plan does, or behind --job.
#[derive(Debug, Args)]
pub(super) struct PlanArgs {
    #[command(flatten)]
    outline: OutlineArgs,
    #[command(flatten)]
    source: SourceArgs,
}

impl PlanArgs {
    /// The job files that stand where the plan does, if there are several and nothing else stands there; they are taken out.
    pub(super) fn take_jobs(&mut self) -> Vec<String> {
        let plan = &mut self.outline.plan;
        let several = plan.len() > 1 || plan.first().is_some_and(|word| is_stream(word));
        let is_job = |word: &String| is_job_file(word) || is_stream(word);
        if several && plan.iter().all(is_job) { std::mem::take(plan) } else { vec![] }
    }

    /// The words that stand where the plan does and are readings, AB=7802, taken out of them.
    pub(super) fn take_readings(&mut self) -> Option<Vec<String>> {
        let readings: Vec<String> = self.outline.plan.extract_if(.., |word| word.contains('=')).collect();
        let readings =
            readings.iter().flat_map(|word| word.split(',')).map(|reading| reading.trim().to_owned());
        let readings: Vec<String> = readings.filter(|reading| !reading.is_empty()).collect();
        (!readings.is_empty()).then_some(readings)
    }

    /// What was given of the job, and the job file to lay it over.
    pub(super) fn given(mut self) -> (JobFile, Under) {
        let (given, mut under) = self.source.given();
        let plan = &mut self.outline.plan;
        if under.file.is_none() && plan.first().is_some_and(|word| is_job_file(word)) {
            under.file = Some(plan.remove(0));
        }
        (self.outline.with(given), under)
    }
}
