//! Tables with wrapped words: columns by share of the width, a head on every page, a fine rule under each row.

use super::tick_box::tick_box;
use crate::geometry::{Point, Rect};
use crate::write::drawing::pdf::{Part, Row};
use crate::write::drawing::{Anchor, Drawing, Mark, Pen, Words};
use crate::write::lettering::{self, Weight};
use crate::write::style::{self, Ink};

/// Free room at either side of a cell's words.
const SIDE: f64 = 1.3;

/// Where the words of a column stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Align {
    Left,
    /// Figures, so that their places stand under each other.
    Right,
}

/// One column.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    pub(crate) title: &'static str,
    /// Part of the width, relative to the other columns'.
    pub(crate) share: f64,
    pub(crate) align: Align,
}

impl Column {
    pub(crate) const fn left(title: &'static str, share: f64) -> Self {
        Self { title, share, align: Align::Left }
    }

    pub(crate) const fn right(title: &'static str, share: f64) -> Self {
        Self { title, share, align: Align::Right }
    }
}

/// What stands in a cell.
#[derive(Clone, Debug)]
pub(crate) enum Cell {
    Words(String),
    Strong(String),
    /// Strong and in a colour.
    Inked(String, Ink),
    /// A box to tick.
    Tick,
    /// A patch of colour before words.
    Swatch(Ink, String),
    /// A line to write on.
    Blank,
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

/// Rows that go over to the next page together: a single one there is easily missed.
const TOGETHER: usize = 3;

/// How many rows of these heights fit the room, one at least; fewer where that leaves too few for the next page.
fn fitting(heights: &[f64], room: f64) -> usize {
    let mut below = 0.0;
    let within = |height: &&f64| {
        below += **height;
        below <= room
    };
    let fit = heights.iter().take_while(within).count().max(1).min(heights.len());
    let over = heights.len() - fit;
    let short = if over == 0 { 0 } else { TOGETHER.saturating_sub(over) };
    if fit >= short + TOGETHER { fit - short } else { fit }
}

/// A table.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    summary: String,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
    size: f64,
    /// Least height of a row.
    least: f64,
}

impl Table {
    pub(crate) fn new(summary: impl Into<String>, columns: Vec<Column>) -> Self {
        Self { summary: summary.into(), columns, rows: Vec::new(), size: 3.1, least: 0.0 }
    }

    /// Another type size.
    pub(crate) const fn size(mut self, size: f64) -> Self {
        self.size = size;
        self
    }

    /// Rows at least so high, for writing in.
    pub(crate) const fn least_height(mut self, height: f64) -> Self {
        self.least = height;
        self
    }

    pub(crate) fn row(&mut self, cells: Vec<Cell>) {
        debug_assert_eq!(cells.len(), self.columns.len(), "a row has a cell for every column");
        self.rows.push(cells);
    }

    pub(crate) const fn len(&self) -> usize {
        self.rows.len()
    }

    /// Room for the head and one row.
    pub(crate) fn least_room(&self, first: usize, width: f64) -> f64 {
        let edges = self.edges(0.0, width);
        let head = self.head();
        self.height(&head, &edges) + self.rows.get(first).map_or(0.0, |row| self.height(row, &edges))
    }

    fn head(&self) -> Vec<Cell> {
        self.columns.iter().map(|column| Cell::Strong(column.title.to_owned())).collect()
    }

    /// Sets the rows from `first` on that fit the room, one at least; returns them, the rules and tints behind them, the
    /// first row left over, and the y below.
    pub(crate) fn set(&self, first: usize, corner: Point, width: f64, room: f64) -> (Part, Vec<Mark>, usize, f64) {
        let edges = self.edges(corner.x, width);
        let mut ground = Drawing::new(0.0, 0.0, "");
        let head = self.head();
        let head_height = self.height(&head, &edges);
        let mut y = corner.y;
        let tint = Rect::new(corner.x, y, corner.x + width, y + head_height);
        ground.rect(tint, Some(style::TINT), None);
        let mut rows = vec![Row { head: true, cells: self.cells(&head, &edges, y, head_height) }];
        y += head_height;
        ground.line((corner.x, y), (corner.x + width, y), Pen::new(style::TEXT, style::THIN));
        let left = &self.rows[first.min(self.rows.len())..];
        let heights: Vec<f64> = left.iter().map(|row| self.height(row, &edges)).collect();
        let fit = fitting(&heights, corner.y + room - y);
        for (row, height) in left.iter().zip(heights).take(fit) {
            rows.push(Row { head: false, cells: self.cells(row, &edges, y, height) });
            y += height;
            ground.line((corner.x, y), (corner.x + width, y), Pen::new(style::RULE, style::HAIRLINE));
        }
        (Part::Table { summary: self.summary.clone(), rows }, ground.marks, first + fit, y)
    }

    /// Left and right edge of the words of each column.
    fn edges(&self, left: f64, width: f64) -> Vec<(f64, f64)> {
        let whole: f64 = self.columns.iter().map(|column| column.share).sum();
        let mut x = left;
        let mut edges = Vec::new();
        for column in &self.columns {
            let own = width * column.share / whole;
            edges.push((x + SIDE, x + own - SIDE));
            x += own;
        }
        edges
    }

    fn leading(&self) -> f64 {
        self.size * 1.3
    }

    /// Free room above and below the words of a cell.
    fn pad(&self) -> f64 {
        self.size * 0.42
    }

    fn height(&self, row: &[Cell], edges: &[(f64, f64)]) -> f64 {
        let lines = row.iter().zip(edges).map(|(cell, edge)| self.lines(cell, *edge).len()).max().unwrap_or(1).max(1);
        (lines as f64 * self.leading() + 2.0 * self.pad()).max(self.least)
    }

    fn lines(&self, cell: &Cell, (left, right): (f64, f64)) -> Vec<String> {
        let room = (right - left).max(1.0);
        match cell {
            Cell::Words(words) => lettering::lines(words, self.size, Weight::Regular, room),
            Cell::Strong(words) | Cell::Inked(words, _) => lettering::lines(words, self.size, Weight::Bold, room),
            Cell::Swatch(_, words) => lettering::lines(words, self.size, Weight::Regular, room - self.size * 1.4),
            Cell::Tick | Cell::Blank => Vec::new(),
        }
    }

    fn cells(&self, row: &[Cell], edges: &[(f64, f64)], y: f64, height: f64) -> Vec<Vec<Mark>> {
        let cell =
            |((cell, edge), column): ((&Cell, &(f64, f64)), &Column)| self.cell(cell, *edge, column.align, y, height);
        row.iter().zip(edges).zip(&self.columns).map(cell).collect()
    }

    fn cell(&self, cell: &Cell, edge: (f64, f64), align: Align, y: f64, height: f64) -> Vec<Mark> {
        let first = y + self.pad() + self.size * 0.93;
        let mut paper = Drawing::new(0.0, 0.0, "");
        let (mut left, right) = edge;
        match cell {
            Cell::Tick => return vec![tick_box(Point::new(left, first), self.size)],
            Cell::Blank => {
                let line = y + height - 1.6;
                paper.line((left, line), (right, line), Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH));
                return paper.marks;
            }
            Cell::Swatch(ink, _) => {
                let side = self.size * 0.95;
                let square = Rect::new(left, first - side * 0.86, left + side, first + side * 0.14);
                paper.rect(square, Some(*ink), Some(Pen::new(style::TEXT, style::HAIRLINE)));
                left += self.size * 1.4;
            }
            _ => {}
        }
        for (k, line) in self.lines(cell, edge).into_iter().enumerate() {
            let baseline = first + k as f64 * self.leading();
            let words = match align {
                Align::Left => Words::new(line, (left, baseline)),
                Align::Right => Words::new(line, (right, baseline)).anchor(Anchor::End),
            };
            let words = words.size(self.size);
            paper.words(match cell {
                Cell::Strong(_) => words.bold(),
                Cell::Inked(_, ink) => words.bold().ink(*ink),
                _ => words,
            });
        }
        paper.marks
    }
}

#[cfg(test)]
mod tests {
    use super::fitting;

    #[test]
    fn no_row_goes_over_alone() {
        let ten = [5.0; 10];
        assert_eq!(fitting(&ten, 50.0), 10);
        assert_eq!(fitting(&ten, 46.0), 7, "nine fit, but one would stand alone");
        assert_eq!(fitting(&ten, 41.0), 7);
        assert_eq!(fitting(&ten, 31.0), 6);
        assert_eq!(fitting(&[5.0; 4], 16.0), 3, "too short to part better");
        assert_eq!(fitting(&ten, 1.0), 1, "one at least");
        assert_eq!(fitting(&[], 1.0), 0);
    }
}
