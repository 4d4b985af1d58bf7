//! Names and lines for the elements of a drawing, so that every finding can say where it is.
//!
//! The SVG parser keeps ids but no lines. Elements without an id are given one before it parses the text, so that each
//! outline it hands back can be traced to its element. An element that had no id cannot have been referred to by one,
//! so the drawing stays the same.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};

use super::loops;

/// An element as messages name it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Label {
    /// Its id, or its kind and number: `petal-3`, `path 3`.
    pub element: String,
    /// Line in the file, from 1.
    pub line: Option<u32>,
}

/// The drawing's text with an id on every element, and what each id stands for.
pub(super) struct Labelled {
    /// The text to hand to the SVG parser.
    pub(super) svg: String,
    /// Labels by id.
    pub(super) by_id: BTreeMap<String, Label>,
    /// Labels of texts and pictures by the id of the empty rectangle that stands where they do.
    pub(super) places: BTreeMap<String, Label>,
}

/// Names every element of the drawing, in one pass.
pub(super) struct Labels<'a, 'input> {
    document: &'a Document<'input>,
    line_starts: Vec<usize>,
    prefix: String,
    numbers: BTreeMap<usize, u32>,
    looping: BTreeSet<usize>,
}

impl<'a, 'input> Labels<'a, 'input> {
    pub(super) fn new(document: &'a Document<'input>) -> Self {
        let text = document.input_text();
        let mut prefix = "element".to_owned();
        while text.contains(&format!("{prefix}-")) {
            prefix.push('x');
        }
        let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
        let mut numbers = BTreeMap::new();
        for node in document.descendants().filter(Node::is_element) {
            let count = counts.entry(node.tag_name().name()).or_default();
            *count += 1;
            numbers.insert(node.id().get_usize(), *count);
        }
        let line_starts = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1).collect();
        Self { document, line_starts, prefix, numbers, looping: loops::looping_copies(document) }
    }

    /// How messages name an element.
    pub(super) fn label(&self, node: Node<'_, '_>) -> Label {
        let kind = node.tag_name().name();
        let number = self.numbers.get(&node.id().get_usize()).copied().unwrap_or(0);
        let element = match node.attribute("id") {
            Some(id) if !id.trim().is_empty() => shortened(id),
            _ => format!("{kind} {number}"),
        };
        let newlines = self.line_starts.partition_point(|start| *start <= node.range().start);
        Label { element, line: u32::try_from(newlines + 1).ok() }
    }

    /// The id the SVG parser will see for an element.
    pub(super) fn id(&self, node: Node<'_, '_>) -> String {
        match node.attribute("id") {
            Some(id) if !id.is_empty() => id.to_owned(),
            _ => format!("{}-{}", self.prefix, node.range().start),
        }
    }

    /// The text with an id on every element.
    ///
    /// Copies that lead back to themselves lose what they copy: the SVG parser would drop the group round them.
    pub(super) fn write(&self) -> Labelled {
        let text = self.without_loops();
        let text = text.as_str();
        let mut by_id = BTreeMap::new();
        // An entity's content stands once in the text however often it is used: one id a position.
        let mut insertions: BTreeMap<usize, String> = BTreeMap::new();
        let mut places = BTreeMap::new();
        for node in self.document.descendants().filter(Node::is_element) {
            let id = self.id(node);
            by_id.entry(id.clone()).or_insert_with(|| self.label(node));
            if node.attribute("id").is_none() {
                insertions.extend(name_end(text, node.range().start).map(|at| (at, format!(" id=\"{id}\""))));
            }
            if let Some(rectangle) = stand_in(node) {
                let id = format!("{}-place-{}", self.prefix, node.range().start);
                insertions.insert(node.range().start, format!("<rect id=\"{id}\" {rectangle}/>"));
                places.insert(id, self.label(node));
            }
        }
        let mut svg = String::with_capacity(text.len() + insertions.len() * (self.prefix.len() + 16));
        let mut done = 0;
        for (at, inserted) in insertions {
            svg.push_str(&text[done..at]);
            svg.push_str(&inserted);
            done = at;
        }
        svg.push_str(&text[done..]);
        Labelled { svg, by_id, places }
    }
}

impl Labels<'_, '_> {
    /// Whether a copy leads back to itself.
    pub(super) fn is_looping(&self, node: Node<'_, '_>) -> bool {
        self.looping.contains(&node.id().get_usize())
    }

    /// The text with blanks in place of the links of looping copies, so that all other places stay where they are.
    fn without_loops(&self) -> String {
        let mut text = self.document.input_text().to_owned();
        let looping = self.document.descendants().filter(|node| self.is_looping(*node));
        for attribute in looping.flat_map(|node| node.attributes()).filter(|attribute| attribute.name() == "href") {
            let range = attribute.range();
            text.replace_range(range.clone(), &" ".repeat(range.len()));
        }
        text
    }
}

/// Attributes of an unpainted rectangle that lies where a text begins or a picture lies, so that the SVG parser works out
/// the place: it drops both otherwise. `None` where one more shape would change what is drawn.
fn stand_in(node: Node<'_, '_>) -> Option<String> {
    let number = |name: &str, otherwise: &str| {
        let value = node.attribute(name).unwrap_or_default().split([' ', ',']).next().unwrap_or_default();
        if value.parse::<f64>().is_ok_and(f64::is_finite) { value.to_owned() } else { otherwise.to_owned() }
    };
    let (width, height) = match node.tag_name().name() {
        "text" => ("0.01".to_owned(), "0.01".to_owned()),
        "image" => (number("width", "0.01"), number("height", "0.01")),
        _ => return None,
    };
    let plain = |parent: Node<'_, '_>| matches!(parent.tag_name().name(), "svg" | "g" | "a");
    if !node.ancestors().skip(1).filter(Node::is_element).all(plain) || from_entity(node) {
        return None;
    }
    let harmless = |value: &&str| value.chars().all(|c| c.is_ascii_alphanumeric() || " ,.()+-".contains(c));
    let turned = node.attribute("transform").filter(harmless).map_or(String::new(), |t| format!(" transform=\"{t}\""));
    let (x, y) = (number("x", "0"), number("y", "0"));
    Some(format!("x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" style=\"fill:none;stroke:none\"{turned}"))
}

/// Whether an element comes from an entity: its text does not start where it stands.
fn from_entity(node: Node<'_, '_>) -> bool {
    node.parent().is_some_and(|parent| !parent.range().contains(&node.range().start))
}

/// Just behind the name of the element that starts at `start`.
fn name_end(text: &str, start: usize) -> Option<usize> {
    let name = text.get(start..)?.strip_prefix('<')?;
    let length = name.find(|c: char| c.is_whitespace() || matches!(c, '>' | '/'))?;
    (length > 0).then_some(start + 1 + length)
}

/// Ids can be of any length; messages are not.
fn shortened(id: &str) -> String {
    const LONGEST: usize = 60;
    let clean: String = id.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if clean.chars().count() <= LONGEST {
        return clean;
    }
    clean.chars().take(LONGEST).chain(std::iter::once('…')).collect()
}
