//! Why a table is refused.

use std::fmt;

/// Why a table is refused.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TableFault {
    /// Not TOML, an unknown key, a missing key, or a word outside a fixed list; the parser's own account.
    NotATable {
        /// Which table.
        table: &'static str,
        /// What the parser says.
        why: String,
    },
    /// A value without a source.
    NoSource {
        /// Key of the row.
        row: String,
        /// Which value of it.
        value: String,
    },
    /// A range that runs backwards or out of bounds.
    UpsideDown {
        /// Key of the row.
        row: String,
        /// Which value of it.
        value: String,
        /// Lower end as written.
        low: f64,
        /// Upper end as written.
        high: f64,
    },
    /// One name for two rows, or a name not written in lower case with dashes.
    BadName {
        /// Which table.
        table: &'static str,
        /// The name.
        name: String,
    },
    /// A setting outside its own window.
    OutsideWindow {
        /// Key of the row.
        row: String,
    },
}

impl fmt::Display for TableFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotATable { table, why } => write!(f, "the {table} table cannot be read: {}", why.trim()),
            Self::NoSource { row, value } => write!(f, "\"{value}\" of \"{row}\" names no source"),
            Self::UpsideDown { row, value, low, high } => {
                write!(f, "\"{value}\" of \"{row}\" runs from {low} to {high}")
            }
            Self::BadName { table, name } => {
                write!(f, "the {table} name \"{name}\" stands twice or is not lower case with dashes")
            }
            Self::OutsideWindow { row } => write!(f, "the usual setting of \"{row}\" lies outside its window"),
        }
    }
}

impl std::error::Error for TableFault {}
