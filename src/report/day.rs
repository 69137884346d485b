//! Where the day stands, on one screen: the plan drawn, what to tape, a line a part.

use super::cautions::BURIED_SERVICES;
use super::sketch;
use super::verdicts::{headline, verdicts};
use crate::answer::{Answer, Answered, Day, Question};
use crate::job::Job;
use crate::length::Units;
use crate::page::{Block, Detail, Page, Remarks, Rows, SCREEN, Steps, Verdict, each};
use crate::words::and_list;

/// Lines round the drawing and the parts on a screen: the verdict, what to type next, the caution, and the blank ones.
const AROUND: usize = 7;

impl Answered for Day {
    fn good(&self) -> bool {
        self.sheet.good()
    }

    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let mut remarks = Remarks {
            verdict: Some(Verdict { good: self.good(), words: headline(&self.sheet, job) }),
            ..Remarks::default()
        };
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let short = detail == Detail::Short;
        let first = headline(&self.sheet, job);
        let taped = self.parts.iter().any(|part| part.question == Question::Readings);
        let mut facts = Page::new();
        for part in verdicts(&self.sheet.parts, &[], job) {
            let told = match part.question {
                Question::Corners => true,
                Question::Diagonals | Question::Lines => taped,
                _ => false,
            };
            if !short {
                facts.fact(part.question.title(), part.words);
            } else if !told && !first.starts_with(&part.words) {
                facts.fact(part.question.title(), clause(&part.words));
            }
        }
        let waiting: Vec<String> =
            self.missing.iter().map(|missing| missing.question.title().to_lowercase()).collect();
        if !waiting.is_empty() {
            facts.fact("Waiting", and_list(&waiting));
        }
        let drawn = self.sheet.parts.iter().find_map(|part| match &part.result {
            Answer::Sketch(drawn) => Some(drawn),
            _ => None,
        });
        if let Some(drawn) = drawn {
            let rows = if short { SCREEN.saturating_sub(AROUND + facts.blocks.len()) } else { sketch::ROWS };
            let mut figure = sketch::figure(drawn, job, page.columns, rows.min(sketch::ROWS));
            if short {
                figure.text.truncate(2);
            }
            page.blocks.push(Block::Figure(figure));
        }
        page.blocks.extend(facts.blocks);
    }

    fn rows(&self, _: Units) -> Rows {
        each(&self.parts).column("command", |part| part.question).column("good", |part| part.good).into()
    }

    fn steps(&self, _: &Job) -> Vec<Steps> {
        vec![]
    }
}

/// The first clause of what is said of a part: the rest stands on its own page.
fn clause(words: &str) -> &str {
    let ends = ["; ", ": "].into_iter().filter_map(|end| words.find(end));
    ends.min().map_or(words, |end| &words[..end])
}
