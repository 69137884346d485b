//! The whole job on one page: each part's own page in turn, what they share told once.

use super::verdicts::{headline, verdicts};
use super::{plan, sketch};
use crate::answer::{Answer, AnswerError, Answered, Part, Question, Sheet, Sketch};
use crate::job::{Job, Subject};
use crate::length::Units;
use crate::page::{Block, Detail, Figure, Page, Remarks, Rows, Steps, Table, Verdict};

impl Answered for Sheet {
    fn good(&self) -> bool {
        self.parts.iter().all(|part| part.result.good())
    }

    /// What is said of the whole job: what to do first, and every part's cautions.
    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let verdict = Verdict { good: self.good(), words: headline(self, job) };
        let mut remarks = Remarks { verdict: Some(verdict), ..Remarks::default() };
        for part in &self.parts {
            let own = part.result.remarks(job, Detail::Part);
            for caution in own.cautions {
                remarks.caution(caution);
            }
        }
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, _: Detail) {
        plan::echo(page, job, Detail::Full);
        let board = verdicts(&self.parts, &self.missing, job);
        page.heading("Where the job stands").table(
            Table::of(&board)
                .words("Part", |part| part.question.title())
                .words("Stands", |part| match part.good {
                    Some(true) => "answered",
                    Some(false) => "not right",
                    None => "open",
                })
                .words("What it comes to", |part| part.words.as_str()),
        );
        for part in &self.parts {
            if let Answer::Sketch(drawn) = &part.result {
                page.lines(vec![String::new()]);
                page.blocks.push(Block::Figure(sketch::figure(drawn, job, page.columns, sketch::ROWS)));
                continue;
            }
            let remarks = part.result.remarks(job, Detail::Part);
            let mut own = Page { columns: page.columns, ..Page::of(remarks) };
            part.result.body(&mut own, job, Detail::Part);
            add(page, part, own);
        }
    }

    /// The rows for a spreadsheet: one for each cell of each part's own, since every part has its own columns; a drawing's are
    /// left out.
    fn rows(&self, units: Units) -> Rows {
        let mut sheet = Rows::under(&["part", "row", "column", "value"]);
        for part in self.parts.iter().filter(|part| part.question != Question::Sketch) {
            sheet.add(part.result.rows(units).by_cell(part.question.name()));
        }
        sheet
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        self.parts.iter().flat_map(|part| part.result.steps(job)).collect()
    }
}

/// Adds a part's page: its facts unless the sheet has told them, its notes with it; its cautions stand at the end of all.
fn add(page: &mut Page, part: &Part, own: Page) {
    page.part(part.question.title());
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
}

/// Draws the pictures of a sheet's page, the job's own drawing first: those who print text alone want none.
pub fn illustrate(page: &mut Page, answer: &Answer, job: &Job) -> Result<(), AnswerError> {
    let Answer::Sheet(sheet) = answer else { return Ok(()) };
    let mut pictures = vec![];
    for part in &sheet.parts {
        let subject = match &part.result {
            Answer::Sketch(drawn) => {
                pictures.push(sketch::picture(drawn).map_err(AnswerError::refused(job.units))?);
                continue;
            }
            Answer::Plates(_) => Subject::Plates,
            Answer::Joists(_) => Subject::Joists,
            _ => continue,
        };
        if subject != job.sketch.of {
            pictures.push(
                sketch::picture(&Sketch::of(job, subject, &sheet.parts)?)
                    .map_err(AnswerError::refused(job.units))?,
            );
        }
    }
    let place = page.blocks.iter().position(|block| matches!(block, Block::Figure(_)));
    let drawn = pictures.into_iter().map(|picture| Figure { text: vec![], picture: Some(picture) });
    if let Some(place) = place {
        page.blocks.splice(place..=place, drawn.map(Block::Figure));
    }
    Ok(())
}
