//! What `practice` answers, in the format asked for.

use pegline::answer::Program;
use pegline::page::Page;
use serde::Serialize;

use crate::cli::args::{Format, OutputArgs};
use crate::cli::failure::Failure;
use crate::cli::output::{csv_text, json_text, page_text};

/// The envelope of an answer that has no job.
#[derive(Serialize)]
pub(super) struct Told<'a, T> {
    pegline: Program,
    command: &'static str,
    units: &'static str,
    job: Option<&'a str>,
    plan: Option<&'a str>,
    result: &'a T,
    notes: Vec<String>,
    cautions: Vec<String>,
}

impl<'a, T> Told<'a, T> {
    pub(super) fn new(units: &'static str, result: &'a T) -> Self {
        Self {
            pegline: Program::default(),
            command: "practice",
            units,
            job: None,
            plan: None,
            result,
            notes: vec![],
            cautions: vec![],
        }
    }

    /// With what a page says of the whole.
    pub(super) fn with(mut self, page: &Page) -> Self {
        self.notes.clone_from(&page.remarks.notes);
        self.cautions.clone_from(&page.remarks.cautions);
        self
    }
}

/// The answer on one page.
pub(super) fn printed(
    told: Told<'_, impl Serialize>,
    page: &Page,
    format: Format,
    out: &OutputArgs,
) -> Result<String, Failure> {
    match format {
        Format::Json => json_text(&told.with(page)),
        Format::Table => Ok(page_text(page, out)),
        Format::Csv => csv_text(page),
    }
}
