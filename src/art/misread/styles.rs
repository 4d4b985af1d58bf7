//! What each element of a drawing declares, as the SVG parser resolves it, and the declarations it loses on the way.
//!
//! In: the drawing's tree. Out: for every element its properties with the value that wins (attribute, then style sheets by
//! the weight of their selectors, then `style`; "important" ones against that order), and the declarations of style
//! sheets and `style` that are written but never read. Style sheets are read by the same library that the SVG parser reads
//! them by, so that what is lost there is lost here.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};
use simplecss::{AttributeOperator, Declaration, DeclarationTokenizer, PseudoClass, StyleSheet};

use super::values;

/// A property as an element declares it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Declared<'a> {
    pub(super) name: &'a str,
    pub(super) value: &'a str,
    important: bool,
}

/// A declaration that is written and not read.
pub(super) struct Lost<'a, 'input> {
    /// The style sheet or the element with the `style`.
    pub(super) node: Node<'a, 'input>,
    /// What is lost: a property, or a rule such as `@media`.
    pub(super) what: &'a str,
}

/// The declarations of a whole drawing.
pub(in crate::art) struct Styles<'a, 'input> {
    declared: BTreeMap<usize, Vec<Declared<'a>>>,
    pub(super) lost: Vec<Lost<'a, 'input>>,
}

impl<'a, 'input> Styles<'a, 'input> {
    pub(in crate::art) fn new(document: &'a Document<'input>) -> Self {
        let mut sheet = StyleSheet::new();
        let mut lost = Vec::new();
        for node in document.descendants().filter(|node| node.has_tag_name("style")) {
            let is_css = node.attribute("type").is_none_or(|kind| kind == "text/css");
            let Some(text) = node.text().filter(|_| is_css) else { continue };
            sheet.parse_more(text);
            lost.extend(written(text, true).rules.into_iter().map(|what| Lost { node, what }));
        }
        let mut read: BTreeSet<usize> = BTreeSet::new();
        read.extend(sheet.rules.iter().flat_map(|rule| &rule.declarations).map(|one| place(one.name)));
        for node in document.descendants().filter(|node| node.has_tag_name("style")) {
            let texts = node.children().filter(Node::is_text).filter_map(|text| text.text());
            let unread = |name: &&str| !read.contains(&place(name));
            let names = texts.flat_map(|text| written(text, true).names);
            lost.extend(names.filter(unread).map(|what| Lost { node, what }));
        }
        let mut declared = BTreeMap::new();
        for node in document.descendants().filter(Node::is_element) {
            let own = Self::of(node, &sheet, &mut lost);
            if !own.is_empty() {
                declared.insert(node.id().get_usize(), own);
            }
        }
        Self { declared, lost }
    }

    fn of(node: Node<'a, 'input>, sheet: &StyleSheet<'a>, lost: &mut Vec<Lost<'a, 'input>>) -> Vec<Declared<'a>> {
        let plain = |attribute: &roxmltree::Attribute<'a, 'input>| attribute.namespace().is_none();
        let mut own: Vec<Declared<'a>> = node
            .attributes()
            .filter(plain)
            .map(|attribute| Declared { name: attribute.name(), value: attribute.value(), important: false })
            .collect();
        for rule in sheet.rules.iter().filter(|rule| rule.selector.matches(&Element(node))) {
            rule.declarations.iter().for_each(|one| declare(&mut own, one));
        }
        if let Some(style) = node.attribute("style") {
            let mut read = BTreeSet::new();
            for one in DeclarationTokenizer::from(style) {
                read.insert(place(one.name));
                declare(&mut own, &one);
            }
            let unread = written(style, false).names.into_iter().filter(|name| !read.contains(&place(name)));
            lost.extend(unread.map(|what| Lost { node, what }));
        }
        own
    }

    /// Everything an element declares.
    pub(super) fn all(&self, node: Node<'_, '_>) -> &[Declared<'a>] {
        self.declared.get(&node.id().get_usize()).map_or(&[], Vec::as_slice)
    }

    /// An element's own value of a property.
    pub(in crate::art) fn value(&self, node: Node<'_, '_>, property: &str) -> Option<&'a str> {
        self.all(node).iter().find(|declared| declared.name == property).map(|declared| declared.value)
    }
}

/// Adds a declaration of a style to what an element has, unless something important stands against it. Only what the SVG
/// parser takes from styles counts: sizes and outlines are read from attributes alone.
fn declare<'a>(own: &mut Vec<Declared<'a>>, one: &Declaration<'a>) {
    if !values::is_styled(one.name) {
        return;
    }
    let new = Declared { name: one.name, value: one.value, important: one.important };
    match own.iter_mut().find(|declared| declared.name == one.name) {
        Some(old) if !old.important => *old = new,
        Some(_) => {}
        None => own.push(new),
    }
}

/// Where a slice of the document stands in memory: two slices of the same place are the same declaration.
fn place(slice: &str) -> usize {
    slice.as_ptr().addr()
}

/// What a style says, read only for where its declarations and rules begin.
struct Written<'a> {
    /// Names of declared properties that matter for a cut.
    names: Vec<&'a str>,
    /// Rules that hold or fetch further declarations and that are not read.
    rules: Vec<&'a str>,
}

/// Finds where declarations begin; comments, strings and brackets are stepped over.
fn written(text: &str, is_sheet: bool) -> Written<'_> {
    let mut found = Written { names: Vec::new(), rules: Vec::new() };
    let bytes = text.as_bytes();
    let (mut at, mut depth, mut begins) = (0, usize::from(!is_sheet), true);
    while at < bytes.len() {
        match bytes[at] {
            b'/' if bytes.get(at + 1) == Some(&b'*') => {
                at = text[at + 2..].find("*/").map_or(bytes.len(), |end| at + 2 + end + 2);
                continue;
            }
            quote @ (b'"' | b'\'') => at = end_after(text, at, quote),
            b'(' => at = end_after(text, at, b')'),
            b'{' => (depth, begins) = (depth + 1, true),
            b'}' => (depth, begins) = (depth.saturating_sub(1).max(usize::from(!is_sheet)), true),
            b';' => begins = true,
            b'@' if begins => {
                let name = name_at(text, at);
                found.rules.extend(matches!(name, "@media" | "@import" | "@supports" | "@layer").then_some(name));
                at = end_of_rule(text, at);
                continue;
            }
            byte if byte.is_ascii_whitespace() => {}
            _ => {
                let name = name_at(text, at);
                let behind = text[at + name.len()..].trim_start();
                if begins && depth > 0 && behind.starts_with(':') && values::is_styled(name) {
                    found.names.push(name);
                }
                begins = false;
                at += name.len().max(1);
                // The rest of a character of several bytes.
                while !text.is_char_boundary(at) {
                    at += 1;
                }
                continue;
            }
        }
        at += 1;
    }
    found
}

/// The byte that ends what begins at `at`, or the last one.
fn end_after(text: &str, at: usize, end: u8) -> usize {
    let found = text.as_bytes()[at + 1..].iter().position(|byte| *byte == end);
    found.map_or(text.len().saturating_sub(1), |length| at + 1 + length)
}

fn name_at(text: &str, at: usize) -> &str {
    let rest = &text[at..];
    let length =
        rest.find(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '@'))).unwrap_or(rest.len());
    &rest[..length]
}

/// Just behind a rule that begins with `@`: its semicolon, or the bracket that closes its block.
fn end_of_rule(text: &str, start: usize) -> usize {
    let mut depth = 0_usize;
    for (at, byte) in text.bytes().enumerate().skip(start) {
        match byte {
            b';' if depth == 0 => return at + 1,
            b'{' => depth += 1,
            b'}' if depth <= 1 => return at + 1,
            b'}' => depth -= 1,
            _ => {}
        }
    }
    text.len()
}

/// An element as selectors see it.
struct Element<'a, 'input>(Node<'a, 'input>);

impl simplecss::Element for Element<'_, '_> {
    fn parent_element(&self) -> Option<Self> {
        self.0.parent_element().map(Element)
    }

    fn prev_sibling_element(&self) -> Option<Self> {
        self.0.prev_sibling_element().map(Element)
    }

    fn has_local_name(&self, name: &str) -> bool {
        self.0.tag_name().name() == name
    }

    fn attribute_matches(&self, name: &str, operator: AttributeOperator<'_>) -> bool {
        self.0.attribute(name).is_some_and(|value| operator.matches(value))
    }

    fn pseudo_class_matches(&self, class: PseudoClass<'_>) -> bool {
        class == PseudoClass::FirstChild && self.prev_sibling_element().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str, is_sheet: bool) -> (Vec<&str>, Vec<&str>) {
        let found = written(text, is_sheet);
        (found.names, found.rules)
    }

    #[test]
    fn declarations_are_found_where_they_begin_and_nowhere_else() {
        assert_eq!(of("fill:red; stroke : blue;x:1", false).0, ["fill", "stroke"]);
        assert_eq!(of("a{fill:red}/* b{stroke:red} */ .c , d { stroke-width:2 }", true).0, ["fill", "stroke-width"]);
        assert_eq!(of("fill:url('a;stroke:b');opacity:1", false).0, ["fill", "opacity"]);
        assert_eq!(of("font-family:'x;fill:y';é;fill:red", false).0, ["fill"]);
        assert_eq!(of("@media print{a{fill:red}} b{fill:blue}", true), (vec!["fill"], vec!["@media"]));
        assert_eq!(of("@font-face{src:x} @import 'a.css'; b{}", true), (vec![], vec!["@import"]));
        for odd in ["fill:'", "/*", "@", "@media{", "a{", "}}}", "fill", "(", "é"] {
            of(odd, true);
            of(odd, false);
        }
    }

    #[test]
    fn the_value_that_wins_is_the_one_the_parser_takes() {
        let text = "<svg xmlns='http://www.w3.org/2000/svg'><style>#a{fill:lime} .b{fill:blue;stroke:red!important} \
                    path{fill:gray}</style><path id='a' class='b' fill='black' style='stroke:none' d='M0 0'/>\
                    <path class='b' style='fill:pink;d:none' d='M1 1'/></svg>";
        let document = Document::parse(text).unwrap();
        let styles = Styles::new(&document);
        let paths: Vec<_> = document.descendants().filter(|node| node.has_tag_name("path")).collect();
        assert_eq!(styles.value(paths[0], "fill"), Some("lime"));
        assert_eq!(styles.value(paths[0], "stroke"), Some("red"), "important");
        assert_eq!(styles.value(paths[1], "fill"), Some("pink"));
        assert_eq!(styles.value(paths[1], "d"), Some("M1 1"), "outlines are read from attributes alone");
        assert!(styles.lost.is_empty());
    }

    #[test]
    fn what_the_parser_stops_before_is_lost() {
        let text = "<svg xmlns='http://www.w3.org/2000/svg'><style>a:::b{fill:red} @media print{c{fill:red}}</style>\
                    <path style='fill:red;stroke blue;stroke-width:2' d='M0 0'/></svg>";
        let document = Document::parse(text).unwrap();
        let lost: Vec<&str> = Styles::new(&document).lost.iter().map(|lost| lost.what).collect();
        assert_eq!(lost, ["@media", "fill", "stroke-width"]);
    }
}
