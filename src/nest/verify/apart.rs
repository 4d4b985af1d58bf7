//! How far apart two areas lie, and whether they overlap: plain distances of edges and points in polygons.

use super::TOLERANCE;
use crate::geometry::{Outline, Point, Rect, Ring, Vec2};

/// Pairs whose boxes come nearer than the gap, found by a sweep from left to right.
pub(super) fn near_pairs(pieces: &[Outline], gap: f64) -> Vec<(usize, usize)> {
    let boxes: Vec<Rect> = pieces.iter().map(Outline::bounds).collect();
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|a, b| boxes[*a].x0.total_cmp(&boxes[*b].x0).then(a.cmp(b)));
    let mut pairs = Vec::new();
    for (at, a) in order.iter().enumerate() {
        for b in &order[at + 1..] {
            if boxes[*b].x0 > boxes[*a].x1 + gap {
                break;
            }
            if boxes[*b].y0 <= boxes[*a].y1 + gap && boxes[*a].y0 <= boxes[*b].y1 + gap {
                pairs.push((*a.min(b), *a.max(b)));
            }
        }
    }
    pairs.sort_unstable();
    pairs
}

/// Least distance between the edges of two areas, as far as it matters: anything beyond `reach` may come out as `reach`.
pub(super) fn distance(a: &Outline, b: &Outline, reach: f64) -> f64 {
    let near = |outline: &Outline, box_: Rect| -> Vec<(Point, Point)> {
        let box_ = box_.inflate(reach, reach);
        let touches = |(p, q): &(Point, Point)| {
            let edge = Rect::from_points(*p, *q);
            edge.x0 <= box_.x1 && box_.x0 <= edge.x1 && edge.y0 <= box_.y1 && box_.y0 <= edge.y1
        };
        outline.rings().flat_map(Ring::edges).filter(touches).collect()
    };
    let (edges_a, edges_b) = (near(a, b.bounds()), near(b, a.bounds()));
    let mut least = reach;
    for a in &edges_a {
        for b in &edges_b {
            if box_gap(*a, *b) < least {
                least = least.min(edge_distance(*a, *b));
            }
        }
    }
    least
}

fn box_gap(a: (Point, Point), b: (Point, Point)) -> f64 {
    let (a, b) = (Rect::from_points(a.0, a.1), Rect::from_points(b.0, b.1));
    let dx = (a.x0 - b.x1).max(b.x0 - a.x1);
    let dy = (a.y0 - b.y1).max(b.y0 - a.y1);
    dx.max(dy)
}

fn edge_distance(a: (Point, Point), b: (Point, Point)) -> f64 {
    let side = |edge: (Point, Point), point: Point| (edge.1 - edge.0).cross(point - edge.0);
    let parted = |edge: (Point, Point), other: (Point, Point)| side(edge, other.0) * side(edge, other.1) > 0.0;
    let parallel = (a.1 - a.0).cross(b.1 - b.0).abs() < f64::MIN_POSITIVE;
    if !parallel && !parted(a, b) && !parted(b, a) {
        return 0.0;
    }
    [to_edge(a.0, b), to_edge(a.1, b), to_edge(b.0, a), to_edge(b.1, a)].into_iter().fold(f64::INFINITY, f64::min)
}

fn to_edge(point: Point, (from, to): (Point, Point)) -> f64 {
    let along: Vec2 = to - from;
    let t = ((point - from).dot(along) / along.hypot2()).clamp(0.0, 1.0);
    point.distance(from + along * t)
}

/// Whether two areas share ground deeper than the tolerance.
///
/// With a gap kept between their edges, they overlap only when one lies inside the other, and any one point tells. Without
/// a gap they may touch, so the edges are walked: a stretch of one edge between two crossings, moved inward by twice the
/// tolerance, must not lie deeper than the tolerance inside the other area.
pub(super) fn overlap(a: &Outline, b: &Outline, gap: f64) -> bool {
    if gap > TOLERANCE {
        return b.contains(a.outer().points()[0]) || a.contains(b.outer().points()[0]);
    }
    runs_inside(a, b) || runs_inside(b, a)
}

fn runs_inside(a: &Outline, b: &Outline) -> bool {
    let others: Vec<(Point, Point)> = b.rings().flat_map(Ring::edges).collect();
    let deep = |point: Point| b.contains(point) && others.iter().all(|edge| to_edge(point, *edge) > TOLERANCE);
    a.rings().flat_map(Ring::edges).any(|(from, to)| {
        let along = to - from;
        // Inward is to the left of travel when the area is positive, y down or not.
        let inward = Vec2::new(-along.y, along.x) / along.hypot() * (2.0 * TOLERANCE);
        let mut cuts: Vec<f64> = others.iter().filter_map(|other| crossing(from, along, *other)).collect();
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2).any(|pair| deep(from + along * f64::midpoint(pair[0], pair[1]) + inward))
    })
}

fn crossing(from: Point, along: Vec2, other: (Point, Point)) -> Option<f64> {
    let across = other.1 - other.0;
    let det = along.cross(across);
    if det.abs() < f64::MIN_POSITIVE {
        return None;
    }
    let t = (other.0 - from).cross(across) / det;
    (0.0..=1.0).contains(&t).then_some(t)
}
