//! Sets headings, paragraphs, lists, tables and pictures one under the other and begins a new page where the room ends.

use super::leaf::{Leaf, Scale, Way};
use super::table::Table;
use super::tick_box::tick_box;
use crate::geometry::{Affine, Point, Rect};
use crate::write::drawing::pdf::Part;
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::lettering;
use crate::write::style::{self, Ink};
use crate::write::views;

/// Type size of running text, mm: about 10 pt, read easily at arm's length.
pub(crate) const READ: f64 = 3.5;
/// Height of the running head on pages after a section's first.
const RUNNING_HEAD: f64 = 10.0;
/// Kept at the foot of every page for the page number.
const FOOT: f64 = 8.5;
/// Most that a picture is enlarged to fill the width.
const LARGEST: f64 = 1.1;
/// Thickness of the rule at the side of a notice.
const NOTICE_BAR: f64 = 1.1;

/// Pages that belong together under one title.
#[derive(Clone, Debug)]
pub(crate) struct Section {
    pub(crate) title: String,
    pub(crate) leaves: Vec<Leaf>,
}

/// What stands before each item of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Before {
    /// A box to tick.
    Box,
    /// 1, 2, 3.
    Number,
    Dot,
}

/// Composes one section.
#[derive(Debug)]
pub(crate) struct Composer {
    title: String,
    way: Way,
    leaves: Vec<Leaf>,
    /// Where the next block begins.
    y: f64,
}

impl Composer {
    /// Begins a section with its title and one or two sentences about what it is for.
    pub(crate) fn new(title: &str, intro: &str) -> Self {
        Self::lying(title, intro, Way::Upright)
    }

    /// The same on pages that lie as told.
    pub(crate) fn lying(title: &str, intro: &str, way: Way) -> Self {
        let mut composer = Self { title: title.to_owned(), way, leaves: Vec::new(), y: 0.0 };
        composer.leaves.push(Leaf::new(way));
        composer.y = composer.head(1, title, style::TITLE, 6.0) + 1.4;
        if !intro.is_empty() {
            composer.words(intro, READ, style::SOFT);
        }
        let y = composer.y + 1.0;
        let rule = rule(y, composer.width(), Pen::new(style::ACCENT, style::FIRM));
        composer.furnish(vec![rule]);
        composer.y = y + 5.0;
        composer
    }

    pub(crate) const fn width(&self) -> f64 {
        self.way.frame().0
    }

    /// Where the next block begins.
    pub(crate) const fn y(&self) -> f64 {
        self.y
    }

    /// Room left on this page.
    pub(crate) fn room(&self) -> f64 {
        self.end() - self.y
    }

    /// Room on an empty page after the first.
    pub(crate) fn whole_room(&self) -> f64 {
        self.end() - RUNNING_HEAD
    }

    fn end(&self) -> f64 {
        self.way.frame().1 - FOOT
    }

    pub(crate) fn space(&mut self, height: f64) {
        self.y += height;
    }

    fn leaf(&mut self) -> &mut Leaf {
        self.leaves.last_mut().expect("a section begins with a page")
    }

    /// Takes a part as it is, already in its place.
    pub(crate) fn push(&mut self, part: Part) {
        self.leaf().parts.push(part);
    }

    /// Takes what is not read.
    pub(crate) fn furnish(&mut self, marks: Vec<Mark>) {
        self.leaf().furniture.extend(marks);
    }

    /// Goes on on a new page.
    pub(crate) fn turn(&mut self) {
        self.leaves.push(Leaf::new(self.way));
        let words = Words::new(format!("{}, continued", self.title), (0.0, 3.2)).size(style::SMALL).ink(style::SOFT);
        let rule = rule(5.0, self.width(), Pen::new(style::RULE, style::THIN));
        self.furnish(vec![Mark::Words(words), rule]);
        self.y = RUNNING_HEAD;
    }

    /// Turns the page unless so much room is left.
    pub(crate) fn keep(&mut self, height: f64) {
        if self.room() < height.min(self.whole_room()) {
            self.turn();
        }
    }

    /// Marks the page as one that must be printed at its own size.
    pub(crate) fn at_true_scale(&mut self) {
        self.leaf().scale = Scale::True;
    }

    /// A heading inside the section.
    pub(crate) fn heading(&mut self, text: &str) {
        self.keep(style::HEAD * 4.0);
        self.y = self.head(2, text, style::HEAD, self.y + style::HEAD) + 0.6;
    }

    /// A heading with its first baseline at a y; returns the y below it.
    fn head(&mut self, level: u16, text: &str, size: f64, baseline: f64) -> f64 {
        let lines = lettering::lines(text, size, lettering::Weight::Bold, self.width());
        let line =
            |(k, line): (usize, String)| Words::new(line, (0.0, baseline + k as f64 * size * 1.25)).size(size).bold();
        let lines: Vec<Words> = lines.into_iter().enumerate().map(line).collect();
        let below = baseline + (lines.len() as f64 - 1.0).max(0.0) * size * 1.25 + size * 0.25;
        self.push(Part::Heading { level, lines });
        below
    }

    /// Running text.
    pub(crate) fn paragraph(&mut self, text: &str) {
        self.words(text, READ, style::TEXT);
        self.y += READ * 0.6;
    }

    /// Small text beside the point.
    pub(crate) fn note(&mut self, text: &str) {
        self.words(text, style::SMALL + 0.3, style::SOFT);
        self.y += READ * 0.5;
    }

    fn words(&mut self, text: &str, size: f64, ink: Ink) {
        let mut lines = lettering::lines(text, size, lettering::Weight::Regular, self.width());
        while !lines.is_empty() {
            let leading = size * style::LEADING;
            let fits = count(self.room() / leading);
            if fits == 0 || (fits == 1 && lines.len() > 2) {
                self.turn();
                continue;
            }
            let rest = lines.split_off(fits.min(lines.len()));
            let mut set = Vec::new();
            for line in lines {
                set.push(Words::new(line, (0.0, self.y + size)).size(size).ink(ink));
                self.y += leading;
            }
            self.push(Part::Text(set));
            lines = rest;
        }
    }

    /// A list in the size of running text.
    pub(crate) fn list(&mut self, before: Before, items: &[impl AsRef<str>]) {
        self.list_sized(before, items, READ);
    }

    /// A list in any size.
    pub(crate) fn list_sized(&mut self, before: Before, items: &[impl AsRef<str>], size: f64) {
        let indent = size * 2.1;
        for (k, item) in items.iter().enumerate() {
            let lines = lettering::lines(item.as_ref(), size, lettering::Weight::Regular, self.width() - indent);
            let height = lines.len() as f64 * size * style::LEADING;
            self.keep(height);
            let label = vec![label(before, k, Point::new(0.0, self.y + size), size)];
            let line = |(k, line): (usize, String)| {
                Words::new(line, (indent, self.y + size + k as f64 * size * style::LEADING)).size(size)
            };
            let lines = lines.into_iter().enumerate().map(line).collect();
            self.push(Part::Item { label, lines });
            self.y += height + size * 0.55;
        }
        self.y += size * 0.4;
    }

    /// A table over as many pages as it needs, its head on each.
    pub(crate) fn table(&mut self, table: &Table) {
        let mut next = 0;
        loop {
            self.keep(table.least_room(next, self.width()));
            let (part, ground, end, bottom) = table.set(next, Point::new(0.0, self.y), self.width(), self.room());
            self.furnish(ground);
            self.push(part);
            self.y = bottom;
            if end >= table.len() {
                break;
            }
            next = end;
            self.turn();
        }
        self.y += READ;
    }

    /// One of the pictures, its inner border laid over the page's own edges, so that its words begin where the page's do.
    pub(crate) fn figure(&mut self, drawing: Drawing) {
        let inner = drawing.width - 2.0 * views::BORDER;
        let scale = (self.width() / inner).min(self.whole_room() / drawing.height).min(LARGEST);
        // A little smaller on this page is better than a page half empty.
        let here = (self.room() / (drawing.height - views::BORDER)).min(scale);
        let scale = if here >= scale * 0.92 { here } else { scale };
        self.keep((drawing.height - views::BORDER) * scale - 1e-6);
        let corner = Point::new(-views::BORDER * scale, self.y - views::BORDER * 0.6 * scale);
        self.y += (drawing.height - views::BORDER) * scale;
        self.push(placed(drawing, corner, scale));
    }

    /// One of the pictures in so much room, in the middle where that makes it narrower than the page.
    pub(crate) fn figure_within(&mut self, drawing: Drawing, room: f64) {
        let inner = drawing.width - 2.0 * views::BORDER;
        let scale = (self.width() / inner).min(room / drawing.height).clamp(0.05, LARGEST);
        let corner = Point::new((self.width() - drawing.width * scale) / 2.0, self.y);
        self.y += drawing.height * scale;
        self.push(placed(drawing, corner, scale));
    }

    /// A drawing without a border, at the left edge, made smaller where the page asks for it.
    pub(crate) fn plain_figure(&mut self, drawing: Drawing) {
        let scale = (self.width() / drawing.width).min(self.whole_room() / drawing.height).min(1.0);
        self.keep(drawing.height * scale - 1e-6);
        let corner = Point::new(0.0, self.y);
        self.y += drawing.height * scale + 2.0;
        self.push(placed(drawing, corner, scale));
    }

    /// A picture under its own line of small words.
    pub(crate) fn figure_named(&mut self, name: &str, drawing: Drawing) {
        let inner = drawing.width - 2.0 * views::BORDER;
        let scale = (self.width() / inner).min((self.whole_room() - 8.0) / drawing.height).min(LARGEST);
        self.keep(drawing.height * scale * 0.93 + 8.0);
        self.note(name);
        self.figure(drawing);
    }

    /// A picture at its true size, at the left edge.
    pub(crate) fn true_figure(&mut self, drawing: Drawing) {
        self.keep(drawing.height);
        self.at_true_scale();
        let y = self.y;
        self.y += drawing.height + 2.0;
        self.push(placed(drawing, Point::new(0.0, y), 1.0));
    }

    /// Words that must not be overlooked, in a tinted box with a bar of their colour.
    pub(crate) fn notice(&mut self, ink: Ink, head: &str, text: &str) {
        let (left, inset) = (NOTICE_BAR + 3.0, 2.6);
        let room = self.width() - left - inset;
        let head_lines = lettering::lines(head, READ, lettering::Weight::Bold, room);
        let lines = lettering::lines(text, READ, lettering::Weight::Regular, room);
        let leading = READ * style::LEADING;
        let height = (head_lines.len() + lines.len()) as f64 * leading + 2.0 * inset - 0.6;
        self.keep(height);
        let ground = Rect::new(0.0, self.y, self.width(), self.y + height);
        let bar = Rect::new(0.0, self.y, NOTICE_BAR, self.y + height);
        let mut paper = Drawing::new(0.0, 0.0, "");
        paper.rect(ground, Some(style::TINT), None);
        paper.rect(bar, Some(ink), None);
        self.furnish(paper.marks);
        let mut y = self.y + inset + READ * 0.85;
        let mut set = Vec::new();
        for line in head_lines {
            set.push(Words::new(line, (left, y)).size(READ).bold().ink(ink));
            y += leading;
        }
        for line in lines {
            set.push(Words::new(line, (left, y)).size(READ));
            y += leading;
        }
        self.push(Part::Text(set));
        self.y = ground.y1 + 3.0;
    }

    pub(crate) fn finish(self) -> Section {
        Section { title: self.title, leaves: self.leaves }
    }
}

/// A picture at a place.
pub(crate) fn placed(drawing: Drawing, corner: Point, scale: f64) -> Part {
    let place = Affine::translate(corner.to_vec2()) * Affine::scale(scale);
    let group = Group { place, clip: None, marks: drawing.marks };
    Part::Figure { says: drawing.says, marks: vec![Mark::Group(group)] }
}

/// A rule across the page.
pub(crate) fn rule(y: f64, width: f64, pen: Pen) -> Mark {
    let mut paper = Drawing::new(0.0, 0.0, "");
    paper.line((0.0, y), (width, y), pen);
    paper.marks.remove(0)
}

fn label(before: Before, k: usize, at: Point, size: f64) -> Mark {
    match before {
        Before::Box => tick_box(at, size),
        Before::Number => {
            let words = Words::new(format!("{}", k + 1), (at.x + size * 1.4, at.y)).size(size).bold();
            Mark::Words(words.ink(style::ACCENT).anchor(Anchor::End))
        }
        Before::Dot => {
            let mut paper = Drawing::new(0.0, 0.0, "");
            paper.dot(Point::new(at.x + size * 0.9, at.y - size * 0.3), size * 0.13, style::ACCENT);
            paper.marks.remove(0)
        }
    }
}

/// Whole things that fit, none if negative.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a small whole number")]
pub(crate) fn count(share: f64) -> usize {
    share.clamp(0.0, 1e6).floor() as usize
}
