//! What was typed laid over a job file: it replaces what is there, and a reading only the one of its own name.

use serde::Deserialize;
use serde_json::Value;

use super::read::plain;
use crate::job::{Fault, JobFile, LengthEntry};
use crate::length::Units;

/// Lists of what is read on site: a reading of another name has not been withdrawn.
const READ: [&str; 6] = [
    "readings.read",
    "readings.second_tape.read",
    "readings.rise",
    "packs.staff",
    "packs.heights",
    "straight.readings",
];

/// Lists of what is chosen, which are added to where a job is kept and replaced where one thing is tried instead of another.
const CHOSEN: [&str; 7] =
    ["openings", "partitions", "joints", "stock.lengths", "stock.have", "heights.drops", "order.extras"];

impl JobFile {
    /// Lays `over` on top: what it gives replaces what is here, a reading the one of its own name.
    ///
    /// A figure in `over` that is no number in JSON (infinite, or none) is refused: it could not replace anything.
    pub fn overlaid(self, over: &Self) -> Result<Self, Fault> {
        self.laid(over, &|path| READ.contains(&path))
    }

    /// The same for a job that is kept so: every list of named things is added to.
    pub fn added_to(self, over: &Self) -> Result<Self, Fault> {
        self.laid(over, &|path| READ.contains(&path) || CHOSEN.contains(&path))
    }

    fn laid(mut self, over: &Self, is_added_to: &dyn Fn(&str) -> bool) -> Result<Self, Fault> {
        self.make_way(over);
        let laid = || -> serde_json::Result<Option<Self>> {
            let given = serde_json::to_value(over)?;
            if Self::deserialize(&given)? != *over {
                return Ok(None);
            }
            let whole = merge(serde_json::to_value(&self)?, given, "", is_added_to);
            Self::deserialize(whole).map(Some)
        };
        let problem = match laid() {
            Ok(Some(whole)) => return Ok(whole),
            Ok(None) => "a figure given with it is no number: write one such as 0.5".to_owned(),
            Err(error) => plain(&error),
        };
        Err(Fault::new("", format!("nothing can be laid over the job: {problem}")))
    }

    /// Leaves out what `over` gives in another spelling.
    fn make_way(&mut self, over: &Self) {
        // A plan of either spelling replaces one of the other.
        if over.plan.is_some() || over.walk.is_some() {
            (self.plan, self.walk) = (None, None);
        }
        // Neither kind of reading adds to those of a file, and a limit of either kind replaces the other.
        if let (Some(under), Some(over)) = (&mut self.packs, &over.packs) {
            if over.staff.is_some() {
                under.heights = None;
            }
            if over.heights.is_some() {
                under.staff = None;
            }
            if over.limit.is_some() || over.preset.is_some() {
                (under.limit, under.preset) = (None, None);
            }
        }
        // A limit of either kind replaces the other.
        if let (Some(under), Some(over)) = (&mut self.readings, &over.readings)
            && (over.limit.is_some() || over.preset.is_some())
        {
            (under.limit, under.preset) = (None, None);
        }
        // Another side's readings are others.
        if let (Some(under), Some(over)) = (&mut self.straight, &over.straight)
            && over.side.is_some()
            && over.side != under.side
        {
            under.readings = None;
        }
    }
}

fn merge(under: Value, over: Value, path: &str, is_added_to: &dyn Fn(&str) -> bool) -> Value {
    match (under, over) {
        (Value::Object(mut under), Value::Object(over)) => {
            for (key, value) in over {
                let below = under.remove(&key).unwrap_or(Value::Null);
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                under.insert(key, merge(below, value, &path, is_added_to));
            }
            Value::Object(under)
        }
        // What is not given is null, whichever field it is.
        (under, Value::Null) => under,
        (Value::Array(under), Value::Array(over)) if is_added_to(path) => {
            Value::Array(added_sets(under, over))
        }
        (_, over) => over,
    }
}

/// The same of readings that may be a list for each set-up: several set-ups can't be told apart, and are replaced.
fn added_sets(mut under: Vec<Value>, mut over: Vec<Value>) -> Vec<Value> {
    if let ([Value::Array(under)], [Value::Array(over)]) = (&mut under[..], &mut over[..]) {
        return vec![Value::Array(added(std::mem::take(under), std::mem::take(over)))];
    }
    if over.iter().any(Value::is_array) { over } else { added(under, over) }
}

/// A list with what is new in the place of what had its name, and the rest behind it.
fn added(under: Vec<Value>, mut over: Vec<Value>) -> Vec<Value> {
    let (mut whole, mut replaced) = (vec![], vec![]);
    for old in under {
        let Some(own) = name(&old) else {
            whole.push(old);
            continue;
        };
        let is_own = |new: &Value| name(new).as_ref() == Some(&own);
        if over.iter().any(is_own) {
            replaced.push(own.clone());
            whole.extend(over.extract_if(.., |new| name(new).as_ref() == Some(&own)));
        } else if !replaced.contains(&own) {
            whole.push(old);
        }
    }
    whole.extend(over);
    whole
}

/// What an entry of a list is the reading or the length of, however it is spelt; nothing for one without a name.
fn name(entry: &Value) -> Option<String> {
    let text = |value: &Value| match value {
        Value::Number(number) => Some(number.to_string()),
        Value::String(text) => Some(text.trim().to_uppercase()),
        _ => None,
    };
    match entry {
        Value::String(text) => Some(line(&text.split_once('=')?.0.trim().to_uppercase())),
        Value::Object(fields) => {
            let field = |key: &str| fields.get(key).and_then(text);
            let place = || Some(format!("{}@{}", field("side").unwrap_or_default(), field("at")?));
            field("item").or_else(|| field("name")).or_else(place).or_else(|| length(fields.get("length")?))
        }
        _ => None,
    }
}

/// A line either way round.
fn line(name: &str) -> String {
    let mut letters: Vec<char> = name.chars().collect();
    if letters.len() == 2 {
        letters.sort_unstable();
    }
    letters.into_iter().collect()
}

/// A length in whichever unit it was written.
fn length(value: &Value) -> Option<String> {
    let entry = LengthEntry::deserialize(value).ok()?;
    Some(entry.read(Units::Mm).ok()?.mm.to_string())
}
