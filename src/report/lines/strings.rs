//! The name of a string, which several sides may share.

use crate::lines::WallLine;

/// The sides that share it.
pub(super) fn sides(line: &WallLine) -> String {
    let all: Vec<&str> = std::iter::once(&line.side).chain(&line.with).map(String::as_str).collect();
    all.join("+")
}
