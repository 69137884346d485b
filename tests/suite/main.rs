//! The one integration-test binary: a file a subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at the first surprise"
)]

mod bracing;
mod cli;
mod geometry;
mod job;
mod length;
mod outlines;
mod plan;
mod program;
mod tape;
mod triples;
