//! Where the day stands, on one screen: the plan drawn, what to tape, a line a part.

use super::board::{PartVerdict, board};
use super::cautions::BURIED_SERVICES;
use super::sketch;
use crate::answer::{Answer, Answered, Day, Question};
use crate::job::Job;
use crate::length::Units;
use crate::page::{Block, Detail, Page, Remarks, Rows, Steps, Verdict, each};
use crate::words::and_list;

impl Answered for Day {
    fn good(&self) -> bool {
        self.sheet.good()
    }

    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let mut remarks = Remarks {
            verdict: Some(Verdict { good: self.good(), words: headline(self, job) }),
            ..Remarks::default()
        };
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let drawn = self.sheet.parts.iter().find_map(|part| match &part.result {
            Answer::Sketch(drawn) => Some(drawn),
            _ => None,
        });
        if let Some(drawn) = drawn {
            let mut figure = sketch::figure(drawn, job);
            if detail == Detail::Short {
                figure.text.truncate(2);
            }
            page.blocks.push(Block::Figure(figure));
        }
        let first = headline(self, job);
        let taped = self.parts.iter().any(|part| part.question == Question::Readings);
        for part in board(&self.sheet.parts, &[], job) {
            let of_the_plan =
                matches!(part.question, Question::Diagonals | Question::Corners | Question::Lines);
            if detail == Detail::Short && (of_the_plan && taped || first.starts_with(&part.words)) {
                continue;
            }
            page.fact(
                part.question.title(),
                if detail == Detail::Short { clause(&part.words) } else { &part.words },
            );
        }
        let waiting: Vec<String> =
            self.missing.iter().map(|missing| missing.question.title().to_lowercase()).collect();
        if !waiting.is_empty() {
            page.fact("Waiting", and_list(&waiting));
        }
    }

    fn rows(&self, _: Units) -> Rows {
        each(&self.parts).column("command", |part| part.question).column("good", |part| part.good).into()
    }

    fn steps(&self, _: &Job) -> Vec<Steps> {
        vec![]
    }
}

/// What to do first: what a part that is not right says, or else what to tape, or what waits.
fn headline(answer: &Day, job: &Job) -> String {
    let standing = board(&answer.sheet.parts, &[], job);
    let words = |question: Question| standing.iter().find(|part| part.question == question);
    let bad: Vec<&PartVerdict> = standing.iter().filter(|part| part.good == Some(false)).collect();
    if let [first, rest @ ..] = &bad[..] {
        let rest: Vec<String> = rest.iter().map(|part| part.question.title().to_lowercase()).collect();
        let also =
            if rest.is_empty() { String::new() } else { format!("; not right yet too: {}", and_list(&rest)) };
        return format!("{}{also}", first.words);
    }
    let to_tape = words(Question::Diagonals).filter(|_| words(Question::Readings).is_none());
    if let Some(to_tape) = to_tape {
        return to_tape.words.clone();
    }
    let of_the_plan = |part: &&PartVerdict| matches!(part.question, Question::Diagonals | Question::Corners);
    let judged = standing.iter().filter(|part| !of_the_plan(part));
    let names: Vec<String> = judged.map(|part| part.question.title().to_lowercase()).collect();
    format!("All well so far: {}", and_list(&names))
}

/// The first clause of what is said of a part: the rest stands on its own page.
fn clause(words: &str) -> &str {
    words.split_once("; ").map_or(words, |(first, _)| first)
}
