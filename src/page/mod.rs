//! A small document and its printers. The printers know nothing of the trade; what builds a page knows nothing of
//! terminals.
//!
//! ```
//! use pegline::page::{Look, Page, Table, html, text};
//!
//! let mut page = Page::new();
//! page.heading("Sides");
//! let mut table = Table::new().words("Side").numbers("mm");
//! table.row(["AB", "7800"]);
//! page.table(table).remarks.caution("mind the step");
//! assert!(text(&page, Look::default()).contains("AB     7800"), "{}", text(&page, Look::default()));
//! assert!(html(&page, "Plot 4").starts_with("<!DOCTYPE html>"));
//! ```

mod ascii;
mod csv;
mod html;
mod plain;
mod table;
mod text;

pub use self::csv::csv;
pub use ascii::ascii;
pub use html::html;
pub use table::{Align, Column, Table};
pub use text::{Look, text};

/// Columns of a page.
pub const WIDTH: usize = 80;

/// Which printer a page is filled for: what it does not print need not be built.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Printer {
    /// Any of them.
    #[default]
    Any,
    /// Text, which shows drawings in characters.
    Text,
    /// CSV, the records alone.
    Csv,
    /// HTML, which shows drawings as pictures.
    Html,
}

/// A page: a verdict if one was asked for, then blocks, then notes and cautions.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// Who will print it.
    pub printer: Printer,
    /// What is said of the whole, round the body.
    pub remarks: Remarks,
    /// The body, in order.
    pub blocks: Vec<Block>,
    /// The answer's main rows as data, for CSV: lengths in mm whatever the units on the page. Filled by
    /// [`Page::data`].
    pub records: Records,
}

/// What is said of an answer as a whole, on a page or wherever else it goes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Remarks {
    /// The line that the eye meets first.
    pub verdict: Option<Verdict>,
    /// What to know about the answer, after the body.
    pub notes: Vec<String>,
    /// Safety lines, last.
    pub cautions: Vec<String>,
}

impl Remarks {
    /// Adds a note.
    pub fn note(&mut self, text: impl Into<String>) -> &mut Self {
        self.notes.push(text.into());
        self
    }

    /// Adds a caution, once.
    pub fn caution(&mut self, text: impl Into<String>) -> &mut Self {
        let text = text.into();
        if !self.cautions.contains(&text) {
            self.cautions.push(text);
        }
        self
    }
}

/// A verdict in words, and whether it is good.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verdict {
    /// Whether all is well.
    pub good: bool,
    /// One line.
    pub words: String,
}

/// A part of a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// Where a new part of several begins: its name.
    Part(String),
    /// What one of several parts comes to.
    Verdict(Verdict),
    /// A heading.
    Heading(String),
    /// Running text, wrapped to the page's width.
    Paragraph(String),
    /// A name and what it is, wrapped under itself: a short fact line.
    Fact(String, String),
    /// A table.
    Table(Table),
    /// Lines printed as they are, such as a drawing in characters.
    Lines(Vec<String>),
    /// A drawing.
    Figure(Figure),
    /// A worked example: its title and its numbered steps.
    Steps(Steps),
}

/// A drawing twice over: printers take the one that they can show.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is called, for those who can't see it.
    pub title: String,
    /// In characters, with what belongs to it.
    pub text: Vec<Block>,
    /// As an SVG element; empty where no printer of pictures was named.
    pub picture: String,
    /// The paper that the picture is true to scale on, and which way round: `A4 landscape`.
    pub paper: String,
    /// Width and height of that paper, mm.
    pub size: (f64, f64),
}

/// A worked example, one operation a step.
#[derive(Debug, Clone, PartialEq, Eq, schemars::JsonSchema, serde::Serialize)]
pub struct Steps {
    /// What is worked out.
    pub title: String,
    /// The steps in order.
    pub steps: Vec<String>,
}

/// Rows of data under named columns.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Records {
    /// Column names, with their unit where they have one: `length_mm`.
    pub header: Vec<String>,
    /// Rows of as many fields.
    pub rows: Vec<Vec<String>>,
}

impl Records {
    /// Records with the given column names and no rows yet.
    #[must_use]
    pub fn new(header: &[&str]) -> Self {
        Self { header: header.iter().map(ToString::to_string).collect(), rows: vec![] }
    }
}

impl Page {
    /// An empty page.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// A page for a printer, with no body yet.
    #[must_use]
    pub fn of(remarks: Remarks, printer: Printer) -> Self {
        Self { printer, remarks, ..Self::default() }
    }

    /// Sets the records, if they are to be printed.
    pub fn data(&mut self, records: impl FnOnce() -> Records) -> &mut Self {
        if matches!(self.printer, Printer::Any | Printer::Csv) {
            self.records = records();
        }
        self
    }

    /// A drawing's picture, if it is to be printed.
    pub fn picture(&self, svg: impl FnOnce() -> String) -> String {
        if matches!(self.printer, Printer::Any | Printer::Html) { svg() } else { String::new() }
    }

    /// Adds a heading.
    pub fn heading(&mut self, text: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Heading(text.into()));
        self
    }

    /// Adds running text.
    pub fn paragraph(&mut self, text: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Paragraph(text.into()));
        self
    }

    /// Adds a named fact.
    pub fn fact(&mut self, name: impl Into<String>, what: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Fact(name.into(), what.into()));
        self
    }

    /// Adds a table; one without rows is left out.
    pub fn table(&mut self, table: Table) -> &mut Self {
        if !table.rows.is_empty() {
            self.blocks.push(Block::Table(table));
        }
        self
    }

    /// Adds lines to be printed as they are.
    pub fn lines(&mut self, lines: Vec<String>) -> &mut Self {
        self.blocks.push(Block::Lines(lines));
        self
    }

    /// Begins a part.
    pub fn part(&mut self, name: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Part(name.into()));
        self
    }

    /// Adds worked examples.
    pub fn steps(&mut self, examples: impl IntoIterator<Item = Steps>) -> &mut Self {
        self.blocks.extend(examples.into_iter().map(Block::Steps));
        self
    }
}
