//! Whole pages, with their working: to read through as the one who sets out by them.
//!
//! The runs are in fixtures/pages, one a line, written as in fixtures/bad-inputs.

use insta::assert_snapshot;

use crate::program::{pegline, typed};

/// Each run with its exit code and its page.
fn printed(runs: &str) -> String {
    let pages = runs.lines().map(|line| {
        let (words, input) = typed(line);
        let ran = pegline(&words).input(input).run();
        assert!(ran.code < 2 && ran.err.is_empty(), "{line}: {}", ran.err);
        format!("$ {line}\n{}\n{}", ran.code, ran.out)
    });
    pages.collect::<Vec<_>>().join("\n")
}

#[test]
fn check_sizes_and_corners() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/square.txt")));
}

#[test]
fn lines_and_straightness() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/lines.txt")));
}

#[test]
fn plates_cuts_and_joists() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/timber.txt")));
}

#[test]
fn readings() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/readings.txt")));
}

#[test]
fn packing_and_heights() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/levels.txt")));
}

#[test]
fn orders() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/order.txt")));
}

#[test]
fn drawings() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/drawings.txt")));
}

#[test]
fn practice_answers() {
    assert_snapshot!(printed(include_str!("../../fixtures/pages/practice.txt")));
}
