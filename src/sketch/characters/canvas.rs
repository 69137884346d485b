//! A grid of character cells.

/// What a cell shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cell {
    Blank,
    /// A dotted line through its upper half, its lower half, or both.
    Dotted {
        upper: bool,
        lower: bool,
    },
    /// Part of the outline.
    Side(char),
    /// A corner.
    Letter(char),
    /// Part of a text, or a blank kept beside one.
    Text(char),
}

/// Cells in rows.
#[derive(Debug, Clone)]
pub(super) struct Canvas {
    columns: usize,
    cells: Vec<Cell>,
}

/// What a text may be written over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Over {
    /// Blank cells and dotted lines.
    Ground,
    /// The outline too.
    Side,
}

impl Canvas {
    pub(super) fn new(columns: usize, rows: usize) -> Self {
        Self { columns, cells: vec![Cell::Blank; columns * rows] }
    }

    fn index(&self, column: usize, row: usize) -> Option<usize> {
        let index = row.checked_mul(self.columns)?.checked_add(column)?;
        (column < self.columns && index < self.cells.len()).then_some(index)
    }

    fn get(&self, column: usize, row: usize) -> Option<Cell> {
        self.index(column, row).map(|index| self.cells[index])
    }

    fn set(&mut self, column: usize, row: usize, cell: Cell) {
        if let Some(index) = self.index(column, row) {
            self.cells[index] = cell;
        }
    }

    /// Draws a side between two corners on one row or one column.
    pub(super) fn side(&mut self, a: (usize, usize), b: (usize, usize), house: bool) {
        let across = a.1 == b.1;
        let sign = match (house, across) {
            (true, _) => '█',
            (false, true) => '─',
            (false, false) => '│',
        };
        for row in a.1.min(b.1)..=a.1.max(b.1) {
            for column in a.0.min(b.0)..=a.0.max(b.0) {
                self.set(column, row, Cell::Side(sign));
            }
        }
    }

    /// Puts a corner's letter in its place.
    pub(super) fn letter(&mut self, at: (usize, usize), letter: char) {
        self.set(at.0, at.1, Cell::Letter(letter));
    }

    /// Dots a straight line over blank cells: Bresenham's line over half rows, which are as high as a column is wide.
    pub(super) fn dotted(&mut self, a: (usize, usize), b: (usize, usize)) {
        let (across, down) = (a.0.abs_diff(b.0), 2 * a.1.abs_diff(b.1));
        let steps = across.max(down);
        // Halfway through a cell is the seam between its halves; the upper one is taken.
        let along = |from: usize, to: usize, i: usize, half: usize| {
            let run = (i * from.abs_diff(to) * half * 2 + steps) / (2 * steps);
            if from < to { from * half + run } else { from * half - run }
        };
        for i in 1..steps {
            let column = along(a.0, b.0, i, 1);
            let half_row = along(a.1, b.1, i, 2);
            let upper = half_row % 2 == 0;
            let (was_upper, was_lower) = match self.get(column, half_row / 2) {
                Some(Cell::Blank) => (false, false),
                Some(Cell::Dotted { upper, lower }) => (upper, lower),
                _ => continue,
            };
            let cell = Cell::Dotted { upper: was_upper || upper, lower: was_lower || !upper };
            self.set(column, half_row / 2, cell);
        }
    }

    /// Writes `text` from `column` on, if there is nothing in its way there or in the cells beside it.
    pub(super) fn write(&mut self, text: &str, column: usize, row: usize, over: Over) -> bool {
        let length = text.chars().count();
        let free = |cell: Cell| match cell {
            Cell::Blank | Cell::Dotted { .. } => true,
            Cell::Side(_) => over == Over::Side,
            Cell::Letter(_) | Cell::Text(_) => false,
        };
        // Beside it there may be a side, but no letter and no other text that it could be read together with.
        let beside = |cell: Cell| !matches!(cell, Cell::Letter(_) | Cell::Text(_));
        let fits = (column..column + length).all(|c| self.get(c, row).is_some_and(free));
        let before = column.checked_sub(1).and_then(|c| self.get(c, row));
        let after = self.get(column + length, row);
        if !fits || ![before, after].into_iter().flatten().all(beside) {
            return false;
        }
        for (i, c) in text.chars().enumerate() {
            self.set(column + i, row, Cell::Text(c));
        }
        // Dots up against a figure could be taken for part of it.
        for c in [column.checked_sub(1), Some(column + length)].into_iter().flatten() {
            if let Some(Cell::Dotted { .. }) = self.get(c, row) {
                self.set(c, row, Cell::Blank);
            }
        }
        true
    }

    /// The rows as text, without blanks at their ends, from the first row with anything on it to the last.
    pub(super) fn lines(&self) -> Vec<String> {
        let rows = self.cells.chunks(self.columns).map(|row| {
            let line: String = row.iter().map(|cell| sign(*cell)).collect();
            line.trim_end().to_owned()
        });
        let mut lines: Vec<String> = rows.skip_while(String::is_empty).collect();
        while lines.last().is_some_and(String::is_empty) {
            lines.pop();
        }
        lines
    }
}

const fn sign(cell: Cell) -> char {
    match cell {
        Cell::Blank => ' ',
        Cell::Dotted { upper, lower } => match (upper, lower) {
            (true, true) => ':',
            (true, false) => '\'',
            (false, _) => '.',
        },
        Cell::Side(c) | Cell::Letter(c) | Cell::Text(c) => c,
    }
}
