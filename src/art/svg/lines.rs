//! The lines of chosen elements, painted or not.

use std::collections::{BTreeMap, BTreeSet};

use super::convert::{affine, bez_path};
use super::drawn::MM_PER_PIXEL;
use super::parse::parse;
use crate::art::error::ArtError;
use crate::art::labels::Labelled;
use crate::geometry::Affine;
use kurbo::BezPath;
use usvg::Node;

/// The lines of the elements with these ids, painted or not, in page millimetres; a group's are those of all inside it.
pub(in crate::art) fn lines(
    labelled: &Labelled,
    file: &str,
    ids: &BTreeSet<String>,
) -> Result<BTreeMap<String, BezPath>, ArtError> {
    let tree = parse(labelled, file)?;
    let mut lines = BTreeMap::new();
    collect(tree.root(), Affine::scale(MM_PER_PIXEL), ids, &mut Vec::new(), &mut lines);
    Ok(lines)
}

/// Adds the lines of a group to those of every wanted element that holds it.
fn collect<'t>(
    group: &'t usvg::Group,
    around: Affine,
    ids: &BTreeSet<String>,
    holders: &mut Vec<&'t str>,
    lines: &mut BTreeMap<String, BezPath>,
) {
    for node in group.children() {
        let held = holders.len();
        if ids.contains(node.id()) && !holders.contains(&node.id()) {
            holders.push(node.id());
        }
        match node {
            Node::Group(child) => collect(child, around * affine(child.transform()), ids, holders, lines),
            Node::Path(path) if !holders.is_empty() => {
                let line = around * bez_path(path.data());
                for id in holders.iter() {
                    lines.entry((*id).to_owned()).or_default().extend(line.iter());
                }
            }
            Node::Path(_) | Node::Image(_) | Node::Text(_) => {}
        }
        holders.truncate(held);
    }
}
