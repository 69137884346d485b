//! The kind of value that may stand as a number or as a text: how it is kept, read from a file and told in the schema.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserializer, Visitor};

/// A value given as a number or as a text: how it is kept, read from a file and told in the schema.
macro_rules! entry {
    (
        $(#[$doc:meta])*
        $name:ident, called $schema:literal, expected $expected:literal,
        described $description:literal, such as [$($example:literal),+]
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize)]
        #[serde(untagged)]
        pub enum $name {
            /// A bare number.
            Number(f64),
            /// A text.
            Text(String),
        }

        impl $name {
            /// As it would be typed, so that one set of rules and limits holds for both spellings.
            #[must_use]
            pub fn text(&self) -> std::borrow::Cow<'_, str> {
                match self {
                    Self::Number(number) => number.to_string().into(),
                    Self::Text(text) => text.into(),
                }
            }
        }

        impl From<f64> for $name {
            fn from(number: f64) -> Self {
                Self::Number(number)
            }
        }

        impl From<String> for $name {
            fn from(text: String) -> Self {
                Self::Text(text)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $crate::job::entries::value::number_or_text(deserializer, $expected)
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                $schema.into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "description": $description,
                    "type": ["number", "string"],
                    "examples": [$($example),+]
                })
            }
        }
    };
}

pub(super) use entry;

/// Takes a number or a text; a whole number as the text it is written in, so that none of its digits is lost.
pub(in crate::job) fn number_or_text<'de, D, T>(
    deserializer: D,
    expected: &'static str,
) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: From<f64> + From<String>,
{
    struct Entry<T>(&'static str, PhantomData<T>);

    impl<T: From<f64> + From<String>> Visitor<'_> for Entry<T> {
        type Value = T;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str(self.0)
        }

        fn visit_i64<E: de::Error>(self, value: i64) -> Result<T, E> {
            Ok(value.to_string().into())
        }

        fn visit_u64<E: de::Error>(self, value: u64) -> Result<T, E> {
            Ok(value.to_string().into())
        }

        fn visit_f64<E: de::Error>(self, value: f64) -> Result<T, E> {
            Ok(value.into())
        }

        fn visit_str<E: de::Error>(self, value: &str) -> Result<T, E> {
            Ok(value.to_owned().into())
        }
    }

    deserializer.deserialize_any(Entry(expected, PhantomData))
}
