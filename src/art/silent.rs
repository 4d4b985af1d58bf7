//! What the SVG parser drops without a word, found on the XML tree beforehand.

use std::collections::BTreeSet;

use roxmltree::Node;

use super::labels::{Label, Labels};
use super::loops;
use super::misread::Styles;
use super::note::Note;

/// Notes on everything in the tree that can never be cut or that the SVG parser would pass over.
pub(super) fn dropped(labels: &Labels<'_, '_>, root: Node<'_, '_>, styles: &Styles<'_, '_>) -> Vec<Note> {
    let ids: BTreeSet<&str> = root.descendants().filter_map(|node| node.attribute("id")).collect();
    let mut notes = Vec::new();
    for node in root.descendants().filter(Node::is_element) {
        let note = |kind, say: &str, advice: &str| Note::look(kind, labels.label(node), say, advice);
        match node.tag_name().name() {
            "text" => notes.push(note(
                "text",
                &text_words(node),
                "It was left out: it would open in a different font elsewhere. Turn it into outlines in your drawing \
                 tool, or delete it.",
            )),
            "image" => notes.push(note(
                "picture",
                "A picture is embedded or linked here.",
                "It was left out and never opened: a picture has no outline to cut. Trace it in your drawing tool.",
            )),
            "foreignObject" => notes.push(note(
                "foreign-content",
                "Content that is not SVG is embedded here.",
                "It was left out. Draw it as shapes, or delete it.",
            )),
            "script" => notes.push(note(
                "script",
                "The drawing holds a script.",
                "It was never run; what it would draw is missing. Export the drawing as plain SVG.",
            )),
            "animate" | "animateTransform" | "animateMotion" | "set" => notes.push(note(
                "animation",
                "Part of the drawing is animated.",
                "It was taken as it stands before the animation starts.",
            )),
            "use" if labels.is_looping(node) => notes.push(note(
                "copy-of-itself",
                &format!("A copy of \"{}\" that holds itself: it would go round for ever.", looping_target(node)),
                "The copy was left out, and everything beside it kept. Draw the shape itself there, or delete the copy.",
            )),
            "use" => notes.extend(missing_copy(node, &ids).map(|say| {
                note("missing-copy", &say, "The copy was left out. Draw the shape itself there, or delete the copy.")
            })),
            _ => {}
        }
        notes.extend(
            hidden(node, styles).map(|say| {
                note("hidden-shape", say, "It was left out. Delete it, or show it if it was meant to be cut.")
            }),
        );
        notes.extend(
            missing_paint(node, &ids, styles).map(|(property, say)| note("missing-paint", &say, advice(property))),
        );
        if styles.value(node, "vector-effect") == Some("non-scaling-stroke") {
            notes.push(note(
                "fixed-width-line",
                "A line is drawn here at a width that does not grow with the drawing.",
                "Its width was scaled like everything else: check it.",
            ));
        }
    }
    notes
}

/// Notes on shapes that should show but that the SVG parser left out without saying why, `seen` being what it handed on.
///
/// This catches whatever the other rules do not know of: it compares what went in with what came out.
pub(super) fn vanished(
    labels: &Labels<'_, '_>,
    root: Node<'_, '_>,
    seen: &BTreeSet<String>,
    noted: &[Note],
) -> Vec<Note> {
    // A group that is merely see-through or masked explains nothing about a shape missing in it.
    let explains = |note: &&Note| {
        matches!(
            note.kind,
            "hidden-shape"
                | "missing-copy"
                | "copy-of-itself"
                | "missing-paint"
                | "picture"
                | "unread-size"
                | "broken-path"
                | "unknown-colour"
                | "colour-by-name"
        )
    };
    let explained: BTreeSet<Label> = noted.iter().filter(explains).map(|note| note.label.clone()).collect();
    let mut notes = Vec::new();
    let mut open: Vec<Node<'_, '_>> = vec![root];
    while let Some(node) = open.pop() {
        let label = labels.label(node);
        if NEVER_DRAWN.contains(&node.tag_name().name()) || explained.contains(&label) {
            continue;
        }
        if DRAWN.contains(&node.tag_name().name()) {
            if !seen.contains(&labels.id(node)) {
                notes.push(Note::look(
                    "not-drawn",
                    label,
                    "This shape does not show, and cannot be cut: its size is nothing, it is switched off, or part of \
                     it cannot be read.",
                    "It was left out. Delete it, or draw it again.",
                ));
            }
            continue;
        }
        open.extend(node.children().filter(Node::is_element));
    }
    notes
}

/// Elements that show something themselves.
const DRAWN: [&str; 8] = ["path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "use"];

/// Elements whose contents show only where they are used, or that are noted by other rules.
const NEVER_DRAWN: [&str; 12] = [
    "defs",
    "symbol",
    "clipPath",
    "mask",
    "pattern",
    "marker",
    "linearGradient",
    "radialGradient",
    "filter",
    "text",
    "foreignObject",
    "metadata",
];

fn text_words(node: Node<'_, '_>) -> String {
    let words: String = node.descendants().filter(Node::is_text).filter_map(|n| n.text()).collect();
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    match words.chars().count() {
        0 => "Empty text stands here.".to_owned(),
        1..=30 => format!("Text found: \"{words}\"."),
        _ => format!("Text found: \"{}…\".", words.chars().take(30).collect::<String>()),
    }
}

fn missing_copy(node: Node<'_, '_>, ids: &BTreeSet<&str>) -> Option<String> {
    let Some(link) = node.attributes().find(|attribute| attribute.name() == "href").map(|a| a.value().trim()) else {
        return Some("A copy of nothing: it does not say of which shape.".to_owned());
    };
    match link.strip_prefix('#') {
        Some(id) if ids.contains(id) => None,
        Some(id) => Some(format!("A copy of \"{}\", which is not in the drawing.", shown(id))),
        None => Some(format!("A copy of something outside the drawing, \"{}\".", shown(link))),
    }
}

fn looping_target(node: Node<'_, '_>) -> String {
    loops::target_id(node).map_or_else(String::new, shown)
}

fn hidden(node: Node<'_, '_>, styles: &Styles<'_, '_>) -> Option<&'static str> {
    if styles.value(node, "display") == Some("none")
        && !matches!(node.tag_name().name(), "script" | "style" | "defs" | "metadata")
    {
        return Some("Something is switched off here and does not show.");
    }
    None
}

/// The property that refers to what is missing, and what to say of it.
fn missing_paint(node: Node<'_, '_>, ids: &BTreeSet<&str>, styles: &Styles<'_, '_>) -> Option<(&'static str, String)> {
    ["fill", "stroke", "clip-path", "mask", "filter"].into_iter().find_map(|property| {
        let value = styles.value(node, property)?;
        let id = value.strip_prefix("url(")?.split(')').next()?.trim().trim_matches(['"', '\'']).strip_prefix('#')?;
        let missing = !ids.contains(id);
        missing.then(|| (property, format!("Its {property} refers to \"{}\", which is not in the drawing.", shown(id))))
    })
}

/// What to do about a reference to nothing. SVG has each taken differently: an empty paint, no clip, nothing drawn at all.
fn advice(property: &str) -> &'static str {
    match property {
        "filter" => "It was left out: a shape with a missing filter does not show. Take the filter off it.",
        "clip-path" | "mask" => "The whole shape was taken. Clip it in your drawing tool, or delete the reference.",
        _ => "What has no colour is not cut. Give it a plain colour.",
    }
}

fn shown(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(40).collect()
}
