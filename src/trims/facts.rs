//! The facts of `data/trims.toml`: usual values and ranges, each with where it comes from and how sure it is.

use std::sync::OnceLock;

use serde::Deserialize;

use crate::data::Confidence;

/// One fact of the trade.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// Stable short name.
    pub key: String,
    /// What it is, for the printed table.
    pub what: String,
    /// Unit: `mm`, `share`, `times`, `minutes a metre`.
    pub unit: String,
    /// Least usual value.
    pub low: f64,
    /// The value taken when nothing is said.
    pub usual: f64,
    /// Greatest usual value.
    pub high: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure it is.
    pub confidence: Confidence,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    fact: Vec<Fact>,
}

/// Every fact about trims, in the order of the file.
#[must_use]
pub fn facts() -> &'static [Fact] {
    static FACTS: OnceLock<Vec<Fact>> = OnceLock::new();
    FACTS.get_or_init(|| {
        let table: Table = toml::from_str(include_str!("../data/trims.toml")).expect("a test reads the built-in table");
        table.fact
    })
}

/// The fact with this key.
///
/// # Panics
/// When there is none: keys are written in this library only, and a test asks for each.
pub(super) fn fact(key: &str) -> &'static Fact {
    facts().iter().find(|fact| fact.key == key).expect("every key asked for is in the built-in table")
}

/// The usual value of a fact, in its own unit.
///
/// # Panics
/// When there is no fact of this key: keys are written in this library only, and a test asks for each.
#[must_use]
pub fn usual(key: &str) -> f64 {
    fact(key).usual
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_fact_is_in_order_and_says_where_it_comes_from() {
        for fact in facts() {
            assert!(fact.low <= fact.usual && fact.usual <= fact.high, "{} is upside down", fact.key);
            assert!(!fact.source.is_empty(), "{} has no source", fact.key);
            assert_eq!(facts().iter().filter(|other| other.key == fact.key).count(), 1, "{} occurs twice", fact.key);
        }
    }
}
