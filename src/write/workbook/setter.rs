//! Sets headings, paragraphs, lists, tables and pictures down the pages of a book, and starts new pages as they fill.
//!
//! The text block is the same on A4 and Letter, so that a book made for one prints whole on the other.

use crate::geometry::{Affine, Point, Rect};
use crate::job::Paper;
use crate::write::drawing::pdf::{Page, Part, Row};
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::lettering::{self, Weight};
use crate::write::style;

/// Width of the text block, mm.
pub(crate) const MEASURE: f64 = 186.0;
/// Upper edge of the text block.
pub(crate) const TOP: f64 = 17.0;
/// Lower edge of the text block: Letter is 279.4 mm high, and printers leave about 6 mm white.
pub(crate) const BOTTOM: f64 = 256.0;
/// Height of the text block.
pub(crate) const DEPTH: f64 = BOTTOM - TOP;
/// Length of the check line at the foot of every page.
pub(crate) const CHECK_LINE: f64 = 100.0;

/// Width and height of a paper in mm.
pub(crate) const fn size(paper: Paper) -> (f64, f64) {
    match paper {
        Paper::A4 => (210.0, 297.0),
        Paper::Letter => (215.9, 279.4),
    }
}

/// A book being set.
pub(crate) struct Setter {
    paper: (f64, f64),
    pages: Vec<Page>,
    y: f64,
    chapter: String,
    /// Added to the height of every row.
    row_space: f64,
    /// Chapters with the page, from 0, they begin on.
    pub(crate) chapters: Vec<(String, usize)>,
}

/// One column of a table.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Column {
    pub(crate) name: &'static str,
    pub(crate) width: f64,
    pub(crate) align: Align,
}

/// Which edge of its column a cell keeps to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Align {
    Left,
    Right,
}

impl Column {
    pub(crate) const fn left(name: &'static str, width: f64) -> Self {
        Self { name, width, align: Align::Left }
    }

    pub(crate) const fn right(name: &'static str, width: f64) -> Self {
        Self { name, width, align: Align::Right }
    }
}

impl Setter {
    pub(crate) const fn new(paper: Paper) -> Self {
        Self {
            paper: size(paper),
            pages: Vec::new(),
            y: TOP,
            chapter: String::new(),
            row_space: 0.0,
            chapters: Vec::new(),
        }
    }

    /// Left edge of the text block.
    pub(crate) fn left(&self) -> f64 {
        (self.paper.0 - MEASURE) / 2.0
    }

    /// Room left on the page.
    pub(crate) fn room(&self) -> f64 {
        BOTTOM - self.y
    }

    /// How many pages there are so far.
    pub(crate) fn count(&self) -> usize {
        self.pages.len()
    }

    /// A fresh page of the same chapter.
    pub(crate) fn new_page(&mut self) {
        self.pages.push(Page { paper: self.paper, parts: Vec::new(), furniture: Vec::new(), bookmark: None });
        self.y = TOP;
        if !self.chapter.is_empty() {
            let head = Words::new(self.chapter.clone(), (self.left() + MEASURE, TOP - 6.0)).size(style::SMALL);
            self.furnish(Mark::Words(head.ink(style::SOFT).anchor(Anchor::End)));
        }
    }

    /// A new chapter on a new page.
    pub(crate) fn chapter(&mut self, title: &str) {
        self.chapter.clear();
        self.new_page();
        title.clone_into(&mut self.chapter);
        self.chapters.push((title.to_owned(), self.pages.len() - 1));
        if let Some(page) = self.pages.last_mut() {
            page.bookmark = Some(title.to_owned());
        }
        self.heading(1, title, style::TITLE);
        self.y += 1.5;
    }

    /// A heading within the chapter, kept with what follows.
    pub(crate) fn section(&mut self, title: &str) {
        self.keep(style::HEAD * style::LEADING + 16.0);
        if self.y > TOP + 1.0 {
            self.y += 3.5;
        }
        self.heading(2, title, style::HEAD);
        self.y += 0.6;
    }

    fn heading(&mut self, level: u16, title: &str, size: f64) {
        let words = Words::new(title, (self.left(), self.y + size * 0.8)).size(size).bold();
        let lines = self.broken(&words, MEASURE);
        self.y += lines.len() as f64 * size * style::LEADING;
        self.part(Part::Heading { level, lines });
    }

    /// Starts a new page unless so much room is left.
    pub(crate) fn keep(&mut self, height: f64) {
        if self.pages.is_empty() || height > self.room() {
            self.new_page();
        }
    }

    pub(crate) fn space(&mut self, height: f64) {
        self.y += height;
    }

    pub(crate) fn paragraph(&mut self, text: &str) {
        self.styled(&Words::new(text, (0.0, 0.0)));
    }

    /// Second-rank words.
    pub(crate) fn small(&mut self, text: &str) {
        self.styled(&Words::new(text, (0.0, 0.0)).size(style::SMALL).ink(style::SOFT));
    }

    /// A paragraph in the given style; its place is set here.
    pub(crate) fn styled(&mut self, words: &Words) {
        let leading = words.size * style::LEADING;
        let texts = lettering::lines(&words.text, words.size, words.weight, MEASURE);
        self.keep(leading * texts.len().min(3) as f64);
        let mut lines = Vec::new();
        for text in texts {
            if self.room() < leading && !lines.is_empty() {
                self.part(Part::Text(std::mem::take(&mut lines)));
                self.new_page();
            }
            lines.push(Words { text, at: Point::new(self.left(), self.y + words.size * 0.8), ..words.clone() });
            self.y += leading;
        }
        self.part(Part::Text(lines));
        self.y += 1.4;
    }

    /// A list; `sign` stands before each item: `•`, or `□` for a box to tick.
    pub(crate) fn list<T: AsRef<str>>(&mut self, sign: &str, items: &[T]) {
        const INDENT: f64 = 6.0;
        for item in items {
            let size = style::BODY;
            let texts = lettering::lines(item.as_ref(), size, Weight::Regular, MEASURE - INDENT);
            let height = texts.len() as f64 * size * style::LEADING;
            self.keep(height.min(DEPTH));
            let mark_size = if sign == "□" { size * 1.25 } else { size };
            let mut lines = vec![Words::new(sign, (self.left(), self.y + size * 0.8)).size(mark_size)];
            for text in texts {
                if self.room() < size * style::LEADING {
                    self.part(Part::Item(std::mem::take(&mut lines)));
                    self.new_page();
                }
                lines.push(Words::new(text, (self.left() + INDENT, self.y + size * 0.8)));
                self.y += size * style::LEADING;
            }
            self.part(Part::Item(lines));
            self.y += 0.9;
        }
        self.y += 1.0;
    }

    /// A picture as wide as the text block at most, made smaller where the page is too short for it.
    pub(crate) fn figure(&mut self, drawing: Drawing) {
        let scale = (MEASURE / drawing.width).min(DEPTH / drawing.height).min(1.0);
        self.figure_scaled(drawing, scale);
    }

    /// A picture at a fixed scale: 1 for what must be true to size.
    pub(crate) fn figure_scaled(&mut self, drawing: Drawing, scale: f64) {
        self.keep(drawing.height * scale);
        let at = Point::new(self.left() + (MEASURE - drawing.width * scale) / 2.0, self.y);
        self.y += drawing.height * scale + 2.0;
        let clip = Some(Rect::new(0.0, 0.0, drawing.width, drawing.height));
        let place = Affine::translate(at.to_vec2()) * Affine::scale(scale);
        let marks = vec![Mark::Group(Group { place, clip, marks: drawing.marks })];
        self.part(Part::Figure { says: drawing.says, marks });
    }

    /// A table with room to write in every row.
    pub(crate) fn tall_table(&mut self, columns: &[Column], rows: &[Vec<String>]) {
        self.row_space = 4.2;
        self.table(columns, rows);
        self.row_space = 0.0;
    }

    /// A table whose head is repeated on every page; nameless columns have no head.
    pub(crate) fn table(&mut self, columns: &[Column], rows: &[Vec<String>]) {
        let head: Vec<String> = columns.iter().map(|column| column.name.to_owned()).collect();
        let mut open: Vec<Row> = Vec::new();
        let head_height = self.row_height(columns, &head, Weight::Bold);
        for (k, row) in rows.iter().enumerate() {
            let height = self.row_height(columns, row, Weight::Regular);
            let starts = open.is_empty();
            let needed = height + if starts { head_height } else { 0.0 };
            if self.pages.is_empty() || (needed > self.room() && (k > 0 || self.y > TOP + 40.0)) {
                self.close_table(&mut open);
                self.new_page();
            }
            if open.is_empty() && columns.iter().any(|column| !column.name.is_empty()) {
                open.push(self.row(columns, &head, Weight::Bold));
            }
            open.push(self.row(columns, row, Weight::Regular));
        }
        self.close_table(&mut open);
        self.y += 3.0;
    }

    fn close_table(&mut self, open: &mut Vec<Row>) {
        if !open.is_empty() {
            self.part(Part::Table(std::mem::take(open)));
        }
    }

    fn row_height(&self, columns: &[Column], cells: &[String], weight: Weight) -> f64 {
        let lines = columns
            .iter()
            .zip(cells)
            .map(|(column, cell)| lettering::lines(cell, TABLE_SIZE, weight, column.width - GUTTER).len().max(1));
        lines.max().unwrap_or(1) as f64 * TABLE_SIZE * TABLE_LEADING + 1.5 + self.row_space
    }

    fn row(&mut self, columns: &[Column], cells: &[String], weight: Weight) -> Row {
        let height = self.row_height(columns, cells, weight);
        let mut x = self.left();
        let mut row = Row { head: weight == Weight::Bold, cells: Vec::new() };
        for (k, (column, cell)) in columns.iter().zip(cells).enumerate() {
            let (at, anchor) = match column.align {
                Align::Left => (x, Anchor::Start),
                Align::Right => (x + column.width - GUTTER, Anchor::End),
            };
            let mut y = self.y + 0.8 + TABLE_SIZE * 0.8 + self.row_space * 0.6;
            let mut lines = Vec::new();
            for text in lettering::lines(cell, TABLE_SIZE, weight, column.width - GUTTER) {
                let mut words = Words::new(text, (at, y)).size(TABLE_SIZE).anchor(anchor);
                words.weight = if k == 0 { Weight::Bold } else { weight };
                if row.head {
                    words = words.ink(style::SOFT);
                }
                // A bold first column may be wider than measured for regular type; it is cut, not run over.
                words.text = lettering::fitted(&words.text, TABLE_SIZE, words.weight, column.width - GUTTER * 0.4);
                lines.push(words);
                y += TABLE_SIZE * TABLE_LEADING;
            }
            row.cells.push(lines);
            x += column.width;
        }
        self.y += height;
        let pen = if row.head { Pen::new(style::TEXT, style::THIN) } else { Pen::new(style::RULE, style::HAIRLINE) };
        let ends = (self.left(), x.min(self.left() + MEASURE));
        let mut rule = Drawing::new(0.0, 0.0, "");
        rule.line((ends.0, self.y), (ends.1, self.y), pen);
        rule.marks.into_iter().for_each(|mark| self.furnish(mark));
        row
    }

    /// Adds to the current page in reading order.
    pub(crate) fn part(&mut self, part: Part) {
        let empty = matches!(&part, Part::Text(lines) | Part::Item(lines) if lines.is_empty());
        if let (Some(page), false) = (self.pages.last_mut(), empty) {
            page.parts.push(part);
        }
    }

    /// Adds what is not read aloud.
    pub(crate) fn furnish(&mut self, mark: Mark) {
        if let Some(page) = self.pages.last_mut() {
            page.furniture.push(mark);
        }
    }

    fn broken(&self, words: &Words, room: f64) -> Vec<Words> {
        let texts = lettering::lines(&words.text, words.size, words.weight, room);
        let line = |(k, text): (usize, String)| {
            let y = words.at.y + k as f64 * words.size * style::LEADING;
            Words { text, at: Point::new(words.at.x, y), ..words.clone() }
        };
        texts.into_iter().enumerate().map(line).collect()
    }

    /// The pages with their feet; `front` pages have been set elsewhere and come before them.
    pub(crate) fn finish(self, job: &str, front: Vec<Page>) -> Vec<Page> {
        let left = self.left();
        let mut pages: Vec<Page> = front.into_iter().chain(self.pages).collect();
        let count = pages.len();
        for (k, page) in pages.iter_mut().enumerate() {
            page.furniture.extend(foot(left, job, k + 1, count));
        }
        pages
    }
}

/// Type size in tables.
const TABLE_SIZE: f64 = 2.8;
/// Line to line in tables.
const TABLE_LEADING: f64 = 1.3;
/// White between columns.
const GUTTER: f64 = 2.4;

/// Check line, job and page number.
fn foot(left: f64, job: &str, number: usize, count: usize) -> Vec<Mark> {
    let y = BOTTOM + 8.0;
    let mut foot = Drawing::new(0.0, 0.0, "");
    let pen = Pen::new(style::TEXT, style::THIN);
    foot.line((left, y), (left + CHECK_LINE, y), pen);
    for k in 0..=10 {
        let tick = if k % 5 == 0 { 2.0 } else { 1.0 };
        let x = left + f64::from(k) * CHECK_LINE / 10.0;
        foot.line((x, y), (x, y - tick), pen);
    }
    let say = "check line: 100 mm; if not, print again at 100 %, not fitted to the page";
    foot.words(Words::new(say, (left, y + 3.4)).size(style::SMALL * 0.9).ink(style::SOFT));
    let right = left + MEASURE;
    let name = lettering::fitted(job, style::SMALL, Weight::Regular, 60.0);
    foot.words(Words::new(name, (right, y - 0.4)).size(style::SMALL).ink(style::SOFT).anchor(Anchor::End));
    let page = format!("page {number} of {count}");
    foot.words(Words::new(page, (right, y + 3.4)).size(style::SMALL).anchor(Anchor::End));
    foot.marks
}
