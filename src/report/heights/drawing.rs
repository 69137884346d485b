//! The height stack drawn in characters: columns of boxes side by side, levels down the left.

use crate::heights::{HeightStack, Span};

/// Width of the levels' column.
const LEVEL: usize = 11;
/// Width of a column of boxes, its two edges included.
const BOX: usize = 21;
/// Levels nearer than this, mm, share a line.
const SAME: f64 = 0.05;

/// The most characters a line of the drawing has.
pub(super) const WIDTH: usize = LEVEL + 3 * (BOX + 1);

/// The columns of `stack` with anything in them, and what they are called.
pub(super) fn columns(stack: &HeightStack) -> Vec<(&str, &[Span])> {
    [("wall", stack.wall.as_slice()), ("panel", &stack.panel), ("room", &stack.room)]
        .into_iter()
        .filter(|(_, spans)| !spans.is_empty())
        .collect()
}

/// Draws `stack`, the top first; at most [`WIDTH`] characters a line. `length` writes a length in the user's units.
///
/// Every level where anything starts or ends has its line; between two levels each part shows its name and
/// thickness once. The drawing is not to scale.
pub(super) fn draw(stack: &HeightStack, length: &dyn Fn(f64) -> String) -> Vec<String> {
    let columns = columns(stack);
    let levels = levels(&columns);
    let mut lines = vec![line("above datum", columns.iter().map(|(title, _)| format!("  {title}")))];
    for (i, level) in levels.iter().enumerate() {
        let cut = columns.iter().map(|(_, spans)| edge(spans, *level));
        lines.push(line(&length(*level), cut));
        if let Some(below) = levels.get(i + 1) {
            let between = columns
                .iter()
                .map(|(_, spans)| inside(spans, f64::midpoint(*level, *below), &levels, length));
            lines.push(line("", between));
        }
    }
    lines
}

/// Every level in the drawing once, from the top.
fn levels(columns: &[(&str, &[Span])]) -> Vec<f64> {
    let spans = columns.iter().flat_map(|(_, spans)| spans.iter());
    let mut levels: Vec<f64> = spans.flat_map(|s| [s.to.0, s.from.0]).collect();
    levels.sort_by(|a, b| b.total_cmp(a));
    levels.dedup_by(|a, b| (*a - *b).abs() < SAME);
    levels
}

fn line(level: &str, boxes: impl Iterator<Item = String>) -> String {
    let mut text = format!("{:>LEVEL$}", fitted(level, LEVEL));
    for cell in boxes {
        text.push(' ');
        text.push_str(&format_cell(&cell));
    }
    text.trim_end().to_owned()
}

fn format_cell(cell: &str) -> String {
    format!("{:<BOX$}", fitted(cell, BOX))
}

/// The line of a column at a level where something in the drawing starts or ends.
fn edge(spans: &[Span], level: f64) -> String {
    let here = |l: f64| (l - level).abs() < SAME;
    let starts = spans.iter().any(|s| here(s.from.0));
    let ends = spans.iter().any(|s| here(s.to.0));
    let within = spans.iter().any(|s| s.from.0 < level && level < s.to.0);
    let (left, middle, right) = match (starts, ends, within) {
        (true, true, _) => ('├', '─', '┤'),
        (true, false, _) => ('└', '─', '┘'),
        (false, true, _) => ('┌', '─', '┐'),
        (false, false, true) => ('│', ' ', '│'),
        (false, false, false) => (' ', ' ', ' '),
    };
    let middle: String = std::iter::repeat_n(middle, BOX - 2).collect();
    format!("{left}{middle}{right}")
}

/// The line of a column between two levels, `at` being midway.
fn inside(spans: &[Span], at: f64, levels: &[f64], length: &dyn Fn(f64) -> String) -> String {
    let Some(span) = spans.iter().find(|s| s.from.0 < at && at < s.to.0) else {
        return String::new();
    };
    // The label goes into the middle one of the lines that the span is drawn over.
    let midways = levels.iter().zip(levels.iter().skip(1)).map(|(a, b)| f64::midpoint(*a, *b));
    let own: Vec<f64> = midways.filter(|m| span.from.0 < *m && *m < span.to.0).collect();
    let labelled = own.get((own.len().max(1) - 1) / 2).is_some_and(|m| (m - at).abs() < 1e-9);
    let room = BOX - 4;
    let text = if labelled {
        let figure = fitted(&length(span.thickness()), room);
        let left = room - figure.chars().count();
        format!("{:<left$}{figure}", fitted(&span.name, left.saturating_sub(1)))
    } else {
        format!("{:room$}", "")
    };
    format!("│ {text} │")
}

/// `text` in at most `width` characters.
fn fitted(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let mut short: String = text.chars().take(width.saturating_sub(1)).collect();
    if width > 0 {
        short.push('…');
    }
    short
}
