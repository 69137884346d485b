//! To standard output, in the format asked for, and to files, whole or not at all.

use std::env;
use std::fmt;
use std::io::{self, Write};

use anstream::ColorChoice;
use pegline::page::{Look, Page, Rows, WIDTH, text};
use pegline::words::steers;
use serde::Serialize;
use terminal_size::terminal_size_of;

use super::args::OutputArgs;
use super::failure::Failure;
use super::write::write_file;

/// A page as text.
pub(super) fn page_text(page: &Page, out: &OutputArgs) -> String {
    text(page, look(out))
}

/// A sentence as text, over as many lines as it takes.
pub(super) fn sentence_text(sentence: &str, columns: usize, out: &OutputArgs) -> String {
    let mut page = Page { columns, ..Page::new() };
    page.paragraph(sentence);
    text(&page, Look { width: columns, ..look(out) })
}

/// Rows for a spreadsheet.
pub(super) fn csv_text(rows: Rows, out: &OutputArgs) -> Result<String, Failure> {
    rows.csv(out.spreadsheet()).map_err(|error| Failure::Io { doing: "writing CSV".to_owned(), error })
}

/// Pretty JSON with a line feed at its end.
pub(super) fn json_text(json: &impl Serialize) -> Result<String, Failure> {
    let mut printed = serde_json::to_string_pretty(json)
        .map_err(|error| Failure::Io { doing: "writing JSON".to_owned(), error: error.into() })?;
    printed.push('\n');
    Ok(unseen_escaped(printed))
}

/// JSON with every character that steers what shows it written as its escape: they stand in texts alone.
pub(super) fn unseen_escaped(json: String) -> String {
    // All of them, without a way out: so they are looked at many at a time.
    let is_plain = json.bytes().fold(true, |plain, byte| plain & matches!(byte, b'\n' | b' '..=b'~'));
    if is_plain || !json.contains(|c| c != '\n' && steers(c)) {
        return json;
    }
    let mut out = String::new();
    for c in json.chars() {
        if c != '\n' && steers(c) {
            // Writing to a string can't fail.
            let _ = fmt::Write::write_fmt(&mut out, format_args!("\\u{:04x}", u32::from(c)));
        } else {
            out.push(c);
        }
    }
    out
}

/// How text is to look on this terminal or pipe, or in a file, which gets no colour.
fn look(out: &OutputArgs) -> Look {
    let colour =
        !(out.ascii || out.to_file()) && anstream::AutoStream::choice(&io::stdout()) != ColorChoice::Never;
    Look { ascii: out.ascii || plain_locale(), colour, width: width(out) }
}

/// The narrowest and the widest page that is laid out.
const WIDTHS: (usize, usize) = (40, 100);

/// The columns that a page has: what COLUMNS says, or else the terminal; a file or a pipe has those of a sheet.
pub(super) fn width(out: &OutputArgs) -> usize {
    if out.to_file() {
        return WIDTH;
    }
    let said = env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok());
    let columns = said.or_else(|| Some(terminal_size_of(io::stdout())?.0.0.into()));
    columns.map_or(WIDTH, |columns: usize| columns.clamp(WIDTHS.0, WIDTHS.1))
}

/// Whether the locale asks for plain ASCII: one is set and it is not UTF-8.
fn plain_locale() -> bool {
    ["LC_ALL", "LC_CTYPE", "LANG"]
        .into_iter()
        .filter_map(env::var_os)
        .find(|value| !value.is_empty())
        .is_some_and(|value| {
            let value = value.to_string_lossy().to_ascii_lowercase();
            !(value.contains("utf-8") || value.contains("utf8"))
        })
}

/// Writes to the file named with `-o`, which may be none of the `inputs` (`-` is standard input), or to standard output
/// in one go.
pub(super) fn write_out(printed: &str, out: &OutputArgs, inputs: &[&str]) -> Result<(), Failure> {
    if let Some(path) = &out.output {
        return write_file(path, printed, out.force, inputs);
    }
    if out.force {
        return Err(Failure::input(
            "--force: it replaces the file that -o names: name one, or leave --force out",
        ));
    }
    let mut stdout = io::stdout().lock();
    stdout
        .write_all(printed.as_bytes())
        .and_then(|()| stdout.flush())
        .map_err(|error| Failure::Io { doing: "writing to standard output".to_owned(), error })
}
