//! A page as text for a terminal or a file.

use anstyle::{AnsiColor, Style};
use comfy_table::{CellAlignment, ContentArrangement, LineStyle, TableStyle};

use super::{Align, Block, Page, Table, ascii};

/// How the text is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// ASCII characters only.
    pub ascii: bool,
    /// With colour.
    pub colour: bool,
    /// The most characters a line may have; drawings and long words may run over.
    pub width: usize,
}

impl Default for Look {
    /// 80 columns, no colour.
    fn default() -> Self {
        Self {
            ascii: false,
            colour: false,
            width: 80,
        }
    }
}

/// The page as text, each line ended by a line feed.
#[must_use]
pub fn text(page: &Page, look: Look) -> String {
    let mut out = String::new();
    if let Some(verdict) = &page.verdict {
        let colour = if verdict.good {
            AnsiColor::Green
        } else {
            AnsiColor::Red
        };
        let style = if look.colour {
            Style::new().bold().fg_color(Some(colour.into()))
        } else {
            Style::new()
        };
        for line in wrap(&verdict.words, look.width, "") {
            push(&mut out, &format!("{style}{line}{style:#}"));
        }
        push(&mut out, "");
    }
    for (i, block) in page.blocks.iter().enumerate() {
        let heading = matches!(block, Block::Heading(_) | Block::Steps(_));
        if i > 0 && heading {
            push(&mut out, "");
        }
        block_text(&mut out, block, look);
    }
    for (word, lines) in [("Note: ", &page.notes), ("Caution: ", &page.cautions)] {
        if !lines.is_empty() {
            push(&mut out, "");
        }
        for line in lines {
            for part in wrap(&format!("{word}{line}"), look.width, "  ") {
                push(&mut out, &part);
            }
        }
    }
    if look.ascii { ascii(&out) } else { out }
}

fn push(out: &mut String, line: &str) {
    out.push_str(line.trim_end());
    out.push('\n');
}

/// Wraps to `width`; lines after the first start with `indent`. A number stays on one line with a short unit.
fn wrap(text: &str, width: usize, indent: &str) -> Vec<String> {
    let text = &with_units_glued(text);
    let options = textwrap::Options::new(width)
        .subsequent_indent(indent)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .word_separator(textwrap::WordSeparator::AsciiSpace);
    textwrap::wrap(text, options)
        .into_iter()
        .map(|line| line.replace(GLUE, " "))
        .collect()
}

/// A space that wrapping does not break at.
const GLUE: char = '\u{a0}';

/// Replaces the space between a number and a word of one or two letters, which is a unit, by [`GLUE`], and the one
/// between feet and inches.
fn with_units_glued(text: &str) -> String {
    let mut words = text.split(' ').peekable();
    let mut glued = String::with_capacity(text.len());
    while let Some(word) = words.next() {
        glued.push_str(word);
        if let Some(next) = words.peek() {
            let letters = next.trim_end_matches([',', ';', '.', ')', '²']).chars();
            let unit = letters.clone().count().clamp(1, 2) == letters.clone().count()
                && letters.clone().all(char::is_alphabetic);
            let number = word.ends_with(|c: char| c.is_ascii_digit());
            let feet = word.ends_with("ft") && next.trim_end_matches([',', ';', '.', ')']).ends_with("in");
            let inches = feet && next.starts_with(|c: char| c.is_ascii_digit());
            glued.push(if number && unit || inches { GLUE } else { ' ' });
        }
    }
    glued
}

fn block_text(out: &mut String, block: &Block, look: Look) {
    match block {
        Block::Heading(text) => {
            let style = if look.colour {
                Style::new().bold()
            } else {
                Style::new()
            };
            push(out, &format!("{style}{text}{style:#}"));
        }
        Block::Paragraph(text) => {
            let indent: String = text.chars().take_while(|c| *c == ' ').collect();
            for line in wrap(text, look.width, &indent) {
                push(out, &line);
            }
        }
        Block::Fact(name, what) => {
            for line in wrap(&format!("{name}: {what}"), look.width, "  ") {
                push(out, &line);
            }
        }
        Block::Table(table) => {
            for line in table_text(table, look.width).lines() {
                push(out, line);
            }
        }
        Block::Lines(lines) => {
            for line in lines {
                push(out, line);
            }
        }
        Block::Steps(example) => {
            push(out, &example.title);
            for (i, step) in example.steps.iter().enumerate() {
                let mark = format!("{:>3}  ", i + 1);
                for (j, line) in wrap(step, look.width.saturating_sub(5), "").iter().enumerate() {
                    push(out, &format!("{}{line}", if j == 0 { &mark } else { "     " }));
                }
            }
        }
    }
}

fn table_text(table: &Table, width: usize) -> String {
    let mut printed = comfy_table::Table::new();
    printed
        .load_style(TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─')))
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(u16::try_from(width).unwrap_or(u16::MAX))
        .set_header(
            table
                .columns
                .iter()
                .map(|column| column.head.clone())
                .collect::<Vec<_>>(),
        );
    for row in &table.rows {
        printed.add_row(row.clone());
    }
    for (column, described) in printed.column_iter_mut().zip(&table.columns) {
        column.set_padding((1, 1));
        column.set_cell_alignment(match described.align {
            Align::Left => CellAlignment::Left,
            Align::Right => CellAlignment::Right,
        });
    }
    printed.trim_fmt()
}
