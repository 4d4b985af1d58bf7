//! Tables of the file with their places, and tables under names of the maker's own.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::marker::PhantomData;
use std::ops::Range;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::IntoDeserializer;
use serde::de::value::MapAccessDeserializer;
use serde::{Deserialize, Deserializer, de};
use toml::Spanned;

/// A table of the file with its place: that of its heading.
#[derive(Clone, Debug)]
pub(crate) struct Section<T> {
    /// Bytes of the file.
    pub(crate) at: Range<usize>,
    /// What it holds.
    pub(crate) keys: T,
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Section<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let table = Spanned::<OnlyTable<T>>::deserialize(deserializer)?;
        Ok(Self { at: table.span(), keys: table.into_inner().0 })
    }
}

/// What is read from a table and from nothing else: derived readers take a list for the values of a table in order.
struct OnlyTable<T>(T);

impl<'de, T: Deserialize<'de>> Deserialize<'de> for OnlyTable<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> de::Visitor<'de> for Visitor<T> {
            type Value = OnlyTable<T>;
            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                // What the reader of the table itself would say that it expects.
                let refused = T::deserialize(IntoDeserializer::<de::value::Error>::into_deserializer(())).err();
                let refused = refused.map_or_else(String::new, |error| error.to_string());
                f.write_str(refused.split_once("expected ").map_or("a table", |(_, expected)| expected))
            }
            fn visit_map<A: de::MapAccess<'de>>(self, map: A) -> Result<OnlyTable<T>, A::Error> {
                T::deserialize(MapAccessDeserializer::new(map)).map(OnlyTable)
            }
        }
        deserializer.deserialize_map(Visitor(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Section<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }
    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }
    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}

/// Tables under names of the maker's own (`[film.red]`), in the order of the file.
#[derive(Clone, Debug)]
pub(crate) struct Named<T> {
    entries: Vec<(Spanned<String>, T)>,
}

impl<T> Named<T> {
    /// Names with their places, and what they hold, in the order of the file.
    pub(crate) fn entries(&self) -> &[(Spanned<String>, T)] {
        &self.entries
    }
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self { entries: Vec::new() }
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Named<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let tables = BTreeMap::<Spanned<String>, T>::deserialize(deserializer)?;
        let mut entries: Vec<_> = tables.into_iter().collect();
        entries.sort_by_key(|(name, _)| name.span().start);
        Ok(Self { entries })
    }
}

impl<T: JsonSchema> JsonSchema for Named<T> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        format!("named {}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        BTreeMap::<String, T>::json_schema(generator)
    }
}
