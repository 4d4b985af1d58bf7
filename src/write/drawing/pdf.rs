//! Pages of marks as a tagged PDF: what is on them by what it is. Only this file and `paint` name the PDF library.
//!
//! What is on a page is given in parts that say what they are (heading, text, list, table, figure), so that the file can
//! be read aloud and searched. The library checks the whole against PDF/UA-1 (ISO 14289-1) and refuses what falls short.
//! No dates and no random ids are written: the same pages give the same bytes.

mod paint;

use std::num::NonZeroU16;

use krilla::annotation::{Annotation, LinkAnnotation, Target};
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Point as PdfPoint, Rect as PdfRect, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, ListNumbering, Node, SpanTag, TableHeaderScope, Tag, TagGroup,
    TagTree,
};
use krilla::{Document, SerializeSettings};

use super::{Mark, Words};
use crate::geometry::Rect;
use paint::{Fonts, known, paint, to_f32, words};

/// PDF's unit: 72 to the inch (ISO 32000-1, 8.3.2.3).
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// A whole file.
#[derive(Clone, Debug)]
pub(crate) struct Book {
    pub(crate) title: String,
    pub(crate) pages: Vec<Page>,
}

/// One page with its own paper.
#[derive(Clone, Debug)]
pub(crate) struct Page {
    /// Width and height of the paper in mm.
    pub(crate) paper: (f64, f64),
    /// In reading order.
    pub(crate) parts: Vec<Part>,
    /// What is said by its place only: page numbers, rules, check lines.
    pub(crate) furniture: Vec<Mark>,
    /// Name in the viewer's list of bookmarks, for the first page of a chapter.
    pub(crate) bookmark: Option<String>,
}

/// A part of a page, by what it is.
#[derive(Clone, Debug)]
pub(crate) enum Part {
    Heading {
        level: u16,
        lines: Vec<Words>,
    },
    Text(Vec<Words>),
    /// One item of a list after its number, dot or tick box; neighbours make one list.
    Item {
        label: Vec<Mark>,
        lines: Vec<Words>,
    },
    /// Rows of a table, with what the table holds in a few words.
    Table {
        summary: String,
        rows: Vec<Row>,
    },
    Figure {
        says: String,
        marks: Vec<Mark>,
    },
    /// Words on one line that lead to a page, counted from 0.
    Link {
        words: Vec<Words>,
        page: usize,
    },
}

/// One row of a table.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    /// A head row names the columns.
    pub(crate) head: bool,
    /// Lines of words in each cell, and signs such as tick boxes.
    pub(crate) cells: Vec<Vec<Mark>>,
}

/// The file's bytes.
pub(crate) fn file(book: &Book) -> Vec<u8> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .expect("one validator cannot contradict itself");
    let mut document = Document::new_with(SerializeSettings { configuration, ..SerializeSettings::default() });
    let fonts = Fonts::new();
    let mut tree = TagTree::new().with_lang(Some("en".to_owned()));
    let mut outline = Outline::new();
    for (number, page) in book.pages.iter().enumerate() {
        if let Some(name) = &page.bookmark {
            outline.push_child(OutlineNode::new(known(name), XyzDestination::new(number, PdfPoint::from_xy(0.0, 0.0))));
        }
        write_page(&mut document, page, &fonts, &mut tree);
    }
    document.set_outline(outline);
    document.set_tag_tree(tree);
    let title = known(&book.title);
    document.set_metadata(Metadata::new().title(title).language("en".to_owned()).producer("hemwright".to_owned()));
    document.finish().expect("every part is tagged and every sign is in the fonts")
}

fn write_page(document: &mut Document, page: &Page, fonts: &Fonts, tree: &mut TagTree) {
    let (width, height) = (to_f32(page.paper.0 * POINTS_PER_MM), to_f32(page.paper.1 * POINTS_PER_MM));
    let settings = PageSettings::from_wh(width, height).expect("paper has a size");
    let mut open = document.start_page_with(settings);
    let links = add_links(&mut open, page);
    let mut surface = open.surface();
    let scale = to_f32(POINTS_PER_MM);
    surface.push_transform(&Transform::from_scale(scale, scale));
    if !page.furniture.is_empty() {
        surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::PaginationOther)));
        page.furniture.iter().for_each(|mark| paint(&mut surface, mark, fonts));
        surface.end_tagged();
    }
    let mut painter = Painter { surface: &mut surface, fonts, links: links.into_iter() };
    let mut list: Option<TagGroup> = None;
    for part in &page.parts {
        if let Part::Item { label, lines } = part {
            let mut item = TagGroup::new(Tag::LI);
            let mut sign = TagGroup::new(Tag::Lbl);
            painter.tagged_marks(&mut sign, label);
            item.push(sign);
            let mut body = TagGroup::new(Tag::LBody);
            painter.tagged_lines(&mut body, lines);
            item.push(body);
            list.get_or_insert_with(|| TagGroup::new(Tag::L(ListNumbering::None))).push(item);
            continue;
        }
        if let Some(list) = list.take() {
            tree.push(list);
        }
        tree.push(painter.part(part));
    }
    if let Some(list) = list {
        tree.push(list);
    }
    surface.pop();
    surface.finish();
    open.finish();
}

/// Links must be made before the page is painted on; their ids are handed out in the order of the parts.
fn add_links(page: &mut krilla::page::Page<'_>, content: &Page) -> Vec<Identifier> {
    let link = |part: &Part| match part {
        Part::Link { words, page } => {
            let area = words.iter().map(Words::bounds).reduce(|a, b| a.union(b))?;
            let text: Vec<&str> = words.iter().map(|one| one.text.as_str()).collect();
            Some((area, text.join(", "), *page))
        }
        _ => None,
    };
    let links: Vec<_> = content.parts.iter().filter_map(link).collect();
    let mut add = |(bounds, text, to): (Rect, String, usize)| {
        let p = |v: f64| to_f32(v * POINTS_PER_MM);
        let rect = PdfRect::from_ltrb(p(bounds.x0), p(bounds.y0), p(bounds.x1), p(bounds.y1))?;
        let target = Target::Destination(XyzDestination::new(to, PdfPoint::from_xy(0.0, 0.0)).into());
        Some(page.add_tagged_annotation(Annotation::new_link(LinkAnnotation::new(rect, target), Some(known(&text)))))
    };
    links.into_iter().filter_map(&mut add).collect()
}

struct Painter<'a, 'b> {
    surface: &'a mut Surface<'b>,
    fonts: &'a Fonts,
    links: std::vec::IntoIter<Identifier>,
}

impl Painter<'_, '_> {
    fn part(&mut self, part: &Part) -> Node {
        match part {
            Part::Heading { level, lines } => {
                let title = lines.iter().map(|line| known(&line.text)).collect::<Vec<_>>().join(" ");
                let level = NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN);
                let mut group = TagGroup::new(Tag::Hn(level, Some(title)));
                self.tagged_lines(&mut group, lines);
                group.into()
            }
            Part::Text(lines) | Part::Item { lines, .. } => {
                let mut group = TagGroup::new(Tag::P);
                self.tagged_lines(&mut group, lines);
                group.into()
            }
            Part::Table { summary, rows } => self.table(summary, rows),
            Part::Figure { says, marks } => {
                let mut group = TagGroup::new(Tag::Figure(Some(known(says))));
                let id = self.surface.start_tagged(ContentTag::Other);
                marks.iter().for_each(|mark| paint(self.surface, mark, self.fonts));
                self.surface.end_tagged();
                group.push(id);
                group.into()
            }
            Part::Link { words, .. } => {
                let mut group = TagGroup::new(Tag::Link);
                self.tagged_lines(&mut group, words);
                if let Some(id) = self.links.next() {
                    group.push(id);
                }
                let mut paragraph = TagGroup::new(Tag::P);
                paragraph.push(group);
                paragraph.into()
            }
        }
    }

    fn table(&mut self, summary: &str, rows: &[Row]) -> Node {
        let mut table = TagGroup::new(Tag::Table.with_summary(Some(known(summary))));
        for row in rows {
            let mut line = TagGroup::new(Tag::TR);
            for cell in &row.cells {
                let mut group =
                    if row.head { TagGroup::new(Tag::TH(TableHeaderScope::Column)) } else { TagGroup::new(Tag::TD) };
                self.tagged_marks(&mut group, cell);
                line.push(group);
            }
            table.push(line);
        }
        table.into()
    }

    /// Each line is a span of its own; a space after it keeps the words of two lines apart when text is taken out.
    fn tagged_lines(&mut self, group: &mut TagGroup, lines: &[Words]) {
        for line in lines {
            let id = self.surface.start_tagged(ContentTag::Span(SpanTag::empty()));
            words(self.surface, line, self.fonts);
            self.surface.end_tagged();
            group.push(id);
        }
    }

    /// The same for words among signs.
    fn tagged_marks(&mut self, group: &mut TagGroup, marks: &[Mark]) {
        for mark in marks {
            let tag = match mark {
                Mark::Words(_) => ContentTag::Span(SpanTag::empty()),
                Mark::Shape(_) | Mark::Group(_) => ContentTag::Other,
            };
            let id = self.surface.start_tagged(tag);
            paint(self.surface, mark, self.fonts);
            self.surface.end_tagged();
            group.push(id);
        }
    }
}
