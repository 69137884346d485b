//! The pages of a practice sheet: the questions, the answers, the marks.

use crate::length::Units;
use crate::page::{Page, Records, Steps, Table, Verdict};
use crate::practice::{Answers, Blank, Kind, Mark, MarkedBlank, Marks, Question, Sheet};

/// The question sheet, with blanks to fill.
#[must_use]
pub fn question_sheet(sheet: &Sheet) -> Page {
    let mut page = Page::new();
    page.records = Records::new(&["question", "given", "asked", "blank"]);
    // As a line of its own that never wraps: it is what marking reads first.
    page.lines(vec![sheet.ask.to_string()]);
    page.paragraph(sheet.rule);
    for question in &sheet.questions {
        one_question(&mut page, question, sheet.ask.units);
    }
    page.remarks.note(
        "write your answers over the blanks and have the sheet marked with `pegline practice --mark FILE`, or the \
         answers printed with --answers",
    );
    page
}

fn one_question(page: &mut Page, question: &Question, units: Units) {
    page.heading(format!("Question {}", question.number));
    page.paragraph(&question.given);
    if !question.sketch.is_empty() {
        page.lines(question.sketch.clone());
    }
    page.paragraph(&question.asked);
    page.lines(question.blanks.iter().map(|blank| line(blank, units)).collect());
    for blank in &question.blanks {
        page.records.rows.push(vec![
            question.number.to_string(),
            question.given.clone(),
            question.asked.clone(),
            blank.label.clone(),
        ]);
    }
}

/// `    AC = ________ mm`
fn line(blank: &Blank, units: Units) -> String {
    let unit = match (blank.kind, units) {
        (Kind::Length, Units::Mm | Units::M) => units.name(),
        (Kind::Length, Units::FeetInches) | (Kind::Count | Kind::Word, _) => "",
    };
    format!("    {} = ________ {unit}", blank.label)
}

/// The answer sheet, with the working of each question.
#[must_use]
pub fn answer_sheet(answers: &Answers) -> Page {
    let mut page = Page::new();
    page.records = Records::new(&["question", "blank", "answer"]);
    page.heading("Answers");
    page.lines(vec![answers.ask.to_string()]);
    for question in &answers.questions {
        page.heading(format!("Question {}", question.number));
        page.paragraph(&question.given);
        page.paragraph(&question.asked);
        let found: Vec<String> =
            question.blanks.iter().map(|blank| format!("    {} = {}", blank.label, blank.text)).collect();
        page.lines(found);
        page.steps([Steps { title: "Working".to_owned(), steps: question.working.clone() }]);
        for blank in &question.blanks {
            page.records.rows.push(vec![
                question.number.to_string(),
                blank.label.clone(),
                blank.text.clone(),
            ]);
        }
    }
    page
}

/// The marks: a verdict, every blank, and what the wrong ones look like.
#[must_use]
pub fn marked_sheet(marks: &Marks) -> Page {
    let mut page = Page::new();
    let of = marks.questions.len();
    page.remarks.verdict = Some(Verdict {
        good: marks.verdict == Mark::Right,
        words: if marks.verdict == Mark::Right {
            format!("All right: {of} of {of}")
        } else {
            format!("{} of {of} right", marks.right)
        },
    });
    page.lines(vec![marks.ask.to_string()]);
    page.records = Records::new(&["question", "blank", "written", "answer", "mark", "slip"]);
    let mut table =
        Table::new().numbers("No").words("Blank").numbers("Written").numbers("Answer").words("Mark");
    for question in &marks.questions {
        for blank in &question.blanks {
            let written = blank.written.clone().unwrap_or_default();
            table.row([
                question.number.to_string(),
                blank.label.clone(),
                shortened(&written),
                blank.text.clone(),
                word(blank.mark).to_owned(),
            ]);
            page.records.rows.push(vec![
                question.number.to_string(),
                blank.label.clone(),
                written,
                blank.text.clone(),
                word(blank.mark).to_owned(),
                blank.slip.map_or("", |slip| slip.name()).to_owned(),
            ]);
        }
    }
    page.table(table);
    for remark in &marks.remarks {
        page.remarks.note(remark);
    }
    let mut blanks = marks.questions.iter().flat_map(|question| &question.blanks);
    if blanks.clone().any(|blank| blank.mark == Mark::Follows) {
        page.remarks
            .note("follows: right for what is written before it in the same question, which is wrong");
    }
    if let Some(missing) = blanks.find(|blank| blank.mark == Mark::Missing) {
        page.remarks.note(format!(
            "missing: nothing was found there; the name before the = must stay as it is printed, as in `{} = …`",
            missing.label
        ));
    }
    let wrong: Vec<(u32, &MarkedBlank)> = marks
        .questions
        .iter()
        .flat_map(|question| question.blanks.iter().map(|blank| (question.number, blank)))
        .filter(|(_, blank)| blank.mark == Mark::Wrong)
        .collect();
    if !wrong.is_empty() {
        page.heading("What the wrong ones look like");
    }
    for (number, blank) in wrong {
        let like = blank.slip.map_or("no usual slip: work it through again", |slip| slip.words());
        page.fact(format!("{number}, {}", blank.label), like);
    }
    page
}

const fn word(mark: Mark) -> &'static str {
    match mark {
        Mark::Right => "right",
        Mark::Follows => "follows",
        Mark::Unread => "not read",
        Mark::Wrong => "wrong",
        Mark::Missing => "missing",
    }
}

/// Enough of what was written for a table.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(20) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
