//! The walk over all that is drawn, and the values on the way that cannot be read.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};

use super::say::Unread;
use super::styles::Styles;
use super::{by_id, values};
use crate::art::labels::Labels;
use crate::art::{hostile, loops};

/// An inherited value: where it is declared, and what it says.
type Inherited<'a, 'input> = BTreeMap<&'static str, (Node<'a, 'input>, &'a str)>;

struct Visit<'a, 'input> {
    node: Node<'a, 'input>,
    inherited: Inherited<'a, 'input>,
    role: Role,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Role {
    Drawn,
    /// Copied by the element it is visited from.
    Copied,
    /// Cuts out what is drawn.
    Clip,
}

pub(super) struct Walk<'w, 'a, 'input> {
    labels: &'w Labels<'w, 'input>,
    styles: &'w Styles<'a, 'input>,
    by_id: BTreeMap<&'a str, Node<'a, 'input>>,
    pub(super) unread: BTreeMap<(usize, &'static str), Unread<'a, 'input>>,
    pub(super) visited: BTreeSet<usize>,
    open: Vec<Visit<'a, 'input>>,
}

impl<'w, 'a, 'input> Walk<'w, 'a, 'input> {
    pub(super) fn new(
        document: &'a Document<'input>,
        labels: &'w Labels<'w, 'input>,
        styles: &'w Styles<'a, 'input>,
    ) -> Self {
        Self {
            labels,
            styles,
            by_id: by_id(document),
            unread: BTreeMap::new(),
            visited: BTreeSet::new(),
            open: Vec::new(),
        }
    }

    /// Everything drawn, with the markers that lines may carry.
    pub(super) fn drawing(&mut self, document: &'a Document<'input>) {
        self.open.push(Visit { node: document.root_element(), inherited: BTreeMap::new(), role: Role::Drawn });
        for marker in document.descendants().filter(|node| node.has_tag_name("marker")) {
            let inherited = self.inherited_at(marker);
            self.children(marker, &inherited, Role::Drawn);
        }
        // The number of elements with copies followed is bounded before; the count guards against a loop not foreseen.
        let mut visits = 0;
        while let Some(visit) = self.open.pop() {
            visits += 1;
            if visits > 2 * hostile::MOST_ELEMENTS {
                return;
            }
            self.visit(visit);
        }
    }

    fn visit(&mut self, Visit { node, mut inherited, role }: Visit<'a, 'input>) {
        let name = node.tag_name().name();
        let holds = matches!(name, "svg" | "g" | "a" | "switch") || (name == "symbol" && role == Role::Copied);
        let is_shape = matches!(name, "path" | "rect" | "circle" | "ellipse" | "line" | "polyline" | "polygon");
        let is_svg = matches!(node.tag_name().namespace(), None | Some(hostile::SVG_NAMESPACE));
        if !is_svg || !(holds || is_shape || name == "use") || self.styles.value(node, "display") == Some("none") {
            return;
        }
        self.visited.insert(node.id().get_usize());
        let painted = role != Role::Clip;
        for property in values::own_names() {
            if painted || matches!(property, "transform" | "transform-origin" | "clip-path") {
                self.own(node, property);
            }
        }
        let is_root = node.parent_element().is_none();
        for property in values::geometry_of(name) {
            if !(is_root && matches!(*property, "x" | "y")) {
                self.own(node, property);
            }
        }
        self.inherit(node, &mut inherited);
        self.clip(node);
        if is_shape && painted {
            self.shape(&inherited);
        } else if is_shape {
            self.bears("clip-rule", &inherited, false);
        }
        let role = if role == Role::Clip { Role::Clip } else { Role::Drawn };
        if holds {
            self.children(node, &inherited, role);
        }
        if name == "use" && !self.labels.is_looping(node) {
            let target = loops::target_id(node).and_then(|id| self.by_id.get(id)).copied();
            let role = if role == Role::Clip { Role::Clip } else { Role::Copied };
            self.open.extend(target.map(|node| Visit { node, inherited, role }));
        }
    }

    fn children(&mut self, node: Node<'a, 'input>, inherited: &Inherited<'a, 'input>, role: Role) {
        let children = node.children().filter(Node::is_element);
        self.open.extend(children.map(|node| Visit { node, inherited: inherited.clone(), role }));
    }

    /// What an element that stands apart inherits from those it lies in.
    fn inherited_at(&self, node: Node<'a, 'input>) -> Inherited<'a, 'input> {
        let mut around: Vec<_> = node.ancestors().filter(Node::is_element).collect();
        around.reverse();
        let mut inherited = BTreeMap::new();
        around.into_iter().for_each(|node| self.inherit(node, &mut inherited));
        inherited
    }

    fn inherit(&self, node: Node<'a, 'input>, inherited: &mut Inherited<'a, 'input>) {
        if self.styles.all(node).is_empty() {
            return;
        }
        for name in values::inherited_names() {
            if let Some(value) = self.styles.value(node, name).filter(|value| *value != "inherit") {
                inherited.insert(name, (node, value));
            }
        }
    }

    /// A value of the element's own.
    fn own(&mut self, node: Node<'a, 'input>, name: &'static str) {
        if let Some(value) = self.styles.value(node, name).filter(|value| *value != "inherit") {
            self.check(node, name, value, false);
        }
    }

    /// A value that may come from further out; it is noted where it is declared.
    fn bears(&mut self, name: &'static str, inherited: &Inherited<'a, 'input>, vanishes: bool) {
        if let Some((node, value)) = inherited.get(name) {
            self.check(*node, name, value, vanishes);
        }
    }

    fn check(&mut self, node: Node<'a, 'input>, name: &'static str, value: &'a str, vanishes: bool) {
        if values::reads(name, value) {
            return;
        }
        let new = || Unread { node, name, value, nodes: BTreeSet::new(), vanishes: false };
        let unread = self.unread.entry((value.as_ptr().addr(), name)).or_insert_with(new);
        unread.nodes.insert(node.id().get_usize());
        unread.vanishes |= vanishes;
    }

    fn shape(&mut self, inherited: &Inherited<'a, 'input>) {
        let value = |name: &str| inherited.get(name).map(|(_, value)| value.trim());
        let (fill, stroke) = (value("fill").unwrap_or("black"), value("stroke").unwrap_or("none"));
        let mut bears = vec!["fill", "stroke", "visibility"];
        if fill != "none" {
            bears.extend(["fill-opacity", "fill-rule"]);
        }
        let is_lined = stroke != "none" && values::reads("stroke", stroke);
        if is_lined {
            bears.extend(LINE);
        }
        if [fill, stroke].contains(&"currentColor") {
            bears.push("color");
        }
        for name in bears {
            self.bears(name, inherited, name == "stroke" && fill == "none");
        }
        for paint in [fill, stroke] {
            self.gradient(paint);
        }
    }

    /// The colours of the gradient that a paint names.
    fn gradient(&mut self, paint: &str) {
        let Ok(svgtypes::Paint::FuncIRI(id, _)) = svgtypes::Paint::from_str(paint) else { return };
        let mut next = self.by_id.get(id).copied();
        while let Some(node) = next.filter(|node| node.tag_name().name().ends_with("Gradient")) {
            if !self.visited.insert(node.id().get_usize()) {
                return;
            }
            for stop in node.children().filter(|child| child.has_tag_name("stop")) {
                self.own(stop, "stop-color");
            }
            let link = node.attributes().find(|attribute| attribute.name() == "href");
            next = link.and_then(|link| self.by_id.get(link.value().trim().strip_prefix('#')?)).copied();
        }
    }

    /// What clips an element.
    fn clip(&mut self, node: Node<'a, 'input>) {
        let Some(Ok(link)) = self.styles.value(node, "clip-path").map(svgtypes::FuncIRI::from_str) else { return };
        let Some(clip) = self.by_id.get(link.0).copied().filter(|node| node.tag_name().name() == "clipPath") else {
            return;
        };
        if self.visited.insert(clip.id().get_usize()) {
            self.own(clip, "transform");
            let inherited = self.inherited_at(clip);
            self.children(clip, &inherited, Role::Clip);
            self.clip(clip);
        }
    }
}

/// Properties that matter where a line is drawn.
const LINE: [&str; 7] = [
    "stroke-width",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-linecap",
    "stroke-linejoin",
    "stroke-miterlimit",
    "stroke-opacity",
];
