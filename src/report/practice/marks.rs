//! The pages of what was marked: one sheet, or a class.

use crate::length::trimmed;
use crate::page::{Page, Rows, Table, Verdict, each};
use crate::practice::{ClassMarks, Mark, MarkedBlank, Marks, Returned, Slip, Value};
use crate::words;

/// The marks of one sheet: a verdict, every blank, and what the wrong ones look like.
#[must_use]
pub fn marked_sheet(returned: &Returned) -> Page {
    let marks = &returned.marks;
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
    if let Some(name) = &marks.name {
        page.fact("Name", name);
    }
    page.table(
        Table::of(numbered(marks))
            .numbers("No", |(number, _)| number.to_string())
            .words("Blank", |(_, blank)| &blank.label)
            .numbers("Written", |(_, blank)| shortened(blank.written.as_deref().unwrap_or_default()))
            .numbers("Answer", |(_, blank)| &blank.text)
            .words("Mark", |(_, blank)| label(blank.mark)),
    );
    for remark in &marks.remarks {
        page.remarks.note(remark);
    }
    explain(&mut page, &[marks]);
    if numbered(marks).any(|(_, blank)| blank.mark == Mark::Wrong) {
        page.heading("What the wrong ones look like");
    }
    wrong_ones(&mut page, marks);
    page
}

/// The marks of a class: a line a pupil, the commonest slips, and each pupil's wrong answers.
#[must_use]
pub fn marked_class(class: &ClassMarks) -> Page {
    let mut page = Page::new();
    page.remarks.verdict = Some(Verdict {
        good: class.verdict == Mark::Right,
        words: format!(
            "{} marked: {} of {} right",
            words::count(class.sheets.len(), "sheet"),
            class.right,
            words::count(class.of, "question")
        ),
    });
    let count = |sheet: &Returned, mark| match sheet.marks.blanks().filter(|blank| blank.mark == mark).count()
    {
        0 => String::new(),
        count => count.to_string(),
    };
    page.table(
        Table::of(&class.sheets)
            .words("Name", |sheet| shortened(sheet.whose()))
            .words("Topic", |sheet| sheet.marks.ask.topic.name())
            .numbers("Level", |sheet| sheet.marks.ask.level.number().to_string())
            .numbers("Seed", |sheet| sheet.marks.ask.seed.to_string())
            .numbers("Right", |sheet| format!("{} of {}", sheet.marks.right, sheet.marks.questions.len()))
            .numbers("Follows", |sheet| count(sheet, Mark::Follows))
            .numbers("Not read", |sheet| count(sheet, Mark::Unread))
            .numbers("Missing", |sheet| count(sheet, Mark::Missing)),
    );
    let board = class.for_the_board();
    if !board.is_empty() {
        let slips: Vec<String> = board
            .iter()
            .map(|common| {
                let on = words::count(common.sheets, "sheet");
                format!("{} ({}, on {on})", common.slip.words(), words::count(common.times, "time"))
            })
            .collect();
        page.fact("For the board", slips.join("; "));
    }
    for sheet in &class.sheets {
        if numbered(&sheet.marks).any(|(_, blank)| blank.mark == Mark::Wrong) {
            page.heading(sheet.whose());
        }
        wrong_ones(&mut page, &sheet.marks);
        for remark in &sheet.marks.remarks {
            page.remarks.note(format!("{}: {remark}", sheet.file));
        }
    }
    explain(&mut page, &class.sheets.iter().map(|sheet| &sheet.marks).collect::<Vec<_>>());
    page
}

/// Every blank with its question's number.
fn numbered(marks: &Marks) -> impl Iterator<Item = (u32, &MarkedBlank)> {
    marks.questions.iter().flat_map(|question| question.blanks.iter().map(|blank| (question.number, blank)))
}

/// A line for each wrong answer.
fn wrong_ones(page: &mut Page, marks: &Marks) {
    for (number, blank) in numbered(marks).filter(|(_, blank)| blank.mark == Mark::Wrong) {
        let like = blank.slip.map_or("no usual slip: work it through again", |slip| slip.words());
        page.fact(format!("{number}, {}", blank.label), like);
    }
}

/// What the marks mean that don't speak for themselves.
fn explain(page: &mut Page, sheets: &[&Marks]) {
    let blanks = || sheets.iter().flat_map(|marks| marks.blanks());
    if blanks().any(|blank| blank.mark == Mark::Follows) {
        page.remarks
            .note("follows: right for what is written before it in the same question, which is wrong");
    }
    if let Some(missing) = blanks().find(|blank| blank.mark == Mark::Missing) {
        page.remarks.note(format!(
            "missing: nothing was found there; the name before the = must stay as it is printed, as in `{} = …`",
            missing.label
        ));
    }
}

/// The rows of marked sheets, a row a blank; what was written and what belongs there in words, then as numbers (mm, or a
/// count).
#[must_use]
pub fn mark_rows(sheets: &[Returned]) -> Rows {
    let blanks = sheets.iter().flat_map(|sheet| {
        numbered(&sheet.marks).map(move |(question, blank)| (&sheet.marks, sheet, question, blank))
    });
    each(blanks)
        .column("question", |(_, _, question, _)| question)
        .column("blank", |(.., blank)| &blank.label)
        .column("written", |(.., blank)| &blank.written)
        .column("answer", |(.., blank)| &blank.text)
        .column("mark", |(.., blank)| label(blank.mark))
        .column("slip", |(.., blank)| blank.slip.map(Slip::name))
        .column("name", |(marks, ..)| &marks.name)
        .column("file", |(_, sheet, ..)| &sheet.file)
        .column("topic", |(marks, ..)| marks.ask.topic.name())
        .column("level", |(marks, ..)| marks.ask.level.number())
        .column("seed", |(marks, ..)| marks.ask.seed)
        .column("written_mm_or_count", |(.., blank)| blank.read.as_ref().map(number))
        .column("answer_mm_or_count", |(.., blank)| number(&blank.answer))
        .into()
}

/// A length in mm or a count; nothing for a word.
fn number(value: &Value) -> String {
    match value {
        Value::Length(mm) => trimmed(mm.0, 4),
        Value::Count(count) => count.to_string(),
        Value::Word(_) => String::new(),
    }
}

const fn label(mark: Mark) -> &'static str {
    match mark {
        Mark::Right => "right",
        Mark::Follows => "follows",
        Mark::Wrong => "wrong",
        Mark::Unread => "not read",
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
