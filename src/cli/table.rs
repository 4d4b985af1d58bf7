//! Plain aligned columns without lines, wrapped to the terminal.

use comfy_table::{ContentArrangement, Table, presets};

/// Text is wrapped here when there is no terminal, so that a file or pipe gets the same on every machine.
const WIDTH: u16 = 110;
/// Narrower is not readable, wider not either.
const NARROWEST: u16 = 60;

/// Columns of text, indented by two spaces; the last column wraps.
pub(crate) struct Columns {
    table: Table,
}

impl Columns {
    pub(crate) fn new() -> Self {
        let mut table = Table::new();
        table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
        let width = table.width().unwrap_or(WIDTH).clamp(NARROWEST, WIDTH);
        table.set_width(width);
        Self { table }
    }

    /// A row; there is none without words in its last column.
    pub(crate) fn row<const N: usize>(&mut self, cells: [&str; N]) {
        self.table.add_row(cells);
    }
}

/// Every line ends at its last word.
impl std::fmt::Display for Columns {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for line in self.table.lines() {
            writeln!(f, " {}", line.trim_end())?;
        }
        Ok(())
    }
}
