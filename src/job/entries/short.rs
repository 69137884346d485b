//! Lists in a job file whose items are objects, or the short texts that the options take for the same.

use std::fmt::{self, Display, Formatter};
use std::marker::PhantomData;
use std::str::FromStr;

use schemars::Schema;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};

/// Reads such a list.
pub(in crate::job) fn short_list<'de, D, T>(deserializer: D) -> Result<Option<Vec<T>>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de> + FromStr<Err: Display>,
{
    let list = Option::<Vec<Short<T>>>::deserialize(deserializer)?;
    Ok(list.map(|items| items.into_iter().map(|Short(item)| item).collect()))
}

/// Says of an item's schema that a text will do.
pub(in crate::job) fn or_text(schema: &mut Schema) {
    schema.insert("type".to_owned(), serde_json::json!(["object", "string"]));
}

struct Short<T>(T);

impl<'de, T: Deserialize<'de> + FromStr<Err: Display>> Deserialize<'de> for Short<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ShortVisitor(PhantomData)).map(Self)
    }
}

struct ShortVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de> + FromStr<Err: Display>> Visitor<'de> for ShortVisitor<T> {
    type Value = T;

    fn expecting(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str("fields in { }, or the option's text")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        text.parse().map_err(E::custom)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<T, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map))
    }
}
