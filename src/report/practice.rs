//! The pages of a practice sheet, and its rows for a spreadsheet: the questions, the answers, the marks; a class set on paper.

mod blank;
mod leaves;
mod marks;
mod paper;

pub use leaves::leaves;
pub use marks::{mark_rows, marked_class, marked_sheet};
pub use paper::{paper_key, paper_sheets};

use crate::length::Units;
use crate::page::{Page, Rows, Steps, each};
use crate::practice::{Answers, Pupil, Question, Sheet};

/// The question sheet, with blanks to fill; `name` is whose it is, empty for a line to write it on.
#[must_use]
pub fn question_sheet(sheet: &Sheet, name: &str) -> Page {
    let mut page = Page::new();
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

/// The rows of these pupils' sheets, a row a blank.
#[must_use]
pub fn question_rows(pupils: &[Pupil<Sheet>]) -> Rows {
    let questions = pupils.iter().flat_map(|pupil| pupil.sheet.questions.iter().map(move |q| (pupil, q)));
    each(questions.flat_map(|(pupil, q)| q.blanks.iter().map(move |blank| (pupil, q, blank))))
        .column("question", |(_, question, _)| question.number)
        .column("given", |(_, question, _)| &question.given)
        .column("asked", |(_, question, _)| &question.asked)
        .column("blank", |(.., blank)| &blank.label)
        .column("name", |(pupil, ..)| &pupil.name)
        .column("seed", |(pupil, ..)| pupil.sheet.ask.seed)
        .into()
}

/// The rows of their answers.
#[must_use]
pub fn answer_rows(pupils: &[Pupil<Answers>]) -> Rows {
    let questions = pupils.iter().flat_map(|pupil| pupil.sheet.questions.iter().map(move |q| (pupil, q)));
    each(questions.flat_map(|(pupil, q)| q.blanks.iter().map(move |blank| (pupil, q, blank))))
        .column("question", |(_, question, _)| question.number)
        .column("blank", |(.., blank)| &blank.label)
        .column("answer", |(.., blank)| &blank.text)
        .column("name", |(pupil, ..)| &pupil.name)
        .column("seed", |(pupil, ..)| pupil.sheet.ask.seed)
        .into()
}
