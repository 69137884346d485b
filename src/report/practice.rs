//! The pages of a practice sheet: the questions, the answers, the marks; a class set on paper.

mod blank;
mod leaves;
mod marks;
mod paper;

pub use leaves::leaves;
pub use marks::{marked_class, marked_sheet};
pub use paper::{paper_key, paper_sheets};

use crate::length::Units;
use crate::page::{Page, Records, Steps};
use crate::practice::{Answers, Class, Question, Sheet};

/// The question sheet, with blanks to fill; `name` is whose it is, empty for a line to write it on.
#[must_use]
pub fn question_sheet(sheet: &Sheet, name: &str) -> Page {
    let mut page = Page::new();
    page.records = question_rows(sheet, name);
    // As lines of their own that never wrap: they are what marking reads first.
    let name = if name.is_empty() { ".........................." } else { name };
    let score = format!("Score: .... of {}", sheet.questions.len());
    page.lines(vec![sheet.ask.to_string(), format!("Name: {name}  Date: ............  {score}")]);
    page.paragraph(sheet.rule);
    for question in &sheet.questions {
        one_question(&mut page, question, sheet.ask.units);
    }
    page.remarks.note("write your answers over the blanks, and leave what stands before each = as it is");
    page
}

fn one_question(page: &mut Page, question: &Question, units: Units) {
    page.heading(format!("Question {}", question.number));
    page.paragraph(&question.given);
    if !question.sketch.is_empty() {
        page.lines(question.sketch.clone());
    }
    page.paragraph(&question.asked);
    page.lines(question.blanks.iter().map(|blank| blank::to_fill(blank, units)).collect());
}

/// The answer sheet, with the sketch and the working of each question; `name` is whose sheet it is, if anyone's.
#[must_use]
pub fn answer_sheet(answers: &Answers, name: &str) -> Page {
    let mut page = Page::new();
    page.records = answer_rows(answers, name);
    page.heading("Answers");
    page.lines(vec![answers.ask.to_string()]);
    if !name.is_empty() {
        page.fact("Name", name);
    }
    for question in &answers.questions {
        page.heading(format!("Question {}", question.number));
        page.paragraph(&question.given);
        if !question.sketch.is_empty() {
            page.lines(question.sketch.clone());
        }
        page.paragraph(&question.asked);
        let found: Vec<String> =
            question.blanks.iter().map(|blank| format!("    {} = {}", blank.label, blank.text)).collect();
        page.lines(found);
        page.steps([Steps { title: "Working".to_owned(), steps: question.working.clone() }]);
    }
    page
}

/// The rows of a question sheet, a row a blank.
fn question_rows(sheet: &Sheet, name: &str) -> Records {
    let mut records = Records::new(&["question", "given", "asked", "blank", "name", "seed"]);
    for question in &sheet.questions {
        for blank in &question.blanks {
            records.rows.push(vec![
                question.number.to_string(),
                question.given.clone(),
                question.asked.clone(),
                blank.label.clone(),
                name.to_owned(),
                sheet.ask.seed.to_string(),
            ]);
        }
    }
    records
}

/// The rows of its answers.
fn answer_rows(answers: &Answers, name: &str) -> Records {
    let mut records = Records::new(&["question", "blank", "answer", "name", "seed"]);
    for question in &answers.questions {
        for blank in &question.blanks {
            records.rows.push(vec![
                question.number.to_string(),
                blank.label.clone(),
                blank.text.clone(),
                name.to_owned(),
                answers.ask.seed.to_string(),
            ]);
        }
    }
    records
}

/// The rows of a class's sheets.
#[must_use]
pub fn question_records(class: &Class<Sheet>) -> Page {
    together(class.sheets.iter().map(|pupil| question_rows(&pupil.sheet, &pupil.name)))
}

/// The rows of a class's answers.
#[must_use]
pub fn answer_records(class: &Class<Answers>) -> Page {
    together(class.sheets.iter().map(|pupil| answer_rows(&pupil.sheet, &pupil.name)))
}

fn together(all: impl Iterator<Item = Records>) -> Page {
    let mut page = Page::new();
    for records in all {
        page.records.header = records.header;
        page.records.rows.extend(records.rows);
    }
    page
}
