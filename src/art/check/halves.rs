//! Left and right halves that differ by a hair: seen when the motif is mirrored, and hardly ever meant.

use super::super::edge_grid::EdgeGrid;
use super::super::note::Note;
use super::{Subject, rings};
use crate::geometry::{Outline, Point, Ring, Vec2};

/// Longest way along an outline between two points compared, in millimetres.
const STEP: f64 = 0.5;

/// Most points compared between edges' ends, so that a drawing of endless outlines takes no endless time.
const MOST_POINTS: f64 = 50_000.0;

/// How many times the axis is moved to where most of the outline agrees.
const ROUNDS: usize = 3;

/// Normals at least this much across count for placing the axis.
const ACROSS: f64 = 0.8;

/// Differences below this are rounding.
const HAIR: f64 = 1e-6;

/// A layer's points with their normals, and its edges to compare them with.
struct Compared<'a> {
    outlines: &'a [Outline],
    points: Vec<(Point, Vec2)>,
    edges: EdgeGrid,
    colour: super::Colour,
}

pub(super) fn check(subject: &Subject<'_>) -> Option<Note> {
    let limits = &subject.limits.usual;
    let (from, to) = (limits.uneven_from.get(), limits.uneven_to.get());
    if to <= from {
        return None;
    }
    let length: f64 = subject.layers.iter().flat_map(|layer| rings(&layer.outlines)).map(|ring| ring.perimeter()).sum();
    let step = STEP.max(length / MOST_POINTS);
    let compared: Vec<Compared<'_>> = subject
        .layers
        .iter()
        .filter_map(|layer| {
            let rings = rings(&layer.outlines);
            let points = rings.iter().flat_map(|ring| points(ring, step)).collect();
            Some(Compared { outlines: &layer.outlines, points, edges: EdgeGrid::new(&rings)?, colour: layer.colour })
        })
        .collect();
    let mut axis = 0.0;
    for _ in 0..ROUNDS {
        axis += correction(&compared, axis, 4.0 * to)?;
    }
    let (deviation, at, colour) = farthest(&compared, axis, to)?;
    if deviation < from {
        return None;
    }
    Some(
        Note::look(
            "uneven-halves",
            subject.label(colour, at),
            format!("Left and right halves differ by {deviation:.1} mm."),
            "It shows when left- and right-handed motifs meet. Mirror one half in your drawing tool if it should be \
             truly symmetrical.",
        )
        .at(at)
        .measuring(deviation),
    )
}

fn points(ring: &Ring, step: f64) -> Vec<(Point, Vec2)> {
    let mut found = Vec::new();
    for (from, to) in ring.edges() {
        let along = to - from;
        let length = along.hypot();
        let normal = Vec2::new(-along.y, along.x) / length.max(f64::MIN_POSITIVE);
        let mut done = 0.0;
        while done < length {
            found.push((from + along * (done / length), normal));
            done += step;
        }
    }
    found
}

/// How far the axis must move: the median over points that face sideways, so that one odd petal does not pull it.
/// `None` when fewer than half of them find a partner.
fn correction(compared: &[Compared<'_>], axis: f64, within: f64) -> Option<f64> {
    let mut shifts = Vec::new();
    let mut sideways = 0_usize;
    for layer in compared {
        for (at, _) in layer.points.iter().filter(|(_, normal)| normal.x.abs() > ACROSS) {
            sideways += 1;
            let mirrored = Point::new(2.0 * axis - at.x, at.y);
            let nearest = layer.edges.nearest(mirrored, within);
            shifts.extend(nearest.map(|(_, _, on)| (on.x - mirrored.x) / 2.0));
        }
    }
    if shifts.is_empty() || shifts.len() * 2 < sideways {
        return None;
    }
    let middle = shifts.len() / 2;
    Some(*shifts.select_nth_unstable_by(middle, f64::total_cmp).1)
}

/// The greatest distance from a mirrored point to the outline; `None` when one lies beyond `limit`, so that the halves
/// were meant to differ.
fn farthest(compared: &[Compared<'_>], axis: f64, limit: f64) -> Option<(f64, Point, super::Colour)> {
    let mut worst: Option<(f64, Point, super::Colour)> = None;
    for layer in compared {
        for (at, _) in &layer.points {
            let mirrored = Point::new(2.0 * axis - at.x, at.y);
            let (distance, ..) = layer.edges.nearest(mirrored, limit)?;
            // Of two unlike places the one that juts out is told; the other one's mirror image lies inside.
            let juts_out = || !layer.outlines.iter().any(|outline| outline.contains(mirrored));
            if worst.is_none_or(|(most, ..)| distance > most + HAIR) && juts_out() {
                worst = Some((distance, *at, layer.colour));
            }
        }
    }
    worst
}
