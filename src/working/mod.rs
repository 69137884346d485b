//! The working of each answer as on a board: numbered steps, one operation a line, the rounding last.

mod corners;
mod diagonals;
mod readings;
mod triangle;

use crate::answer::Answer;
use crate::job::Job;
use crate::page::Steps;

/// The worked examples of an answer.
#[must_use]
pub fn working(answer: &Answer, job: &Job) -> Vec<Steps> {
    match answer {
        Answer::Diagonals(answer) => job.footprint.as_ref().map_or_else(Vec::new, |footprint| {
            diagonals::steps(answer, footprint, job.units)
        }),
        Answer::Corners(answer) => corners::steps(answer, job.units),
        Answer::Readings(answer) => job
            .footprint
            .as_ref()
            .map_or_else(Vec::new, |footprint| readings::steps(answer, footprint, job)),
    }
}
