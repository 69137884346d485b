//! The one integration-test binary: a file a subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at the first surprise"
)]

mod bracing;
mod cli;
mod cli_errors;
mod cli_files;
mod cli_pages;
mod geometry;
mod job;
mod length;
mod outlines;
mod plan;
mod plan_errors;
mod program;
mod tape;
mod triples;
