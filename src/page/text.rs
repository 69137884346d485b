//! A page as text for a terminal or a file.

use anstyle::{AnsiColor, Style};
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, TableStyle, Width};
use textwrap::core::Word;

use super::ascii::ascii;
use super::blocks::{Block, Page, Verdict, WIDTH};
use super::glue::{GLUE, glued};
use super::plain::plain;
use super::table::{Align, Column, Table};
use crate::words::one_line;

/// How the text is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// ASCII characters only.
    pub ascii: bool,
    /// With colour.
    pub colour: bool,
    /// The most characters a line may have; only drawings may run over.
    pub width: usize,
}

impl Default for Look {
    /// 80 columns, no colour.
    fn default() -> Self {
        Self { ascii: false, colour: false, width: WIDTH }
    }
}

/// The page as text, each line ended by a line feed.
#[must_use]
pub fn text(page: &Page, look: Look) -> String {
    if look.ascii {
        let plain_look = Look { ascii: false, ..look };
        // Only the rules under the table heads are left to spell.
        return ascii(&text(&plain(page), plain_look));
    }
    let mut out = String::new();
    for doubt in &page.remarks.doubts {
        for line in wrap(&format!("Check first: {doubt}"), look.width, "  ") {
            push(&mut out, &line);
        }
    }
    if let Some(verdict) = &page.remarks.verdict {
        verdict_text(&mut out, verdict, look);
    }
    blocks_text(&mut out, &page.blocks, look);
    for (word, lines) in [("Note: ", &page.remarks.notes), ("Caution: ", &page.remarks.cautions)] {
        if !lines.is_empty() {
            push(&mut out, "");
        }
        for line in lines {
            for part in wrap(&format!("{word}{line}"), look.width, "  ") {
                push(&mut out, &part);
            }
        }
    }
    out
}

fn blocks_text(out: &mut String, blocks: &[Block], look: Look) {
    for (i, block) in blocks.iter().enumerate() {
        let heading = matches!(block, Block::Heading(_) | Block::Steps(_) | Block::Part(_));
        if i > 0 && heading && !out.ends_with("\n\n") {
            push(out, "");
        }
        block_text(out, block, look);
    }
}

/// The verdict and an empty line.
fn verdict_text(out: &mut String, verdict: &Verdict, look: Look) {
    let colour = if verdict.good { AnsiColor::Green } else { AnsiColor::Red };
    let style = if look.colour { Style::new().bold().fg_color(Some(colour.into())) } else { Style::new() };
    for line in wrap(&verdict.words, look.width, "") {
        push(out, &format!("{style}{line}{style:#}"));
    }
    push(out, "");
}

fn bold(look: Look) -> Style {
    if look.colour { Style::new().bold() } else { Style::new() }
}

fn push(out: &mut String, line: &str) {
    out.push_str(line.trim_end());
    out.push('\n');
}

/// Wraps to `width`; lines after the first start with `indent`. What belongs together stays on one line; a word too
/// long for a line, such as a plan, breaks before a sign, or anywhere if it has none.
fn wrap(text: &str, width: usize, indent: &str) -> Vec<String> {
    let text = &glued(&one_line(text));
    let options = textwrap::Options::new(width)
        .subsequent_indent(indent)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .word_separator(textwrap::WordSeparator::Custom(breakable));
    textwrap::wrap(text, options).into_iter().map(|line| line.replace(GLUE, " ")).collect()
}

/// Words longer than this may be broken.
const LONG_WORD: usize = 60;

/// The words of a line: between spaces, and the parts of a long one before its `+`, `-` and `@`.
fn breakable(line: &str) -> Box<dyn Iterator<Item = Word<'_>> + '_> {
    Box::new(
        textwrap::WordSeparator::AsciiSpace
            .find_words(line)
            .flat_map(|word| parts(word.word, word.whitespace)),
    )
}

fn parts<'a>(word: &'a str, space: &'a str) -> Vec<Word<'a>> {
    let mut cuts = vec![0];
    if word.chars().count() > LONG_WORD {
        cuts.extend(word.match_indices(['+', '-', '@']).map(|(at, _)| at).filter(|at| *at > 0));
    }
    let ends = cuts.iter().skip(1).copied().chain([word.len()]);
    let mut parts: Vec<Word<'_>> =
        cuts.iter().zip(ends).map(|(from, to)| Word::from(&word[*from..to])).collect();
    if let Some(last) = parts.last_mut() {
        last.whitespace = space;
    }
    parts
}

fn block_text(out: &mut String, block: &Block, look: Look) {
    match block {
        Block::Part(text) => {
            let text = one_line(text);
            let rule = "━".repeat(look.width.saturating_sub(text.chars().count() + 1));
            let style = bold(look);
            push(out, &format!("{style}{text} {rule}{style:#}"));
        }
        Block::Verdict(verdict) => verdict_text(out, verdict, look),
        Block::Figure(figure) => blocks_text(out, &figure.text, look),
        Block::Heading(text) => {
            let style = bold(look);
            for line in wrap(text, look.width, "") {
                push(out, &format!("{style}{line}{style:#}"));
            }
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
                push(out, &one_line(line));
            }
        }
        Block::Steps(example) => {
            push(out, &one_line(&example.title));
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
    let cells = |row: &[String]| row.iter().map(|cell| glued(&one_line(cell))).collect::<Vec<_>>();
    let table = &Table { rows: table.rows.iter().map(|row| cells(row)).collect(), ..table.clone() };
    let mut printed = comfy_table::Table::new();
    printed
        .load_style(TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─')))
        .set_header(table.columns.iter().map(|column| one_line(&column.head)).collect::<Vec<_>>());
    for row in &table.rows {
        printed.add_row(row);
    }
    // Padding of one on either side of each column, and one between columns.
    let whole = (0..table.columns.len()).map(|i| longest(table, i, |c| vec![c]) + 3);
    let fits = whole.sum::<usize>().saturating_sub(1) <= width;
    printed.set_content_arrangement(if fits {
        ContentArrangement::Disabled
    } else {
        ContentArrangement::Dynamic
    });
    printed.set_width(u16::try_from(width).unwrap_or(u16::MAX));
    let least: Vec<usize> =
        (0..table.columns.len()).map(|i| longest(table, i, |cell| cell.split(' ').collect()) + 2).collect();
    let words_fit = (least.iter().sum::<usize>() + least.len()).saturating_sub(1) <= width;
    if !words_fit {
        return in_sentences(table, width);
    }
    for ((column, described), least) in printed.column_iter_mut().zip(&table.columns).zip(least) {
        column.set_padding((1, 1));
        // A figure broken inside a word, 4-1 over 3/16in, would be read as another figure.
        if !fits {
            let least = u16::try_from(least).unwrap_or(u16::MAX);
            column.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(least)));
        }
        column.set_cell_alignment(match described.align {
            Align::Left => CellAlignment::Left,
            Align::Right => CellAlignment::Right,
        });
    }
    printed.trim_fmt().replace(GLUE, " ")
}

/// A table that a page has no room for: a sentence a row, each cell behind its column's head.
fn in_sentences(table: &Table, width: usize) -> String {
    let cell = |(column, cell): (&Column, &String)| match (column.head.trim(), cell.trim()) {
        (_, "") => None,
        ("", cell) => Some(cell.to_owned()),
        (head, cell) => Some(format!("{head} {cell}")),
    };
    let rows = table.rows.iter().map(|row| {
        let cells = table.columns.iter().zip(row).filter_map(cell);
        wrap(&cells.collect::<Vec<_>>().join("; "), width, "  ").join("\n")
    });
    rows.collect::<Vec<_>>().join("\n")
}

/// The characters of the longest part of any cell of column `i`, its head included.
fn longest(table: &Table, i: usize, parts: fn(&str) -> Vec<&str>) -> usize {
    let cells = table.rows.iter().filter_map(|row| row.get(i));
    cells
        .chain([&table.columns[i].head])
        .flat_map(|cell| parts(cell))
        .map(|part| part.chars().count())
        .max()
        .unwrap_or(0)
}
