//! Copies that lead back to themselves: a group that holds a copy of itself, or two that hold copies of each other.
//!
//! In: the drawing's tree. Out: the `use` elements that lie on such a loop. Method: elements with their children and the
//! targets of copies as a graph; two elements lie on one loop when each is reached from the other (strong components by
//! the path-based method, H. N. Gabow, "Path-based depth-first search for strong and biconnected components", Information
//! Processing Letters 74, 2000), in time linear in elements and copies. SVG 2, section 5.5, makes such a copy an error; with
//! all of them left out no loop is left, and every shape beside them stays.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};

/// Positions in the document of the `use` elements that lie on a loop.
pub(super) fn looping_copies(document: &Document<'_>) -> BTreeSet<usize> {
    let graph = Graph::new(document);
    let component = graph.components();
    let on_loop = |node: &Node<'_, '_>| {
        let own = graph.place(*node);
        graph.target(*node).is_some_and(|target| own.is_some_and(|own| component[own] == component[target]))
    };
    document.descendants().filter(on_loop).map(|node| node.id().get_usize()).collect()
}

/// The name of what a copy copies, without its `#`.
pub(super) fn target_id<'a>(node: Node<'a, '_>) -> Option<&'a str> {
    let link = node.attributes().find(|attribute| attribute.name() == "href")?;
    (node.tag_name().name() == "use").then(|| link.value().trim().strip_prefix('#')).flatten()
}

/// Elements in the order of the document, and what each leads to.
struct Graph<'a> {
    places: BTreeMap<usize, usize>,
    by_id: BTreeMap<&'a str, usize>,
    next: Vec<Vec<usize>>,
}

impl<'a> Graph<'a> {
    fn new(document: &'a Document<'_>) -> Self {
        let elements = || document.descendants().filter(Node::is_element);
        let places: BTreeMap<usize, usize> = elements().map(|node| node.id().get_usize()).zip(0..).collect();
        let mut by_id = BTreeMap::new();
        for (place, node) in elements().enumerate() {
            if let Some(id) = node.attribute("id") {
                by_id.entry(id).or_insert(place);
            }
        }
        let mut graph = Self { places, by_id, next: Vec::new() };
        let leads_to = |node: Node<'_, '_>| {
            let children = node.children().filter(Node::is_element).filter_map(|child| graph.place(child));
            children.chain(graph.target(node)).collect()
        };
        let next = elements().map(leads_to).collect();
        graph.next = next;
        graph
    }

    fn place(&self, node: Node<'_, '_>) -> Option<usize> {
        self.places.get(&node.id().get_usize()).copied()
    }

    fn target(&self, node: Node<'_, '_>) -> Option<usize> {
        self.by_id.get(target_id(node)?).copied()
    }

    /// For each element the number of its strong component.
    fn components(&self) -> Vec<usize> {
        let mut search = Search {
            order: vec![None; self.next.len()],
            component: vec![usize::MAX; self.next.len()],
            ..Search::default()
        };
        for start in 0..self.next.len() {
            search.from(start, &self.next);
        }
        search.component
    }
}

/// The path-based search: `path` holds elements not yet put into a component, `borders` those that may begin one.
#[derive(Default)]
struct Search {
    order: Vec<Option<usize>>,
    component: Vec<usize>,
    path: Vec<usize>,
    borders: Vec<usize>,
    seen: usize,
    found: usize,
}

impl Search {
    fn from(&mut self, start: usize, next: &[Vec<usize>]) {
        if self.order[start].is_some() {
            return;
        }
        let mut open = vec![(start, 0)];
        self.enter(start);
        while let Some((at, done)) = open.last_mut() {
            if let Some(&to) = next[*at].get(*done) {
                *done += 1;
                match self.order[to] {
                    None => {
                        self.enter(to);
                        open.push((to, 0));
                    }
                    Some(order) if self.component[to] == usize::MAX => {
                        while self.borders.last().is_some_and(|border| self.order[*border] > Some(order)) {
                            self.borders.pop();
                        }
                    }
                    Some(_) => {}
                }
            } else {
                let at = *at;
                open.pop();
                self.leave(at);
            }
        }
    }

    fn enter(&mut self, at: usize) {
        self.order[at] = Some(self.seen);
        self.seen += 1;
        self.path.push(at);
        self.borders.push(at);
    }

    /// Everything reached since a border that is still one is a component of its own.
    fn leave(&mut self, at: usize) {
        if self.borders.last() != Some(&at) {
            return;
        }
        self.borders.pop();
        while let Some(member) = self.path.pop() {
            self.component[member] = self.found;
            if member == at {
                break;
            }
        }
        self.found += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looping(body: &str) -> Vec<String> {
        let svg = format!("<svg>{body}</svg>");
        let document = Document::parse(&svg).unwrap();
        let found = looping_copies(&document);
        let name = |node: &Node<'_, '_>| node.attribute("n").unwrap_or_default().to_owned();
        document.descendants().filter(|node| found.contains(&node.id().get_usize())).map(|node| name(&node)).collect()
    }

    #[test]
    fn a_copy_of_itself_and_of_what_holds_it_lies_on_a_loop() {
        assert_eq!(looping("<use id='a' n='1' href='#a'/>"), ["1"]);
        assert_eq!(looping("<g id='a'><g><use n='1' href='#a'/></g></g><use n='2' href='#a'/>"), ["1"]);
        assert_eq!(looping("<g id='a'><use n='1' href='#b'/></g><g id='b'><use n='2' href='#a'/></g>"), ["1", "2"]);
    }

    /// Reached first from outside, the group that holds the loop is met on the way back.
    #[test]
    fn where_the_search_begins_changes_nothing() {
        let nested = "<use n='1' href='#x'/><g id='a'><g id='x'><use n='2' href='#a'/></g></g>";
        assert_eq!(looping(nested), ["2"]);
    }

    #[test]
    fn chains_without_a_loop_are_left_alone() {
        assert!(
            looping("<g id='a'/><use id='b' href='#a'/><use id='c' href='#b'/><use href='#c'/><use href='#no'/>")
                .is_empty()
        );
    }
}
