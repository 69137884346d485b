//! JSON in which a section is an object: without this a list of its values would be read for it too, which no one means.

use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde::forward_to_deserialize_any;

/// A deserializer, and all that it hands on to what is inside it, that reads a struct from an object alone.
pub(super) struct Objects<T>(pub(super) T);

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Objects<D> {
    type Error = D::Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, D::Error> {
        self.0.deserialize_any(Objects(visitor))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        self.0.deserialize_map(Objects(visitor))
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, D::Error> {
        self.0.deserialize_option(Objects(visitor))
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        self.0.deserialize_newtype_struct(name, Objects(visitor))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        self.0.deserialize_enum(name, variants, visitor)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple
        tuple_struct map identifier ignored_any
    }
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Objects<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.expecting(f)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<V::Value, E> {
        self.0.visit_bool(value)
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<V::Value, E> {
        self.0.visit_i64(value)
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<V::Value, E> {
        self.0.visit_u64(value)
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<V::Value, E> {
        self.0.visit_f64(value)
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<V::Value, E> {
        self.0.visit_str(value)
    }

    fn visit_unit<E: Error>(self) -> Result<V::Value, E> {
        self.0.visit_unit()
    }

    fn visit_none<E: Error>(self) -> Result<V::Value, E> {
        self.0.visit_none()
    }

    fn visit_some<D: Deserializer<'de>>(self, value: D) -> Result<V::Value, D::Error> {
        self.0.visit_some(Objects(value))
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, value: D) -> Result<V::Value, D::Error> {
        self.0.visit_newtype_struct(Objects(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<V::Value, A::Error> {
        self.0.visit_seq(Objects(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(Objects(fields))
    }
}

impl<'de, A: SeqAccess<'de>> SeqAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, item: T) -> Result<Option<T::Value>, A::Error> {
        self.0.next_element_seed(Objects(item))
    }
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, key: K) -> Result<Option<K::Value>, A::Error> {
        self.0.next_key_seed(key)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, value: T) -> Result<T::Value, A::Error> {
        self.0.next_value_seed(Objects(value))
    }
}

impl<'de, T: DeserializeSeed<'de>> DeserializeSeed<'de> for Objects<T> {
    type Value = T::Value;

    fn deserialize<D: Deserializer<'de>>(self, value: D) -> Result<T::Value, D::Error> {
        self.0.deserialize(Objects(value))
    }
}
