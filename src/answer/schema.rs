//! The JSON Schema of every answer, from the structs that write them: which keys there are and what unit each is in.

use schemars::generate::SchemaSettings;
use schemars::{Schema, SchemaGenerator, json_schema};
use serde_json::{Value, json};

use super::{BlankLine, Envelope, ErrorLine, Question, Sketch};
use crate::cuts::Cuts;
use crate::heights::Heights;
use crate::job::SCHEMA;
use crate::lines::{Lines, Straight};
use crate::order::Order;
use crate::packing::Packs;
use crate::plates::Plates;
use crate::practice::{Answers, Class, ClassMarks, Marks, Sheet};
use crate::readings::Readings;
use crate::square::{Corners, Diagonals};

/// The JSON Schema (draft 2020-12) of what `--json` and `batch` print: one case a command, tied to it by `command`, and
/// the line that `batch` writes where a job is not answered.
///
/// Keys that it doesn't name are allowed: a new key may come inside one schema number.
#[must_use]
pub fn schema() -> Schema {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let envelope = generator.subschema_for::<Envelope<'_>>();
    let mut cases: Vec<Value> = Question::ALL
        .into_iter()
        .map(|question| case(question.name(), &result(question, &mut generator), &envelope))
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

/// The schema of what stands in `result`.
fn result(question: Question, generator: &mut SchemaGenerator) -> Schema {
    match question {
        Question::Diagonals => generator.subschema_for::<Diagonals>(),
        Question::Corners => generator.subschema_for::<Corners>(),
        Question::Plates => generator.subschema_for::<Plates>(),
        Question::Cuts => generator.subschema_for::<Cuts>(),
        Question::Packs => generator.subschema_for::<Packs>(),
        Question::Heights => generator.subschema_for::<Heights>(),
        Question::Lines => generator.subschema_for::<Lines>(),
        Question::Straight => generator.subschema_for::<Straight>(),
        Question::Readings => generator.subschema_for::<Readings>(),
        Question::Order => generator.subschema_for::<Order>(),
        Question::Sketch => generator.subschema_for::<Sketch>(),
        Question::Sheet => generator.subschema_for::<super::Sheet>(),
    }
}

/// A part of the whole job: its command, and what that answers.
pub(super) fn part(generator: &mut SchemaGenerator) -> Schema {
    let parts = Question::ALL.into_iter().filter(|question| *question != Question::Sheet);
    let cases: Vec<Value> = parts
        .map(|question| {
            let result = result(question, generator);
            json!({
                "title": question.name(),
                "properties": {
                    "command": {"const": question.name()},
                    "result": result,
                },
            })
        })
        .collect();
    json_schema!({
        "description": "A part of the whole job, as its own command answers it.",
        "type": "object",
        "required": ["command", "result"],
        "oneOf": cases,
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
