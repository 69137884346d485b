//! Values that a job file may give as a number or as a text, read later with the job's units in hand.

mod decimal;
mod length;
mod money;
mod quantity;

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserializer, Visitor};

pub use decimal::DecimalEntry;
pub use length::LengthEntry;
pub use money::MoneyEntry;
pub use quantity::QuantityEntry;
pub(super) use quantity::{GRAMS_PER_METRE, NEWTONS};

/// Takes a number or a text; a whole number as the text it is written in, so that none of its digits is lost.
fn number_or_text<'de, D, T>(deserializer: D, expected: &'static str) -> Result<T, D::Error>
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
