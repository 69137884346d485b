//! Arguments that several commands share, and how they become a job file laid over the one read.

use clap::{Args, ValueEnum};
use pegline::job::JobFile;

use super::failure::Failure;

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
    /// What was given of the job, and the name of the job file to lay it over.
    pub(super) fn given(self) -> (JobFile, Option<String>) {
        (JobFile { units: self.units, ..JobFile::default() }, self.job)
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
    /// What was given of the job, and the name of the job file to lay it over.
    pub(super) fn given(self) -> (JobFile, Option<String>) {
        let (given, file) = self.source.given();
        // Spaces typed without quotes, as in 7800 x 6000, come in as words of their own.
        let plan = (!self.plan.is_empty()).then(|| self.plan.join(" "));
        let sides = |sides: Vec<String>| {
            sides.iter().flat_map(|side| side.split_whitespace()).map(str::to_owned).collect()
        };
        (JobFile { plan, walk: self.walk, house: self.house.map(sides), ..given }, file)
    }
}
