//! The one colour of whatever a shape is painted with, and what is said where it had more, or none that shows.

use crate::art::Colour;
use crate::art::labels::Label;
use crate::art::note::Note;
use usvg::{Node, Paint};

pub(super) fn invisible(label: Label, why: &str) -> Note {
    let say = format!("An invisible shape lies here. {why}");
    Note::look("hidden-shape", label, say, "It was left out. Tell me if it was meant to be cut: give it a plain fill.")
}

pub(super) fn see_through(label: Label, opacity: f32) -> Note {
    let say = format!("It is see-through ({:.0} %).", opacity * 100.0);
    Note::look("see-through", label, say, "Film is opaque: its full colour was used.")
}

pub(super) fn shows(opacity: f32, label: &Label, notes: &mut Vec<Note>) -> bool {
    if opacity <= 0.0 {
        notes.push(invisible(label.clone(), "Its colour is fully transparent."));
    } else if opacity < 1.0 {
        notes.push(see_through(label.clone(), opacity));
    }
    opacity > 0.0
}

/// The one colour film can have; gradients and patterns are noted.
pub(super) fn one_colour(paint: &Paint, label: &Label, notes: &mut Vec<Note>) -> Option<Colour> {
    let (stops, kind) = match paint {
        Paint::Color(colour) => return Some(rgb(*colour)),
        Paint::LinearGradient(gradient) => (gradient.stops(), "gradient"),
        Paint::RadialGradient(gradient) => (gradient.stops(), "gradient"),
        Paint::Pattern(pattern) => return Some(pattern_colour(pattern, label, notes)),
    };
    let first = rgb(stops.first()?.color());
    let last = rgb(stops.last()?.color());
    notes.push(Note::look(
        kind,
        label.clone(),
        format!("Its colour fades from {first} to {last}."),
        format!("Film is one colour: {first} was used. Give it a plain colour, or split it into two shapes."),
    ));
    Some(first)
}

fn pattern_colour(pattern: &usvg::Pattern, label: &Label, notes: &mut Vec<Note>) -> Colour {
    fn first_fill(group: &usvg::Group) -> Option<Colour> {
        group.children().iter().find_map(|node| match node {
            Node::Group(child) => first_fill(child),
            Node::Path(path) => match path.fill()?.paint() {
                Paint::Color(colour) => Some(rgb(*colour)),
                _ => None,
            },
            _ => None,
        })
    }
    let colour = first_fill(pattern.root()).unwrap_or(Colour { red: 0, green: 0, blue: 0 });
    notes.push(Note::look(
        "pattern",
        label.clone(),
        "It is filled with a repeated pattern.",
        format!("Film is one colour: {colour} was used. Give it a plain colour."),
    ));
    colour
}

const fn rgb(colour: usvg::Color) -> Colour {
    Colour { red: colour.red, green: colour.green, blue: colour.blue }
}
