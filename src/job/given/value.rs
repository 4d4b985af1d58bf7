//! One value of the file with its place, and what it can mean.

use std::borrow::Cow;
use std::ops::Range;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use toml::Spanned;

use crate::job::fault::FaultKind;

/// A value as the file gives it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Scalar {
    /// In quotes.
    Text(String),
    /// A number without quotes.
    Number(f64),
    /// `true` or `false`.
    Switch(bool),
}

impl<'de> Deserialize<'de> for Scalar {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;
        impl de::Visitor<'_> for Visitor {
            type Value = Scalar;
            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("one value: a text in quotes, a number, true or false")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Scalar, E> {
                Ok(Scalar::Text(text.to_owned()))
            }
            fn visit_i64<E: de::Error>(self, number: i64) -> Result<Scalar, E> {
                // Beyond 2^53 the nearest f64 is as wrong a measurement as the number itself.
                Ok(Scalar::Number(number as f64))
            }
            fn visit_u64<E: de::Error>(self, number: u64) -> Result<Scalar, E> {
                Ok(Scalar::Number(number as f64))
            }
            fn visit_i128<E: de::Error>(self, number: i128) -> Result<Scalar, E> {
                Ok(Scalar::Number(number as f64))
            }
            fn visit_u128<E: de::Error>(self, number: u128) -> Result<Scalar, E> {
                Ok(Scalar::Number(number as f64))
            }
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<Scalar, E> {
                Ok(Scalar::Number(number))
            }
            fn visit_bool<E: de::Error>(self, switch: bool) -> Result<Scalar, E> {
                Ok(Scalar::Switch(switch))
            }
        }
        deserializer.deserialize_any(Visitor)
    }
}

impl std::fmt::Display for Scalar {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Text(text) => write!(f, "\"{text}\""),
            Self::Number(number) => write!(f, "{number}"),
            Self::Switch(switch) => write!(f, "{switch}"),
        }
    }
}

/// A meaning a value of the file can have.
pub(crate) trait Meaning: Sized {
    /// What the schema says of it.
    const SCHEMA: (&'static str, &'static str);
    /// The meaning, or what is wrong with the value.
    fn of(scalar: &Scalar) -> Result<Self, FaultKind>;
}

/// A value of the file: where it stands and what it means, if it means anything.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Given<T> {
    /// Bytes of the file.
    pub(crate) at: Range<usize>,
    /// The meaning, or what is wrong with it.
    pub(crate) value: Result<T, FaultKind>,
}

impl<'de, T: Meaning> Deserialize<'de> for Given<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let scalar = Spanned::<Scalar>::deserialize(deserializer)?;
        Ok(Self { at: scalar.span(), value: T::of(scalar.get_ref()) })
    }
}

impl<T: Meaning> JsonSchema for Given<T> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "value".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let (kind, example) = T::SCHEMA;
        // A number or a switch is shown as it is written, without quotes.
        let example = match kind {
            "integer" | "number" | "boolean" => serde_json::from_str(example).unwrap_or_default(),
            _ => serde_json::Value::from(example),
        };
        match (kind, &example) {
            ("any", _) => json_schema!({ "examples": [example] }),
            // What a text says differs from key to key.
            (_, serde_json::Value::String(text)) if text.is_empty() => json_schema!({ "type": kind }),
            _ => json_schema!({ "type": kind, "examples": [example] }),
        }
    }
}
