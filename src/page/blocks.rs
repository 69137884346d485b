//! A page: what is said of the whole, and its blocks in order.

use super::table::Table;

/// Columns of a page.
pub const WIDTH: usize = 80;

/// Lines of a screen.
pub const SCREEN: usize = 24;

/// A page: a verdict if one was asked for, then blocks, then notes and cautions.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// What is said of the whole, round the body.
    pub remarks: Remarks,
    /// The body, in order.
    pub blocks: Vec<Block>,
    /// The columns that a drawing on it may take.
    pub columns: usize,
}

impl Default for Page {
    fn default() -> Self {
        Self { remarks: Remarks::default(), blocks: vec![], columns: WIDTH }
    }
}

/// How much of an answer a page holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// What it takes to do the work, on a page of its own: a screen of [`SCREEN`] lines for a plan of six corners.
    Short,
    /// All there is.
    Full,
    /// What a sheet of the whole job has room for.
    Part,
}

impl Detail {
    /// Whether the page is the answer's own.
    #[must_use]
    pub const fn alone(self) -> bool {
        !matches!(self, Self::Part)
    }
}

/// What is said of an answer as a whole, on a page or wherever else it goes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Remarks {
    /// What to look at before the answer is believed: it stands above the verdict.
    pub doubts: Vec<String>,
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
    /// In characters, with what belongs to it.
    pub text: Vec<Block>,
    /// As it lies on paper, where that was drawn.
    pub picture: Option<Picture>,
}

/// A drawing on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The drawing, as an SVG element.
    pub svg: String,
    /// The same for a narrow screen, if there is one.
    pub narrow: Option<String>,
    /// The paper that it is true to scale on, and which way round: `A4 landscape`.
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

impl Page {
    /// An empty page.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// A page with no body yet.
    #[must_use]
    pub fn of(remarks: Remarks) -> Self {
        Self { remarks, ..Self::default() }
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
    pub fn table(&mut self, table: impl Into<Table>) -> &mut Self {
        let table = table.into();
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
