//! The one integration-test binary: a file a subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at the first surprise"
)]

mod cutting;
mod levels_book;
mod levels_heights;
mod levels_packers;
mod levels_packs;
mod practice_marks;
mod practice_program;
mod practice_sheets;
mod practice_support;
mod practice_worked;
mod readings_hard;
mod readings_job;
mod readings_moves;
mod readings_published;
mod readings_referee;
mod readings_support;
mod readings_tape;
mod readings_trials;
mod readme;
mod rules;
mod sag;
mod tape;
