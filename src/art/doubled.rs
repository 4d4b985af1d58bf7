//! Shapes drawn twice on top of each other: the knife would cut them twice.

use super::edge_grid::EdgeGrid;
use super::limits::LimitsByColour;
use super::note::Note;
use super::shapes::Shape;
use crate::geometry::{Outline, Rect, Ring, bounds};

/// Most pairs of shapes compared; a drawing with more is read without looking for further doubles.
const MOST_PAIRS: usize = 200_000;

/// Drops every shape that repeats an earlier one of its colour, with a note on each.
pub(super) fn without_doubles(shapes: Vec<Shape>, limits: &LimitsByColour) -> (Vec<Shape>, Vec<Note>) {
    let mut kept: Vec<(Shape, Rect)> = Vec::new();
    let mut notes = Vec::new();
    let mut pairs = 0;
    for shape in shapes {
        let Some(size) = bounds(&shape.areas) else { continue };
        let tolerance = limits.of(shape.colour).doubled.get();
        pairs += kept.len();
        let looked_at = if pairs > MOST_PAIRS { &[][..] } else { &kept[..] };
        let first = looked_at.iter().find_map(|(other, other_size)| {
            let alike = other.colour == shape.colour && near(size, *other_size, tolerance);
            let apart = if alike { apart(&shape, other, tolerance) } else { None };
            apart.map(|apart| (other.label.element.clone(), apart))
        });
        match first {
            Some((other, apart)) => notes.push(note(&shape, &other, apart, size)),
            None => kept.push((shape, size)),
        }
    }
    (kept.into_iter().map(|(shape, _)| shape).collect(), notes)
}

fn note(shape: &Shape, other: &str, apart: f64, size: Rect) -> Note {
    let element = &shape.label.element;
    let say = if apart < 0.005 {
        format!("Two identical outlines lie on top of each other: {other} and {element}.")
    } else {
        format!("Two outlines lie on top of each other, at most {apart:.2} mm apart: {other} and {element}.")
    };
    let points = shape.areas.iter().flat_map(|area| area.outer().points());
    let top = points.min_by(|a, b| a.y.total_cmp(&b.y)).copied().unwrap_or(size.center());
    Note::fixed("doubled-outline", shape.label.clone(), say, "One of them was kept.").at(top).measuring(apart)
}

fn near(a: Rect, b: Rect, tolerance: f64) -> bool {
    let sides = [a.x0 - b.x0, a.y0 - b.y0, a.x1 - b.x1, a.y1 - b.y1];
    sides.iter().all(|side| side.abs() <= tolerance)
}

/// The farthest any point of one outline lies from the other; `None` when beyond the tolerance.
fn apart(a: &Shape, b: &Shape, tolerance: f64) -> Option<f64> {
    let rings = |shape: &Shape| shape.areas.iter().flat_map(Outline::rings).cloned().collect::<Vec<Ring>>();
    let (a, b) = (rings(a), rings(b));
    Some(farthest(&a, &b, tolerance)?.max(farthest(&b, &a, tolerance)?))
}

fn farthest(from: &[Ring], to: &[Ring], tolerance: f64) -> Option<f64> {
    let edges = EdgeGrid::new(to)?;
    let mut most: f64 = 0.0;
    for point in from.iter().flat_map(Ring::points) {
        most = most.max(edges.nearest(*point, tolerance)?.0);
    }
    Some(most)
}
