//! Where in a JSON text a field stands, so that a fault found after reading can be shown in its place.

use crate::words::steers;

/// A place in a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Line, counted from 1.
    pub line: usize,
    /// Column in characters, counted from 1.
    pub column: usize,
    /// What is shown of the line round the column: no more of it is kept, since a whole job may stand on one line.
    pub excerpt: String,
}

/// The most characters shown before a column, and from it on.
const BEFORE: usize = 40;
const AFTER: usize = 30;

/// The nearest place at or before byte `offset` where a character of `text` begins.
pub(super) fn boundary(text: &str, offset: usize) -> usize {
    (0..=offset.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
}

impl Place {
    /// The text as a whole: its start, with no line to show.
    #[must_use]
    pub const fn whole_text() -> Self {
        Self { line: 1, column: 1, excerpt: String::new() }
    }

    /// The place of byte `offset` in `text`.
    #[must_use]
    pub fn at(text: &str, offset: usize) -> Self {
        let offset = boundary(text, offset);
        let start = text[..offset].rfind('\n').map_or(0, |newline| newline + 1);
        let end = text[offset..].find('\n').map_or(text.len(), |newline| offset + newline);
        let column = text[start..offset].chars().count() + 1;
        Self::on_line(text[..start].matches('\n').count() + 1, column, &text[start..end])
    }

    /// The place at `column` of `line`, both from 1, whose text is `text`.
    pub(super) fn on_line(line: usize, column: usize, text: &str) -> Self {
        let skip = (column - 1).saturating_sub(BEFORE);
        let excerpt = text.trim_end_matches('\r').chars().skip(skip).take(BEFORE + AFTER);
        Self { line, column, excerpt: excerpt.map(|c| if steers(c) { ' ' } else { c }).collect() }
    }

    /// The line with a caret under the column, both behind the line number. A long line is shown round the column.
    #[must_use]
    pub fn echo(&self) -> String {
        let number = self.line.to_string();
        format!(
            "{number} | {}\n{:width$} | {:before$}^",
            self.excerpt,
            "",
            "",
            width = number.len(),
            before = (self.column - 1).min(BEFORE)
        )
    }
}

/// The place of the value at `path` (`tape.length`, `house[0]`) in `text`, which must be JSON that has been read without
/// error. Where the path goes further than the text does, the place of the last part that is there.
#[must_use]
pub fn locate(text: &str, path: &str) -> Place {
    Place::at(text, Scanner::at_value(text, path).1)
}

/// The place of the name of field `key` in the object at `path`, under the conditions of [`locate`].
pub(super) fn locate_key(text: &str, path: &str, key: &str) -> Place {
    let (mut scanner, object) = Scanner::at_value(text, path);
    Place::at(text, scanner.find_key(key).unwrap_or(object))
}

/// A place in a JSON text, moved from value to value.
#[derive(Clone, Copy)]
pub(super) struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scanner<'a> {
    /// A scanner at the text's one value.
    pub(super) fn at_start(text: &'a str) -> Self {
        let mut scanner = Self { text, at: 0 };
        scanner.skip_space();
        scanner
    }

    /// Where the value here stands; the scanner moves behind it.
    pub(super) fn whole_value(&mut self) -> std::ops::Range<usize> {
        self.skip_space();
        let start = self.at;
        let end = if self.skip_value().is_some() { self.at } else { self.text.len() };
        start..start + self.text[start..end].trim_end().len()
    }

    /// A scanner at the value at `path`, or at the last part of the path that is there, and where that starts.
    fn at_value(text: &'a str, path: &str) -> (Self, usize) {
        let mut scanner = Self::at_start(text);
        let mut found = scanner.at;
        for part in path.split(['.', '[']).filter(|part| !part.is_empty()) {
            let value = match part.strip_suffix(']').map(str::parse) {
                Some(Ok(index)) => scanner.enter_array(index),
                _ => scanner.enter_object(part),
            };
            match value {
                Some(at) => found = at,
                None => break,
            }
        }
        scanner.at = found;
        (scanner, found)
    }

    fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn skip_space(&mut self) {
        while self.peek().is_some_and(|b| b.is_ascii_whitespace()) {
            self.at += 1;
        }
    }

    fn take(&mut self, byte: u8) -> bool {
        self.skip_space();
        let there = self.peek() == Some(byte);
        self.at += usize::from(there);
        there
    }

    /// Moves to the value of `key` in the object here.
    pub(super) fn enter_object(&mut self, key: &str) -> Option<usize> {
        self.find_key(key)?;
        Some(self.at)
    }

    /// Moves to the value of `key` in the object here; gives where the key starts.
    pub(super) fn find_key(&mut self, key: &str) -> Option<usize> {
        self.take(b'{').then_some(())?;
        loop {
            self.skip_space();
            let start = self.at;
            self.skip_string()?;
            let name: String = serde_json::from_str(&self.text[start..self.at]).ok()?;
            self.take(b':').then_some(())?;
            self.skip_space();
            if name == key {
                return Some(start);
            }
            self.skip_value()?;
            self.take(b',').then_some(())?;
        }
    }

    /// Moves to element `index` of the array here.
    fn enter_array(&mut self, index: usize) -> Option<usize> {
        self.take(b'[').then_some(())?;
        for _ in 0..index {
            self.skip_value()?;
            self.take(b',').then_some(())?;
        }
        self.skip_space();
        (self.peek() != Some(b']')).then_some(self.at)
    }

    fn skip_string(&mut self) -> Option<()> {
        self.take(b'"').then_some(())?;
        loop {
            match self.peek()? {
                b'\\' => self.at += 2,
                b'"' => {
                    self.at += 1;
                    return Some(());
                }
                _ => self.at += 1,
            }
        }
    }

    fn skip_value(&mut self) -> Option<()> {
        self.skip_space();
        let mut depth = 0_usize;
        loop {
            match self.peek()? {
                b'"' => self.skip_string()?,
                b'{' | b'[' => {
                    depth += 1;
                    self.at += 1;
                }
                b'}' | b']' if depth > 0 => {
                    depth -= 1;
                    self.at += 1;
                }
                b'}' | b']' | b',' if depth == 0 => return Some(()),
                _ => self.at += 1,
            }
            if depth == 0 && matches!(self.peek(), None | Some(b',' | b'}' | b']')) {
                return Some(());
            }
        }
    }
}
