//! `pegline practice`: question sheets, their answers, and marking.

use clap::Args;
use pegline::answer::Program;
use pegline::job::LARGEST_FILE;
use pegline::length::Units;
use pegline::page::Page;
use pegline::practice::{Ask, Fault, Form, Level, Mark, Reading, Topic, mark, read_form, read_text, sheet};
use pegline::report::practice::{answer_sheet, marked_sheet, question_sheet};
use serde::{Deserialize, Serialize};

use super::args::{Format, OutputArgs};
use super::encoding::text_of;
use super::failure::{Exit, Failure};
use super::output::{csv_text, json_text, page_text, write_out};
use super::source::bytes_of;

#[derive(Debug, Args)]
pub(super) struct PracticeArgs {
    /// What to practise: diagonals, corners, plates, packs, heights or misread (spot the misread).
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
    /// Mark a filled sheet, as text or as JSON; - is standard input.
    #[arg(long, value_name = "FILE")]
    mark: Option<String>,
}

/// The envelope of an answer that has no job.
#[derive(Serialize)]
struct Told<'a, T> {
    pegline: Program,
    command: &'static str,
    units: &'static str,
    job: Option<&'a str>,
    plan: Option<&'a str>,
    result: &'a T,
    notes: &'a [String],
    cautions: &'a [String],
}

impl PracticeArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        if let Some(name) = &self.mark {
            return mark_file(name, out);
        }
        let topic = self.topic.ok_or_else(|| {
            Failure::input("no topic: write diagonals, corners, plates, packs, heights or misread")
        })?;
        let ask = Ask { topic, level: self.level, seed: self.seed, count: self.count, units: self.units };
        let sheet = sheet(ask).map_err(Failure::input)?;
        if self.answers {
            let answers = sheet.answers();
            tell(ask, &answer_sheet(&answers), &answers, out)?;
        } else {
            tell(ask, &question_sheet(&sheet), &sheet, out)?;
        }
        Ok(Exit::Good)
    }
}

fn tell(ask: Ask, page: &Page, result: &impl Serialize, out: &OutputArgs) -> Result<(), Failure> {
    let told = Told {
        pegline: Program::default(),
        command: "practice",
        units: ask.units.name(),
        job: None,
        plan: None,
        result,
        notes: &page.remarks.notes,
        cautions: &page.remarks.cautions,
    };
    write_out(&match out.format() {
        Format::Json => json_text(&told)?,
        Format::Table => page_text(page, out, false),
        Format::Csv => csv_text(page)?,
    })
}

fn mark_file(name: &str, out: &OutputArgs) -> Result<Exit, Failure> {
    let shown = if name == "-" { "standard input" } else { name };
    let text = read(name, shown)?;
    let told = |faults: Vec<Fault>| {
        let messages = faults.iter().map(|fault| format!("{shown}: {fault}"));
        Failure::Input(messages.collect())
    };
    let reading =
        if text.trim_start().starts_with('{') { read_form(&form(&text, shown)?) } else { read_text(&text) };
    let reading: Reading = reading.map_err(told)?;
    let marks = mark(&reading);
    tell(marks.ask, &marked_sheet(&marks), &marks, out)?;
    Ok(if marks.verdict == Mark::Right { Exit::Good } else { Exit::Bad })
}

/// The JSON sheet, whose `result` is a form to fill in.
#[derive(Deserialize)]
struct Whole {
    result: Form,
}

/// A form, or the JSON sheet with its `answers` filled in.
fn form(text: &str, shown: &str) -> Result<Form, Failure> {
    let bad = |place: String, error: serde_json::Error| {
        let said = error.to_string();
        let problem = if !error.is_data() {
            "this is not JSON".to_owned()
        } else if let Some(name) = said.strip_prefix("missing field `") {
            format!("`{}` is missing", name.split('`').next().unwrap_or_default())
        } else if let Some(name) = said.strip_prefix("duplicate field `") {
            format!("`{}` is given twice", name.split('`').next().unwrap_or_default())
        } else {
            "a value of another kind belongs here".to_owned()
        };
        Failure::input(format!(
            "{shown}:{}:{}: {place}{problem}: write {{\"topic\": \"diagonals\", \"level\": 1, \"seed\": 7, \"count\": 8, \"answers\": {{\"1\": 8591}}}}",
            error.line(),
            error.column()
        ))
    };
    let at = |path: &serde_path_to_error::Path| {
        let path = path.to_string();
        // The path to what can't be read at all has a question mark for its end.
        if path.ends_with(['.', '?']) {
            String::new()
        } else {
            // Nested without end it is as long as the file.
            let near = path.chars().take(40).collect::<String>();
            format!("{near}: ")
        }
    };
    let mut reader = serde_json::Deserializer::from_str(text);
    let is_sheet =
        serde_json::from_str(text).is_ok_and(|json: serde_json::Value| json.get("result").is_some());
    if is_sheet {
        let whole: Result<Whole, _> = serde_path_to_error::deserialize(&mut reader);
        return whole.map(|whole| whole.result).map_err(|error| bad(at(error.path()), error.into_inner()));
    }
    serde_path_to_error::deserialize(&mut reader).map_err(|error| bad(at(error.path()), error.into_inner()))
}

/// The text of a filled sheet's file, or of standard input for `-`.
fn read(name: &str, shown: &str) -> Result<String, Failure> {
    let bytes = bytes_of(
        name,
        format!("reading the filled sheet from {shown}"),
        "--mark: no file is named for the filled sheet: write its name, or - for standard input",
        "--mark -: standard input is a terminal: pipe a filled sheet in, or name its file",
    )?;
    if bytes.len() > LARGEST_FILE {
        return Err(Failure::input(format!(
            "{shown}: the file is over {LARGEST_FILE} bytes (1 MiB): a filled sheet is a few kilobytes"
        )));
    }
    text_of(bytes, "this is not text (UTF-8): save the filled sheet as plain text or JSON")
        .map_err(|problem| Failure::input(format!("{shown}: {problem}")))
}
