//! The strings, of which several sides may share one.

use crate::lines::{Lines, WallLine};

/// One of the entries for each string.
pub(super) fn strings(answer: &Lines) -> impl Iterator<Item = &WallLine> {
    answer
        .lines
        .iter()
        .enumerate()
        .filter(|(i, line)| !answer.lines[..*i].iter().any(|before| line.with.contains(&before.side)))
        .map(|(_, line)| line)
}

/// The sides that share it.
pub(super) fn sides(line: &WallLine) -> String {
    let all: Vec<&str> = std::iter::once(&line.side).chain(&line.with).map(String::as_str).collect();
    all.join("+")
}
