//! Shapes to layers in press order: one colour joined where that changes nothing that is seen.
//!
//! A shape joins the uppermost layer of its colour unless a layer above that one already covers part of the shape; then
//! it has been painted again on top, and becomes a layer of its own that is pressed later.

use super::edge_grid;
use super::error::{ArtError, Excess};
use super::hostile;
use super::note::Note;
use super::shapes::Shape;
use super::{Colour, Layer};
use crate::geometry::overlay;
use crate::geometry::{Outline, Rect, bounds};

/// Common area in square millimetres below which two shapes only touch: a tenth of a millimetre each way.
const TOUCHES: f64 = 0.01;

/// Most comparisons of one shape with another.
const MOST_COMPARISONS: u64 = 200_000;

/// A layer in the making.
struct Pile<'a> {
    colour: Colour,
    shapes: Vec<&'a Shape>,
}

/// Layers from the lowest to the uppermost.
pub(super) fn layers(shapes: &[Shape], file: &str) -> Result<(Vec<Layer>, Vec<Note>), ArtError> {
    let mut piles: Vec<Pile<'_>> = Vec::new();
    let mut notes = Vec::new();
    let mut comparisons = 0_u64;
    for shape in shapes {
        let mut below = None;
        for (level, pile) in piles.iter().enumerate().rev() {
            if pile.colour == shape.colour {
                below = Some(level);
                break;
            }
            comparisons += pile.shapes.len() as u64;
            if comparisons > MOST_COMPARISONS {
                return Err(hostile::excess(file, Excess::Overlaps, MOST_COMPARISONS));
            }
            if pile.shapes.iter().any(|other| overlap(shape, other)) {
                break;
            }
        }
        if let Some(level) = below {
            piles[level].shapes.push(shape);
        } else {
            if piles.iter().any(|pile| pile.colour == shape.colour) {
                notes.push(colour_again(shape));
            }
            piles.push(Pile { colour: shape.colour, shapes: vec![shape] });
        }
    }
    let mut layers = Vec::new();
    let mut budget = edge_grid::MOST_PAIRS;
    for pile in &piles {
        let areas: Vec<Outline> = pile.shapes.iter().flat_map(|shape| shape.areas.iter().cloned()).collect();
        let rings: Vec<_> = areas.iter().flat_map(Outline::rings).cloned().collect();
        budget = edge_grid::spend_on_crossings(&rings, budget)
            .ok_or_else(|| hostile::excess(file, Excess::Crossings, edge_grid::MOST_PAIRS as u64))?;
        let outlines = overlay::union(&areas);
        notes.extend(joined(pile, outlines.len()));
        layers.push(Layer { colour: pile.colour, outlines });
    }
    Ok((layers, notes))
}

fn overlap(a: &Shape, b: &Shape) -> bool {
    a.areas.iter().any(|one| {
        b.areas.iter().any(|other| {
            one.bounds().overlaps(other.bounds())
                && overlay::area(&overlay::intersection(std::slice::from_ref(one), std::slice::from_ref(other)))
                    > TOUCHES
        })
    })
}

fn colour_again(shape: &Shape) -> Note {
    let note = Note::look(
        "colour-again",
        shape.label.clone(),
        format!("{} is {} again, painted above another colour.", shape.label.element, shape.colour),
        "It became a layer of its own, pressed after the colour below it. If it may lie lower, move it down in the \
         drawing and save one pressing.",
    );
    match shape.areas.first() {
        Some(area) => note.at(area.bounds().center()),
        None => note,
    }
}

fn joined(pile: &Pile<'_>, outlines: usize) -> Option<Note> {
    let drawn: Vec<&Outline> = pile.shapes.iter().flat_map(|shape| shape.areas.iter()).collect();
    let first = pile.shapes.first()?;
    if outlines >= drawn.len() {
        return None;
    }
    let pieces = if outlines == 1 { "one piece".to_owned() } else { format!("{outlines} pieces") };
    let note = Note::fixed(
        "overlap-joined",
        first.label.clone(),
        format!("{} shapes of {} overlap or touch.", drawn.len(), pile.colour),
        format!("They were joined into {pieces}, so that no cut runs across another."),
    );
    Some(match first_overlap(&drawn) {
        Some(common) => note.at(common.center()).measuring(common.width().max(common.height())),
        None => note,
    })
}

/// Box of what the first two overlapping areas have in common.
fn first_overlap(areas: &[&Outline]) -> Option<Rect> {
    let pairs = areas.iter().enumerate().flat_map(|(k, a)| areas[k + 1..].iter().map(move |b| (*a, *b)));
    let overlapping = pairs.take(LOOKED_AT).filter(|(a, b)| a.bounds().overlaps(b.bounds()));
    overlapping
        .filter_map(|(a, b)| bounds(&overlay::intersection(std::slice::from_ref(a), std::slice::from_ref(b))))
        .find(|common| common.width().max(common.height()) > 0.1)
}

/// Pairs of areas looked at to show where shapes of one colour overlap.
const LOOKED_AT: usize = 2_000;
