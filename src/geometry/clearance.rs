//! Shortest distance between two outlines, and where it is.

use std::ops::Range;

use super::{Affine, Outline, Point, Rect, Ring, Vec2};

/// The tightest place between two outlines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Distance in millimetres; zero when they touch or overlap.
    pub distance: f64,
    /// The nearest point of the first outline.
    pub from: Point,
    /// The nearest point of the second outline.
    pub to: Point,
}

/// Edges of an outline in runs of eight with the box of each run, made once and measured against many others.
///
/// The boxes let most pairs of edges be passed over; the method is branch and bound over box distances.
#[derive(Clone, Debug)]
pub struct Measurable {
    outlines: Vec<Outline>,
    edges: Vec<(Point, Point)>,
    runs: Vec<(Rect, Range<usize>)>,
    bounds: Rect,
}

/// Edges under one box; eight was fastest in trials on outlines of 200 points.
const RUN: usize = 8;

impl Measurable {
    /// Prepares outlines for measuring; `None` when there are none.
    #[must_use]
    pub fn new(outlines: &[Outline]) -> Option<Self> {
        Self::of(outlines.to_vec())
    }

    fn of(outlines: Vec<Outline>) -> Option<Self> {
        let edges: Vec<(Point, Point)> = outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect();
        let runs: Vec<_> = (0..edges.len())
            .step_by(RUN)
            .map(|start| {
                let range = start..(start + RUN).min(edges.len());
                let boxed = edges[range.clone()]
                    .iter()
                    .map(|(a, b)| Rect::from_points(*a, *b))
                    .reduce(|a, b| a.union(b))
                    .unwrap_or_default();
                (boxed, range)
            })
            .collect();
        let bounds = super::bounds(&outlines)?;
        Some(Self { outlines, edges, runs, bounds })
    }

    /// The same outlines elsewhere.
    #[must_use]
    pub fn moved(&self, transform: Affine) -> Self {
        let outlines = self.outlines.iter().map(|outline| outline.transformed(transform)).collect();
        Self::of(outlines).expect("there are as many outlines as before")
    }

    /// Bounding box of all outlines.
    #[must_use]
    pub const fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The tightest place between the two; distance zero, at some common point, when they overlap.
    #[must_use]
    pub fn clearance_to(&self, other: &Self) -> Clearance {
        if let Some(at) = self.common_point(other) {
            return Clearance { distance: 0.0, from: at, to: at };
        }
        let pairs = || {
            let runs = self.runs.iter();
            runs.flat_map(|a| other.runs.iter().map(move |b| (box_distance2(a.0, b.0), a.1.clone(), b.1.clone())))
        };
        // The nearest boxes first: their edges give a bound that passes over nearly all others.
        let (start, end) = (self.edges[0].0, other.edges[0].0);
        let mut best = Clearance { distance: start.distance(end), from: start, to: end };
        let nearest = pairs().min_by(|a, b| a.0.total_cmp(&b.0));
        for (bound, a, b) in nearest.into_iter().chain(pairs()) {
            if bound < best.distance * best.distance {
                self.between_runs(a, other, b, &mut best);
            }
        }
        best
    }

    fn between_runs(&self, a: Range<usize>, other: &Self, b: Range<usize>, best: &mut Clearance) {
        for a in &self.edges[a] {
            for b in &other.edges[b.clone()] {
                let found = between_edges(*a, *b);
                if found.distance < best.distance {
                    *best = found;
                }
            }
        }
    }

    /// A point of one that lies inside the other. Edges that cross are found by the edge distances.
    fn common_point(&self, other: &Self) -> Option<Point> {
        let overlap = self.bounds.intersect(other.bounds);
        if overlap.width() < 0.0 || overlap.height() < 0.0 {
            return None;
        }
        let first_points = |m: &Self| m.outlines.iter().map(|o| o.outer().points()[0]).collect::<Vec<_>>();
        let inside =
            |points: Vec<Point>, m: &Self| points.into_iter().find(|p| m.outlines.iter().any(|o| o.contains(*p)));
        inside(first_points(self), other).or_else(|| inside(first_points(other), self))
    }
}

/// Square of the distance between two boxes; zero when they touch or overlap.
fn box_distance2(a: Rect, b: Rect) -> f64 {
    let dx = (a.x0 - b.x1).max(b.x0 - a.x1).max(0.0);
    let dy = (a.y0 - b.y1).max(b.y0 - a.y1).max(0.0);
    dx * dx + dy * dy
}

fn between_edges(a: (Point, Point), b: (Point, Point)) -> Clearance {
    if let Some(at) = crossing(a, b) {
        return Clearance { distance: 0.0, from: at, to: at };
    }
    let ends = [(a.0, on_edge(a.0, b)), (a.1, on_edge(a.1, b)), (on_edge(b.0, a), b.0), (on_edge(b.1, a), b.1)];
    ends.into_iter()
        .map(|(from, to)| Clearance { distance: from.distance(to), from, to })
        .min_by(|a, b| a.distance.total_cmp(&b.distance))
        .unwrap_or(Clearance { distance: a.0.distance(b.0), from: a.0, to: b.0 })
}

/// The point of an edge nearest to `point`.
fn on_edge(point: Point, edge: (Point, Point)) -> Point {
    let along: Vec2 = edge.1 - edge.0;
    let length2 = along.hypot2();
    if length2 <= 0.0 {
        return edge.0;
    }
    edge.0 + along * ((point - edge.0).dot(along) / length2).clamp(0.0, 1.0)
}

fn crossing(a: (Point, Point), b: (Point, Point)) -> Option<Point> {
    let (u, v) = (a.1 - a.0, b.1 - b.0);
    let det = u.cross(v);
    if det.abs() < f64::MIN_POSITIVE {
        return None;
    }
    let offset = b.0 - a.0;
    let (s, t) = (offset.cross(v) / det, offset.cross(u) / det);
    ((0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)).then(|| a.0 + u * s)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::overlay;
    use geo::{Distance, Euclidean};

    fn star(points: usize, phase: f64) -> Outline {
        let ring = (0..2 * points).map(|k| {
            let angle = phase + std::f64::consts::PI * k as f64 / points as f64;
            let radius = if k % 2 == 0 { 50.0 } else { 21.0 };
            Point::new(radius * angle.cos(), radius * angle.sin())
        });
        Outline::new(Ring::new(ring).unwrap(), vec![])
    }

    #[test]
    fn agrees_with_the_reference_library_on_stars() {
        let a = [star(7, 0.1)];
        for k in 0..40 {
            let turn = Affine::translate((60.0 + 2.0 * f64::from(k), 31.0)) * Affine::rotate(f64::from(k));
            let b = [star(9, 0.4).transformed(turn)];
            let own = Measurable::new(&a).unwrap().clearance_to(&Measurable::new(&b).unwrap());
            let theirs = Euclidean.distance(&overlay::polygon(&a[0]), &overlay::polygon(&b[0]));
            assert!((own.distance - theirs).abs() < 1e-9, "{} against {theirs}", own.distance);
            assert!((own.from.distance(own.to) - own.distance).abs() < 1e-9);
        }
    }

    #[test]
    fn one_inside_the_other_has_no_clearance() {
        let small = [star(5, 0.0).transformed(Affine::scale(0.1))];
        let found = Measurable::new(&[star(5, 0.0)]).unwrap().clearance_to(&Measurable::new(&small).unwrap());
        assert!(found.distance.abs() < 1e-12);
    }
}
