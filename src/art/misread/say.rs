//! What is said of values that cannot be read.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::Node;

use super::styles::Lost;
use super::values::{self, Stake};
use crate::art::labels::Labels;
use crate::art::note::Note;
use crate::finding::Severity;

/// Longest text of a value that is quoted, in characters.
const QUOTED: usize = 40;

/// A value that cannot be read, and the elements it is written for.
pub(super) struct Unread<'a, 'input> {
    pub(super) node: Node<'a, 'input>,
    pub(super) name: &'static str,
    pub(super) value: &'a str,
    pub(super) nodes: BTreeSet<usize>,
    /// Nothing of a shape shows because of it.
    pub(super) vanishes: bool,
}

impl Unread<'_, '_> {
    pub(super) fn note(&self, labels: &Labels<'_, '_>, root: Node<'_, '_>, is_sized: bool) -> Note {
        let label = labels.label(self.node);
        let element = if self.node == root { "the page" } else { &label.element };
        let written = quoted(self.value);
        let tag = self.node.tag_name().name();
        let instead = values::instead(tag, self.name);
        let (kind, say, advice) = match values::stake(self.name) {
            _ if self.name == "d" => ("broken-path", self.broken_outline(element), PART_OF_OUTLINE.to_owned()),
            _ if self.name == "points" => ("broken-path", self.broken_points(element), PART_OF_OUTLINE.to_owned()),
            Stake::Placing if self.name.starts_with("transform") => (
                "unread-transform",
                format!("{written} is to move, turn or scale {element}, and cannot be read."),
                format!("{}, so size, place or hand are wrong. {}", capital(instead), transform_advice(self.value)),
            ),
            Stake::Placing | Stake::Size => (
                "unread-size",
                format!("The {} of {element}, {written}, cannot be read.", in_words(self.name)),
                format!("{}, so its size or place is wrong. Correct it in your drawing tool.", capital(instead)),
            ),
            Stake::Colour if self.value.contains("var(") => (
                "colour-by-name",
                format!("The {} of {element} is given by a variable, {written}, which is not followed.", self.name),
                format!("{}{}. Give it a plain colour, such as #c62828.", capital(instead), self.gone()),
            ),
            Stake::Colour => (
                "unknown-colour",
                format!("The {} of {element}, {written}, is no colour that can be read.", self.name),
                format!("{}{}. Give it a plain colour, such as #c62828.", capital(instead), self.gone()),
            ),
            Stake::Area | Stake::Look => (
                "unread-value",
                format!("The {} of {element}, {written}, cannot be read.", self.name),
                format!("{}. Correct it in your drawing tool.", capital(instead)),
            ),
        };
        let more = match self.nodes.len().saturating_sub(1) {
            0 => String::new(),
            1 => " One more element has the same.".to_owned(),
            many => format!(" {many} more elements have the same."),
        };
        Note::new(self.severity(root, is_sized), kind, label, say + &more, advice)
    }

    fn severity(&self, root: Node<'_, '_>, is_sized: bool) -> Severity {
        let of_page = self.node == root && values::geometry_of("svg").contains(&self.name);
        match values::stake(self.name) {
            _ if of_page && (is_sized || self.name == "preserveAspectRatio") => Severity::LookAtThis,
            _ if self.vanishes => Severity::StopsTheJob,
            Stake::Placing | Stake::Size | Stake::Area => Severity::StopsTheJob,
            Stake::Colour | Stake::Look => Severity::LookAtThis,
        }
    }

    const fn gone(&self) -> &'static str {
        if self.vanishes { ", and nothing else of it shows: it would be missing" } else { "" }
    }

    fn broken_outline(&self, element: &str) -> String {
        let at = values::broken_at(self.value).unwrap_or(0);
        let rest: String = self.value.chars().skip(at).collect();
        if rest.trim().is_empty() {
            return format!("The outline of {element} ends in the middle of a step, {at} characters in.");
        }
        format!("The outline of {element} cannot be read from {} on, {at} characters in.", quoted(&rest))
    }

    fn broken_points(&self, element: &str) -> String {
        let read = values::lone_point(self.value).unwrap_or(0);
        let points = read / 2;
        if read % 2 == 1 {
            return format!(
                "The list of points of {element} breaks off in the middle of a point, after {points} points."
            );
        }
        format!("The list of points of {element} cannot be read on after {points} points.")
    }
}

const PART_OF_OUTLINE: &str =
    "Only what stands before that was taken: a part is missing. Draw it again, or export the drawing anew.";

/// Units are what style sheets write and the parser does not take.
fn transform_advice(value: &str) -> &'static str {
    if ["deg", "px", "%", "rad", "turn"].iter().any(|unit| value.contains(unit)) {
        "Write its numbers without units, or let your drawing tool apply it to the shape."
    } else {
        "Write it again, or let your drawing tool apply it to the shape."
    }
}

/// A length as a maker calls it, with its name in the drawing where that differs.
fn in_words(name: &str) -> &str {
    match name {
        "r" | "rx" | "ry" => "radius",
        "cx" | "x" | "x1" | "x2" => "place across",
        "cy" | "y" | "y1" | "y2" => "place down",
        "stroke-width" => "line width",
        "stroke-dasharray" | "stroke-dashoffset" => "dashes",
        "viewBox" => "units (viewBox)",
        other => other,
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text as written, in quotes, its length bounded.
fn quoted(text: &str) -> String {
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(QUOTED).collect();
    let more = if text.chars().nth(QUOTED).is_some() { "…" } else { "" };
    format!("\"{clean}{more}\"")
}

/// One note for each element or style sheet that loses something.
pub(super) fn lost_notes<'s>(labels: &Labels<'_, '_>, lost: impl Iterator<Item = &'s Lost<'s, 's>>) -> Vec<Note> {
    let mut by_node: BTreeMap<usize, (Node<'_, '_>, BTreeSet<&str>)> = BTreeMap::new();
    for one in lost {
        by_node.entry(one.node.id().get_usize()).or_insert_with(|| (one.node, BTreeSet::new())).1.insert(one.what);
    }
    by_node.into_values().map(|(node, what)| lost_note(labels, node, &what)).collect()
}

fn lost_note(labels: &Labels<'_, '_>, node: Node<'_, '_>, what: &BTreeSet<&str>) -> Note {
    let label = labels.label(node);
    let spoils = |name: &&str| !name.starts_with('@') && !matches!(values::stake(name), Stake::Colour | Stake::Look);
    let severity = if what.iter().any(spoils) { Severity::StopsTheJob } else { Severity::LookAtThis };
    let list = what.iter().copied().collect::<Vec<_>>().join(", ");
    let say = if node.has_tag_name("style") {
        format!("The style sheet holds {list} in a way that is not followed.")
    } else {
        format!("The style of {} sets {list} in a way that cannot be read.", label.element)
    };
    let advice = "It was passed over: colours or sizes may be wrong. Give the shapes plain colours and widths, and \
                  export the drawing as plain SVG.";
    Note::new(severity, "unread-style", label, say, advice)
}
