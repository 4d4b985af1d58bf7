//! Single figures of the trade: usual values and ranges for trims and fabric pieces, rates of work, weights.

use std::sync::LazyLock;

use serde::Deserialize;

use super::TableFault;
use super::basis::{Confidence, has_source, sources_text};

/// One figure of the trade.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// Stable short name.
    pub key: String,
    /// What it is, for the printed table.
    pub what: String,
    /// Its unit in words: `mm`, `share`, `times`, `minutes a metre`.
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

impl Figure {
    /// `[105, 107] common practice`
    #[must_use]
    pub fn sources(&self) -> String {
        sources_text(&self.source, self.confidence)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    figure: Vec<Figure>,
}

/// Every figure, in the order of the tables.
#[must_use]
pub fn figures() -> &'static [Figure] {
    static FIGURES: LazyLock<Vec<Figure>> = LazyLock::new(|| {
        let tables = [("trims", include_str!("trims.toml")), ("work", include_str!("work.toml"))];
        let read = tables.into_iter().map(|(name, text)| read(name, text).expect("the tests read the built-in tables"));
        read.flatten().collect()
    });
    &FIGURES
}

/// The figure of this key, if there is one.
#[must_use]
pub fn figure(key: &str) -> Option<&'static Figure> {
    figures().iter().find(|figure| figure.key == key)
}

/// The usual value of a figure, in its own unit.
///
/// # Panics
/// When there is none of this key: keys are written in this library only, and each is asked for by a test.
#[must_use]
pub fn usual(key: &str) -> f64 {
    figure(key).expect("every key asked for is in the built-in tables").usual
}

/// Reads and checks a table of figures.
///
/// # Errors
/// The first [`TableFault`]: text that is no table, a figure without a source, a range upside down, a key given twice.
pub(super) fn read(table: &'static str, text: &str) -> Result<Vec<Figure>, TableFault> {
    let rows: Rows =
        toml::from_str(text).map_err(|error| TableFault::NotATable { table, why: error.message().to_owned() })?;
    for (index, figure) in rows.figure.iter().enumerate() {
        has_source(&figure.key, "usual", &figure.source)?;
        let ordered = figure.low <= figure.usual && figure.usual <= figure.high;
        if !(ordered && figure.low.is_finite() && figure.high.is_finite()) {
            let (row, value) = (figure.key.clone(), "usual".to_owned());
            return Err(TableFault::UpsideDown { row, value, low: figure.low, high: figure.high });
        }
        if rows.figure[..index].iter().any(|other| other.key == figure.key) {
            return Err(TableFault::BadName { table, name: figure.key.clone() });
        }
    }
    Ok(rows.figure)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_built_in_figures_are_sound_and_no_key_stands_in_two_tables() {
        for (index, figure) in figures().iter().enumerate() {
            assert!(figures()[..index].iter().all(|other| other.key != figure.key), "{} stands twice", figure.key);
        }
    }

    #[test]
    fn unsound_rows_are_refused() {
        let row = |low: f64, source: &str| {
            format!(
                "[[figure]]\nkey = \"a\"\nwhat = \"b\"\nunit = \"mm\"\nlow = {low}\nusual = 2\nhigh = 3\n{source}\nconfidence = \"published\"\n"
            )
        };
        assert!(read("trims", &row(1.0, "source = [1]")).is_ok());
        assert!(matches!(read("trims", &row(2.5, "source = [1]")), Err(TableFault::UpsideDown { .. })));
        assert!(matches!(read("trims", &row(1.0, "source = []")), Err(TableFault::NoSource { .. })));
        assert!(matches!(read("trims", &row(1.0, "")), Err(TableFault::NotATable { .. })));
        let twice = row(1.0, "source = [1]").repeat(2);
        assert!(matches!(read("trims", &twice), Err(TableFault::BadName { .. })));
    }
}
