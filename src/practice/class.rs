//! A class: a sheet with a seed of its own for each name, and what comes back marked together.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::ask::Ask;
use super::edition::MOST_NAMES;
use super::error::PracticeError;
use super::mark::{Mark, MarkedBlank, Marks};
use super::sheet::{Answers, Sheet, sheet};
use super::slip::Slip;
use crate::words::steers;

/// The longest name, characters.
const LONGEST_NAME: usize = 60;
/// How many of the commonest slips go on the board.
const ON_THE_BOARD: usize = 3;

/// One pupil's part of a class set.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "PupilOf{T}")]
pub struct Pupil<T> {
    /// The pupil's name.
    pub name: String,
    /// The sheet, or its answers.
    #[serde(flatten)]
    pub sheet: T,
}

/// Sheets, or their answers, for a class: one for each name, in the order of the names.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
#[schemars(rename = "ClassOf{T}")]
pub struct Class<T> {
    /// One for each pupil.
    pub sheets: Vec<Pupil<T>>,
}

/// Reads names, one a line; lines with nothing on them are passed over.
pub fn read_names(text: &str) -> Result<Vec<String>, PracticeError> {
    let mut names: Vec<String> = vec![];
    for (i, line) in text.lines().enumerate() {
        let name = line.split_whitespace().collect::<Vec<_>>().join(" ");
        if name.is_empty() {
            continue;
        }
        if name.chars().count() > LONGEST_NAME || name.contains(['_', ':']) || name.chars().any(steers) {
            return Err(PracticeError::Name { line: i + 1, longest: LONGEST_NAME });
        }
        if names.iter().any(|other| other.to_lowercase() == name.to_lowercase()) {
            return Err(PracticeError::SameName { line: i + 1, name });
        }
        names.push(name);
    }
    match names.len() {
        1..=MOST_NAMES => Ok(names),
        count => Err(PracticeError::Names(count)),
    }
}

impl Class<Sheet> {
    /// Draws a sheet for each name: the first from the seed asked for, each next one from the next seed.
    pub fn draw(ask: Ask, names: &[String]) -> Result<Self, PracticeError> {
        let seeds = (0..).map(|i| ask.seed.wrapping_add(i));
        let sheets = names.iter().zip(seeds).map(|(name, seed)| {
            let sheet = sheet(Ask { seed, ..ask })?;
            Ok(Pupil { name: name.clone(), sheet })
        });
        Ok(Self { sheets: sheets.collect::<Result<_, _>>()? })
    }

    /// The answers to every sheet.
    #[must_use]
    pub fn answers(&self) -> Class<Answers> {
        let sheets = self.sheets.iter();
        Class {
            sheets: sheets
                .map(|pupil| Pupil { name: pupil.name.clone(), sheet: pupil.sheet.answers() })
                .collect(),
        }
    }
}

/// A sheet that came back, marked.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Returned {
    /// The file that it came in.
    pub file: String,
    /// Its marks.
    #[serde(flatten)]
    pub marks: Marks,
}

impl Returned {
    /// Whose it is: the name on it, or else the file's.
    #[must_use]
    pub fn whose(&self) -> &str {
        self.marks.name.as_deref().unwrap_or(&self.file)
    }
}

/// How often a slip was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Common {
    /// The slip.
    pub slip: Slip,
    /// How often.
    pub times: usize,
    /// On how many sheets.
    pub sheets: usize,
}

/// The sheets of a class, marked together.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct ClassMarks {
    /// Right if every sheet is.
    pub verdict: Mark,
    /// How many questions are right on all the sheets.
    pub right: usize,
    /// How many questions there are.
    pub of: usize,
    /// The sheets, in the order given.
    pub sheets: Vec<Returned>,
    /// The slips that were made, the commonest first.
    pub slips: Vec<Common>,
}

impl ClassMarks {
    /// Puts marked sheets together.
    #[must_use]
    pub fn of(sheets: Vec<Returned>) -> Self {
        let right = sheets.iter().map(|sheet| sheet.marks.right).sum();
        let of = sheets.iter().map(|sheet| sheet.marks.questions.len()).sum();
        let mut slips: Vec<Common> = Slip::ALL.iter().filter_map(|slip| common(*slip, &sheets)).collect();
        // A stable sort: slips that are as common stay in the order of the list.
        slips.sort_by_key(|common| std::cmp::Reverse((common.times, common.sheets)));
        let verdict = if right == of { Mark::Right } else { Mark::Wrong };
        Self { verdict, right, of, sheets, slips }
    }

    /// The slips to talk over with everyone: the commonest of those made more than once.
    #[must_use]
    pub fn for_the_board(&self) -> Vec<Common> {
        self.slips.iter().copied().filter(|common| common.times > 1).take(ON_THE_BOARD).collect()
    }
}

fn common(slip: Slip, sheets: &[Returned]) -> Option<Common> {
    let made: Vec<usize> = sheets
        .iter()
        .enumerate()
        .flat_map(|(i, sheet)| sheet.marks.blanks().map(move |blank| (i, blank)))
        .filter(|(_, blank)| blank.slip == Some(slip))
        .map(|(i, _)| i)
        .collect();
    let on: BTreeSet<usize> = made.iter().copied().collect();
    (!made.is_empty()).then_some(Common { slip, times: made.len(), sheets: on.len() })
}

impl Marks {
    /// Every blank of the sheet, in order.
    pub fn blanks(&self) -> impl Iterator<Item = &MarkedBlank> {
        self.questions.iter().flat_map(|question| &question.blanks)
    }
}
