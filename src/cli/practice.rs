//! `pegline practice`: question sheets, their answers, and marking.

mod answer;
mod form;
mod marking;

use clap::Args;
use pegline::length::Units;
use pegline::page::Remarks;
use pegline::practice::{Answers, Ask, Class, Level, Pupil, Sheet, Topic, read_names, sheet};
use pegline::report::practice::{
    answer_rows, answer_sheet, leaves, paper_key, paper_sheets, question_rows, question_sheet,
};

use self::answer::{envelope, printed};
use self::marking::mark_files;
use super::args::{Format, Kind, OutputArgs, Own};
use super::failure::{Exit, Failure};
use super::output::{csv_text, json_text, page_text, write_out};
use super::source::Source;

#[derive(Debug, Args)]
pub(super) struct PracticeArgs {
    /// What to practise: diagonals, corners, plates, packs, heights, misread (spot the misread), lines, straight,
    /// readings, joists, or mixed.
    #[arg(value_name = "TOPIC", required_unless_present = "mark", conflicts_with = "mark")]
    topic: Option<Topic>,
    /// How hard: 1 neat sizes, 2 any size, 3 an L or T with a side left out, and the longer sums.
    #[arg(long, value_name = "1..3", default_value = "1", conflicts_with = "mark")]
    level: Level,
    /// How many questions.
    #[arg(long, value_name = "N", default_value_t = 8, value_parser = Ask::read_count, conflicts_with = "mark")]
    count: u32,
    /// Which sheet: the same seed gives the same sheet on every machine.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = Ask::read_seed, conflicts_with = "mark")]
    seed: u32,
    /// The units of the sheet: mm, or ft-in.
    #[arg(long, value_name = "UNITS", default_value = "mm", value_parser = Ask::read_units, conflicts_with = "mark")]
    units: Units,
    /// Print the answers with their working.
    #[arg(long, conflicts_with = "mark")]
    answers: bool,
    /// A sheet for each name in this file, one a line, the seeds counting up from --seed; - is standard input.
    #[arg(long, value_name = "FILE", conflicts_with = "mark")]
    class: Option<String>,
    /// Print the sheets, or their answers, as one HTML file for A4, with squared space to work in.
    #[arg(long, conflicts_with = "mark")]
    html: bool,
    /// Mark filled sheets, as text or as JSON: files, or folders with them; - is standard input.
    #[arg(long, value_name = "FILE", num_args = 1..)]
    mark: Vec<String>,
}

impl PracticeArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        if !self.mark.is_empty() {
            return mark_files(&self.mark, out);
        }
        let topic = self.topic.ok_or_else(|| {
            Failure::input("no topic: write diagonals, corners, plates, packs, heights, misread, lines, straight, readings, joists or mixed")
        })?;
        let paper = Own { option: "--html", asked: self.html, name: "HTML", ending: "html" };
        let kind = out.kind(Some(paper))?;
        let ask = Ask { topic, level: self.level, seed: self.seed, count: self.count, units: self.units };
        let text = match &self.class {
            Some(file) => {
                let class = Class::draw(ask, &names(file)?).map_err(Failure::input)?;
                if self.answers {
                    self.key(&class.answers(), kind, out)?
                } else {
                    self.sheets(&class, kind, out)?
                }
            }
            None => self.single(sheet(ask).map_err(Failure::input)?, kind, out)?,
        };
        let inputs: Vec<&str> = self.class.as_deref().into_iter().collect();
        write_out(&text, out, &inputs)?;
        Ok(Exit::Good)
    }

    /// One sheet, or its answers, for no one by name.
    fn single(&self, sheet: Sheet, kind: Kind, out: &OutputArgs) -> Result<String, Failure> {
        let class = Class { sheets: vec![Pupil { name: String::new(), sheet }] };
        let sheet = &class.sheets[0].sheet;
        match (self.answers, kind) {
            (false, Kind::Own) => Ok(paper_sheets(&class)),
            (true, Kind::Own) => Ok(paper_key(&class.answers())),
            (true, Kind::In(format)) => {
                let key = class.answers();
                let answers = &key.sheets[0].sheet;
                printed(
                    self.units,
                    answers,
                    &answer_sheet(answers, ""),
                    || answer_rows(&key.sheets),
                    format,
                    out,
                )
            }
            (false, Kind::In(format)) => {
                let page = question_sheet(sheet, "");
                let text = printed(self.units, sheet, &page, || question_rows(&class.sheets), format, out)?;
                Ok(if format == Format::Table { leaves(&text) } else { text })
            }
        }
    }

    /// A sheet a pupil.
    fn sheets(&self, class: &Class<Sheet>, kind: Kind, out: &OutputArgs) -> Result<String, Failure> {
        let page = |pupil: &Pupil<Sheet>| leaves(&page_text(&question_sheet(&pupil.sheet, &pupil.name), out));
        match kind {
            Kind::Own => Ok(paper_sheets(class)),
            Kind::In(Format::Json) => json_text(&envelope(self.units, class, &Remarks::default())),
            Kind::In(Format::Csv) => csv_text(question_rows(&class.sheets), out),
            Kind::In(Format::Table) => Ok(class.sheets.iter().map(page).collect::<Vec<_>>().join("\u{c}")),
        }
    }

    /// The key: each pupil's answers.
    fn key(&self, class: &Class<Answers>, kind: Kind, out: &OutputArgs) -> Result<String, Failure> {
        let page = |pupil: &Pupil<Answers>| page_text(&answer_sheet(&pupil.sheet, &pupil.name), out);
        match kind {
            Kind::Own => Ok(paper_key(class)),
            Kind::In(Format::Json) => json_text(&envelope(self.units, class, &Remarks::default())),
            Kind::In(Format::Csv) => csv_text(answer_rows(&class.sheets), out),
            Kind::In(Format::Table) => Ok(class.sheets.iter().map(page).collect::<Vec<_>>().join("\u{c}")),
        }
    }
}

/// The names of a class, from a file.
fn names(file: &str) -> Result<Vec<String>, Failure> {
    let source = Source::open_as(
        file,
        "names",
        "--class -: standard input is a terminal: pipe the names in, or name a file with one a line",
        "names are plain text, one a line",
    )?;
    read_names(source.text()).map_err(|error| Failure::input(format!("{}: {error}", source.name())))
}
