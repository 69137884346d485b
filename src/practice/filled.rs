//! A filled sheet read back: the plain sheet with its blanks filled in, or a form with the answers by number.

use std::collections::BTreeMap;
use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::ask::{Ask, same_edition};
use super::edition::EDITION;
use super::error::PracticeError;
use super::question::{Blank, Kind, Question};
use super::sheet::{Sheet, sheet};
use super::wording::Wording;
use crate::length::Units;

/// A filled form. `answers` has a question's number with what was written: a number, a text, or a list where the
/// question has several blanks; null for nothing.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Form {
    /// The topic.
    pub topic: String,
    /// The level.
    pub level: u32,
    /// The seed.
    pub seed: u32,
    /// How many questions.
    pub count: u32,
    /// The units; mm if left out.
    pub units: Option<String>,
    /// The edition of the generator; this one if left out.
    pub edition: Option<u32>,
    /// Whose it is.
    pub name: Option<String>,
    /// What was written, by question.
    pub answers: BTreeMap<String, Entry>,
}

/// What was written for a question.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(untagged)]
pub enum Entry {
    /// Nothing.
    Nothing,
    /// A bare number, in the sheet's units (feet on a sheet in feet and inches).
    Number(f64),
    /// A text, such as `28ft 2-1/4in`.
    Text(String),
    /// One for each blank.
    List(Vec<Self>),
}

/// Where something was written.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(untagged)]
pub enum Place {
    /// A line of the plain sheet, from 1.
    Line(usize),
    /// A field of the form.
    Field(String),
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Line(line) => write!(f, "line {line}"),
            Self::Field(field) => f.write_str(field),
        }
    }
}

/// What is wrong with a filled sheet, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}{error}", place.as_ref().map_or_else(String::new, |place| format!("{place}: ")))]
pub struct Fault {
    /// Where.
    pub place: Option<Place>,
    /// What, and what to write instead.
    pub error: PracticeError,
}

/// What was written in a blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// As written, without the blank's underscores and its printed unit.
    pub text: String,
    /// Where.
    pub place: Place,
    /// Whether something else was written there before it, so that neither can be taken.
    pub twice: bool,
}

/// A filled sheet: its questions, and what was written in each blank of each.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The sheet, drawn again from its head line.
    pub sheet: Sheet,
    /// Whose it is, as written on it.
    pub name: Option<String>,
    /// What was written, by question and blank.
    pub written: Vec<Vec<Option<Written>>>,
    /// What is not as it was printed.
    pub remarks: Vec<Fault>,
}

impl Reading {
    fn empty(sheet: Sheet) -> Self {
        let written = sheet.questions.iter().map(|q| vec![None; q.blanks.len()]).collect();
        Self { sheet, name: None, written, remarks: vec![] }
    }
}

/// The sheets that one text holds, each from its head line to the next; the whole text where there are fewer than two.
#[must_use]
pub fn sheets_in(text: &str) -> Vec<&str> {
    let mut heads = vec![];
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if Ask::is_head(line) {
            heads.push(at);
        }
        at += line.len();
    }
    if heads.len() < 2 {
        return vec![text];
    }
    let ends = heads.iter().skip(1).copied().chain([text.len()]);
    heads.iter().zip(ends).map(|(from, to)| &text[*from..to]).collect()
}

/// Reads a filled plain sheet. Whatever is on it besides its head line, its name, `Question` lines and blanks is passed
/// over, but that words of another sheet are told.
pub fn read_text(text: &str) -> Result<Reading, Vec<Fault>> {
    let at = |line: usize, error| vec![Fault { place: Some(Place::Line(line)), error }];
    let head = text.lines().enumerate().find(|(_, line)| Ask::is_head(line));
    let Some((number, head)) = head else {
        return Err(vec![Fault { place: None, error: PracticeError::NoHead }]);
    };
    let ask = Ask::from_head(head).map_err(|error| at(number + 1, error))?;
    let mut reading = Reading::empty(sheet(ask).map_err(|error| at(number + 1, error))?);
    reading.name = text.lines().find_map(name);
    let mut current: Option<usize> = None;
    let mut wording = Wording::new(&reading.sheet.questions);
    for (i, line) in text.lines().enumerate() {
        let place = Place::Line(i + 1);
        if let Some(rest) = line.trim().strip_prefix("Question ") {
            let given = rest.trim_end_matches([':', '.', ' ']);
            current = index(&reading.sheet, given);
            if current.is_none() {
                reading.remarks.push(Fault { place: Some(place), error: no_such(&reading.sheet, given) });
            }
        } else if let Some(index) = current {
            let question = &reading.sheet.questions[index];
            if let Some((blank, text)) = blank_line(question, line) {
                let text = unit_taken_off(&question.blanks[blank], text, ask.units);
                if !text.is_empty() {
                    let written = &mut reading.written[index][blank];
                    let twice = written.as_ref().is_some_and(|before| before.twice || before.text != text);
                    *written = Some(Written { text, place, twice });
                }
            } else {
                wording.line(index, line);
            }
        }
    }
    reading.remarks.extend(wording.faults().into_iter().map(|error| Fault { place: None, error }));
    Ok(reading)
}

/// The name on a line `Name: Sam Roe  Date: …`; nothing if none is written over the dots or the rule.
fn name(line: &str) -> Option<String> {
    let rest = line.trim().strip_prefix("Name:")?;
    let name = rest.split("Date:").next()?.replace('_', " ").replace("..", " ");
    let name = name.split_whitespace().filter(|word| *word != ".").collect::<Vec<_>>().join(" ");
    (!name.is_empty()).then_some(name)
}

/// The place of question `given` on the sheet.
fn index(sheet: &Sheet, given: &str) -> Option<usize> {
    let number: u32 = given.trim().parse().ok()?;
    sheet.questions.iter().position(|q| q.number == number)
}

fn no_such(sheet: &Sheet, given: &str) -> PracticeError {
    PracticeError::NoSuchQuestion { number: given.to_owned(), count: sheet.ask.count }
}

/// The blank whose line it is, and what stands behind its `=`; nothing if it is no blank's line.
fn blank_line(question: &Question, line: &str) -> Option<(usize, String)> {
    let (label, rest) = line.split_once('=')?;
    let label = label.trim();
    let index = question.blanks.iter().position(|blank| blank.label.eq_ignore_ascii_case(label))?;
    Some((index, rest.replace('_', " ").trim().to_owned()))
}

/// What is written in a blank: the printed unit stays behind one that was left, or filled with a unit of its own.
fn unit_taken_off(blank: &Blank, text: String, units: Units) -> String {
    if blank.kind != Kind::Length || units != Units::Mm {
        return text;
    }
    let bare = text.strip_suffix("mm").unwrap_or(&text).trim_end();
    let ends_in_unit = |c: char| c.is_alphabetic() || matches!(c, '"' | '\'' | '²');
    if bare.is_empty() || bare.ends_with(ends_in_unit) { bare.to_owned() } else { text }
}

/// Reads a filled form.
pub fn read_form(form: &Form) -> Result<Reading, Vec<Fault>> {
    let ask = asked(form)?;
    let sheet = sheet(ask).map_err(|error| vec![at("count", error)])?;
    let mut reading = Reading::empty(sheet);
    reading.name.clone_from(&form.name);
    let mut faults = vec![];
    for (number, entry) in &form.answers {
        let field = format!("answers.{number}");
        let Some(index) = index(&reading.sheet, number) else {
            faults.push(at(&field, no_such(&reading.sheet, number)));
            continue;
        };
        let entries: Vec<&Entry> = match entry {
            Entry::Nothing => vec![],
            Entry::List(list) => list.iter().collect(),
            one => vec![one],
        };
        let blanks = reading.written[index].len();
        let alone = matches!(entry, Entry::Nothing);
        let number = reading.sheet.questions[index].number;
        if entries.iter().any(|e| matches!(e, Entry::List(_))) {
            faults.push(at(&field, PracticeError::ListInList { number }));
            continue;
        }
        if !alone && entries.len() != blanks {
            let error = PracticeError::Blanks { number, blanks, given: entries.len() };
            faults.push(at(&field, error));
            continue;
        }
        for (written, entry) in reading.written[index].iter_mut().zip(entries) {
            *written = entry.text().map(|text| {
                let place = Place::Field(field.clone());
                Written { text, place, twice: false }
            });
        }
    }
    if faults.is_empty() { Ok(reading) } else { Err(faults) }
}

fn at(field: &str, error: PracticeError) -> Fault {
    Fault { place: Some(Place::Field(field.to_owned())), error }
}

/// What sheet a form is of.
fn asked(form: &Form) -> Result<Ask, Vec<Fault>> {
    let mut faults = vec![];
    let topic = form.topic.parse().map_err(|error| faults.push(at("topic", error)));
    let level = form.level.to_string().parse().map_err(|error| faults.push(at("level", error)));
    let units = form.units.as_deref().map_or(Ok(Units::Mm), |text| {
        text.parse().map_err(|_| faults.push(at("units", PracticeError::Units(text.to_owned()))))
    });
    if let Err(error) = same_edition(&form.edition.unwrap_or(EDITION).to_string()) {
        faults.push(at("edition", error));
    }
    let (Ok(topic), Ok(level), Ok(units)) = (topic, level, units) else {
        return Err(faults);
    };
    let ask = Ask { topic, level, seed: form.seed, count: form.count, units };
    if let Err(error) = ask.check() {
        let field = if matches!(error, PracticeError::Units(_)) { "units" } else { "count" };
        faults.push(at(field, error));
    }
    if faults.is_empty() { Ok(ask) } else { Err(faults) }
}

impl Entry {
    /// What was written; nothing for nothing.
    fn text(&self) -> Option<String> {
        match self {
            Self::Nothing | Self::List(_) => None,
            Self::Number(number) => Some(number.to_string()),
            Self::Text(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        }
    }
}
