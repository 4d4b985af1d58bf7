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

/// Outlines made ready once and measured against many others.
#[derive(Clone, Debug)]
pub struct Measurable {
    outlines: Vec<Outline>,
    boxed: Boxed,
}

/// Edges in runs of eight and runs in blocks of eight, each with its box: most pairs of edges are passed over by branch and
/// bound over box distances.
#[derive(Clone, Debug)]
struct Boxed {
    edges: Vec<(Point, Point)>,
    runs: Vec<(Rect, Range<usize>)>,
    blocks: Vec<(Rect, Range<usize>)>,
    bounds: Rect,
}

/// Edges in a run, runs in a block; eight was fastest in trials on outlines of 200 points.
const RUN: usize = 8;

impl Boxed {
    /// `None` where there is no edge.
    fn new(edges: Vec<(Point, Point)>) -> Option<Self> {
        let runs = grouped(&edges, |(a, b)| Rect::from_points(*a, *b));
        let blocks = grouped(&runs, |(rect, _)| *rect);
        let bounds = blocks.iter().map(|(rect, _)| *rect).reduce(|a, b| a.union(b))?;
        Some(Self { edges, runs, blocks, bounds })
    }

    fn moved(&self, motion: Affine) -> Option<Self> {
        Self::new(self.edges.iter().map(|(a, b)| (motion * *a, motion * *b)).collect())
    }
}

/// Every [`RUN`] neighbours under one box.
fn grouped<T>(all: &[T], rect: impl Fn(&T) -> Rect) -> Vec<(Rect, Range<usize>)> {
    let ranges = (0..all.len()).step_by(RUN).map(|start| start..(start + RUN).min(all.len()));
    ranges.filter_map(|range| Some((all[range.clone()].iter().map(&rect).reduce(|a, b| a.union(b))?, range))).collect()
}

impl Measurable {
    /// Prepares outlines for measuring; `None` when there are none.
    #[must_use]
    pub fn new(outlines: &[Outline]) -> Option<Self> {
        let edges = outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect();
        Some(Self { outlines: outlines.to_vec(), boxed: Boxed::new(edges)? })
    }

    /// Bounding box of all outlines.
    #[must_use]
    pub const fn bounds(&self) -> Rect {
        self.boxed.bounds
    }

    /// The tightest place between the two; distance zero, at some common point, when they overlap.
    #[must_use]
    pub fn clearance_to(&self, other: &Self) -> Clearance {
        self.clearance_to_moved(other, Affine::IDENTITY)
    }

    /// The tightest place to the other outlines carried elsewhere by `motion`, which must not flatten them.
    #[must_use]
    pub fn clearance_to_moved(&self, other: &Self, motion: Affine) -> Clearance {
        let (here, there) = (&self.boxed, other.boxed.moved(motion).expect("there are as many edges as before"));
        if let Some(at) = self.common_point(other, motion, there.bounds) {
            return Clearance { distance: 0.0, from: at, to: at };
        }
        let (from, to) = (here.edges[0].0, there.edges[0].0);
        let mut search = Search { here, there: &there, best: Best { distance2: from.distance_squared(to), from, to } };
        search.run();
        let Best { distance2, from, to } = search.best;
        Clearance { distance: distance2.sqrt(), from, to }
    }

    /// A point of one that lies inside the other. Edges that cross are found by the edge distances.
    fn common_point(&self, other: &Self, motion: Affine, there: Rect) -> Option<Point> {
        if box_distance2(self.boxed.bounds, there) > 0.0 {
            return None;
        }
        let back = motion.inverse();
        let covered = |m: &Self, point: Point| m.outlines.iter().any(|outline| outline.contains(point));
        let mut own = self.outlines.iter().map(|outline| outline.outer().points()[0]);
        let mut theirs = other.outlines.iter().map(|outline| motion * outline.outer().points()[0]);
        own.find(|point| covered(other, back * *point)).or_else(|| theirs.find(|point| covered(self, *point)))
    }
}

/// The nearest found so far.
#[derive(Clone, Copy)]
struct Best {
    distance2: f64,
    from: Point,
    to: Point,
}

struct Search<'a> {
    here: &'a Boxed,
    there: &'a Boxed,
    best: Best,
}

impl Search<'_> {
    fn run(&mut self) {
        // The nearest boxes first: their edges give a bound that passes over nearly all others.
        let (here, there) = (self.here, self.there);
        let Some((a, b)) = nearest(&here.blocks, &there.blocks) else { return };
        if let Some((a, b)) = nearest(&here.runs[a], &there.runs[b]) {
            self.between_runs(a, b);
        }
        for (block_a, a) in &here.blocks {
            for (block_b, b) in &there.blocks {
                if box_distance2(*block_a, *block_b) < self.best.distance2 {
                    self.between_blocks(a.clone(), b.clone());
                }
            }
        }
    }

    fn between_blocks(&mut self, a: Range<usize>, b: Range<usize>) {
        let (here, there) = (self.here, self.there);
        for (run_a, a) in &here.runs[a] {
            for (run_b, b) in &there.runs[b.clone()] {
                if box_distance2(*run_a, *run_b) < self.best.distance2 {
                    self.between_runs(a.clone(), b.clone());
                }
            }
        }
    }

    fn between_runs(&mut self, a: Range<usize>, b: Range<usize>) {
        for a in &self.here.edges[a] {
            for b in &self.there.edges[b.clone()] {
                let apart = box_distance2(Rect::from_points(a.0, a.1), Rect::from_points(b.0, b.1));
                if apart < self.best.distance2 {
                    let found = between_edges(*a, *b, apart <= 0.0);
                    if found.distance2 < self.best.distance2 {
                        self.best = found;
                    }
                }
            }
        }
    }
}

/// What the nearest two of two lists of boxes hold.
fn nearest(a: &[(Rect, Range<usize>)], b: &[(Rect, Range<usize>)]) -> Option<(Range<usize>, Range<usize>)> {
    let pairs = a.iter().flat_map(|a| b.iter().map(move |b| (box_distance2(a.0, b.0), a, b)));
    let (_, a, b) = pairs.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some((a.1.clone(), b.1.clone()))
}

/// Square of the distance between two boxes; zero when they touch or overlap.
fn box_distance2(a: Rect, b: Rect) -> f64 {
    let dx = (a.x0 - b.x1).max(b.x0 - a.x1).max(0.0);
    let dy = (a.y0 - b.y1).max(b.y0 - a.y1).max(0.0);
    dx * dx + dy * dy
}

/// The nearest points of two edges; those that cannot cross need not be tried for it.
fn between_edges(a: (Point, Point), b: (Point, Point), may_cross: bool) -> Best {
    if let Some(at) = may_cross.then(|| crossing(a, b)).flatten() {
        return Best { distance2: 0.0, from: at, to: at };
    }
    let ends = [(a.1, on_edge(a.1, b)), (on_edge(b.0, a), b.0), (on_edge(b.1, a), b.1)];
    let best = |from: Point, to: Point| Best { distance2: from.distance_squared(to), from, to };
    ends.into_iter().fold(best(a.0, on_edge(a.0, b)), |nearest, (from, to)| {
        let found = best(from, to);
        if found.distance2 < nearest.distance2 { found } else { nearest }
    })
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
