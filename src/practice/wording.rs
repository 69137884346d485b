//! Whether a filled sheet still has the words that its head line says were printed.

use super::error::PracticeError;
use super::question::Question;

/// The words found under each question, beside those that were printed.
pub(super) struct Wording<'a> {
    questions: &'a [Question],
    found: Vec<String>,
}

impl<'a> Wording<'a> {
    pub(super) fn new(questions: &'a [Question]) -> Self {
        Self { questions, found: vec![String::new(); questions.len()] }
    }

    /// Takes a line under question `index` that is no blank's.
    pub(super) fn line(&mut self, index: usize, line: &str) {
        self.found[index] += &bare(line);
    }

    /// The questions that are not as they were printed. One with no words at all was only shortened.
    pub(super) fn faults(&self) -> Vec<PracticeError> {
        let worded = self.questions.iter().zip(&self.found).filter(|(_, found)| !found.is_empty());
        let changed: Vec<u32> = worded
            .clone()
            .filter(|(question, found)| {
                ![&question.given, &question.asked].iter().all(|text| found.contains(&bare(text)))
            })
            .map(|(question, _)| question.number)
            .collect();
        if changed.len() > 1 && changed.len() == worded.count() {
            return vec![PracticeError::OtherSheet];
        }
        changed.into_iter().map(|number| PracticeError::Reworded { number }).collect()
    }
}

/// Letters, digits, points and minuses alone: what wrapping, ASCII printing and an editor's quotes leave as it was.
fn bare(text: &str) -> String {
    let text = text.replace('−', "-");
    text.chars().filter(|c| c.is_alphanumeric() || matches!(c, '.' | '-' | '/')).collect()
}
