//! A filled form: the JSON sheet with its answers, or the form alone.

use pegline::practice::Form;
use serde::Deserialize;

use crate::cli::failure::Failure;

/// The JSON sheet, whose `result` is a form to fill in.
#[derive(Deserialize)]
struct Whole {
    result: Form,
}

/// Reads the form of the file `shown`.
pub(super) fn form(text: &str, shown: &str) -> Result<Form, Failure> {
    let bad = |place: String, error: serde_json::Error| {
        let message = error.to_string();
        let problem = if !error.is_data() {
            "this is not JSON".to_owned()
        } else if let Some(name) = message.strip_prefix("missing field `") {
            format!("`{}` is missing", name.split('`').next().unwrap_or_default())
        } else if let Some(name) = message.strip_prefix("duplicate field `") {
            format!("`{}` is given twice", name.split('`').next().unwrap_or_default())
        } else {
            "a value of another kind belongs here".to_owned()
        };
        Failure::input(format!(
            "{shown}:{}:{}: {place}{problem}: write {{\"topic\": \"diagonals\", \"level\": 1, \"seed\": 7, \"count\": 8, \"answers\": {{\"1\": 8591}}}}",
            error.line(),
            error.column()
        ))
    };
    let at = |path: &serde_path_to_error::Path| {
        let path = path.to_string();
        // The path to what can't be read at all has a question mark for its end.
        if path.ends_with(['.', '?']) {
            String::new()
        } else {
            // Nested without end it is as long as the file.
            let near = path.chars().take(40).collect::<String>();
            format!("{near}: ")
        }
    };
    let mut reader = serde_json::Deserializer::from_str(text);
    let is_sheet =
        serde_json::from_str(text).is_ok_and(|json: serde_json::Value| json.get("result").is_some());
    if is_sheet {
        let whole: Result<Whole, _> = serde_path_to_error::deserialize(&mut reader);
        return whole.map(|whole| whole.result).map_err(|error| bad(at(error.path()), error.into_inner()));
    }
    serde_path_to_error::deserialize(&mut reader).map_err(|error| bad(at(error.path()), error.into_inner()))
}
