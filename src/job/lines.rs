//! At which line of the job file its tables begin, for what is said of them later.

use std::collections::BTreeMap;

/// Lines of the tables that have a name: `[film.gold]`, or a `[[band]]` by what it is called.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lines(BTreeMap<(&'static str, String), Vec<usize>>);

impl Lines {
    /// Notes where a table stands.
    pub(super) fn note(&mut self, table: &'static str, name: &str, text: &str, at: usize) {
        let line = text.get(..at).map_or(0, |before| before.matches('\n').count()) + 1;
        self.0.entry((table, name.to_owned())).or_default().push(line);
    }

    /// The line of a table; none where two have the same name.
    #[must_use]
    pub fn line(&self, table: &'static str, name: &str) -> Option<usize> {
        match self.0.get(&(table, name.to_owned()))?.as_slice() {
            [line] => Some(*line),
            _ => None,
        }
    }

    /// The table's heading with its line, where that is known: `[film.gold] (line 12 of the job file)`.
    #[must_use]
    pub fn heading(&self, table: &'static str, name: &str) -> String {
        self.with_line(table, name, format!("[{table}.{name}]"))
    }

    /// The table's name with its line, where that is known: `lower band (line 12 of the job file)`.
    #[must_use]
    pub fn named(&self, table: &'static str, name: &str) -> String {
        self.with_line(table, name, name.to_owned())
    }

    fn with_line(&self, table: &'static str, name: &str, called: String) -> String {
        match self.line(table, name) {
            Some(line) => format!("{called} (line {line} of the job file)"),
            None => called,
        }
    }
}
