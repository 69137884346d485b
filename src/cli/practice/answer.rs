//! What `practice` answers, in the format asked for.

use pegline::answer::Envelope;
use pegline::length::Units;
use pegline::page::{Page, Remarks, Rows};
use serde::Serialize;

use crate::cli::args::{Format, OutputArgs};
use crate::cli::failure::Failure;
use crate::cli::output::{csv_text, json_text, page_text};

/// The envelope of an answer that has no job.
pub(super) fn envelope<'a, T>(units: Units, result: &'a T, remarks: &'a Remarks) -> Envelope<'a, T> {
    Envelope::without_job("practice", units, result, remarks)
}

/// The answer on one page, or its rows.
pub(super) fn printed(
    units: Units,
    result: &impl Serialize,
    page: &Page,
    rows: impl FnOnce() -> Rows,
    format: Format,
    out: &OutputArgs,
) -> Result<String, Failure> {
    match format {
        Format::Json => json_text(&envelope(units, result, &page.remarks)),
        Format::Table => Ok(page_text(page, out)),
        Format::Csv => csv_text(rows(), out),
    }
}
