//! From a job file's text to a [`JobFile`], or to every fault in it with its place.

use std::fmt;

use schemars::Schema;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::bulk::{may_be_too_much, too_much};
use super::locate::{Place, boundary, locate};
use super::objects::Objects;
use super::shape::faults;
use crate::job::{Fault, Faults, JobFile, schema};
use crate::words::{and_more, quoted};

/// The largest job file taken, bytes.
pub const LARGEST_FILE: usize = 1 << 20;

/// A job file that could not be read: each fault with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct JobFileError {
    /// The faults.
    pub faults: Faults<(Fault, Place)>,
}

impl fmt::Display for JobFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let told = |(fault, place): &(Fault, Place)| format!("{}:{}: {fault}", place.line, place.column);
        let mut list: Vec<String> = self.faults.iter().map(told).collect();
        list.extend(and_more(self.faults.more()));
        f.write_str(&list.join("; "))
    }
}

impl std::error::Error for JobFileError {}

impl JobFileError {
    fn one(fault: Fault, place: Place) -> Self {
        let mut faults = Faults::default();
        faults.push(|| (fault, place));
        Self { faults }
    }
}

/// Reads a job file's text. Every unknown field, with the nearest known one, and every value of a wrong kind is
/// reported; what the values say is checked later.
pub fn read(text: &str) -> Result<JobFile, JobFileError> {
    if text.len() > LARGEST_FILE {
        return Err(nowhere(format!("the job file is over {LARGEST_FILE} bytes (1 MiB), the most taken")));
    }
    let text = without_mark(text);
    let start = text.trim_start();
    if !start.starts_with('{') {
        let found = if start.is_empty() {
            "the job is empty".to_owned()
        } else {
            let line = start.lines().next().unwrap_or_default();
            format!("`{}` is not the start of a job", quoted(line))
        };
        return Err(nowhere(format!(
            "{found}: a job is one JSON object, from {{ to }} (`pegline job new` writes one)"
        )));
    }
    read_as(text, "the job's closing }", schema)
}

/// Reads JSON whose shape `schema` gives; `close` is what nothing may follow.
pub(super) fn read_as<T: DeserializeOwned>(
    text: &str,
    close: &str,
    schema: fn() -> Schema,
) -> Result<T, JobFileError> {
    if !may_be_too_much(text)
        && let Ok(file) = whole(text)
    {
        return Ok(file);
    }
    let value: Value = match serde_json::from_str(text) {
        Ok(value) => value,
        Err(error) => return Err(syntax(text, close, &error)),
    };
    if let Some(fault) = too_much(&value) {
        let place = locate(text, &fault.field);
        return Err(JobFileError::one(fault, place));
    }
    let mut deserializer = serde_json::Deserializer::from_str(text);
    serde_path_to_error::deserialize(Objects(&mut deserializer)).map_err(|error| {
        let mut faults = faults(text, &value, &schema().to_value());
        if faults.is_empty() {
            let path = error.path().to_string();
            faults.push(|| other(text, &path, &error.into_inner()));
        }
        JobFileError { faults }
    })
}

/// What the whole of a text says, where nothing is wrong with it.
fn whole<T: DeserializeOwned>(text: &str) -> serde_json::Result<T> {
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let read = T::deserialize(Objects(&mut deserializer))?;
    deserializer.end().map(|()| read)
}

/// A text without the byte order mark that some editors put before it.
#[must_use]
pub fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// A fault of the text as a whole.
pub(super) fn nowhere(message: String) -> JobFileError {
    JobFileError::one(Fault::new("", message), Place::whole_text())
}

/// A text that is not JSON.
fn syntax(text: &str, close: &str, error: &serde_json::Error) -> JobFileError {
    let at = offset_of(text, error);
    let (before, after) = text.split_at(boundary(text, at));
    let curly = |c: char| matches!(c, '“' | '”' | '„' | '‘' | '’');
    let message = match plain(error).as_str() {
        "expected value" | "key must be a string" if after.starts_with(curly) => {
            "this is not JSON: these are curly quotes, as a phone writes them: write straight ones, \""
                .to_owned()
        }
        "expected `,` or `}`" | "expected `,` or `]`"
            if before.ends_with(|c: char| c.is_ascii_digit()) && after.starts_with(char::is_alphabetic) =>
        {
            let number =
                before.rsplit(|c: char| !(c.is_ascii_digit() || c == '.')).next().unwrap_or_default();
            let rest = after.split(|c: char| matches!(c, ',' | '}' | ']') || c.is_whitespace()).next();
            let written = quoted(&format!("{number}{}", rest.unwrap_or_default()));
            format!("this is not JSON: text stands in double quotes: write \"{written}\"")
        }
        "trailing characters" => format!("there is something after {close}: leave it out"),
        _ if error.is_eof() => "this is not JSON: it ends before everything opened is closed".to_owned(),
        "expected value" => "this is not JSON: a value is missing here".to_owned(),
        "expected ident" => {
            "this is not JSON: text stands in double quotes; a bare word can only be true, false or null"
                .to_owned()
        }
        "expected `:`" => "this is not JSON: a : stands between a field's name and its value".to_owned(),
        "expected `,` or `}`" => {
            "this is not JSON: a , stands between two fields, and a } after the last".to_owned()
        }
        "expected `,` or `]`" => {
            "this is not JSON: a , stands between two values, and a ] after the last".to_owned()
        }
        "trailing comma" => {
            "this is not JSON: there is a comma with nothing after it: leave it out".to_owned()
        }
        "number out of range" => {
            "this is not JSON: the number is too large: write one such as 6435".to_owned()
        }
        "invalid number" => "this is not JSON: that is no number: write one such as 6435 or 0.5".to_owned(),
        "recursion limit exceeded" => {
            "this is not JSON that can be read: brackets are nested too deep".to_owned()
        }
        said if said.starts_with("control character") => {
            "this is not JSON: a line break or a tab inside a text: close it with a double quote first"
                .to_owned()
        }
        said if said.contains("escape") || said.contains("surrogate") || said.contains("code point") => {
            "this is not JSON: that is no escape: write \\\\ for a backslash".to_owned()
        }
        "key must be a string" => "this is not JSON: a field's name stands in double quotes".to_owned(),
        said => format!("this is not JSON: {said}"),
    };
    JobFileError::one(Fault::new("", message), place_of(text, error))
}

/// A fault that the schema doesn't show: a field given twice, a number past its kind's range.
fn other(text: &str, path: &str, error: &serde_json::Error) -> (Fault, Place) {
    let said = plain(error);
    let field = if path == "." { "" } else { path };
    if let Some(name) = said.strip_prefix("duplicate field ") {
        let fault = Fault::new(field, format!("{name} is given twice: leave one of them out"));
        return (fault, place_of(text, error));
    }
    let said = match said.strip_prefix("missing field ") {
        Some(name) => format!("{name} is missing: write it as well"),
        None => said,
    };
    (Fault::new(field, said), locate(text, field))
}

/// The error without the parser's own "at line 1 column 2", which the place says already.
pub(super) fn plain(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let end = message.rfind(" at line ").unwrap_or(message.len());
    message[..end].to_owned()
}

fn place_of(text: &str, error: &serde_json::Error) -> Place {
    Place::at(text, offset_of(text, error))
}

/// The byte that an error was found at.
fn offset_of(text: &str, error: &serde_json::Error) -> usize {
    let before: usize = text.split_inclusive('\n').take(error.line().saturating_sub(1)).map(str::len).sum();
    (before + error.column().saturating_sub(1)).min(text.len())
}
