//! From a job file's text to a [`JobFile`], or to every fault in it with its place.

use std::fmt;

use serde::Deserialize;
use serde_json::Value;

use super::{Fault, JobFile, Place, locate, schema};

/// The largest job file taken, bytes.
pub const LARGEST_FILE: usize = 1 << 20;

/// A job file that could not be read: each fault with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobFileError {
    /// The faults, in the order found.
    pub faults: Vec<(Fault, Place)>,
}

impl fmt::Display for JobFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let list: Vec<String> = self
            .faults
            .iter()
            .map(|(fault, place)| format!("{}:{}: {fault}", place.line, place.column))
            .collect();
        f.write_str(&list.join("; "))
    }
}

impl std::error::Error for JobFileError {}

/// Reads a job file's text. Every unknown key is reported, with the nearest known one; else the first value of a wrong
/// kind; what the values say is checked later.
pub fn read(text: &str) -> Result<JobFile, JobFileError> {
    let one = |field: &str, message: String, place: Place| JobFileError {
        faults: vec![(Fault::new(field, message), place)],
    };
    if text.len() > LARGEST_FILE {
        let message = format!(
            "the job file is {} bytes: {LARGEST_FILE} (1 MiB) is the most taken",
            text.len()
        );
        return Err(one("", message, Place::whole_text()));
    }
    if !text.trim_start().starts_with('{') {
        let message =
            "this is not a job file, which is JSON and begins with { (`pegline job new L` writes one)";
        return Err(one("", message.to_owned(), Place::whole_text()));
    }
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let tracked: Result<JobFile, _> = serde_path_to_error::deserialize(&mut deserializer);
    let error = match tracked {
        Ok(file) => match deserializer.end() {
            Ok(()) => return Ok(file),
            Err(error) => return Err(one("", plain(&error), place_of(text, &error))),
        },
        Err(error) => error,
    };
    let path = error.path().to_string();
    let error = error.into_inner();
    if error.is_data() {
        let unknown = unknown_keys(text);
        if !unknown.is_empty() {
            return Err(JobFileError { faults: unknown });
        }
        let field = if path == "." { String::new() } else { path };
        let place = locate(text, &field);
        return Err(one(&field, plain(&error), place));
    }
    let message = format!("this is not JSON: {}", plain(&error));
    Err(one("", message, place_of(text, &error)))
}

/// The error without the parser's own "at line 1 column 2", which the place says already.
fn plain(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let end = message.rfind(" at line ").unwrap_or(message.len());
    message[..end].to_owned()
}

fn place_of(text: &str, error: &serde_json::Error) -> Place {
    let before: usize = text
        .split_inclusive('\n')
        .take(error.line().saturating_sub(1))
        .map(str::len)
        .sum();
    Place::at(text, before + error.column().saturating_sub(1))
}

/// Every key in the text that the schema doesn't have.
fn unknown_keys(text: &str) -> Vec<(Fault, Place)> {
    let Ok(value) = serde_json::from_str::<Value>(text) else {
        return vec![];
    };
    let schema = schema().to_value();
    let mut found = vec![];
    walk(&value, &schema, &schema, "", &mut |path, key, known| {
        let instead = match nearest(key, known) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the fields are {}", known.join(", ")),
        };
        let message = format!("there is no field `{key}` here: {instead}");
        let field = if path.is_empty() {
            key.to_owned()
        } else {
            format!("{path}.{key}")
        };
        let place = locate(text, &field);
        found.push((Fault::new(field, message), place));
    });
    found
}

/// Walks a value and its schema together, telling every key that the schema doesn't have.
fn walk(value: &Value, schema: &Value, root: &Value, path: &str, tell: &mut dyn FnMut(&str, &str, &[&str])) {
    let schema = resolve(schema, root);
    match value {
        Value::Object(fields) => {
            let Some(known) = schema.get("properties").and_then(Value::as_object) else {
                return;
            };
            let names: Vec<&str> = known.keys().map(String::as_str).collect();
            for (key, inner) in fields {
                match known.get(key) {
                    Some(sub) => {
                        let path = if path.is_empty() {
                            key.clone()
                        } else {
                            format!("{path}.{key}")
                        };
                        walk(inner, sub, root, &path, tell);
                    }
                    None => tell(path, key, &names),
                }
            }
        }
        Value::Array(items) => {
            if let Some(sub) = schema.get("items") {
                for (i, item) in items.iter().enumerate() {
                    walk(item, sub, root, &format!("{path}[{i}]"), tell);
                }
            }
        }
        _ => {}
    }
}

/// Follows `$ref`, alone or in the `anyOf` that an optional field becomes.
fn resolve<'a>(schema: &'a Value, root: &'a Value) -> &'a Value {
    let followed = |schema: &'a Value| {
        let name = schema.get("$ref")?.as_str()?.strip_prefix("#/")?;
        root.pointer(&format!("/{name}"))
    };
    let either = schema
        .get("anyOf")
        .and_then(Value::as_array)
        .into_iter()
        .flatten();
    followed(schema)
        .or_else(|| either.into_iter().find_map(followed))
        .unwrap_or(schema)
}

/// The known word nearest to what was written, if near enough to have been meant.
fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let lower = word.to_lowercase();
    known
        .iter()
        .map(|candidate| (strsim::jaro_winkler(&lower, candidate), *candidate))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate)
}

impl JobFile {
    /// Lays `over` on top: what it gives replaces what is here.
    #[must_use]
    pub fn overlaid(mut self, over: Self) -> Self {
        fn merge(under: Value, over: Value) -> Value {
            match (under, over) {
                (Value::Object(mut under), Value::Object(over)) => {
                    for (key, value) in over {
                        let below = under.remove(&key).unwrap_or(Value::Null);
                        under.insert(key, merge(below, value));
                    }
                    Value::Object(under)
                }
                (_, over) => over,
            }
        }
        // A plan of either spelling replaces one of the other.
        if over.plan.is_some() || over.walk.is_some() {
            (self.plan, self.walk) = (None, None);
        }
        // A limit of either kind replaces the other.
        if let (Some(under), Some(over)) = (&mut self.readings, &over.readings)
            && (over.limit.is_some() || over.preset.is_some())
        {
            (under.limit, under.preset) = (None, None);
        }
        // Both are trees of optional fields that serialize only where given, so the merge is the same for every field
        // that a later capability adds.
        let merged = serde_json::to_value(&self)
            .and_then(|under| Ok(merge(under, serde_json::to_value(&over)?)))
            .and_then(Self::deserialize);
        merged.unwrap_or(over)
    }
}
