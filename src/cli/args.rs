//! Arguments that several commands share, and how they become a job file laid over the one read.

use std::convert::Infallible;
use std::str::FromStr;

use clap::{Args, ValueEnum};
use pegline::job::{LengthEntry, TapeSection};

use super::failure::Failure;
use super::given::Given;

/// A length as typed; it is read later, with the job's units in hand.
#[derive(Debug, Clone)]
pub(super) struct LengthWord(String);

impl FromStr for LengthWord {
    type Err = Infallible;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Ok(Self(text.to_owned()))
    }
}

impl From<LengthWord> for LengthEntry {
    fn from(word: LengthWord) -> Self {
        Self::Text(word.0)
    }
}

/// Values in a text separated by commas: `A=1412,B=1409`.
#[derive(Debug, Clone)]
pub(super) struct ListWord(Vec<String>);

impl FromStr for ListWord {
    type Err = Infallible;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let items = text.split(',').map(str::trim).filter(|item| !item.is_empty());
        Ok(Self(items.map(str::to_owned).collect()))
    }
}

impl From<ListWord> for Vec<String> {
    fn from(list: ListWord) -> Self {
        list.0
    }
}

/// A number as typed; NaN and infinity are none, though Rust reads them.
pub(super) fn number(text: &str) -> Result<f64, &'static str> {
    let number = text.trim().parse().ok().filter(|number: &f64| number.is_finite());
    number.ok_or("write a number, such as 0.5")
}

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

#[derive(Debug, Args)]
pub(super) struct OutputArgs {
    /// How to print the answer [default: table].
    #[arg(long, value_name = "FORMAT", value_enum, global = true, help_heading = "Output")]
    format: Option<Format>,
    /// Short for --format json.
    #[arg(long, global = true, conflicts_with = "format", help_heading = "Output")]
    json: bool,
    /// Print plain ASCII only.
    #[arg(long, global = true, help_heading = "Output")]
    pub(super) ascii: bool,
}

impl OutputArgs {
    pub(super) fn format(&self) -> Format {
        self.asked().unwrap_or(Format::Table)
    }

    fn asked(&self) -> Option<Format> {
        if self.json { Some(Format::Json) } else { self.format }
    }

    /// Refuses a format that `command` does not print, since it would get another.
    pub(super) fn only(&self, command: &str, format: Format) -> Result<(), Failure> {
        if self.asked().is_none_or(|asked| asked == format) {
            return Ok(());
        }
        let option = if self.json { "--json" } else { "--format" };
        let prints = match format {
            Format::Table => "text",
            Format::Json => "JSON",
            Format::Csv => "CSV",
        };
        Err(Failure::input(format!("{option}: {command} prints {prints} alone: leave {option} out")))
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
}

impl SourceArgs {
    /// Lays what was given over the job, and returns the job file's name.
    pub(super) fn lay(self, given: &mut Given) -> Option<String> {
        given.note([("units", "--units", self.units.is_some())]);
        given.over.units = self.units;
        self.job
    }
}

#[derive(Debug, Args)]
pub(super) struct PlanArgs {
    /// The plan: 7800x6000 a rectangle, 7800x6000-3000x2400 an L, 9000x3000+3600x2400 a T.
    ///
    /// `-WxD` cuts a corner out, bottom right unless @tl, @tr, @br or @bl says so; `+WxD` adds a leg along the
    /// bottom side, in the middle unless @ and its distance from the left end say so. More terms may follow.
    /// A is the left end of the topmost side; letters run clockwise.
    #[arg(value_name = "PLAN", num_args = 0..)]
    plan: Vec<String>,
    /// The plan as a walk from A clockwise: "7800 R 3600 R 3000 L 2400 R 4800 R 6000".
    ///
    /// The last one or two sides may be left out.
    #[arg(long, value_name = "SIDES", conflicts_with = "plan")]
    walk: Option<String>,
    /// The sides that are existing walls: AB, or AB,CD.
    #[arg(long, value_name = "SIDES", value_delimiter = ',')]
    house: Option<Vec<String>>,
    #[command(flatten)]
    source: SourceArgs,
}

impl PlanArgs {
    /// Lays what was given over the job, and returns the job file's name.
    pub(super) fn lay(self, given: &mut Given) -> Option<String> {
        // Spaces typed without quotes, as in 7800 x 6000, come in as words of their own.
        let plan = (!self.plan.is_empty()).then(|| self.plan.join(" "));
        given.note([
            ("plan", "PLAN", plan.is_some()),
            ("walk", "--walk", self.walk.is_some()),
            ("house", "--house", self.house.is_some()),
        ]);
        given.over.plan = plan;
        given.over.walk = self.walk;
        given.over.house = self
            .house
            .map(|sides| sides.iter().flat_map(|side| side.split_whitespace()).map(str::to_owned).collect());
        self.source.lay(given)
    }
}

#[derive(Debug, Args)]
pub(super) struct TapeArgs {
    /// The tape's accuracy class: I, II, III or US [default: II].
    #[arg(long, value_name = "CLASS", help_heading = "Tape")]
    tape_class: Option<String>,
    /// The longest distance the tape reaches in one pull [default: no limit].
    #[arg(long, value_name = "LENGTH", help_heading = "Tape")]
    tape_length: Option<LengthWord>,
    /// Standard deviation of reading the blade [default: 1mm].
    #[arg(long, value_name = "LENGTH", help_heading = "Tape")]
    tape_reading: Option<LengthWord>,
    /// Standard deviation of holding the two ends on their marks [default: 0].
    #[arg(long, value_name = "LENGTH", help_heading = "Tape")]
    tape_ends: Option<LengthWord>,
    /// The hook is the zero: add the law's allowance for it.
    #[arg(long, help_heading = "Tape")]
    from_hook: bool,
}

impl TapeArgs {
    /// Lays what was given over the job.
    pub(super) fn lay(self, given: &mut Given) {
        given.note([
            ("tape.class", "--tape-class", self.tape_class.is_some()),
            ("tape.length", "--tape-length", self.tape_length.is_some()),
            ("tape.reading", "--tape-reading", self.tape_reading.is_some()),
            ("tape.ends", "--tape-ends", self.tape_ends.is_some()),
        ]);
        given.over.tape = Some(TapeSection {
            class: self.tape_class,
            length: self.tape_length.map(Into::into),
            reading: self.tape_reading.map(Into::into),
            ends: self.tape_ends.map(Into::into),
            from_hook: self.from_hook.then_some(true),
        });
    }
}
