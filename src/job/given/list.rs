//! A list of texts, or one text alone.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use toml::Spanned;

use super::{Given, Meaning, Scalar};

/// A list of values, or one alone without its brackets.
#[derive(Clone, Debug)]
pub(crate) struct OneOrMore(pub(crate) Vec<Given<String>>);

impl std::ops::Deref for OneOrMore {
    type Target = [Given<String>];
    fn deref(&self) -> &Self::Target {
        &self.0
    }
}

impl<'de> Deserialize<'de> for OneOrMore {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let found = Spanned::<ScalarOrList>::deserialize(deserializer)?;
        let at = found.span();
        Ok(Self(match found.into_inner() {
            ScalarOrList::Scalar(scalar) => vec![Given { at, value: String::of(&scalar) }],
            ScalarOrList::List(list) => list,
        }))
    }
}

enum ScalarOrList {
    Scalar(Scalar),
    List(Vec<Given<String>>),
}

impl<'de> Deserialize<'de> for ScalarOrList {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;
        impl<'de> de::Visitor<'de> for Visitor {
            type Value = ScalarOrList;
            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a text in quotes, or a list of them")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<ScalarOrList, E> {
                Ok(ScalarOrList::Scalar(Scalar::Text(text.to_owned())))
            }
            fn visit_i64<E: de::Error>(self, number: i64) -> Result<ScalarOrList, E> {
                Ok(ScalarOrList::Scalar(Scalar::Number(number as f64)))
            }
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<ScalarOrList, E> {
                Ok(ScalarOrList::Scalar(Scalar::Number(number)))
            }
            fn visit_bool<E: de::Error>(self, switch: bool) -> Result<ScalarOrList, E> {
                Ok(ScalarOrList::Scalar(Scalar::Switch(switch)))
            }
            fn visit_seq<A: de::SeqAccess<'de>>(self, mut list: A) -> Result<ScalarOrList, A::Error> {
                let mut all = Vec::new();
                while let Some(given) = list.next_element()? {
                    all.push(given);
                }
                Ok(ScalarOrList::List(all))
            }
        }
        deserializer.deserialize_any(Visitor)
    }
}

impl JsonSchema for OneOrMore {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "one or more".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "anyOf": [{ "type": "string" }, { "type": "array", "items": { "type": "string" } }] })
    }
}
