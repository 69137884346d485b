//! A table as data.

/// Which edge of its column a cell stands against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A column's head and alignment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// The head, with the unit where the figures have one.
    pub head: String,
    /// The alignment.
    pub align: Align,
}

/// Rows under column heads.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// Rows of as many cells.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without columns or rows.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a column of words.
    #[must_use]
    pub fn words(mut self, head: impl Into<String>) -> Self {
        self.columns.push(Column { head: head.into(), align: Align::Left });
        self
    }

    /// Adds a column of numbers.
    #[must_use]
    pub fn numbers(mut self, head: impl Into<String>) -> Self {
        self.columns.push(Column { head: head.into(), align: Align::Right });
        self
    }

    /// Adds a row, in the columns' order.
    pub fn row(&mut self, cells: impl IntoIterator<Item = impl Into<String>>) -> &mut Self {
        self.rows.push(cells.into_iter().map(Into::into).collect());
        self
    }
}
