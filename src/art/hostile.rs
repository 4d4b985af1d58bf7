//! Limits kept against hostile files, and the drawing's text as an XML tree within them.
//!
//! Every limit is checked before the work it bounds: bytes and attributes on the bare text, elements while the XML is
//! parsed, depth and copies on the tree before the SVG parser expands them. Entities from outside are never resolved.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use roxmltree::{Document, Node, ParsingOptions};

use super::entities;
use super::error::{ArtError, Excess};

/// Largest file taken, its own entities written out: 16 MiB. Hand-drawn motifs are some kilobytes; tracings rarely pass one megabyte.
pub(super) const MOST_BYTES: usize = 16 << 20;

/// Most elements, with every copy and every referenced pattern, clip or marker counted where it is used.
pub(super) const MOST_ELEMENTS: u32 = 200_000;

/// Deepest nesting, with the chains of copies followed. The SVG parser recurses; its stack is sized for this.
pub(super) const DEEPEST: u32 = 200;

/// Most attributes on one element: the XML parser compares each with all others.
const MOST_ATTRIBUTES: usize = 1_000;

/// Most style rules times elements; each rule is tried on each element.
const MOST_STYLE_MATCHES: u64 = 20_000_000;

/// Stack of the reading thread. Depth 200 needs below 4 MiB in an unoptimised build.
const STACK_BYTES: usize = 64 << 20;

/// SVG 2, section 1.7.
pub(super) const SVG_NAMESPACE: &str = "http://www.w3.org/2000/svg";

/// Runs `work` on a deep stack of its own and turns a panic into an error.
///
/// # Errors
/// [`ArtError::ReaderFailed`] when the work panics or no thread can be had.
pub(super) fn on_deep_stack<T: Send>(
    file: &str,
    work: impl FnOnce() -> Result<T, ArtError> + Send,
) -> Result<T, ArtError> {
    let failed = || ArtError::ReaderFailed { file: file.to_owned() };
    std::thread::scope(|scope| {
        let thread = std::thread::Builder::new().stack_size(STACK_BYTES).spawn_scoped(scope, work);
        thread.map_err(|_| failed())?.join().map_err(|_| failed())?
    })
}

/// Checks the bare text before anything parses it.
pub(super) fn check_text(svg: &str, file: &str) -> Result<(), ArtError> {
    if svg.len() > MOST_BYTES || entities::length_written_out(svg) > MOST_BYTES as u64 {
        return Err(excess(file, Excess::Bytes, MOST_BYTES as u64));
    }
    // Inside a tag no "<" can occur, so a run between two of them bounds the attributes of one element.
    if svg.split('<').any(|run| run.bytes().filter(|byte| *byte == b'=').count() > MOST_ATTRIBUTES && !is_text(run)) {
        return Err(excess(file, Excess::Attributes, MOST_ATTRIBUTES as u64));
    }
    Ok(())
}

/// Whether a text that is no XML begins as a job file does: with the heading of a table, or with `key =`.
fn looks_like_a_job(text: &str) -> bool {
    let told = |line: &&str| !line.is_empty() && !line.starts_with('#');
    let Some(first) = text.trim_start_matches('\u{feff}').lines().map(str::trim).find(told) else { return false };
    let is_key = |key: &str| !key.trim().is_empty() && !key.trim().contains(|c: char| c.is_whitespace() || c == '<');
    first.starts_with('[') || first.split_once('=').is_some_and(|(key, _)| is_key(key))
}

/// Comments, marked sections and style sheets may hold any number of equals signs.
fn is_text(run: &str) -> bool {
    run.starts_with('!') || run.split_once('>').is_some_and(|(tag, _)| tag.matches('=').count() <= MOST_ATTRIBUTES)
}

/// The text as an XML tree.
pub(super) fn parse<'a>(svg: &'a str, file: &str) -> Result<Document<'a>, ArtError> {
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_ELEMENTS, entity_resolver: None };
    Document::parse_with_options(svg, options).map_err(|error| match error {
        roxmltree::Error::NodesLimitReached => excess(file, Excess::Elements, MOST_ELEMENTS.into()),
        _ if looks_like_a_job(svg) => ArtError::JobFile { file: file.to_owned() },
        error => ArtError::NotXml { file: file.to_owned(), line: error.pos().row, what: error.to_string() },
    })
}

/// Checks the tree as the SVG parser will expand it.
pub(super) fn check_tree(document: &Document<'_>, file: &str) -> Result<(), ArtError> {
    let root = document.root_element();
    let (name, space) = (root.tag_name().name(), root.tag_name().namespace());
    if name != "svg" || !matches!(space, None | Some(SVG_NAMESPACE)) {
        let found = if name == "svg" { format!("{name} of another language") } else { name.to_owned() };
        return Err(ArtError::NotSvg { file: file.to_owned(), found });
    }
    check_styles(document, file)?;
    let extent = Expansion::new(document).extent(document.root());
    if extent.depth > DEEPEST {
        return Err(excess(file, Excess::Depth, DEEPEST.into()));
    }
    if extent.elements > u64::from(MOST_ELEMENTS) {
        return Err(excess(file, Excess::Elements, MOST_ELEMENTS.into()));
    }
    Ok(())
}

fn check_styles(document: &Document<'_>, file: &str) -> Result<(), ArtError> {
    let style_text = document.descendants().filter(|node| node.has_tag_name("style")).filter_map(|node| node.text());
    let rules: usize = style_text.map(|text| text.bytes().filter(|byte| matches!(byte, b'{' | b',')).count()).sum();
    let elements = document.descendants().filter(Node::is_element).count();
    if rules as u64 * elements as u64 > MOST_STYLE_MATCHES {
        return Err(excess(file, Excess::StyleRules, MOST_STYLE_MATCHES));
    }
    Ok(())
}

pub(super) fn excess(file: &str, what: Excess, limit: u64) -> ArtError {
    ArtError::TooMuch { file: file.to_owned(), what, limit }
}

/// How much an element becomes when copies and references are followed.
#[derive(Clone, Copy, Default)]
struct Extent {
    elements: u64,
    depth: u32,
}

/// Walks the tree children first, with a stack of its own, so that deep nesting cannot overflow anything here.
struct Expansion<'a, 'input> {
    by_id: BTreeMap<&'a str, Node<'a, 'input>>,
    styled: Vec<&'a str>,
    markers_styled: bool,
    known: BTreeMap<usize, Option<Extent>>,
}

impl<'a, 'input> Expansion<'a, 'input> {
    fn new(document: &'a Document<'input>) -> Self {
        let mut by_id = BTreeMap::new();
        let mut styled = Vec::new();
        let mut markers_styled = false;
        for node in document.descendants() {
            if let Some(id) = node.attribute("id") {
                by_id.entry(id).or_insert(node);
            }
            if node.has_tag_name("style") {
                let text = node.text().unwrap_or_default();
                markers_styled |= text.contains("marker");
                styled.extend(links(text));
            }
        }
        Self { by_id, styled, markers_styled, known: BTreeMap::new() }
    }

    fn extent(&mut self, root: Node<'a, 'input>) -> Extent {
        let mut open = vec![(root, false)];
        while let Some((node, children_done)) = open.pop() {
            if children_done {
                let extent = self.sum(node);
                self.known.insert(node.id().get_usize(), Some(extent));
            } else if let Entry::Vacant(place) = self.known.entry(node.id().get_usize()) {
                // `None` marks a node under way: a reference back to it is a loop, which the SVG parser refuses.
                place.insert(None);
                open.push((node, true));
                open.extend(self.followed(node).into_iter().map(|(next, _)| (next, false)));
            }
        }
        self.known.get(&root.id().get_usize()).copied().flatten().unwrap_or_default()
    }

    fn sum(&self, node: Node<'a, 'input>) -> Extent {
        let mut total = Extent { elements: 1, depth: 1 };
        let (mut painted, mut paint_depth) = (0_u64, 0);
        for (next, role) in self.followed(node) {
            let part = self.known.get(&next.id().get_usize()).copied().flatten().unwrap_or_default();
            match role {
                Role::Part => {
                    total.elements = total.elements.saturating_add(part.elements);
                    total.depth = total.depth.max(part.depth.saturating_add(1));
                }
                Role::Paint => {
                    painted = painted.saturating_add(part.elements);
                    paint_depth = paint_depth.max(part.depth.saturating_add(1));
                }
            }
        }
        // A paint, clip or marker on a group is inherited or may be applied to each of its parts; a marker is drawn at
        // each of a path's points, at least two bytes apart.
        let marked = has_markers(node) || (self.markers_styled && node.has_tag_name("svg"));
        let copies = total.elements.saturating_mul(1 + if marked { points_under(node) } else { 0 });
        total.elements = total.elements.saturating_add(painted.saturating_mul(copies));
        total.depth = total.depth.max(paint_depth);
        total
    }

    /// Children, the target of a copy, and everything an element refers to.
    fn followed(&self, node: Node<'a, 'input>) -> Vec<(Node<'a, 'input>, Role)> {
        let mut next: Vec<_> = node.children().filter(Node::is_element).map(|child| (child, Role::Part)).collect();
        for attribute in node.attributes() {
            if attribute.name() == "href" {
                let target = attribute.value().trim().strip_prefix('#').and_then(|id| self.by_id.get(id));
                next.extend(target.map(|target| (*target, Role::Part)));
            } else {
                next.extend(self.targets(links(attribute.value())));
            }
        }
        if node.has_tag_name("svg") {
            next.extend(self.targets(self.styled.iter().copied()));
        }
        next
    }

    fn targets(&self, ids: impl Iterator<Item = &'a str>) -> impl Iterator<Item = (Node<'a, 'input>, Role)> {
        // Gradients are shared, never copied.
        let copied = |target: &&Node<'a, 'input>| !target.tag_name().name().ends_with("Gradient");
        ids.filter_map(|id| self.by_id.get(id)).filter(copied).map(|target| (*target, Role::Paint))
    }
}

#[derive(Clone, Copy)]
enum Role {
    Part,
    Paint,
}

/// Ids named as `url(#id)` in a value.
fn links(value: &str) -> impl Iterator<Item = &str> {
    value.split("url(").skip(1).filter_map(|rest| {
        let target = rest.split(')').next()?;
        target.trim().trim_matches(['"', '\'']).trim().strip_prefix('#')
    })
}

fn has_markers(node: Node<'_, '_>) -> bool {
    node.attributes().any(|attribute| {
        let text = if attribute.name() == "style" { attribute.value() } else { attribute.name() };
        text.contains("marker") && attribute.value().contains("url(")
    })
}

fn points_under(node: Node<'_, '_>) -> u64 {
    let data = |node: Node<'_, '_>| {
        node.attribute("d").or_else(|| node.attribute("points")).map_or(0, |data| data.len() as u64 / 2)
    };
    node.descendants().map(data).sum()
}
