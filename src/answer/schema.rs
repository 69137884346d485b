//! The JSON Schema of every answer, from the structs that write them: which keys there are and what unit each is in.

use schemars::generate::SchemaSettings;
use schemars::{Schema, json_schema};
use serde_json::{Value, json};

use super::commands::Question;
use super::envelope::{BlankLine, Envelope, ErrorLine};
use crate::job::SCHEMA;
use crate::practice::{Answers, Class, ClassMarks, Marks, Sheet};

/// The JSON Schema (draft 2020-12) of what `--json` and `batch` print: one case a command, tied to it by `command`, and
/// the line that `batch` writes where a job is not answered.
///
/// Keys that it doesn't name are allowed: a new key may come inside one schema number.
#[must_use]
pub fn schema() -> Schema {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let envelope = generator.subschema_for::<Envelope<'_, Value>>();
    let mut cases: Vec<Value> = Question::ALL
        .into_iter()
        .map(|question| case(question.name(), &question.schema(&mut generator), &envelope))
        .collect();
    let practice = json_schema!({
        "anyOf": [
            generator.subschema_for::<Sheet>(),
            generator.subschema_for::<Answers>(),
            generator.subschema_for::<Marks>(),
            generator.subschema_for::<Class<Sheet>>(),
            generator.subschema_for::<Class<Answers>>(),
            generator.subschema_for::<ClassMarks>(),
        ]
    });
    cases.push(case("practice", &practice, &envelope));
    cases.push(generator.subschema_for::<ErrorLine<'_>>().into());
    cases.push(generator.subschema_for::<BlankLine>().into());
    json_schema!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("pegline-answers-{SCHEMA}"),
        "title": "pegline answers",
        "description": "What pegline prints as JSON. Lengths are in mm unless the key names another unit; keys that stand here never change meaning inside one schema number, and others may be added.",
        "oneOf": cases,
        "$defs": generator.take_definitions(true),
    })
}

/// The envelope with one command's result in it.
fn case(command: &str, result: &Schema, envelope: &Schema) -> Value {
    json!({
        "title": command,
        "allOf": [envelope],
        "properties": {"command": {"const": command}, "result": result},
    })
}
