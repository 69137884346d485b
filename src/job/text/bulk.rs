//! How much a job's JSON may hold: a list or a text past any that is of use is refused before it is read for what it says,
//! so that no file costs more than its own size.

use serde_json::Value;

use crate::job::Fault;
use crate::plan::LONGEST_TEXT;

/// The most items in any list.
const MOST_ITEMS: usize = 10_000;

/// Whether a text is long enough to hold any that is: one of so many items has two bytes an item.
pub(super) const fn may_be_too_much(json: &str) -> bool {
    json.len() > LONGEST_TEXT
}

/// The first list or text that is too long.
pub(super) fn too_much(value: &Value) -> Option<Fault> {
    let (path, problem) = found(value)?;
    Some(Fault::new(path.trim_start_matches('.'), problem))
}

/// Where it is, from here, and what to say of it.
fn found(value: &Value) -> Option<(String, String)> {
    match value {
        Value::String(text) if text.len() > LONGEST_TEXT => {
            let length = text.chars().count();
            Some((String::new(), format!("it is {length} characters long: {LONGEST_TEXT} is the most taken")))
        }
        Value::Array(items) if items.len() > MOST_ITEMS => {
            let count = items.len();
            Some((String::new(), format!("{count} are given: no list takes more than {MOST_ITEMS}")))
        }
        Value::Array(items) => items
            .iter()
            .enumerate()
            .find_map(|(i, item)| found(item).map(|(path, problem)| (format!("[{i}]{path}"), problem))),
        Value::Object(fields) => fields
            .iter()
            .find_map(|(key, field)| found(field).map(|(path, problem)| (format!(".{key}{path}"), problem))),
        _ => None,
    }
}
