//! At which line of the job file its tables begin, for what is said of them later.

use std::collections::BTreeMap;

/// Lines of the tables that a name of the maker's own stands over: `[film.gold]`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lines(BTreeMap<String, usize>);

impl Lines {
    /// Notes where a table stands.
    pub(super) fn note(&mut self, table: &str, name: &str, text: &str, at: usize) {
        let line = text.get(..at).map_or(0, |before| before.matches('\n').count()) + 1;
        self.0.insert(format!("[{table}.{name}]"), line);
    }

    /// The table's heading with its line, where that is known: `[film.gold] (line 12 of the job file)`.
    #[must_use]
    pub fn heading(&self, table: &str, name: &str) -> String {
        let heading = format!("[{table}.{name}]");
        match self.0.get(&heading) {
            Some(line) => format!("{heading} (line {line} of the job file)"),
            None => heading,
        }
    }
}
