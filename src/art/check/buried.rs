//! Pieces that nobody will see, and a background that was hardly meant to be cut.

use super::super::note::Note;
use super::Subject;
use crate::geometry::{Outline, Rect, bounds, overlay};

/// Share of a piece that must show for it to count as seen.
const SHOWS: f64 = 0.01;

/// Most pieces looked at.
const MOST: usize = 300;

/// Most pieces above one that are joined to see whether they hide it.
const MOST_ABOVE: usize = 100;

/// How near a rectangle's sides must lie to those of the whole motif to be its background, as a share of its width.
const ALL_ROUND: f64 = 0.01;

pub(super) fn check(subject: &Subject<'_>) -> Vec<Note> {
    let mut notes: Vec<Note> = background(subject).into_iter().collect();
    let pieces = subject.layers.iter().enumerate().flat_map(|(k, layer)| layer.outlines.iter().map(move |o| (k, o)));
    for (index, outline) in pieces.take(MOST) {
        let above: Vec<Outline> = subject.layers[index + 1..]
            .iter()
            .flat_map(|layer| &layer.outlines)
            .filter(|other| other.bounds().overlaps(outline.bounds()))
            .cloned()
            .collect();
        let crowded = above.len() > MOST_ABOVE;
        if crowded || above.iter().map(Outline::area).sum::<f64>() < outline.area() * (1.0 - SHOWS) {
            continue;
        }
        let seen = overlay::area(&overlay::difference(std::slice::from_ref(outline), &overlay::union(&above)));
        if seen < SHOWS * outline.area() {
            notes.push(buried(subject, index, outline));
        }
    }
    notes
}

fn buried(subject: &Subject<'_>, index: usize, outline: &Outline) -> Note {
    let at = outline.bounds().center();
    let label = subject.label(subject.layers[index].colour, at);
    let size = outline.bounds().width().max(outline.bounds().height());
    Note::look(
        "buried-piece",
        label.clone(),
        format!("{} lies wholly under other colours.", label.element),
        "It would cost film and a pressing, and leave a ridge. Delete it, or move it up if it should show.",
    )
    .at(at)
    .measuring(size)
}

fn background(subject: &Subject<'_>) -> Option<Note> {
    let lowest = subject.shapes.first().filter(|_| subject.shapes.len() > 1)?;
    let all = subject.layers.iter().filter_map(|layer| bounds(&layer.outlines)).reduce(|a, b| a.union(b))?;
    let [area] = lowest.areas.as_slice() else { return None };
    let is_rectangle = area.holes().is_empty() && (area.area() - area.bounds().area()).abs() < ALL_ROUND * area.area();
    if !is_rectangle || !same(area.bounds(), all) {
        return None;
    }
    Some(
        Note::look(
            "background",
            lowest.label.clone(),
            format!("A {} rectangle lies under the whole motif.", lowest.colour),
            "It would be cut as a piece. Delete it if it is only the drawing's background.",
        )
        .at(all.center())
        .measuring(all.width().max(all.height())),
    )
}

fn same(a: Rect, b: Rect) -> bool {
    let near = |one: f64, other: f64| (one - other).abs() <= ALL_ROUND * b.width().max(b.height());
    near(a.x0, b.x0) && near(a.y0, b.y0) && near(a.x1, b.x1) && near(a.y1, b.y1)
}
