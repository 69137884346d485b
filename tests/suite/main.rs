//! The one integration-test binary: a file a subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at the first surprise"
)]

mod lines_boards;
mod lines_faults;
mod lines_nails;
mod lines_offset;
mod lines_program;
mod lines_random;
mod lines_sag;
mod lines_straight;
mod tape;
