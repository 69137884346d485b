//! What every answer has to say, to people and to other programs.

use crate::job::Job;
use crate::length::Units;
use crate::page::{Detail, Page, Remarks, Rows, Steps};

/// An answer as it is judged and said. The words are not made here: each command's stand with its page.
pub trait Answered {
    /// Whether all is well, as far as the question asks for a verdict.
    fn good(&self) -> bool {
        true
    }

    /// What is said of it as a whole, in as much detail as is asked for.
    fn remarks(&self, job: &Job, detail: Detail) -> Remarks;

    /// Fills a page in as much detail as is asked for.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail);

    /// Its main rows for a spreadsheet, lengths in mm; sizes in words, as an order has them, are in `units`.
    fn rows(&self, units: Units) -> Rows;

    /// How it is worked out by hand.
    fn steps(&self, job: &Job) -> Vec<Steps>;
}
