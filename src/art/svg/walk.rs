//! The parser's tree walked in paint order, with what each node inherits from the groups round it.

use super::convert::{affine, bez_path, fill_rule, kurbo_stroke};
use super::drawn::{Brush, Clip, Drawn, MM_PER_PIXEL, Painted};
use super::paint::{invisible, one_colour, see_through, shows};
use crate::art::labels::{Label, Labelled};
use crate::art::note::Note;
use crate::geometry::{Affine, Point};
use kurbo::{BezPath, Shape as _};
use usvg::{Node, PaintOrder};

/// What a node inherits from the groups round it.
#[derive(Clone)]
pub(super) struct Surroundings {
    pub(super) label: Label,
    pub(super) transform: Affine,
    pub(super) clips: Vec<usize>,
}

pub(super) struct Walk<'a> {
    pub(super) labelled: &'a Labelled,
    pub(super) drawn: Drawn,
}

impl Walk<'_> {
    /// Walks a group; true when anything in it was handed on, drawn or not.
    pub(super) fn group(&mut self, group: &usvg::Group, around: &Surroundings) -> bool {
        let mut inner = around.clone();
        inner.transform = around.transform * affine(group.transform());
        self.name(group.id(), &mut inner.label);
        // The effects of an unnamed group belong to the one element inside it.
        let label = if group.id().is_empty() {
            self.first_label(group).unwrap_or(inner.label.clone())
        } else {
            inner.label.clone()
        };
        let told = self.drawn.notes.len();
        let area = group.abs_bounding_box();
        let at = Point::new(f64::from(area.x() + area.width() / 2.0), f64::from(area.y() + area.height() / 2.0));
        let at = Affine::scale(MM_PER_PIXEL) * at;
        self.place(&label, at);
        if group.opacity().get() <= 0.0 {
            self.drawn.notes.push(invisible(label, "It is fully transparent.").at(at));
            return true;
        }
        if group.opacity().get() < 1.0 {
            self.drawn.notes.push(see_through(label.clone(), group.opacity().get()));
        }
        if group.mask().is_some() {
            self.drawn.notes.push(Note::stops(
                "mask",
                label.clone(),
                "A mask hides or fades part of this.",
                "It cannot be followed exactly. Cut the shape to its visible part in your drawing tool.",
            ));
        }
        if !group.filters().is_empty() {
            self.drawn.notes.push(Note::look(
                "filter",
                label.clone(),
                "A shadow, blur or other effect is set on this.",
                "The plain shape was used without it.",
            ));
        }
        if group.blend_mode() != usvg::BlendMode::Normal {
            self.drawn.notes.push(Note::look(
                "blending",
                label.clone(),
                "Its colour mixes with what lies below.",
                "Film does not mix: its own colour was used.",
            ));
        }
        for note in &mut self.drawn.notes[told..] {
            note.at = Some(at);
        }
        if let Some(clip) = group.clip_path() {
            self.clip(clip, &label, &mut inner);
        }
        let mut any = false;
        for node in group.children() {
            let handed_on = match node {
                Node::Group(child) => self.group(child, &inner),
                Node::Path(path) => {
                    self.path(path, &inner);
                    true
                }
                // Both are noted from the tree of elements, where their line is known.
                Node::Image(_) | Node::Text(_) => true,
            };
            if handed_on {
                self.drawn.seen.insert(node.id().to_owned());
            }
            any |= handed_on;
        }
        any
    }

    /// Keeps where an element lies, for what was noted about it before: the first of its copies.
    fn place(&mut self, label: &Label, at: Point) {
        if label.line.is_some() {
            self.drawn.places.entry(label.clone()).or_insert(at);
        }
    }

    fn name(&self, id: &str, label: &mut Label) {
        if let Some(found) = self.labelled.by_id.get(id) {
            *label = found.clone();
        }
    }

    fn first_label(&self, group: &usvg::Group) -> Option<Label> {
        group.children().iter().find_map(|node| match node {
            Node::Group(child) => self.labelled.by_id.get(child.id()).cloned().or_else(|| self.first_label(child)),
            Node::Path(path) => self.labelled.by_id.get(path.id()).cloned(),
            Node::Image(_) | Node::Text(_) => None,
        })
    }

    fn clip(&mut self, clip: &usvg::ClipPath, label: &Label, inner: &mut Surroundings) {
        let mut next = Some(clip);
        while let Some(clip) = next {
            let around = Surroundings {
                label: label.clone(),
                transform: inner.transform * affine(clip.transform()),
                clips: Vec::new(),
            };
            let mut walk = Walk { labelled: self.labelled, drawn: Drawn::default() };
            // Clips inside clips keep their own list, numbered on from this one.
            walk.drawn.clips = std::mem::take(&mut self.drawn.clips);
            walk.group(clip.root(), &around);
            self.drawn.clips = walk.drawn.clips;
            inner.clips.push(self.drawn.clips.len());
            self.drawn.clips.push(Clip { label: label.clone(), fills: walk.drawn.painted });
            next = clip.clip_path();
        }
    }

    fn path(&mut self, path: &usvg::Path, around: &Surroundings) {
        let mut label = around.label.clone();
        self.name(path.id(), &mut label);
        let geometry = bez_path(path.data());
        let middle = middle(&geometry, around.transform);
        if let Some(place) = self.labelled.places.get(path.id()) {
            let corner = around.transform * geometry.bounding_box().origin();
            let at = if place_is_text(&geometry) { corner } else { middle };
            self.drawn.places.insert(place.clone(), at);
            return;
        }
        self.place(&label, middle);
        if !path.is_visible() {
            let why = if path.fill().is_none() && path.stroke().is_none() {
                "It has neither fill nor line."
            } else {
                "It is hidden."
            };
            self.drawn.notes.push(invisible(label, why).at(middle));
            return;
        }
        let told = self.drawn.notes.len();
        let painted = |paint, brush, notes: &mut Vec<Note>| -> Option<Painted> {
            Some(Painted {
                label: label.clone(),
                path: geometry.clone(),
                to_page: around.transform,
                colour: one_colour(paint, &label, notes)?,
                brush,
                clips: around.clips.clone(),
            })
        };
        let notes = &mut self.drawn.notes;
        let fill = path
            .fill()
            .filter(|fill| shows(fill.opacity().get(), &label, notes))
            .and_then(|fill| painted(fill.paint(), Brush::Fill(fill_rule(fill.rule())), notes));
        let stroke = path
            .stroke()
            .filter(|stroke| shows(stroke.opacity().get(), &label, notes))
            .and_then(|stroke| painted(stroke.paint(), Brush::Stroke(kurbo_stroke(stroke)), notes));
        for note in &mut self.drawn.notes[told..] {
            note.at = Some(middle);
        }
        match path.paint_order() {
            PaintOrder::FillAndStroke => self.drawn.painted.extend(fill.into_iter().chain(stroke)),
            PaintOrder::StrokeAndFill => self.drawn.painted.extend(stroke.into_iter().chain(fill)),
        }
    }
}

fn middle(path: &BezPath, to_page: Affine) -> Point {
    (to_page * path.clone()).bounding_box().center()
}

/// Text is marked by a dot, pictures by their frame.
fn place_is_text(stand_in: &BezPath) -> bool {
    stand_in.bounding_box().width() <= 0.02
}
