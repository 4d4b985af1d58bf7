//! What would spoil the cut: one file for each kind of fault, all on finished shapes in the motif's frame.

mod bends;
mod buried;
mod colours;
mod crossings;
mod halves;
mod needles;
mod overlaps;
mod thin;

use std::cell::Cell;

pub use overlaps::Overlap;

use super::labels::Label;
use super::limits::LimitsByColour;
use super::note::Note;
use super::shapes::Shape;
use super::{Colour, Layer};
use crate::geometry::{Outline, Point, Ring};

/// Shapes and layers under inspection.
pub(super) struct Subject<'a> {
    pub(super) shapes: &'a [Shape],
    pub(super) layers: &'a [Layer],
    pub(super) limits: &'a LimitsByColour,
    /// Edges that may still be looked at to find the element a place belongs to.
    labelling: Cell<usize>,
}

/// Edges looked at in all to name elements; beyond it findings belong to the drawing as a whole.
const LABELLING: usize = 20_000_000;

/// Every fault found, and how the colours overlap.
pub(super) fn check(subject: &Subject<'_>) -> (Vec<Note>, Vec<Overlap>) {
    let mut notes = Vec::new();
    for (index, layer) in subject.layers.iter().enumerate() {
        let (whole, fit) = thin::pieces(subject, index);
        notes.extend(whole);
        notes.extend(thin::necks(subject, index, &fit));
        notes.extend(thin::slivers(subject, index));
        notes.extend(needles::check(subject, layer.colour, &fit));
        notes.extend(bends::check(subject, layer));
    }
    notes.extend(buried::check(subject));
    notes.extend(crossings::check(subject));
    notes.extend(colours::check(subject));
    notes.extend(halves::check(subject));
    let (overlaps, more) = overlaps::check(subject);
    notes.extend(more);
    (notes, overlaps)
}

impl<'a> Subject<'a> {
    pub(super) const fn new(shapes: &'a [Shape], layers: &'a [Layer], limits: &'a LimitsByColour) -> Self {
        Self { shapes, layers, limits, labelling: Cell::new(LABELLING) }
    }

    /// The element a place of a colour belongs to: the shape that holds it, or whose outline passes nearest.
    fn label(&self, colour: Colour, at: Point) -> Label {
        let drawing = || Label { element: "drawing".to_owned(), line: None };
        let cost: usize =
            self.shapes.iter().flat_map(|shape| &shape.rings).map(|drawn| drawn.ring.points().len()).sum();
        let left = self.labelling.get();
        self.labelling.set(left.saturating_sub(cost));
        if left < cost {
            return drawing();
        }
        let own = || self.shapes.iter().filter(|shape| shape.colour == colour);
        let holds = |shape: &&Shape| shape.areas.iter().any(|area| area.bounds().contains(at) && area.contains(at));
        let distance = |shape: &Shape| {
            let edges = shape.areas.iter().flat_map(Outline::rings).flat_map(Ring::edges);
            edges.map(|(from, to)| from.midpoint(to).distance(at)).fold(f64::INFINITY, f64::min)
        };
        let nearest = || own().map(|shape| (distance(shape), shape)).min_by(|a, b| a.0.total_cmp(&b.0));
        own()
            .rfind(holds)
            .or_else(|| nearest().map(|(_, shape)| shape))
            .map_or_else(drawing, |shape| shape.label.clone())
    }
}

/// Rings of a layer, outer ones and holes, the area always on the same hand.
fn rings(outlines: &[Outline]) -> Vec<Ring> {
    outlines.iter().flat_map(Outline::rings).cloned().collect()
}
