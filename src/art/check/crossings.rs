//! Outlines that cross themselves.

use std::collections::BTreeSet;

use super::super::edge_grid::{Edge, EdgeGrid};
use super::super::note::Note;
use super::super::shapes::{DrawnAs, Shape};
use super::Subject;
use crate::geometry::{Point, Rect, Ring};

/// Loops smaller than this, in millimetres, come from rounding and are not told.
const SMALLEST_LOOP: f64 = 0.05;

/// Most crossings of one outline that are looked at.
const MOST: usize = 1_000;

struct Crossing {
    at: Point,
    /// Larger side of the smaller loop, and a point inside its box.
    across: f64,
    loop_middle: Point,
}

pub(super) fn check(subject: &Subject<'_>) -> Vec<Note> {
    let filled = subject.shapes.iter().filter(|shape| shape.drawn_as == DrawnAs::Fill);
    filled.flat_map(|shape| shape.rings.iter().filter_map(|drawn| note(shape, &crossings(&drawn.ring)))).collect()
}

fn note(shape: &Shape, found: &[Crossing]) -> Option<Note> {
    let first = found.iter().max_by(|a, b| a.across.total_cmp(&b.across))?;
    let times = match found.len() {
        1 => "crosses itself".to_owned(),
        many => format!("crosses itself {many} times"),
    };
    let kept = shape.areas.iter().any(|area| area.contains(first.loop_middle));
    let treated = if kept { "part of the shape" } else { "a hole" };
    Some(
        Note::look(
            "self-crossing",
            shape.label.clone(),
            format!("The outline of {} {times}; the largest loop is {:.1} mm.", shape.label.element, first.across),
            format!("The loop was treated as {treated}, as the drawing shows it. Untangle it if that is not meant."),
        )
        .at(first.at)
        .also_at(found.iter().map(|crossing| crossing.at).filter(|at| *at != first.at))
        .measuring(first.across),
    )
}

fn crossings(ring: &Ring) -> Vec<Crossing> {
    let Some(grid) = EdgeGrid::new([ring]) else { return Vec::new() };
    let count = ring.points().len();
    let mut seen = BTreeSet::new();
    for cell in grid.cells() {
        for (place, &a) in cell.iter().enumerate() {
            for &b in &cell[place + 1..] {
                let (a, b) = (a.min(b), a.max(b));
                let neighbours = a == b || a + 1 == b || (a == 0 && b + 1 == count);
                if !neighbours && seen.len() < MOST && crossing(grid.edges()[a], grid.edges()[b]).is_some() {
                    seen.insert((a, b));
                }
            }
        }
    }
    let found = seen.into_iter().filter_map(|(a, b)| {
        let at = crossing(grid.edges()[a], grid.edges()[b])?;
        let points = ring.points();
        let inner = bounds(at, points[a + 1..=b].iter());
        let outer = bounds(at, points[b + 1..].iter().chain(&points[..=a]));
        let side = |rect: Rect| rect.width().max(rect.height());
        let smaller = if side(inner) <= side(outer) { inner } else { outer };
        Some(Crossing { at, across: side(smaller), loop_middle: smaller.center() })
    });
    found.filter(|crossing| crossing.across >= SMALLEST_LOOP).collect()
}

fn bounds<'a>(at: Point, points: impl Iterator<Item = &'a Point>) -> Rect {
    points.fold(Rect::from_points(at, at), |rect, point| rect.union_pt(*point))
}

/// Where two edges cross between their ends.
fn crossing(a: Edge, b: Edge) -> Option<Point> {
    let (u, v) = (a.to - a.from, b.to - b.from);
    let turn = u.cross(v);
    if turn.abs() <= f64::EPSILON * u.hypot() * v.hypot() {
        return None;
    }
    let offset = b.from - a.from;
    let (s, t) = (offset.cross(v) / turn, offset.cross(u) / turn);
    let within = |share: f64| share > 0.0 && share < 1.0;
    (within(s) && within(t)).then(|| a.from + u * s)
}
