//! The whole job on one page: each part's own page in turn, what they share told once.

use super::{body_of, plan, remarks_of, sketch};
use crate::answer::{Answer, Part, Question, Sheet};
use crate::job::Job;
use crate::page::{Block, Page, Records, Remarks, Verdict};
use crate::words::and_list;

/// What is said of the whole job: which parts are not right, every part's cautions, and the notes on what all of them share.
pub(super) fn remarks(answer: &Sheet, job: &Job) -> Remarks {
    let mut remarks = plan::remarks(job);
    let mut bad = vec![];
    for part in &answer.parts {
        let own = remarks_of(&part.result, job, false);
        // The drawing stands over the parts, and its notes with those on the whole.
        if part.question == Question::Sketch {
            remarks.notes.extend(own.notes);
        }
        for caution in own.cautions {
            remarks.caution(caution);
        }
        if !part.result.good() {
            bad.push(name(part.question).to_lowercase());
        }
    }
    if !bad.is_empty() {
        remarks.verdict = Some(Verdict { good: false, words: format!("Not right yet: {}", and_list(&bad)) });
    }
    remarks
}

/// Fills the page.
pub(super) fn body(page: &mut Page, answer: &Sheet, job: &Job) {
    page.data(|| Records::new(&["part", "row", "column", "value"]));
    plan::echo(page, job);
    for part in &answer.parts {
        if let Answer::Sketch(drawn) = &part.result {
            page.lines(vec![String::new()]);
            let figure = sketch::figure(page, drawn, job);
            page.blocks.push(Block::Figure(figure));
            continue;
        }
        let mut own = Page::of(remarks_of(&part.result, job, false), page.printer);
        body_of(&mut own, &part.result, job, false);
        add(page, part, own);
    }
    if !answer.missing.is_empty() {
        page.part("Not on this sheet yet");
        for missing in &answer.missing {
            page.fact(name(missing.question), format!("for these the job file needs {}", missing.needs));
        }
    }
}

/// What a part is called on the sheet.
const fn name(question: Question) -> &'static str {
    match question {
        Question::Diagonals => "Check sizes",
        Question::Corners => "Corners",
        Question::Lines => "Lines and profiles",
        Question::Plates => "Plates",
        Question::Cuts => "Other pieces",
        Question::Readings => "Taped readings",
        Question::Straight => "Straightness",
        Question::Packs => "Packing",
        Question::Heights => "Heights",
        Question::Order => "Order",
        Question::Sketch => "Sketch",
        Question::Sheet => "Sheet",
    }
}

/// Adds a part's page: its facts unless the sheet has told them, its notes with it; its cautions stand at the end of all.
fn add(page: &mut Page, part: &Part, own: Page) {
    page.part(name(part.question));
    page.blocks.extend(own.remarks.verdict.map(Block::Verdict));
    let told = |page: &Page, block: &Block| matches!(block, Block::Fact(..)) && page.blocks.contains(block);
    let mut blocks = own.blocks.into_iter().peekable();
    while let Some(block) = blocks.next() {
        if told(page, &block) {
            continue;
        }
        // A heading over nothing but what has been told goes too.
        if matches!(block, Block::Heading(_)) {
            while blocks.next_if(|next| told(page, next)).is_some() {}
            if blocks.peek().is_none_or(|next| matches!(next, Block::Heading(_))) {
                continue;
            }
        }
        page.blocks.push(block);
    }
    for note in own.remarks.notes {
        // The plan's own notes come with every part.
        if !page.remarks.notes.contains(&note) {
            page.blocks.push(Block::Fact("Note".to_owned(), note));
        }
    }
    for (i, row) in own.records.rows.iter().enumerate() {
        let cells = own.records.header.iter().zip(row);
        page.records.rows.extend(cells.map(|(column, value)| {
            vec![part.question.name().to_owned(), (i + 1).to_string(), column.clone(), value.clone()]
        }));
    }
}
