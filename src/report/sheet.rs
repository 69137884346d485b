//! The whole job on one page: each part's own page in turn, what they share told once.

use super::{filled, plan, sketch};
use crate::answer::{Answer, Part, Question, Sheet};
use crate::job::Job;
use crate::page::{Block, Extent, Page, Records, Verdict};
use crate::words::and_list;

/// Fills the page.
pub(super) fn report(page: &mut Page, answer: &Sheet, job: &Job) {
    page.data(|| Records::new(&["part", "row", "column", "value"]));
    plan::echo(page, job);
    let mut bad = vec![];
    for part in &answer.parts {
        if let Answer::Sketch(drawn) = &part.result {
            if page.extent > Extent::Remarks {
                page.lines(vec![String::new()]);
                let figure = sketch::figure(page, drawn, job);
                page.blocks.push(Block::Figure(figure));
            }
            sketch::remarks(page, drawn);
            continue;
        }
        let own = filled(&part.result, job, page.extent.min(Extent::Essentials), page.printer);
        if own.verdict.as_ref().is_some_and(|verdict| !verdict.good) {
            bad.push(name(part.question).to_lowercase());
        }
        add(page, part, own);
    }
    if !bad.is_empty() {
        page.verdict = Some(Verdict { good: false, words: format!("Not right yet: {}", and_list(&bad)) });
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

/// Adds a part's page: its facts unless the sheet has told them, its notes with it, its cautions at the end of all.
fn add(page: &mut Page, part: &Part, own: Page) {
    page.part(name(part.question));
    page.blocks.extend(own.verdict.map(Block::Verdict));
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
    for note in own.notes {
        // The plan's own notes come with every part.
        if !page.notes.contains(&note) {
            page.blocks.push(Block::Fact("Note".to_owned(), note));
        }
    }
    for caution in own.cautions {
        page.caution(caution);
    }
    for (i, row) in own.records.rows.iter().enumerate() {
        let cells = own.records.header.iter().zip(row);
        page.records.rows.extend(cells.map(|(column, value)| {
            vec![part.question.name().to_owned(), (i + 1).to_string(), column.clone(), value.clone()]
        }));
    }
}
