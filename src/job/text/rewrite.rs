//! A job file's text with other values in it: what did not change stays as it was written.

use serde_json::{Map, Value};

use super::locate::Scanner;
use super::read::read;
use crate::job::{Fault, JobFile};

/// The columns that a list may take before it is written a line an entry.
const COLUMNS: usize = 80;

/// The text of a job file with the values of `file` in it. Fields that `file` does not have are taken out; nothing else of
/// the text is touched. Fails where the text is no job file.
pub fn rewritten(text: &str, file: &JobFile) -> Result<String, Fault> {
    let problem = |problem: String| Fault::new("", format!("the job can't be kept in it: {problem}"));
    let under = read(text).map_err(|error| problem(error.to_string()))?;
    let values = |file: &JobFile| match serde_json::to_value(file) {
        Ok(value) => Ok(given(value)),
        Err(error) => Err(problem(error.to_string())),
    };
    let whole = values(file)?;
    let mut edited = text.to_owned();
    edit(&mut edited, &mut vec![], &values(&under)?, &whole);
    match read(&edited) {
        Ok(kept) if values(&kept)? == whole => Ok(edited),
        _ => Err(problem("a field stands in it that is not as it was read".to_owned())),
    }
}

/// Makes the value at `path` what `new` is, where `old` stands there.
fn edit(text: &mut String, path: &mut Vec<String>, old: &Value, new: &Value) {
    match (old, new) {
        (Value::Object(old), Value::Object(new)) => {
            let keys = old.keys().chain(new.keys().filter(|key| !old.contains_key(*key)));
            for key in keys.cloned().collect::<Vec<_>>() {
                path.push(key.clone());
                match (old.get(&key), new.get(&key)) {
                    (Some(old), Some(new)) => edit(text, path, old, new),
                    (None, Some(new)) => set(text, path, new),
                    (Some(_), None) => take_out(text, path),
                    (None, None) => {}
                }
                path.pop();
            }
        }
        _ if old == new => {}
        _ => set(text, path, new),
    }
}

/// Writes the value at `path`, over what is there or as a new field.
fn set(text: &mut String, path: &[String], value: &Value) {
    let indent = 2 * path.len();
    let mut scanner = Scanner::at_start(text);
    for (depth, key) in path.iter().enumerate() {
        let mut here = scanner;
        if scanner.enter_object(key).is_none() {
            let whole = path[depth + 1..]
                .iter()
                .rev()
                .fold(value.clone(), |inner, key| Value::Object(Map::from_iter([(key.clone(), inner)])));
            let object = here.whole_value();
            return add(text, object, key, &whole, 2 * depth);
        }
    }
    let there = scanner.whole_value();
    text.replace_range(there, &written(value, indent));
}

/// Adds a field to the object in `range`, whose own fields stand `indent` columns in and two more.
fn add(text: &mut String, range: std::ops::Range<usize>, key: &str, value: &Value, indent: usize) {
    let object = &text[range.clone()];
    let inside =
        object.strip_prefix('{').and_then(|rest| rest.strip_suffix('}')).unwrap_or_default().trim_end();
    let field = format!("{}: {}", Value::from(key), written(value, indent + 2));
    let on_lines = object.contains('\n') || object.len() + field.len() + indent > COLUMNS || indent == 0;
    let comma = if inside.trim().is_empty() { "" } else { "," };
    let at = range.start + 1 + inside.len();
    let added = if on_lines {
        format!("{comma}\n{:1$}{field}\n{2:indent$}", "", indent + 2, "")
    } else {
        format!("{comma}{}{field}", if comma.is_empty() { "" } else { " " })
    };
    text.replace_range(at..range.end - 1, &added);
}

/// Takes out the field at `path`, and one comma beside it.
fn take_out(text: &mut String, path: &[String]) {
    let Some((key, above)) = path.split_last() else { return };
    let mut scanner = Scanner::at_start(text);
    if above.iter().any(|key| scanner.enter_object(key).is_none()) {
        return;
    }
    let Some(start) = scanner.find_key(key) else { return };
    let end = scanner.whole_value().end;
    let behind = text[end..].trim_start();
    let range = if let Some(next) = behind.strip_prefix(',') {
        start..text.len() - next.trim_start().len()
    } else {
        let before = text[..start].trim_end();
        before.strip_suffix(',').unwrap_or(before).len()..end
    };
    text.replace_range(range, "");
}

/// A value as a person would write it: on one line if it fits, else a line an entry.
fn written(value: &Value, indent: usize) -> String {
    let line = on_a_line(value);
    if line.chars().count() + indent <= COLUMNS {
        return line;
    }
    let entries: Vec<String> = match value {
        Value::Array(items) => items.iter().map(|item| written(item, indent + 2)).collect(),
        Value::Object(fields) => fields
            .iter()
            .map(|(key, value)| format!("{}: {}", Value::from(key.as_str()), written(value, indent + 2)))
            .collect(),
        _ => return line,
    };
    let (open, close) = if value.is_array() { ('[', ']') } else { ('{', '}') };
    let step = format!("\n{:1$}", "", indent + 2);
    format!("{open}{step}{}\n{:indent$}{close}", entries.join(&format!(",{step}")), "")
}

fn on_a_line(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(on_a_line).collect::<Vec<_>>().join(", ")),
        Value::Object(fields) => {
            let field = |(key, value): (&String, &Value)| {
                format!("{}: {}", Value::from(key.as_str()), on_a_line(value))
            };
            format!("{{{}}}", fields.iter().map(field).collect::<Vec<_>>().join(", "))
        }
        one => one.to_string(),
    }
}

/// What is given in a value: fields of no value are left out, and sections with no field.
fn given(value: Value) -> Value {
    match value {
        Value::Object(fields) => {
            let fields = fields.into_iter().map(|(key, value)| (key, given(value)));
            let is_given =
                |value: &Value| !value.is_null() && value.as_object().is_none_or(|fields| !fields.is_empty());
            Value::Object(fields.filter(|(_, value)| is_given(value)).collect())
        }
        Value::Array(items) => Value::Array(items.into_iter().map(given).collect()),
        one => one,
    }
}

#[cfg(test)]
#[expect(clippy::expect_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;

    fn kept(text: &str, over: &str) -> String {
        let over = read(over).expect("a job file");
        let whole = read(text).expect("a job file").added_to(&over).expect("a job file");
        rewritten(text, &whole).expect("it can be kept")
    }

    #[test]
    fn what_did_not_change_stays_as_it_was_written() {
        let text =
            "{\n   \"plan\" : \"6000x4000\",   \"house\":[\"AB\"],\n\n  \"tape\": { \"class\": \"II\" }\n}\n";
        let tape = kept(text, r#"{"tape": {"length": "8m"}}"#);
        assert_eq!(tape, text.replace("\"II\" }", "\"II\", \"length\": \"8m\"}"));
        let house = kept(text, r#"{"house": ["CD"]}"#);
        assert_eq!(house, text.replace("AB", "CD"));
    }

    #[test]
    fn a_new_section_stands_behind_the_others() {
        let text = "{\n  \"schema\": 1\n}\n";
        let whole = kept(text, r#"{"plan": "6000x4000", "readings": {"read": ["AB=6000"]}}"#);
        let expected =
            "{\n  \"schema\": 1,\n  \"plan\": \"6000x4000\",\n  \"readings\": {\"read\": [\"AB=6000\"]}\n}\n";
        assert_eq!(whole, expected);
        assert_eq!(kept("{}", r#"{"plan": "6000x4000"}"#), "{\n  \"plan\": \"6000x4000\"\n}");
    }

    #[test]
    fn a_reading_replaces_its_own_name_alone_and_a_plan_the_walk() {
        let text = r#"{"walk": "6000 R 4000", "readings": {"read": ["AB=6000", "BC=4000", "BA=6010"]}}"#;
        let whole = kept(text, r#"{"plan": "6000x4000", "readings": {"read": ["ab=6002", "AC=7211"]}}"#);
        let whole = read(&whole).expect("a job file");
        assert_eq!((whole.plan.as_deref(), whole.walk), (Some("6000x4000"), None));
        let read = whole.readings.and_then(|readings| readings.read).unwrap_or_default();
        assert_eq!(read, ["ab=6002", "BC=4000", "AC=7211"]);
    }
}
