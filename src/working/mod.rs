//! The working of each answer as on a board: numbered steps, one operation a line, the rounding last.
//!
//! ```
//! use pegline::answer::Question;
//! use pegline::job::{Job, read};
//! use pegline::working::working;
//!
//! let file = read(r#"{"plan": "3mx4m"}"#)?;
//! let job = Job::check(&file).expect("nothing is wrong with it");
//! let answer = job.answer(Question::Diagonals).expect("it has a plan");
//! let steps = working(&answer, &job);
//! assert!(steps[0].steps.iter().any(|step| step.contains("√25")), "{:?}", steps[0]);
//! # Ok::<(), pegline::job::JobFileError>(())
//! ```

mod corners;
mod diagonals;
mod figure;
mod heights;
mod lines;
mod order;
mod packs;
mod plates;
mod readings;
mod straight;
mod triangle;

use crate::answer::Answer;
use crate::job::Job;
use crate::page::Steps;

/// The worked examples of an answer.
#[must_use]
pub fn working(answer: &Answer, job: &Job) -> Vec<Steps> {
    match answer {
        Answer::Diagonals(answer) => job
            .footprint
            .as_ref()
            .map_or_else(Vec::new, |footprint| diagonals::steps(answer, footprint, job.units)),
        Answer::Corners(answer) => corners::steps(answer, job.units),
        Answer::Plates(answer) => match (&job.plates, &job.footprint) {
            (Some(options), Some(footprint)) => plates::steps(answer, footprint, &options.timber, job.units),
            _ => vec![],
        },
        Answer::Cuts(answer) => job.cuts.as_ref().map_or_else(Vec::new, |question| {
            plates::bar_steps(&answer.bars, &question.timber, job.units).collect()
        }),
        Answer::Packs(answer) => match (&job.packs, &job.footprint) {
            (Some(packing), Some(footprint)) => packs::steps(answer, packing, footprint, job.units),
            _ => vec![],
        },
        Answer::Heights(answer) => {
            job.heights.as_ref().map_or_else(Vec::new, |head| heights::steps(answer, head, job.units))
        }
        Answer::Lines(answer) => job
            .footprint
            .as_ref()
            .map_or_else(Vec::new, |footprint| lines::steps(answer, footprint, job.units)),
        Answer::Straight(answer) => straight::steps(answer, job.units),
        Answer::Readings(answer) => {
            job.footprint.as_ref().map_or_else(Vec::new, |footprint| readings::steps(answer, footprint, job))
        }
        Answer::Sketch(_) => vec![],
        Answer::Sheet(sheet) => sheet.parts.iter().flat_map(|part| working(&part.result, job)).collect(),
        Answer::Order(answer) => order::steps(answer, job.units),
    }
}
