//! How fast the maker works: her own rates, the tables' for the rest.

use std::collections::BTreeMap;

use super::Minutes;
use crate::data::figure;

/// Rates by the keys of `data/work.toml`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rates {
    own: BTreeMap<String, f64>,
}

impl Rates {
    /// The tables' rates, except where the maker gives her own: minutes a metre or each, or grams a square metre.
    #[must_use]
    pub const fn with_own(own: BTreeMap<String, f64>) -> Self {
        Self { own }
    }

    /// Minutes for one of something; her own rate has no bounds.
    ///
    /// # Panics
    /// When there is no such rate: keys are written in this library only, and a test asks for each.
    pub(super) fn minutes(&self, key: &str) -> Minutes {
        if let Some(own) = self.own.get(key) {
            return Minutes { least: *own, usual: *own, most: *own };
        }
        let figure = figure(key).expect("every rate asked for is in the built-in tables");
        Minutes { least: figure.low, usual: figure.usual, most: figure.high }
    }

    /// Grams a square metre of a film class; smooth film's where the class has none of its own.
    ///
    /// # Panics
    /// As [`Rates::minutes`].
    pub(super) fn film_weight(&self, class: &str) -> f64 {
        let key = format!("film-weight-{class}");
        let known = self.own.get(&key).copied().or_else(|| figure(&key).map(|figure| figure.usual));
        known.unwrap_or_else(|| self.minutes("film-weight").usual)
    }
}
