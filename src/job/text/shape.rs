//! What is wrong with a job's JSON before its values are looked at: fields that don't exist, values of a wrong kind.

use serde_json::Value;

use super::locate::{Place, locate, locate_key};
use crate::job::{Fault, Faults};
use crate::words::{nearest, quoted};

/// The fields in `text` that `schema` doesn't have and the values of a wrong kind, those told in the order they stand.
pub(super) fn faults(text: &str, value: &Value, schema: &Value) -> Faults<(Fault, Place)> {
    let mut walker = Walker { text, root: schema, found: Faults::default() };
    walker.walk(value, schema, "");
    walker.found.sort_by_key(|(_, place)| (place.line, place.column));
    walker.found
}

struct Walker<'a> {
    text: &'a str,
    root: &'a Value,
    found: Faults<(Fault, Place)>,
}

impl Walker<'_> {
    fn walk(&mut self, value: &Value, schema: &Value, path: &str) {
        if value.is_null() && allows(schema, "null") {
            return;
        }
        let schema = resolve(schema, self.root);
        if let Some(instead) = wrong_kind(value, schema) {
            self.found.push(|| {
                let message = format!("`{}` is {}: write {instead}", quoted(&value.to_string()), kind(value));
                (Fault::new(path, message), locate(self.text, path))
            });
            return;
        }
        match value {
            Value::Object(fields) => {
                let Some(known) = schema.get("properties").and_then(Value::as_object) else {
                    return;
                };
                for (key, inner) in fields {
                    let field = join(path, key);
                    if let Some(sub) = known.get(key) {
                        self.walk(inner, sub, &field);
                    } else {
                        self.found.push(|| {
                            let names: Vec<&str> = known.keys().map(String::as_str).collect();
                            let instead = match nearest(key, &names) {
                                Some(near) => format!("did you mean `{near}`?"),
                                None => format!("the fields are {}", names.join(", ")),
                            };
                            let message = format!("there is no field `{}` here: {instead}", quoted(key));
                            (Fault::new(field, message), locate_key(self.text, path, key))
                        });
                    }
                }
            }
            Value::Array(items) => {
                if let Some(sub) = schema.get("items") {
                    for (i, item) in items.iter().enumerate() {
                        self.walk(item, sub, &format!("{path}[{i}]"));
                    }
                }
            }
            _ => {}
        }
    }
}

fn join(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}

/// Whether a schema takes a value of `kind`, here or in its `anyOf`.
fn allows(schema: &Value, kind: &str) -> bool {
    let here = match schema.get("type") {
        Some(Value::Array(kinds)) => kinds.iter().any(|k| k == kind),
        Some(one) => one == kind,
        None => false,
    };
    let either = schema.get("anyOf").and_then(Value::as_array);
    here || either.is_some_and(|either| either.iter().any(|sub| allows(sub, kind)))
}

/// What to write instead, where the schema says what kind the value must be and it is another.
fn wrong_kind(value: &Value, schema: &Value) -> Option<String> {
    schema.get("type")?;
    let right = match value {
        Value::Null => allows(schema, "null"),
        Value::Bool(_) => allows(schema, "boolean"),
        Value::String(_) => allows(schema, "string"),
        Value::Array(_) => allows(schema, "array"),
        Value::Object(_) => allows(schema, "object"),
        Value::Number(number) => {
            let most = match schema.get("format").and_then(Value::as_str) {
                Some("uint32") => u64::from(u32::MAX),
                _ => u64::MAX,
            };
            let whole = if schema.get("minimum").is_some() {
                number.as_u64().is_some_and(|number| number <= most)
            } else {
                number.is_i64()
            };
            allows(schema, "number") || (allows(schema, "integer") && whole)
        }
    };
    if right {
        return None;
    }
    let kinds = [
        ("object", "fields in { }"),
        ("array", "a list in [ ]"),
        ("boolean", "true or false"),
        ("integer", "a whole number, 0 or more"),
        ("number", "a number"),
        ("string", "text in double quotes"),
    ];
    let taken: Vec<&str> =
        kinds.into_iter().filter(|(kind, _)| allows(schema, kind)).map(|(_, words)| words).collect();
    let examples: Vec<String> = schema
        .get("examples")
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
        .map(Value::to_string)
        .collect();
    let mut instead = taken.join(" or ");
    if !examples.is_empty() {
        instead = format!("{instead}, such as {}", examples.join(", "));
    }
    Some(instead)
}

/// What a value is, in words.
const fn kind(value: &Value) -> &'static str {
    match value {
        Value::Null => "nothing",
        Value::Bool(_) => "a truth value",
        Value::Number(_) => "a number",
        Value::String(_) => "text",
        Value::Array(_) => "a list",
        Value::Object(_) => "a set of fields",
    }
}

/// Follows `$ref`, alone or in the `anyOf` that an optional field becomes.
fn resolve<'a>(schema: &'a Value, root: &'a Value) -> &'a Value {
    let followed = |schema: &'a Value| {
        let name = schema.get("$ref")?.as_str()?.strip_prefix("#/")?;
        root.pointer(&format!("/{name}"))
    };
    let either = schema.get("anyOf").and_then(Value::as_array).into_iter().flatten();
    followed(schema).or_else(|| either.into_iter().find_map(followed)).unwrap_or(schema)
}
