//! Rows for a spreadsheet, filled a column at a time, and written as CSV (RFC 4180, lines ended by a line feed).

use std::io;

use serde::Serialize;
use serde_json::Value;

use crate::words::one_line;

/// An answer's rows under named columns.
#[derive(Debug, Default)]
pub struct Rows {
    /// The columns' names, with their unit where they have one: `length_mm`.
    header: Vec<&'static str>,
    /// Rows of as many cells.
    cells: Vec<Vec<String>>,
    /// Why a figure could not be written.
    fault: Option<io::Error>,
}

impl Rows {
    /// No rows yet, under these columns.
    #[must_use]
    pub fn under(header: &[&'static str]) -> Self {
        Self { header: header.to_vec(), ..Self::default() }
    }

    /// No rows, for this reason.
    pub fn failed(why: impl std::error::Error + Send + Sync + 'static) -> Self {
        Self { fault: Some(io::Error::other(why)), ..Self::default() }
    }

    /// Adds rows under the columns of the same name; the others stay empty. A name that is new makes a new column, the
    /// last.
    pub fn add(&mut self, more: impl Into<Self>) {
        let more = more.into();
        let places: Vec<usize> = more.header.iter().map(|name| self.place(name)).collect();
        for row in more.cells {
            let mut cells = vec![String::new(); self.header.len()];
            for (place, cell) in places.iter().zip(row) {
                cells[*place] = cell;
            }
            self.cells.push(cells);
        }
        self.fault = self.fault.take().or(more.fault);
    }

    /// A last column, with a cell for each row from the first on.
    pub fn last(&mut self, name: &'static str, cells: impl IntoIterator<Item = String>) {
        self.header.push(name);
        let cells = cells.into_iter().chain(std::iter::repeat(String::new()));
        self.cells.iter_mut().zip(cells).for_each(|(row, cell)| row.push(cell));
    }

    fn place(&mut self, name: &'static str) -> usize {
        self.header.iter().position(|known| *known == name).unwrap_or_else(|| {
            self.header.push(name);
            self.cells.iter_mut().for_each(|row| row.push(String::new()));
            self.header.len() - 1
        })
    }

    /// A row for each cell: the part that it is of, its row's number from 1, its column, and what stands in it.
    #[must_use]
    pub fn by_cell(self, part: &str) -> Self {
        let rows = (1..).zip(self.cells);
        let cells = rows.flat_map(|(row, cells): (usize, _)| {
            let named = self.header.iter().zip(cells);
            named.map(move |(name, cell)| vec![part.to_owned(), row.to_string(), (*name).to_owned(), cell])
        });
        Self { header: vec!["part", "row", "column", "value"], cells: cells.collect(), fault: self.fault }
    }

    /// These rows with a column before the others, the same in each.
    #[must_use]
    pub fn behind(mut self, name: &'static str, cell: &str) -> Self {
        self.header.insert(0, name);
        self.cells.iter_mut().for_each(|row| row.insert(0, cell.to_owned()));
        self
    }

    /// The CSV, header first; no cell steers what shows it or is a formula to a spreadsheet. Fails where a figure came out as none that can be written.
    pub fn csv(self, wanted: Spreadsheet) -> io::Result<String> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        let delimiter = if wanted.decimal_comma { b';' } else { b',' };
        let mark = if wanted.byte_order_mark { "\u{feff}" } else { "" };
        let mut writer = csv::WriterBuilder::new().delimiter(delimiter).from_writer(mark.as_bytes().to_vec());
        writer.write_record(&self.header)?;
        for row in &self.cells {
            let cells = row.iter().map(|cell| safe(cell));
            writer.write_record(
                cells.map(|cell| if wanted.decimal_comma { with_commas(cell) } else { cell }),
            )?;
        }
        let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
        String::from_utf8(bytes).map_err(io::Error::other)
    }
}

/// How the spreadsheet that is to open a CSV reads one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Spreadsheet {
    /// Whether its numbers have a decimal comma; semicolons stand between the columns then.
    pub decimal_comma: bool,
    /// Whether it knows UTF-8 by a byte-order mark alone.
    pub byte_order_mark: bool,
}

/// Rows being filled, one for each thing.
#[derive(Debug)]
pub struct Each<T> {
    things: Vec<T>,
    rows: Rows,
}

/// A row for each of `things`, without columns yet.
pub fn each<T: Copy>(things: impl IntoIterator<Item = T>) -> Each<T> {
    let things: Vec<T> = things.into_iter().collect();
    let cells = vec![vec![]; things.len()];
    Each { things, rows: Rows { cells, ..Rows::default() } }
}

impl<T: Copy> Each<T> {
    /// These rows with what `more` adds, if it is wanted.
    #[must_use]
    pub fn when(self, wanted: bool, more: impl FnOnce(Self) -> Self) -> Self {
        if wanted { more(self) } else { self }
    }

    /// Adds a column: its name, and what of a thing stands in it, written as JSON has it.
    #[must_use]
    pub fn column<V: Serialize>(mut self, name: &'static str, of: impl Fn(T) -> V) -> Self {
        self.rows.header.push(name);
        for (thing, row) in self.things.iter().zip(&mut self.rows.cells) {
            match serde_json::to_value(of(*thing)) {
                Ok(value) => row.push(cell(&value)),
                Err(fault) => {
                    row.push(String::new());
                    self.rows.fault = Some(fault.into());
                }
            }
        }
        self
    }
}

impl<T> From<Each<T>> for Rows {
    fn from(filled: Each<T>) -> Self {
        filled.rows
    }
}

/// A value as its cell has it: nothing for null, a list joined by plus signs.
fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        Value::Array(list) => list.iter().map(cell).collect::<Vec<_>>().join("+"),
        Value::Number(number) => match number.as_f64() {
            Some(figure) if number.is_f64() => figure.to_string(),
            _ => number.to_string(),
        },
        Value::Bool(_) | Value::Object(_) => value.to_string(),
    }
}

/// A cell as a spreadsheet may open it: one that begins as a formula does, and is no number, is made text by an apostrophe.
fn safe(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@']) && cell.parse::<f64>().is_err();
    let mark = if formula { "'" } else { "" };
    format!("{mark}{}", one_line(cell))
}

/// A number, or a list of nothing else, with a comma for its point.
fn with_commas(cell: String) -> String {
    let number = |part: &str| part.parse::<f64>().is_ok() && part.ends_with(|c: char| c.is_ascii_digit());
    if cell.split('+').all(number) { cell.replace('.', ",") } else { cell }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_made_text_and_a_number_stays_one() {
        let cells = ["=cmd|' /C calc'!A0", "@SUM(1)", "+1+1", "-2.5", "+3", "sealant", "a\u{1b}[31m"];
        let safe = cells.map(safe);
        assert_eq!(
            safe,
            ["'=cmd|' /C calc'!A0", "'@SUM(1)", "'+1+1", "-2.5", "+3", "sealant", "a\u{fffd}[31m"]
        );
    }

    #[test]
    fn a_decimal_comma_goes_into_numbers_and_lists_of_them_and_into_no_text() {
        let cells = ["-2.5", "7800", "1.5+3", "M12 x 1.75", "1.5+wedge", "no.", ""];
        let written = cells.map(|cell| with_commas(cell.to_owned()));
        assert_eq!(written, ["-2,5", "7800", "1,5+3", "M12 x 1.75", "1.5+wedge", "no.", ""]);
    }
}
