//! Values that the SVG parser cannot read and passes over in silence: the drawing would be cut at the wrong size, in the
//! wrong place or in the wrong colour.
//!
//! In: the drawing's tree. Out: a note on each such value that bears on something drawn, with the text as written and what
//! was taken instead. Method: the tree is walked as the parser walks it, copies followed and inherited values carried
//! down, so that a value which nothing uses is no fault; whether a value can be read is asked of the parser's own library.

mod say;
mod styles;
mod values;
mod walk;

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};

pub(super) use self::styles::Styles;

use self::say::{Unread, lost_notes};
use self::styles::Lost;
use self::values::Stake;
use self::walk::Walk;
use super::labels::Labels;
use super::loops;
use super::note::Note;

/// Notes on every value that bears on what is drawn and cannot be read. `is_sized` when the finished width is asked for, so
/// that the page's own size does not matter.
pub(super) fn notes(
    document: &Document<'_>,
    labels: &Labels<'_, '_>,
    styles: &Styles<'_, '_>,
    is_sized: bool,
) -> Vec<Note> {
    let mut walk = Walk::new(document, labels, styles);
    walk.drawing(document);
    let root = document.root_element();
    let mut notes: Vec<Note> = walk.unread.values().map(|unread| unread.note(labels, root, is_sized)).collect();
    let seen =
        |lost: &&Lost<'_, '_>| lost.node.has_tag_name("style") || walk.visited.contains(&lost.node.id().get_usize());
    notes.extend(lost_notes(labels, styles.lost.iter().filter(seen)));
    notes
}

/// The same for lines that are measured and never painted: notes on what bears on the elements with these ids.
pub(super) fn notes_on_lines(document: &Document<'_>, labels: &Labels<'_, '_>, ids: &BTreeSet<String>) -> Vec<Note> {
    let styles = Styles::new(document);
    let mut walk = Walk::new(document, labels, &styles);
    walk.drawing(document);
    let root = document.root_element();
    let concerned = concerned(document, labels, ids);
    let matters = |unread: &&Unread<'_, '_>| {
        let stake = values::stake(unread.name);
        matches!(stake, Stake::Placing | Stake::Size) && !unread.name.starts_with("stroke")
    };
    let of = |unread: &&Unread<'_, '_>| unread.nodes.iter().any(|node| concerned.contains(node));
    walk.unread.values().filter(matters).filter(of).map(|unread| unread.note(labels, root, false)).collect()
}

/// The elements with these ids, what they lie in, what lies in them, and what they copy.
fn concerned(document: &Document<'_>, labels: &Labels<'_, '_>, ids: &BTreeSet<String>) -> BTreeSet<usize> {
    let by_id = by_id(document);
    let mut concerned = BTreeSet::new();
    let wanted = document.descendants().filter(|node| node.is_element() && ids.contains(&labels.id(*node)));
    let mut open: Vec<Node<'_, '_>> = Vec::new();
    for node in wanted {
        concerned.extend(node.ancestors().skip(1).map(|around| around.id().get_usize()));
        open.push(node);
    }
    while let Some(node) = open.pop() {
        if concerned.insert(node.id().get_usize()) {
            open.extend(node.children());
            open.extend(loops::target_id(node).and_then(|id| by_id.get(id)).copied());
        }
    }
    concerned
}

fn by_id<'a, 'input>(document: &'a Document<'input>) -> BTreeMap<&'a str, Node<'a, 'input>> {
    let mut by_id = BTreeMap::new();
    for node in document.descendants() {
        if let Some(id) = node.attribute("id") {
            by_id.entry(id).or_insert(node);
        }
    }
    by_id
}
