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
    /// A row for each of `things`, without columns yet: each column is then added with what of a thing stands in it.
    #[must_use]
    pub fn of<T: Copy>(things: impl IntoIterator<Item = T>) -> Filling<T> {
        let things: Vec<T> = things.into_iter().collect();
        let rows = vec![vec![]; things.len()];
        Filling { things, table: Self { columns: vec![], rows } }
    }
}

/// A table being filled, a column at a time.
#[derive(Debug)]
pub struct Filling<T> {
    things: Vec<T>,
    table: Table,
}

impl<T: Copy> Filling<T> {
    /// Adds a column of words: its head, and what of a thing stands under it.
    #[must_use]
    pub fn words<C: Into<String>>(self, head: impl Into<String>, of: impl Fn(T) -> C) -> Self {
        self.column(head, Align::Left, of)
    }

    /// Adds a column of numbers.
    #[must_use]
    pub fn numbers<C: Into<String>>(self, head: impl Into<String>, of: impl Fn(T) -> C) -> Self {
        self.column(head, Align::Right, of)
    }

    /// Adds these columns if they are to be there.
    #[must_use]
    pub fn when(self, there: bool, columns: impl FnOnce(Self) -> Self) -> Self {
        if there { columns(self) } else { self }
    }

    fn column<C: Into<String>>(mut self, head: impl Into<String>, align: Align, of: impl Fn(T) -> C) -> Self {
        self.table.columns.push(Column { head: head.into(), align });
        for (thing, row) in self.things.iter().zip(&mut self.table.rows) {
            row.push(of(*thing).into());
        }
        self
    }
}

impl<T> From<Filling<T>> for Table {
    fn from(filled: Filling<T>) -> Self {
        filled.table
    }
}
