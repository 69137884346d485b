//! The one integration-test binary: a file a subject.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test stops at the first surprise")]

mod answers_csv;
mod answers_schema;
mod answers_support;
mod bad_inputs;
mod batch;
mod book;
mod bracing;
mod cli;
mod cli_errors;
mod cli_files;
mod cli_pages;
mod corpus;
// Its limits are those of a Linux shell.
#[cfg(target_os = "linux")]
mod cost;
mod cutting;
mod entrances;
mod feet;
mod fields;
mod frozen_job;
mod geometry;
mod heights;
mod help;
mod house;
mod job;
mod joists;
mod length;
mod levels_cli;
mod levels_job;
mod library;
mod limits;
mod lines_boards;
mod lines_faults;
mod lines_nails;
mod lines_offset;
mod lines_program;
mod lines_random;
mod lines_straight;
mod most;
mod one_day;
mod order;
mod outlines;
mod packing;
mod pages;
mod plan;
mod plan_errors;
mod plates;
mod practice_class;
mod practice_marks;
mod practice_program;
mod practice_sheets;
mod practice_slips;
mod practice_support;
mod practice_topics;
mod practice_worked;
mod program;
mod readings_explained;
mod readings_hard;
mod readings_job;
mod readings_moves;
mod readings_published;
mod readings_referee;
mod readings_support;
mod readings_tape;
mod readings_trials;
// Its commands are for a Unix shell.
#[cfg(unix)]
mod readme;
mod rules;
mod sag;
mod sheet;
mod site;
mod sketch_outlines;
mod sketch_program;
mod sketch_svg;
mod sketch_terminal;
mod tape;
#[cfg(target_os = "linux")]
mod terminal;
mod terminals;
mod tree;
mod triples;
mod ways_in;
mod working;
mod working_sums;
